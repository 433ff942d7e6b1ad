import { BadInput } from "../../maths/badInput.ts";
import { type BatchLaw, fewerThan, logPasses } from "./betaBinomial.ts";

export interface PastBatch {
  readonly tested: number;
  readonly passed: number;
}

export interface BuyQuestion {
  readonly past: readonly PastBatch[];
  readonly perSet: number;
  readonly sets: number;
  readonly confidence: number;
}

export interface BuyAnswer {
  /** Left out where no number of valves up to the limit is enough. */
  readonly buy?: number;
  readonly expectedSets?: number;
  readonly chance?: number;
  readonly doubt: { readonly passRate_pct: number; readonly expectedSets?: number };
  readonly passRate_pct: number;
  /** Deviation of a batch's own pass rate about the mean of all. */
  readonly batchSd_pct: number;
  readonly distribution?: readonly { readonly sets: number; readonly chance: number }[];
  readonly state?: "undecided";
  readonly reason?: string;
  readonly notes: readonly string[];
}

export const MOST_NEEDED = 2000;
const MOST_BOUGHT = 20_000;
const MEANS = 48;
const LIKENESSES = 16;
/** How alike pieces of one batch usually are, before any batch is seen: half of all cases below this. */
const USUAL_LIKENESS = 0.02;

interface Weighed {
  readonly law: BatchLaw;
  readonly weight: number;
}

/**
 * The fewest valves to buy, as one new batch, so that at least sets·perSet pass with the confidence asked.
 *
 *     passes of a batch ~ beta-binomial(n; mean, likeness)
 *     P(mean, likeness | past) ∝ P(past | mean, likeness) · 1/(1 + likeness/0.02)²,  mean even over 0 … 1
 *     chance(n) = Σ P(mean, likeness | past) · P(passes of n ≥ sets·perSet)
 *
 * The doubt of the pass rate and the difference from batch to batch are both in the chance.
 *
 * @throws BadInput  more passed than tested
 * @remarks A single past batch tells nothing of the next: how far batches differ is then the usual belief alone.
 * @source The weighing is Bayes' rule on a grid; the belief about likeness is a judgement.
 */
export function howManyToBuy({ past, perSet, sets, confidence }: BuyQuestion): BuyAnswer {
  past.forEach(({ tested, passed }, i) => {
    if (passed > tested) {
      throw new BadInput(
        `past[${i}].passed`,
        String(passed),
        `at most the ${tested} tested`,
        "count the valves that passed among those tested",
      );
    }
  });
  const belief = weighed(past);
  const average = (figure: (law: BatchLaw) => number) => belief.reduce((sum, b) => sum + b.weight * figure(b.law), 0);
  const rate = average((law) => law.mean);
  const rateSd = Math.sqrt(average((law) => (law.mean - rate) ** 2));
  const known = {
    passRate_pct: 100 * rate,
    batchSd_pct: 100 * Math.sqrt(average((law) => law.mean * (1 - law.mean) * law.likeness)),
  };
  const need = sets * perSet;
  const chanceOf = (n: number) => 1 - average((law) => fewerThan(law, n, need));
  const notes = notesFor(past);
  const doubt = { passRate_pct: 196 * rateSd };

  let enough = need;
  while (enough < MOST_BOUGHT && chanceOf(enough) < confidence) enough = Math.min(2 * enough, MOST_BOUGHT);
  const last = chanceOf(enough);
  if (last < confidence) {
    return {
      ...known,
      doubt,
      state: "undecided",
      reason: `Even ${MOST_BOUGHT} valves give ${sets} sets with a chance of ${last.toPrecision(3)} only, since so few passed or so few were tested; test more valves, or ask for less confidence.`,
      notes,
    };
  }
  let few = need - 1;
  while (enough - few > 1) {
    const middle = (few + enough) >> 1;
    if (chanceOf(middle) >= confidence) enough = middle;
    else few = middle;
  }
  const spread = setsFrom(belief, enough, perSet);
  const expectedSets = spread.reduce((sum, p, k) => sum + p * k, 0);
  const sd = Math.sqrt(spread.reduce((sum, p, k) => sum + p * (k - expectedSets) ** 2, 0));
  return {
    buy: enough,
    expectedSets,
    chance: chanceOf(enough),
    ...known,
    doubt: { ...doubt, expectedSets: 1.96 * sd },
    distribution: spread.flatMap((chance, k) => (chance >= 1e-4 ? [{ sets: k, chance }] : [])),
    notes,
  };
}

