import type { Yard } from "../../claims/timber/yard.ts";
import type { Course } from "./courses.ts";
import { courseAt } from "./courses.ts";
import type { Life } from "./life.ts";

/** A piece that went over the plate, by its own course. */
export interface PastPiece {
  readonly piece: string;
  readonly species: string;
  readonly isCracked: boolean;
  /** As it was laid there. */
  readonly laid_pct: number;
  readonly checkIndex: number;
}

/** Boards that went over the plate, and whether they, or what was sawn from them, cracked. */
export function platedPieces(yard: Yard) {
  return yard.each(platedPiece).flatMap((piece) => piece ?? []);
}

function platedPiece(yard: Yard, piece: string) {
  const laid = yard
    .entriesOf(piece)
    .find(({ body }) => body.kind === "stood" && yard.places.get(body.place)?.what === "plate");
  if (!laid) return undefined;
  const { species, into = [] } = yard.state(piece)!;
  const isCracked = [piece, ...into].some((one) =>
    yard.entriesOf(one).some(({ body }) => body.kind === "flaw" && body.flaw === "crack"),
  );
  return { piece, species, at: laid.at, isCracked };
}

/**
 * Their moisture as they were laid down and the index that each reached; those without a course are left out. One after
 * the other: a shop of years has thousands, and whoever asks for something meanwhile must not wait behind them all.
 */
export async function pastPieces(
  yard: Yard,
  courseOf: (piece: string) => Promise<{ readonly life?: Life; readonly course?: Course }>,
): Promise<readonly PastPiece[]> {
  const read: PastPiece[] = [];
  for (const { piece, species, at, isCracked } of platedPieces(yard)) {
    const { life, course } = await courseOf(piece);
    if (!life || !course || course.state === "approach") continue;
    const { mean_pct: laid_pct } = courseAt(course, life, Date.parse(at));
    read.push({ piece, species, isCracked, laid_pct, checkIndex: course.checkIndex });
  }
  return read;
}
