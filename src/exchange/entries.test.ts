import { buffer } from "node:stream/consumers";
import exceljs from "exceljs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ZipFile } from "yazl";
import type { Evidence } from "../claims/evidence.ts";
import { encodingNamed, readCsv, writeCsv } from "./csv.ts";
import { entriesOf, type Taking, tableOf } from "./entries.ts";
import { readWorkbook, writeWorkbook } from "./workbook.ts";

const taking: Taking = { decimal: "point", instant: () => undefined };

const entry = (body: object, at = "2026-03-01T12:00:00.000Z"): Evidence =>
  ({ id: "e1", seq: 1, at, recordedAt: at, by: "bench", body }) as unknown as Evidence;

const handedIn = ({ id, at, by, body }: Evidence) => ({ id, at, by, ...body });

function gridOf(text: string) {
  const read = readCsv(Buffer.from(text));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.grid;
}

function faultsOf(text: string, more: Partial<Taking> = {}) {
  const read = entriesOf("weighing", gridOf(text), { ...taking, ...more });
  return read.ok ? [] : read.faults;
}

// property: what was written comes back as it was, whatever stands in it
test("a reading of any words and numbers survives CSV and a spreadsheet to the letter", async () => {
  const word = fc.oneof(
    fc.string({ minLength: 1, maxLength: 20, unit: "grapheme" }).filter((text) => !text.includes("\u0000")),
    fc.constantFrom("=1+1", "-5", "0417", '"', "a;b", " blank ", "1,5", "true", "[", "{}", "@x", "line\nbreak", "\t"),
  );
  const figure = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => (value === 0 ? 0 : value));
  const bodies = fc.record({
    kind: fc.constant("reading"),
    subject: fc.record({ unit: word, point: word }, { requiredKeys: [] }),
    quantity: word,
    value: figure,
    doubt: fc.double({ min: 0, max: 1e6, noNaN: true }).map((value) => (value === 0 ? 0 : value)),
    instrument: word,
    conditions: fc.dictionary(
      word.filter((key) => key !== "__proto__"),
      fc.oneof(figure, word),
      { maxKeys: 3 },
    ),
  });
  const canSpreadsheetHold = (text: string) =>
    !/[\p{Cc}\ufffe\uffff\ud800-\udfff]|_x[0-9A-F]{4}_/iu.test(text.replace(/\n|\t/g, ""));
  await fc.assert(
    fc.asyncProperty(fc.array(bodies, { minLength: 1, maxLength: 5 }), async (many) => {
      const entries = many.map((body) => entry(body));
      const table = tableOf("reading", entries);
      const fromCsv = entriesOf("reading", gridOf(writeCsv(table.head, table.rows)), taking);
      expect(fromCsv).toMatchObject({ ok: true });
      expect(fromCsv.ok && fromCsv.entries).toEqual(entries.map(handedIn));
      if (!canSpreadsheetHold(JSON.stringify(many).replaceAll("\\n", "").replaceAll("\\t", ""))) return;
      const sheet = await readWorkbook(await writeWorkbook({ name: "reading", ...table }, new Date(0)));
      expect(sheet.ok).toBe(true);
      const fromSheet = sheet.ok && entriesOf("reading", sheet.grid, taking);
      expect(fromSheet ? fromSheet.ok && fromSheet.entries : undefined).toEqual(entries.map(handedIn));
    }),
    { numRuns: 60 },
  );
});

