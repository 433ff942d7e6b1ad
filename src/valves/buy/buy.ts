import { BadInput } from "../../maths/badInput.ts";
import { firstWhere } from "../../maths/firstWhere.ts";
import type { Random } from "../../maths/random.ts";
import { type Featured, placesOf } from "../sets/places.ts";
import { type BatchLaw, fewerThan, fewerThanNeeded, logPasses, passesAt } from "./betaBinomial.ts";
import { FEWEST_READINGS, MOST_DRAWN_FOR, passersNeeded, setsDrawn } from "./passersNeeded.ts";

export interface PastBatch {
  readonly tested: number;
  readonly passed: number;
  /** Readings of valves that passed. */
  readonly valves?: readonly Featured[] | undefined;
}

export interface BuyQuestion {
  readonly past: readonly PastBatch[];
  readonly perSet: number;
  readonly sets: number;
  readonly confidence: number;
  /** What makes valves alike, as in `setsBySpread`: weights of the features, and the most that a set may cost. */
  readonly weights?: Readonly<Record<string, number>> | undefined;
  readonly limit?: number | undefined;
}

/** Where a question with readings gets its chance and its time from. */
export interface Means {
  readonly random: Random;
  /** Asked between draws; false ends them early. */
  hasTime(): boolean;
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
  /** Passing valves that find no partner, on the mean, when the sets asked are just made; only with readings. */
  readonly withoutPartner?: number;
  readonly state?: "undecided";
  readonly reason?: string;
  readonly notes: readonly string[];
}

export const MOST_NEEDED = 2000;
const MOST_BOUGHT = 20_000;
const MOST_FEATURES = 24;
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
 * The doubt of the pass rate and the difference from batch to batch are both in the chance. Where readings of past
 * valves are given with `weights` and `limit`, the number that must pass is not sets·perSet but what drawn batches need
 * until so many sets are alike (`passersNeeded`).
 *
 * @throws BadInput  more passed than tested, more readings than passed, readings without weights or without a feature
 * @remarks A single past batch tells nothing of the next: how far batches differ is then the usual belief alone.
 * @source The weighing is Bayes' rule on a grid; the belief about likeness is a judgement.
 */
