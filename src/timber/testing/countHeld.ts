import { randomStream } from "../../maths/random.ts";
import { pieceOf } from "../piece.ts";
import { type Draw, drawPiece } from "./drawnPiece.ts";

/** What a piece's intervals are said to hold: moisture now and later, the factor, the hours to a target. */
export const asked = ["now", "later", "factor", "target"] as const;
export type Asked = (typeof asked)[number];

export interface Kind extends Draw {
  readonly name: string;
}

/** Pieces as they are believed to be: only such can say whether an interval is true. */
export const kinds: readonly Kind[] = [
  { name: "oven-dry mass known, three weighings", factor: "believed", hasDry: "piece", weighings: 3, off: "believed" },
  { name: "offcut dried, five weighings", factor: "believed", hasDry: "offcut", weighings: 5, off: "believed" },
  { name: "no dry mass, four weighings", factor: "believed", hasDry: "none", weighings: 4, off: "believed" },
];

/** Whether each interval of one drawn piece held the truth; nothing where it stated none. */
export type Held = Readonly<Partial<Record<Asked, boolean>>>;

export function heldOf(kind: Kind, seed: number | string, draw: number): Held {
  const random = randomStream(seed).fork(kind.name).fork(draw);
  const drawn = drawPiece(random, kind);
  const answer = pieceOf(drawn.question);
  const isIn = (low: number, truth: number, high: number) => low <= truth && truth <= high;
  // The target rests on what the shop can know alone: the moisture found, less a drawn step.
  const target_pct = answer.now.mean_pct - (0.5 + 2 * random.uniform());
  const timing = pieceOf({ ...drawn.question, target_pct });
  return {
    now: isIn(answer.now.low_pct, drawn.now_pct, answer.now.high_pct),
    later: isIn(answer.low_pct[0]!, drawn.later_pct, answer.high_pct[0]!),
    factor: isIn(answer.factorLow, drawn.factor, answer.factorHigh),
    ...(timing.hoursToTarget !== undefined && {
      target: isIn(
        timing.targetLow_h!,
        drawn.hoursTo(target_pct, answer.now.hour) ?? Number.POSITIVE_INFINITY,
        timing.targetHigh_h ?? Number.POSITIVE_INFINITY,
      ),
    }),
  };
}