describe("a CSV file that other programs wrote", () => {
  test("semicolons, decimal commas, columns under their own names, and what the file does not say", () => {
    const text = "Brett;Gramm;wer weiß\r\nA-1;1.234,5;x\r\nA-2;812,25;y\r\n";
    const called = { Brett: "piece", Gramm: "mass_g", "wer weiß": "" };
    const fill = { at: "2026-03-01T12:00:00Z", by: "wood", instrument: "scale" };
    expect(entriesOf("weighing", gridOf(text), { ...taking, decimal: "comma", called, fill })).toMatchObject({
      ok: false,
      faults: [{ line: 2, column: "mass_g", given: '"1.234,5"' }],
    });
    const read = entriesOf("weighing", gridOf(text.replace("1.234,5", "1234,5")), {
      ...taking,
      decimal: "comma",
      called,
      fill,
    });
    expect(read).toEqual({
      ok: true,
      lines: [2, 3],
      entries: [
        { kind: "weighing", at: fill.at, by: "wood", instrument: "scale", piece: "A-1", mass_g: 1234.5 },
        { kind: "weighing", at: fill.at, by: "wood", instrument: "scale", piece: "A-2", mass_g: 812.25 },
      ],
    });
  });

  test("a wrong decimal sign, a missing column, an unknown one and one there twice are named where they stand", () => {
    const head = "at,by,piece,mass_g,instrument\n";
    const row = "2026-03-01T12:00:00Z,wood,A-1,";
    expect(faultsOf(`${head}${row}"812,5",scale\n${row}abc,scale\n`)).toMatchObject([
      { line: 2, column: "mass_g", given: '"812,5"', allowed: "a number with a decimal point" },
      { line: 3, column: "mass_g", given: '"abc"' },
    ]);
    expect(faultsOf(`at,by,piece,instrument\n${row}scale\n`)).toMatchObject([{ line: 1, column: "mass_g" }]);
    expect(faultsOf(`at,by,piece,mass_g,instrument,weight\n${row}1,scale,2\n`)).toMatchObject([
      { line: 1, column: "F", given: "weight" },
    ]);
    expect(faultsOf(`at,by,piece,mass_g,instrument,mass_g\n${row}1,scale,2\n`)).toMatchObject([
      { line: 1, column: "F" },
    ]);
    expect(faultsOf(`${head}2026-03-01 25:00,wood,A-1,1,scale\n`)).toMatchObject([{ line: 2, column: "at" }]);
  });

  test("a comma too many is named by its row", () => {
    const read = readCsv(Buffer.from("piece,mass_g\nA-1,812\nA-2,812,5\n"));
    expect(read).toMatchObject({ ok: false, faults: [{ line: 3, given: "3 cells" }] });
  });

  test("another encoding is named at its row, and read when it is said", () => {
    const bytes = Buffer.concat([
      Buffer.from("piece,place\nA-1,shelf\nA-2,Lackierk"),
      Buffer.from([0xfc]),
      Buffer.from("che\n"),
    ]);
    expect(readCsv(bytes)).toMatchObject({ ok: false, faults: [{ line: 3, given: "the byte 0xfc" }] });
    const read = readCsv(bytes, encodingNamed("windows-1252"));
    expect(read.ok && read.grid.rows[1]?.cells[1]).toBe("Lackierküche");
    const marked = Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from("piece\tplace\nA-1\tŁódź\n", "utf16le")]);
    const wide = readCsv(marked);
    expect(wide.ok && wide.grid.rows[0]?.cells[1]).toBe("Łódź");
  });

  test("an open quote and an empty file are named", () => {
    expect(readCsv(Buffer.from('piece,place\nA-1,"shelf\n'))).toMatchObject({ ok: false });
    expect(readCsv(Buffer.from("\n\n"))).toMatchObject({ ok: false, faults: [{ given: "an empty file" }] });
  });
});

describe("a spreadsheet", () => {
  async function sheetOf(fill: (sheet: exceljs.Worksheet) => void) {
    const workbook = new exceljs.Workbook();
    const sheet = workbook.addWorksheet("masses");
    sheet.addRow(["piece", "mass_g"]);
    sheet.addRow(["A-1", 812.5]);
    sheet.addRow(["A-2", 640]);
    fill(sheet);
    return readWorkbook(Buffer.from(await workbook.xlsx.writeBuffer()));
  }

  test("merged cells and formulas are named by row and column, whatever they show", async () => {
    const merged = await sheetOf((sheet) => sheet.mergeCells("A2:A3"));
    expect(merged).toMatchObject({
      ok: false,
      faults: [
        { line: 2, column: "piece", given: expect.stringContaining("merged cells (A2") },
        { line: 3, column: "piece" },
      ],
    });
    const computed = await sheetOf((sheet) => {
      sheet.getCell("B3").value = { formula: "B2*2", result: 1625 };
    });
    expect(computed).toMatchObject({
      ok: false,
      faults: [{ line: 3, column: "mass_g", given: 'the formula "=B2*2"' }],
    });
  });

  test("a date is the workshop's wall clock", async () => {
    const workbook = new exceljs.Workbook();
    const sheet = workbook.addWorksheet("masses");
    sheet.addRow(["at", "by", "piece", "mass_g", "instrument"]);
    sheet.addRow([new Date(Date.UTC(2026, 2, 1, 14, 5)), "wood", "A-1", 812, "scale"]);
    const read = await readWorkbook(Buffer.from(await workbook.xlsx.writeBuffer()));
    const entries = read.ok && entriesOf("weighing", read.grid, { ...taking, instant: (clock) => `${clock}+01:00` });
    expect(entries ? entries.ok && entries.entries[0]?.at : undefined).toBe("2026-03-01T14:05:00+01:00");
  });

  test("what is no spreadsheet, and one that would swell, are refused", async () => {
    await expect(readWorkbook(Buffer.from("PK\u0003\u0004 no archive"))).rejects.toThrow("can't be read");
    const zip = new ZipFile();
    zip.addBuffer(Buffer.alloc(65 * 2 ** 20), "xl/worksheets/sheet1.xml");
    zip.end();
    const swelling = await buffer(zip.outputStream);
    expect(swelling.length).toBeLessThan(2 ** 20);
    await expect(readWorkbook(swelling)).rejects.toThrow("MiB");
  });
});
