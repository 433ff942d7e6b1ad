import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import type { PageFonts } from "../../dossier/page.ts";
import type { Paper } from "../../dossier/paper.ts";

const fonts = dirname(createRequire(import.meta.url).resolve("@expo-google-fonts/source-serif-4/package.json"));
const cuts = ["400Regular", "400Regular_Italic", "600SemiBold"];
/** The fonts lie here and nothing else is read; the documents themselves are never files. */
const workspace = join(fonts, "typst");

/**
 * Sets a document as PDF/A-2a: tagged, its fonts inside. The same document sets the same bytes on any machine.
 * @throws Error for a document that does not set, in the typesetter's words
 */
export async function printPdf({ source, inputs, pictures, dated_s }: Paper): Promise<Buffer> {
  const { NodeCompiler } = await import("@myriaddreamin/typst-ts-node-compiler");
  const compiler = NodeCompiler.create({ workspace, fontArgs: [{ fontPaths: cuts.map((cut) => join(fonts, cut)) }] });
  for (const [path, svg] of Object.entries(pictures)) compiler.mapShadow(join(workspace, path), Buffer.from(svg));
  return compiler.pdf(
    { mainFileContent: source, inputs: { ...inputs } },
    { pdfStandard: "a-2a", creationTimestamp: dated_s },
  );
}

const webFonts = join(import.meta.dirname, "..", "..", "screens", "fonts");

/** The fonts that a page of its own carries inside: those of the screens. */
export function pageFonts(): PageFonts {
  const read = (file: string) => readFileSync(join(webFonts, file));
  return {
    upright: read("bench-serif-latin.woff2"),
    italic: read("bench-serif-latin-italic.woff2"),
    uprightMore: read("bench-serif-latin-more.woff2"),
    italicMore: read("bench-serif-latin-more-italic.woff2"),
    greek: read("bench-serif-greek.woff2"),
  };
}
