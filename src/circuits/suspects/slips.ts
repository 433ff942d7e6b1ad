import { chiSquaredCdf } from "../../maths/statistics/index.ts";
import { factorSymmetric, solveSymmetric, spreadOf } from "./evidence.ts";
import type { Explanation } from "./explain.ts";
import { glance, settleExplanation } from "./explain.ts";
import type { Bench } from "./inspect.ts";
import type { Reading } from "./probes.ts";
import type { Pattern } from "./specimen.ts";

export interface Slip {
  readonly words: string;
  /** ln of the odds that a good unit's reading was taken down wrong, for comparison with those of a good unit. */
  readonly logWeight: number;
}

/** One reading in so many is written down wrong, or taken at the wrong point (common practice). */
const slipsPerReading = 0.0003;
/** The others must lie well inside what good parts give. */
const restChanceLeast = 0.02;

/**
 * One reading that stands alone against all others: without it the unit would be good. Says what a good unit would
 * read there, and whether a decimal point or a sign would put it right.
 *
 * @returns nothing where no single reading is enough
 */
export function slipOf(
  pattern: Pattern,
  bench: Bench,
  readings: readonly Reading[],
  good: Explanation,
): Slip | undefined {
  if (readings.length < 3) return undefined;
  let best: { reading: Reading; rest: Explanation; chance: number; wanted: number; index: number } | undefined;
  likeliestSlips(readings, good).forEach((index) => {
    const reading = readings[index]!;
    const others = readings.filter((_, i) => i !== index);
    const first = glance(pattern, bench, undefined, 0, others);
    if (first === undefined) return;
    const rest = settleExplanation(pattern, bench, first, others);
    const chance = 1 - chiSquaredCdf(rest.evidence.distance, others.length);
    if (chance < restChanceLeast || (best !== undefined && chance <= best.chance)) return;
    const shown = glance(pattern, bench, undefined, 0, [reading])!;
    best = { reading, rest, chance, wanted: shown.seen.values[0]!, index };
  });
  if (best === undefined) return undefined;
  const { reading, rest, wanted } = best;
  const mend = slipsOfThePen.find(({ of }) => near(of(reading.value), wanted));
  const usual =
    reading.probe.kind === "volts" ? ` where a good unit reads about ${Number(wanted.toPrecision(3))} V` : "";
  const mended = mend === undefined || reading.probe.kind !== "volts" ? "" : `; ${mend.words} would put it right`;
  const wide = Math.max(1, Math.abs(reading.value), Math.abs(wanted));
  const share = mend === undefined ? slipsPerReading : 10 * slipsPerReading;
  return {
    words: `${reading.name} stands alone against all other readings${usual}${mended}`,
    logWeight: Math.log(share / wide) + rest.evidence.logLikelihood,
  };
}

/** So many readings are left out in turn. */
const mostTried = 4;

/** Readings without which the others come nearest to a good unit, reckoned from the look at all of them together. */
function likeliestSlips(readings: readonly Reading[], good: Explanation): number[] {
  const m = readings.length;
  const cover = spreadOf(good.seen, good.variances, readings);
  factorSymmetric(cover, m);
  const gains = readings.map((_, i) => {
    const unit = new Float64Array(m);
    unit[i] = 1;
    // What leaving out reading i takes from the squared distance: (S⁻¹·r)ᵢ²/(S⁻¹)ᵢᵢ.
    return { i, gain: good.evidence.weighted[i]! ** 2 / solveSymmetric(cover, m, unit)[i]! };
  });
  return gains
    .sort((a, b) => b.gain - a.gain)
    .slice(0, mostTried)
    .map(({ i }) => i);
}

const slipsOfThePen = [
  { of: (value: number) => value * 10, words: "a decimal point one place to the right" },
  { of: (value: number) => value / 10, words: "a decimal point one place to the left" },
  { of: (value: number) => -value, words: "the other sign" },
];

function near(value: number, wanted: number): boolean {
  return Math.abs(value - wanted) <= 0.1 * Math.abs(wanted) + 0.05;
}