/** The grid of laws, weighed by what the past says of each; hardly possible ones left out. */
function weighed(past: readonly PastBatch[]): Weighed[] {
  // Means lie closer where the past puts them, so that many tested valves do not fall between two points.
  const tested = past.reduce((sum, b) => sum + b.tested, 0);
  const centre = (past.reduce((sum, b) => sum + b.passed, 0) + 1) / (tested + 2);
  const kinds = new Map<string, PastBatch & { times: number }>();
  for (const { tested: n, passed } of past) {
    const key = `${n} ${passed}`;
    kinds.set(key, { tested: n, passed, times: (kinds.get(key)?.times ?? 0) + 1 });
  }
  const laws: { law: BatchLaw; log: number }[] = [];
  for (let l = 0; l < LIKENESSES; l++) {
    // Even steps of the share of the belief below each likeness: 1 − 1/(1 + likeness/usual), cut off at 0.9.
    const share = ((l + 0.5) / LIKENESSES) * (0.9 / (0.9 + USUAL_LIKENESS));
    const likeness = (USUAL_LIKENESS * share) / (1 - share);
    const sd = Math.sqrt((centre * (1 - centre) * (1 + likeness * (tested - past.length))) / (tested + 2));
    const batchSd = Math.sqrt((centre * (1 - centre) * likeness) / Math.max(past.length, 1));
    const reach = 7 * Math.max(Math.hypot(Math.min(sd, 1), batchSd), 2 / (tested + 2));
    const [low, high] = [Math.max(0, centre - reach), Math.min(1, centre + reach)];
    for (let m = 0; m < MEANS; m++) {
      const mean = low + ((high - low) * (m + 0.5)) / MEANS;
      const law = { mean, likeness };
      let log = Math.log(high - low);
      for (const { tested: n, passed, times } of kinds.values()) log += times * logPasses(law, n, passed);
      laws.push({ law, log });
    }
  }
  const top = laws.reduce((best, { log }) => Math.max(best, log), Number.NEGATIVE_INFINITY);
  const able = laws.filter(({ log }) => log > top - 16);
  const total = able.reduce((sum, { log }) => sum + Math.exp(log - top), 0);
  return able.map(({ law, log }) => ({ law, weight: Math.exp(log - top) / total }));
}

/** Chances of 0, 1, 2, … whole sets from n valves bought. */
function setsFrom(belief: readonly Weighed[], n: number, perSet: number): number[] {
  const most = Math.floor(n / perSet);
  const below = Array.from({ length: most + 2 }, (_, k) =>
    k === 0
      ? 0
      : k > most
        ? 1
        : belief.reduce((sum, { law, weight }) => sum + weight * fewerThan(law, n, k * perSet), 0),
  );
  return Array.from({ length: most + 1 }, (_, k) => Math.max(0, below[k + 1]! - below[k]!));
}

function notesFor(past: readonly PastBatch[]): string[] {
  const notes = [
    "The valves bought are taken as one new batch, drawn like the past ones; a mixed delivery varies less.",
    "chance is that of at least the sets asked, with the doubt of the pass rate and the difference between batches in it.",
  ];
  if (past.length < 3) {
    notes.push(
      `${past.length === 1 ? "One past batch tells" : "Two past batches tell"} little of how far batches differ: a usual difference is believed. Test a sample of the new batch before relying on it.`,
    );
  }
  return notes;
}
