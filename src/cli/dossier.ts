import { writeFileSync } from "node:fs";
import { extname } from "node:path";
import { BadInput, quote } from "../maths/badInput.ts";
import { dossierLanguage } from "../workshop/dossier/language.ts";
import { type FolderOption, openToRead } from "./workshopFolder.ts";

/** `stillglow dossier SERIAL`: the unit's record as PDF, or as one page where the file's name ends so. */
export async function dossier(
  serial: string,
  options: FolderOption & { readonly out?: string; readonly language?: string },
): Promise<void> {
  const language = dossierLanguage(options.language, "--language");
  const file = options.out ?? `${serial.replaceAll(/[^\w.-]/g, "_")}.pdf`;
  const kind = extname(file).toLowerCase();
  if (kind !== ".pdf" && kind !== ".html") {
    throw new BadInput("--out", quote(file), "a name that ends in .pdf or .html", "end it so");
  }
  const workshop = await openToRead(options);
  try {
    const made =
      kind === ".pdf" ? await workshop.dossierPdf(serial, language) : await workshop.dossierPage(serial, language);
    writeFileSync(file, made);
    process.stdout.write(`${file}\n`);
  } finally {
    await workshop.close();
  }
}

/** `stillglow labels CODE …`: sheets of labels for A4 paper, each with a mark that a scanner reads. */
export async function labels(
  codes: readonly string[],
  options: FolderOption & {
    readonly out?: string;
    readonly across: string;
    readonly down: string;
    readonly taken: string;
    readonly valves?: boolean;
  },
): Promise<void> {
  const sheet = {
    columns: whole(options.across, "--across", 1, 8),
    rows: whole(options.down, "--down", 1, 30),
    skip: whole(options.taken, "--taken", 0, 239),
  };
  const file = options.out ?? "labels.pdf";
  const workshop = await openToRead(options);
  try {
    writeFileSync(file, await workshop.labelsPdf(codes, sheet, options.valves ?? false));
    process.stdout.write(`${file}\n`);
  } finally {
    await workshop.close();
  }
}

function whole(text: string, path: string, least: number, most: number): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new BadInput(path, quote(text), `a whole number from ${least} to ${most}`, "give it as digits");
}