export function howManyToBuy(question: BuyQuestion, { random, hasTime }: Means): BuyAnswer {
  const { past, perSet, sets, confidence } = question;
  past.forEach(({ tested, passed, valves }, i) => {
    if (passed > tested) {
      throw new BadInput(
        `past[${i}].passed`,
        String(passed),
        `at most the ${tested} tested`,
        "count the valves that passed among those tested",
      );
    }
    if (valves !== undefined && valves.length > passed) {
      throw new BadInput(
        `past[${i}].valves`,
        `readings of ${valves.length} valves`,
        `at most the ${passed} that passed`,
        "give only the valves that passed",
      );
    }
  });
  const need = sets * perSet;
  const { needed, readings, way } = numbersNeeded(question, random, hasTime);
  const belief = weighed(past);
  const average = (figure: (law: BatchLaw) => number) => belief.reduce((sum, b) => sum + b.weight * figure(b.law), 0);
  const rate = average((law) => law.mean);
  const rateSd = Math.sqrt(average((law) => (law.mean - rate) ** 2));
  const known = {
    passRate_pct: 100 * rate,
    batchSd_pct: 100 * Math.sqrt(average((law) => law.mean * (1 - law.mean) * law.likeness)),
  };
  const unmet = needed && unmetBy(needed);
  const chanceOf = (n: number) =>
    1 - average((law) => (unmet === undefined ? fewerThan(law, n, need) : fewerThanNeeded(law, n, unmet)));
  const notes = [way, ...notesFor(past)];
  const doubt = { passRate_pct: 196 * rateSd };

  let enough = need;
  while (enough < MOST_BOUGHT && chanceOf(enough) < confidence) enough = Math.min(2 * enough, MOST_BOUGHT);
  const last = chanceOf(enough);
  if (last < confidence) {
    return {
      ...known,
      doubt,
      state: "undecided",
      reason: `Even ${MOST_BOUGHT} valves give ${sets} sets with a chance of ${last.toPrecision(3)} only, since so few passed or so few were tested${unmet === undefined ? "" : ", or so few are alike within the limit"}; ${unmet === undefined ? "" : "allow a higher limit, "}test more valves, or ask for less confidence.`,
      notes,
    };
  }
  enough = firstWhere(need, enough, (many) => chanceOf(many) >= confidence);
  const spread =
    readings === undefined
      ? setsFrom(belief, enough, perSet)
      : setsAmong(belief, enough, readings, { perSet, limit: question.limit! }, random, hasTime);
  const expectedSets = spread.reduce((sum, p, k) => sum + p * k, 0);
  const sd = Math.sqrt(spread.reduce((sum, p, k) => sum + p * (k - expectedSets) ** 2, 0));
  return {
    buy: enough,
    expectedSets,
    chance: chanceOf(enough),
    ...known,
    doubt: { ...doubt, expectedSets: 1.96 * sd },
    ...(needed === undefined ? {} : { withoutPartner: meanOf(needed.filter(Number.isFinite)) - need }),
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

type Readings = readonly (readonly (readonly number[])[])[];

/** How many must pass, draw by draw, where readings tell it; and in words which way was taken. */
function numbersNeeded(
  { past, perSet, sets, weights, limit }: BuyQuestion,
  random: Random,
  hasTime: () => boolean,
): { readonly needed?: readonly number[]; readonly readings?: Readings; readonly way: string } {
  const read = past.reduce((sum, { valves }) => sum + (valves?.length ?? 0), 0);
  if (read === 0) {
    return {
      way: "From pass rates alone: valves that pass but match no other are not counted. Give readings of past valves, weights and limit to count them.",
    };
  }
  if (weights === undefined) {
    throw new BadInput(
      "weights",
      "nothing",
      "a weight for each feature that must match, since readings are given",
      "say what makes valves alike, and how dear a set may be (limit)",
    );
  }
  const most = Object.values(weights).filter((w) => w !== 0).length;
  if (most > MOST_FEATURES) {
    throw new BadInput("weights", `${most} features`, `at most ${MOST_FEATURES}`, "leave out the lighter ones");
  }
  const readings = past.map(({ valves }, i) => placesOf(valves ?? [], weights, `past[${i}].valves`));
  if (limit === undefined) {
    return {
      way: "From pass rates alone: without a limit any valves make a set, so none is left over for want of a partner.",
    };
  }
  if (perSet * sets > MOST_DRAWN_FOR) {
    return {
      way: `From pass rates alone: readings are drawn from for up to ${MOST_DRAWN_FOR} valves in sets, so valves that pass but match no other are not counted. Ask for fewer sets at a time to count them.`,
    };
  }
  const needed = passersNeeded(readings, { perSet, sets, limit }, random, hasTime);
  if (needed === undefined) {
    return {
      way: `From pass rates alone: ${read} readings are too few to draw from (${FEWEST_READINGS} at least, two or more of a batch), or sets this large take too long to draw, so valves that pass but match no other are not counted.`,
    };
  }
  const met = needed.filter(Number.isFinite);
  const told =
    met.length === 0
      ? "in none could the sets be made within the limit"
      : `on the mean ${(meanOf(met) - perSet * sets).toFixed(1)} valves more than ${perSet * sets} must pass before the sets can be made`;
  return {
    needed,
    readings,
    way: `Valves that pass but find no partner are counted: ${needed.length} new batches were drawn from ${read} readings; ${told}. Sets are formed by a quick way that can fall a little short of the best.`,
  };
}

/** P(more than j needed) for j = 0, 1, 2, …; draws in which no number was enough are never met. */
function unmetBy(needed: readonly number[]): Float64Array {
  const sorted = [...needed].sort((a, b) => a - b);
  const isMet = sorted.at(-1)! < Number.POSITIVE_INFINITY;
  const unmet = new Float64Array(isMet ? sorted.at(-1)! : MOST_BOUGHT + 1);
  for (let j = 0, met = 0; j < unmet.length; j++) {
    while (met < sorted.length && sorted[met]! <= j) met++;
    unmet[j] = 1 - met / sorted.length;
  }
  return unmet;
}

/** Chances of 0, 1, 2, … sets from n valves bought, by drawing both how many pass and what they read. */
function setsAmong(
  belief: readonly Weighed[],
  n: number,
  readings: Readings,
  { perSet, limit }: { readonly perSet: number; readonly limit: number },
  random: Random,
  hasTime: () => boolean,
): number[] {
  const chances = new Array<number>(Math.floor(n / perSet) + 1).fill(0);
  const made = setsDrawn(
    readings,
    { perSet, limit },
    () => {
      const share = random.uniform();
      let below = 0;
      let i = -1;
      while (below <= share && i < belief.length - 1) below += belief[++i]!.weight;
      return passesAt(belief[i]!.law, n, random.uniform());
    },
    random,
    hasTime,
  );
  for (const sets of made) chances[sets]! += 1 / made.length;
  return chances;
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, v) => sum + v, 0) / Math.max(values.length, 1);

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
