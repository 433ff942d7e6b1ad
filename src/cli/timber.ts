import { BadInput, quote } from "../maths/badInput.ts";
import { caseWords, cutWords, pieceWords, runWords, shelfWords } from "./timberWords.ts";
import { type FolderOption, openToRead } from "./workshopFolder.ts";
import { writer } from "./writer.ts";

interface TimberOptions extends FolderOption {
  readonly case?: string;
  readonly runs?: boolean;
  readonly cuts?: boolean;
  readonly weigh?: readonly string[];
  readonly instrument: string;
  readonly by: string;
  readonly json?: boolean;
}

/**
 * `stillglow timber [PIECE]`: the shelf, a piece, the case of a unit, the runs or the sawing plan; with --weigh,
 * weighings are written first.
 */
export async function timber(piece: string | undefined, options: TimberOptions): Promise<void> {
  requireOneQuestion(piece, options);
  if (options.weigh) await weigh(options.weigh, options);
  const workshop = await openToRead(options);
  const print = (view: unknown, words: string) =>
    process.stdout.write(`${options.json ? JSON.stringify(view) : words}\n`);
  try {
    if (options.case !== undefined) {
      const view = await workshop.unitCase(options.case);
      print(view, caseWords(view));
    } else if (options.runs) {
      const view = await workshop.timberRuns();
      print(view, runWords(view));
    } else if (options.cuts) {
      const view = await workshop.timberCuts();
      print(view, cutWords(view));
    } else if (piece === undefined) {
      const view = await workshop.timber({ wait: true });
      print(view, shelfWords(view));
    } else {
      const view = await workshop.timberPiece(piece);
      print(view, pieceWords(view));
    }
  } finally {
    await workshop.close();
  }
}

function requireOneQuestion(piece: string | undefined, { case: unit, runs, cuts }: TimberOptions): void {
  const asked = [
    ...(piece === undefined ? [] : [`piece ${piece}`]),
    ...(unit === undefined ? [] : ["--case"]),
    ...(runs ? ["--runs"] : []),
    ...(cuts ? ["--cuts"] : []),
  ];
  if (asked.length > 1)
    throw new BadInput(asked[1]!, asked.join(" and "), "one question at a time", "leave all but one out");
}

async function weigh(pairs: readonly string[], options: TimberOptions): Promise<void> {
  const bodies = pairs.map((pair) => {
    const [, piece, typed] = /^(.+)=([\d.,\s]+)$/.exec(pair) ?? [];
    const mass_g = Number((typed ?? "").replace(/\s/g, "").replace(",", "."));
    if (piece === undefined || !(mass_g > 0))
      throw new BadInput("--weigh", quote(pair), "a piece and its grams", "write --weigh A-125=3921,4");
    return { kind: "weighing", piece: piece.trim(), mass_g, instrument: options.instrument };
  });
  const workshop = await openToRead(options);
  const at = workshop.now;
  await workshop.close();
  const door = await writer(options);
  try {
    const written = await door.enter(bodies.map((body) => ({ at, by: options.by, ...body })));
    if (!options.json) process.stdout.write(`${written.length} weighings written down.\n\n`);
  } finally {
    await door.close();
  }
}
