import bwipjs from "bwip-js/node";
import { escaped, graphite, ink, letters, p, svg } from "./drawings/drawing.ts";

/** A thing that carries a label: a unit, a valve, a board or a batch. */
export interface Labelled {
  readonly kind: "unit" | "valve" | "board" | "batch";
  /** What a scanner types: the number by which the thing is known here. */
  readonly code: string;
  /** Under it, what a person reads: model, type or species. */
  readonly lines: readonly string[];
}

export interface LabelSheet {
  readonly columns: number;
  readonly rows: number;
  /** Labels already taken off the sheet. */
  readonly skip?: number;
}

const a4_mm = { width: 210, height: 297 };
const margin_mm = 10;
const pointsPerMm = 72 / 25.4;

/**
 * A DataMatrix (ISO/IEC 16022, ECC 200) of a code as an SVG path of unit squares, and how many squares it is wide.
 * A scanner types the code and the page opens what it names.
 */
export function dataMatrix(code: string): { readonly path: string; readonly size: number } {
  const [{ pixs, pixx, pixy }] = bwipjs.raw("datamatrix", code, {}) as unknown as [
    { pixs: readonly number[]; pixx: number; pixy: number },
  ];
  const squares: string[] = [];
  for (let y = 0; y < pixy; y++) {
    for (let x = 0; x < pixx; ) {
      let run = 0;
      while (x + run < pixx && pixs[y * pixx + x + run] === 1) run++;
      if (run > 0) squares.push(`M${x} ${y}h${run}v1h${-run}z`);
      x += Math.max(run, 1);
    }
  }
  return { path: squares.join(""), size: Math.max(pixx, pixy) };
}

/** Sheets of labels for A4 paper, one SVG a sheet, each label with its mark, its code in letters and what it is. */
export function labelSheets(things: readonly Labelled[], { columns, rows, skip = 0 }: LabelSheet): string[] {
  const perSheet = columns * rows;
  const width_mm = (a4_mm.width - 2 * margin_mm) / columns;
  const height_mm = (a4_mm.height - 2 * margin_mm) / rows;
  const sheets = Math.ceil((skip + things.length) / perSheet);
  return Array.from({ length: sheets }, (_, sheet) => {
    const here = things.slice(Math.max(0, sheet * perSheet - skip), (sheet + 1) * perSheet - skip);
    const first = sheet === 0 ? skip : 0;
    const drawn = here.map((thing, i) => {
      const place = first + i;
      const x = (margin_mm + (place % columns) * width_mm) * pointsPerMm;
      const y = (margin_mm + Math.floor(place / columns) * height_mm) * pointsPerMm;
      return labelAt(thing, x, y, width_mm * pointsPerMm, height_mm * pointsPerMm);
    });
    return svg(Number(p(a4_mm.width * pointsPerMm)), Number(p(a4_mm.height * pointsPerMm)), drawn);
  });
}

function labelAt({ code, lines }: Labelled, x: number, y: number, width: number, height: number): string {
  const { path, size } = dataMatrix(code);
  const side = Math.min(height - 12, width * 0.36);
  const left = x + side + 14;
  const scale = side / size;
  return [
    `<g><title>${escaped(`${code}: ${lines.join(", ")}`)}</title>`,
    `<path transform="translate(${p(x + 6)} ${p(y + (height - side) / 2)}) scale(${Number(scale.toFixed(4))})" fill="${ink}" d="${path}"/>`,
    letters(left, y + height / 2 - 4, code, { size: 13, colour: ink }),
    ...lines
      .slice(0, 3)
      .map((text, i) => letters(left, y + height / 2 + 8 + i * 10, text, { size: 8, colour: graphite })),
    "</g>",
  ].join("");
}
