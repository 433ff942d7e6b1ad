import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import { pieceOf } from "./piece.ts";
import { type Draw, drawPiece } from "./testing/drawnPiece.ts";

const draws = Number(process.env.STILLGLOW_DRAWS ?? 6);
const seed = Number(process.env.STILLGLOW_SEED ?? 20_417);

const kinds: readonly (Draw & { readonly name: string })[] = [
  { name: "oven-dry mass known, three weighings", factor: "believed", hasDry: "piece", weighings: 3, off: "believed" },
  { name: "offcut dried, five weighings", factor: "believed", hasDry: "offcut", weighings: 5, off: "believed" },
  { name: "no dry mass, four weighings", factor: "believed", hasDry: "none", weighings: 4, off: "believed" },
];

/** A share of many draws that hold, and by how much it may miss 95 % by chance alone (four standard errors). */
function judge(held: number, of: number) {
  return { share: held / of, reach: 4 * Math.sqrt((0.95 * 0.05) / of) };
}

// source: the draws themselves: hidden factor, wood, logger, start and balance as they are believed to be
test.each(kinds)("ends of 95 % hold the truth as often as they say: $name", (draw) => {
  const held = { now: 0, later: 0, target: 0, factor: 0 };
  let timed = 0;
  for (let i = 0; i < draws; i++) {
    const random = randomStream(seed).fork(draw.name).fork(i);
    const drawn = drawPiece(random, draw);
    const answer = pieceOf(drawn.question);
    if (answer.now.low_pct <= drawn.now_pct && drawn.now_pct <= answer.now.high_pct) held.now++;
    if (answer.low_pct[0]! <= drawn.later_pct && drawn.later_pct <= answer.high_pct[0]!) held.later++;
    if (answer.factorLow <= drawn.factor && drawn.factor <= answer.factorHigh) held.factor++;
    // The target rests on what the shop can know alone: the moisture found, less a drawn step.
    const target_pct = answer.now.mean_pct - (0.5 + 2 * random.uniform());
    const timing = pieceOf({ ...drawn.question, target_pct });
    if (timing.hoursToTarget === undefined) continue;
    timed++;
    const truly_h = drawn.hoursTo(target_pct, answer.now.hour) ?? Number.POSITIVE_INFINITY;
    const high_h = timing.targetHigh_h ?? Number.POSITIVE_INFINITY;
    if (timing.targetLow_h! <= truly_h && truly_h <= high_h) held.target++;
  }
  const shares = {
    now: judge(held.now, draws),
    later: judge(held.later, draws),
    factor: judge(held.factor, draws),
    ...(timed > draws / 4 ? { target: judge(held.target, timed) } : {}),
  };
  if (draws > 100) console.log(draw.name, draws, timed, JSON.stringify(shares));
  for (const { share, reach } of Object.values(shares)) {
    expect(share, `seed ${seed}`).toBeGreaterThan(0.95 - Math.max(0.02, reach));
  }
  if (draws >= 500) {
    for (const [what, { share }] of Object.entries(shares)) {
      recordAccuracy({
        area: "timber",
        what: `95 % ends of a piece's ${what}, ${draws} draws, ${draw.name}`,
        source: "simulation, seeds as printed",
        reached: `${(100 * share).toFixed(1)} %`,
        limit: "93 to 97 %",
      });
    }
  }
});
