import type exceljs from "exceljs";
import { BadInput, quote } from "../maths/badInput.ts";
import type { Cell } from "./cells.ts";
import { type Fault, type GridRead, type GridRow, most_columns, most_rows } from "./grid.ts";
import { guardZip } from "./zipGuard.ts";

const most_bytes = 64 * 2 ** 20;

/** Hundreds of files, read only by whoever has a spreadsheet in hand. */
const library = async () => (await import("exceljs")).default;

/**
 * Reads one sheet of a spreadsheet (.xlsx, ISO/IEC 29500): the first row that holds anything is the head.
 * Formulas and merged cells are named and refused: what they show is not what they say.
 *
 * @param sheet  its name; the only sheet, or the first, when left out
 * @throws BadInput  when the file is no such spreadsheet, or has no such sheet
 */
export async function readWorkbook(bytes: Buffer, sheet?: string): Promise<GridRead> {
  await guardZip(bytes, most_bytes);
  const { Workbook, ValueType } = await library();
  const workbook = new Workbook();
  try {
    await workbook.xlsx.load(bytes as unknown as ArrayBuffer);
  } catch {
    throw new BadInput("file", "an archive that is no spreadsheet", "an .xlsx file", "save the table as .xlsx or CSV");
  }
  const worksheet = sheet === undefined ? workbook.worksheets[0] : workbook.getWorksheet(sheet);
  if (!worksheet) {
    const names = workbook.worksheets.map(({ name }) => quote(name)).join(", ") || "none";
    throw new BadInput("sheet", quote(sheet), `a sheet of the file: ${names}`, "name one of these");
  }
  if (worksheet.rowCount > most_rows || worksheet.columnCount > most_columns) {
    throw new BadInput(
      "file",
      `${worksheet.rowCount} rows and ${worksheet.columnCount} columns`,
      `at most ${most_rows} rows and ${most_columns} columns`,
      "split the sheet",
    );
  }
  const faults: Fault[] = [];
  const lines: GridRow[] = [];
  let head: string[] | undefined;
  worksheet.eachRow((row, line) => {
    const cells: Cell[] = [];
    row.eachCell({ includeEmpty: false }, (cell, column) => {
      const fault = faultOf(cell, line, head?.[column - 1], ValueType);
      if (fault) faults.push(fault);
      else cells[column - 1] = cellValue(cell);
    });
    if (head) lines.push({ line, cells: Array.from(cells) });
    else if (cells.some((cell) => cell !== undefined)) head = Array.from(cells, (cell) => String(cell ?? ""));
  });
  if (faults.length > 0) return { ok: false, faults };
  if (!head) {
    const fault = { line: 1, given: "an empty sheet", allowed: "a head and rows", mend: "name another sheet" };
    return { ok: false, faults: [fault] };
  }
  return { ok: true, grid: { head, rows: lines.filter(({ cells }) => cells.some((cell) => cell !== undefined)) } };
}

function faultOf(
  cell: exceljs.Cell,
  line: number,
  head: string | undefined,
  ValueType: typeof exceljs.ValueType,
): Fault | undefined {
  const column = head || cell.address.replace(/\d+$/, "");
  if (cell.isMerged) {
    return {
      line,
      column,
      given: `merged cells (${cell.master.address} and its neighbours)`,
      allowed: "a cell for each value",
      mend: "part them, and write the value in each row that it holds for",
    };
  }
  if (cell.type === ValueType.Formula) {
    return {
      line,
      column,
      given: `the formula ${quote(`=${cell.formula}`)}`,
      allowed: "a value that was read or typed",
      mend: "paste the column as values",
    };
  }
  if (cell.type === ValueType.Error) {
    return { line, column, given: cell.text, allowed: "a value", mend: "mend the cell" };
  }
  return undefined;
}

function cellValue(cell: exceljs.Cell): Cell {
  const { value } = cell;
  if (value === null || value === undefined) return undefined;
  if (typeof value === "number" || typeof value === "boolean" || value instanceof Date) return value;
  const text = cell.text.trim();
  return text === "" ? undefined : text;
}

/** A table for one sheet: its name, its head, its rows. */
export interface Sheet {
  readonly name: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly (string | number | boolean | undefined)[])[];
}

/** A spreadsheet of one sheet; the head stays in sight, and texts are texts whatever they begin with. */
export async function writeWorkbook({ name, head, rows }: Sheet, made: Date): Promise<Buffer> {
  const { Workbook } = await library();
  const workbook = new Workbook();
  workbook.created = made;
  workbook.modified = made;
  const sheet = workbook.addWorksheet(name.slice(0, 31), { views: [{ state: "frozen", ySplit: 1 }] });
  sheet.columns = head.map((title, i) => ({
    header: title,
    width: Math.min(48, Math.max(title.length, ...rows.slice(0, 50).map((row) => String(row[i] ?? "").length)) + 2),
  }));
  sheet.getRow(1).font = { bold: true };
  for (const row of rows) sheet.addRow(row.map((cell) => cell ?? null));
  return Buffer.from(await workbook.xlsx.writeBuffer());
}
