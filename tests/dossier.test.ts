import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { getDocument, type PDFDocumentProxy } from "pdfjs-dist/legacy/build/pdf.mjs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { dossierLanguages } from "../src/dossier/languages/dossierWords.ts";
import { sayerOf } from "../src/dossier/languages/sayer.ts";
import type { UnitView } from "../src/workshop/views.ts";
import { openWorkshop, type Workshop } from "../src/workshop/workshop.ts";
import { keptFolder, stillglow } from "./helpers.ts";
import { madeDemo, madeWithin_ms } from "./madeDemo.ts";

const sha256 = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");

interface Tagged {
  readonly role?: string;
  readonly alt?: string;
  readonly children?: readonly Tagged[];
}

/** What a reader of PDF makes of the file: its words page by page, its tags, the fonts and who wrote it. */
async function readBack(pdf: Uint8Array) {
  const document: PDFDocumentProxy = await getDocument({
    data: new Uint8Array(pdf),
    useSystemFonts: false,
    verbosity: 0,
  }).promise;
  const pages = await Promise.all(
    Array.from({ length: document.numPages }, async (_, i) => {
      const page = await document.getPage(i + 1);
      const { items } = await page.getTextContent();
      const words = items
        .map((item) => ("str" in item ? item.str : ""))
        .join(" ")
        .replaceAll(/\s+/g, " ");
      return { words, tags: (await page.getStructTree()) as Tagged | null };
    }),
  );
  const { info } = await document.getMetadata();
  const isTagged = (await document.getMarkInfo())?.Marked === true;
  return { pages, info: info as Readonly<Record<string, unknown>>, isTagged };
}

const tagsOf = (tag: Tagged | null): readonly Tagged[] =>
  tag === null ? [] : [tag, ...(tag.children ?? []).flatMap(tagsOf)];
const plain = (words: string) => words.replaceAll(/[\s\u00a0]+/g, " ");

describe("the record of a unit", () => {
  const folder = join(keptFolder(), "dossier");
  let workshop: Workshop;
  let unit: UnitView;
  let pdf: Buffer;

  beforeAll(async () => {
    madeDemo(folder);
    workshop = await openWorkshop(folder, { write: false });
    unit = await workshop.unit("0401");
    pdf = await workshop.dossierPdf("0401");
  }, madeWithin_ms);
  afterAll(() => workshop?.close());

  test("read back, has every claim with its figures' evidence, and a tagged page of words, not a picture", async () => {
    const { pages, info, isTagged } = await readBack(pdf);
    const all = plain(pages.map(({ words }) => words).join(" "));
    expect(isTagged).toBe(true);
    expect(info.Title).toBe(`${unit.model} 0401`);
    for (const { title, figures } of unit.claims) {
      expect(all).toContain(plain(title));
      for (const { evidence } of figures) expect(all).toContain(evidence);
    }
    for (const { valve } of Object.values(unit.fitted)) expect(pages[0]!.words).toContain(valve);
    expect(pages[0]!.words).toContain("Voltages inside kill");
    expect(all).toContain(workshop.head());
  });

  test("every picture in it is told in words, and its heads are heads", async () => {
    const { pages } = await readBack(pdf);
    const tags = pages.flatMap((page) => tagsOf(page.tags));
    const figures = tags.filter(({ role }) => role === "Figure");
    expect(figures.length).toBeGreaterThan(0);
    for (const { alt } of figures) expect(alt?.length ?? 0).toBeGreaterThan(20);
    expect(tags.filter(({ role }) => role === "H1")).toHaveLength(1);
    expect(tags.some(({ role }) => role === "TH")).toBe(true);
  });

  test("the same evidence makes the same bytes in another process", () => {
    const file = join(folder, "again.pdf");
    const ran = stillglow(["dossier", "0401", "--data", folder, "--out", file]);
    expect(ran).toMatchObject({ status: 0, stderr: "" });
    expect(sha256(pdf)).toBe(sha256(readFileSync(file)));
  });

  test.each(["de", "pl"] as const)("in %s it says every claim and figure in that language", async (language) => {
    const say = sayerOf(language);
    const { pages } = await readBack(await workshop.dossierPdf("0401", language));
    const all = plain(pages.map(({ words }) => words).join(" "));
    for (const { title, check, figures } of unit.claims) {
      expect(say.trade(title), title).not.toBe(title);
      expect(all).toContain(plain(say.trade(title)));
      expect(say.trade(check.how), check.how).not.toBe(check.how);
      for (const { quantity, evidence } of figures) {
        expect(Object.keys(say.words.trade), quantity).toContain(quantity);
        expect(all).toContain(evidence);
      }
    }
    expect(pages[0]!.words).toContain(say.words.forItsOwner[0]!.slice(0, 40));
    expect(all).toContain(say.words.signatures.title);
    expect(all).toContain(workshop.head());
    expect(all).not.toMatch(/\d\.\d+ ± /);
    // Words of the frame that stayed English would stand out.
    expect(all).not.toMatch(/\b(?:Measured|Allowed|proven|Valves|channel|at most|at least|Entry)\b/);
  });

  test("in each language the same evidence makes the same bytes, and a full unit takes under a second", async () => {
    const again = await openWorkshop(folder, { write: false });
    try {
      await again.unit("0401");
      const taken: number[] = [];
      for (const language of dossierLanguages) {
        const first = await workshop.dossierPdf("0401", language);
        const began = performance.now();
        const second = await again.dossierPdf("0401", language);
        taken.push(performance.now() - began);
        expect(sha256(second)).toBe(sha256(first));
        expect(await workshop.dossierPage("0401", language)).toContain(`<html lang="${language}">`);
      }
      // A second on a quiet machine; the suite may share its two cores with much else.
      expect(Math.min(...taken)).toBeLessThan(3000);
    } finally {
      await again.close();
    }
  });

  test("a unit that may not leave says so in front, with what is missing", async () => {
    const { pages } = await readBack(await workshop.dossierPdf("0417"));
    expect(pages[0]!.words).toContain("Not released. One proof is missing");
  });

  test("as one page it carries its fonts and asks for nothing", async () => {
    const page = await workshop.dossierPage("0401");
    writeFileSync(join(folder, "0401.html"), page);
    expect(page.match(/src:url\(data:font\/woff2/g)).toHaveLength(5);
    expect(page.match(/(?:src|href)="(?!data:)/g)).toBeNull();
    expect(page).not.toMatch(/https?:\/\/(?!www\.w3\.org\/2000\/svg)/);
    for (const { title } of unit.claims) expect(page).toContain(title);
  });

  test("labels of a tray are one for it and one for each valve; a code that names nothing is refused", async () => {
    const sheet = { columns: 3, rows: 8 };
    const { pages } = await readBack(await workshop.labelsPdf(["B-35"], sheet, true));
    const words = pages.map((page) => page.words).join(" ");
    const { valves } = await workshop.tray("B-35");
    for (const code of ["B-35", ...valves.map(({ valve }) => valve)]) expect(words).toContain(code);
    await expect(workshop.labelsPdf(["no such thing"], sheet, false)).rejects.toThrow("check the number");
    expect(workshop.codePlace(valves[0]!.valve).path).toBe(`/valves/B-35?valve=${valves[0]!.valve}`);
    expect(workshop.codePlace("0417").path).toBe("/unit/0417");
  });
});
