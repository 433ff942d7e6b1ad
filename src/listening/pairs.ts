import { BadInput, quote } from "../maths/badInput.ts";
import { factorReal, realSystem, solveReal } from "../maths/linear/realLu.ts";
import { chiSquaredCdf, fCdf, tQuantile } from "../maths/statistics/index.ts";

export interface Choice {
  readonly winner: string;
  readonly loser: string;
  /** How often; once if left out. */
  readonly times?: number;
  /** Who chose, so that what one pair of ears likes is not counted as many. */
  readonly listener?: string;
}

export interface Ranked {
  readonly item: string;
  /** Share of the sum over all items; a to b is the odds that a is chosen over b. */
  readonly strength: number;
  readonly low: number;
  readonly high: number;
}

export type Ranking =
  | {
      readonly state: "solved";
      readonly ranking: readonly Ranked[];
      readonly p: number;
      readonly listeners?: Listeners;
    }
  | { readonly state: "undecided"; readonly reason: string; readonly unbeaten: readonly string[] };

/** What telling the listeners apart changes. */
export interface Listeners {
  readonly count: number;
  /** Variance between listeners over that of independent choices; about 1 where they are of one mind. */
  readonly spread: number;
  /** Chance of a ranking as uneven were all items alike to listeners on average; left out with too few listeners. */
  readonly p?: number;
}

const mostItems = 100;
/** With fewer, nothing can be said of listeners in general. */
const leastListeners = 3;

/**
 * Ranks items that were compared in pairs.
 *
 *     P(i chosen over j) = πᵢ/(πᵢ + πⱼ),   Σπ = 1,   maximum likelihood                     Bradley and Terry
 *     p = P(χ²(items − 1) ≥ 2·(ℓ − N·ln ½))                                                against all equal
 *
 * Where every choice names its listener, of three or more, intervals are those of listeners and not of choices:
 *
 *     V = H⁻¹·(L/(L − 1)·Σ gₗgₗᵀ)·H⁻¹,   gₗ = wins − expected wins of listener l,   t with L − 1 degrees of freedom
 *
 * @returns best first, each strength with a 95 % interval (normal, or t, in ln(π/(1 − π)));
 *   undecided where some items never lost to the others, for then no maximum exists
 * @throws BadInput  an item against itself, a count that is not a whole number above 0, fewer than two items
 * @source  R. A. Bradley and M. E. Terry, Biometrika 39 (1952) 324-345; L. R. Ford, American Mathematical Monthly 64
 *   (1957) 28-33, for when a maximum exists (both from memory); variance by clusters: K.-Y. Liang and S. L. Zeger, Biometrika 73
 *   (1986) 13-22 (from memory)
 */
export function rankPairs(choices: readonly Choice[]): Ranking {
  const { items, wins } = tally(choices);
  const unbeaten = unbeatenGroup(wins);
  if (unbeaten) {
    const names = unbeaten.map((i) => items[i]!);
    return {
      state: "undecided",
      reason: `${listed(names)} never lost to the other items, so no strengths are most likely; more comparisons of these with the others, or a model that allows for fewer, would decide.`,
      unbeaten: names,
    };
  }
  const ability = mostLikely(wins);
  const sum = ability.reduce((total, a) => total + Math.exp(a), 0);
  const heard = byListener(choices, items, ability);
  const plain = logitSpreads(wins, ability);
  const robust = heard && logitSpreads(wins, ability, heard);
  const spreads = robust ?? plain;
  const factor = heard ? tQuantile(0.975, heard.length - 1) : 1.959963984540054;
  const ranking = items
    .map((item, i): Ranked => {
      const strength = Math.exp(ability[i]!) / sum;
      const logit = Math.log(strength) - Math.log1p(-strength);
      const reach = factor * spreads[i]!;
      return { item, strength, low: logistic(logit - reach), high: logistic(logit + reach) };
    })
    .sort((a, b) => b.strength - a.strength);
  const deviance = Math.max(
    0,
    2 * (logLikelihood(wins, ability) - logLikelihood(wins, new Float64Array(items.length))),
  );
  return {
    state: "solved",
    ranking,
    p: 1 - chiSquaredCdf(deviance, items.length - 1),
    ...(heard && robust
      ? {
          listeners: {
            count: heard.length,
            spread: robust.reduce((total, r, i) => total + (r / plain[i]!) ** 2, 0) / robust.length,
            ...unevenness(wins, ability, heard),
          },
        }
      : {}),
  };
}

/** What each listener chose beyond what the common strengths expect, item by item; nothing unless all choices name one. */
function byListener(
  choices: readonly Choice[],
  items: readonly string[],
  ability: Float64Array,
): Float64Array[] | undefined {
  if (choices.some(({ listener }) => listener === undefined)) return undefined;
  const at = new Map(items.map((item, i) => [item, i]));
  const slopes = new Map<string, Float64Array>();
  for (const { winner, loser, times = 1, listener } of choices) {
    const own = slopes.get(listener!) ?? new Float64Array(items.length);
    slopes.set(listener!, own);
    const [w, l] = [at.get(winner)!, at.get(loser)!];
    const surprise = times * (1 - logistic(ability[w]! - ability[l]!));
    own[w]! += surprise;
    own[l]! -= surprise;
  }
  return slopes.size >= leastListeners ? [...slopes.values()] : undefined;
}

/** Hotelling's test of all abilities alike, listeners being the independent ones. */
function unevenness(wins: Wins, ability: Float64Array, heard: readonly Float64Array[]): { p?: number } {
  const [k, L] = [ability.length, heard.length];
  if (L <= k) return {};
  const { system } = information(wins, ability);
  factorReal(system);
  const moved = heard.map((slope) => {
    const column = new Float64Array(k);
    solveReal(system, slope, column);
    return column;
  });
  const inner = realSystem(k - 1);
  for (let i = 0; i < k - 1; i++) {
    for (let j = 0; j < k - 1; j++) {
      inner.matrix[i * (k - 1) + j] =
        (L / (L - 1)) * moved.reduce((sum, m) => sum + (m[i]! - m[k - 1]!) * (m[j]! - m[k - 1]!), 0);
    }
  }
  const contrast = Float64Array.from({ length: k - 1 }, (_, i) => ability[i]! - ability[k - 1]!);
  const solved = new Float64Array(k - 1);
  factorReal(inner);
  solveReal(inner, contrast, solved);
  const t2 = contrast.reduce((sum, c, i) => sum + c * solved[i]!, 0);
  const f = ((L - k + 1) / ((L - 1) * (k - 1))) * t2;
  return Number.isFinite(f) && f >= 0 ? { p: 1 - fCdf(f, k - 1, L - k + 1) } : {};
}

const logistic = (x: number) => 1 / (1 + Math.exp(-x));

/** wins[i][j]: how often i was chosen over j. */
type Wins = readonly Float64Array[];

function tally(choices: readonly Choice[]): { items: string[]; wins: Wins } {
  const items = [...new Set(choices.flatMap(({ winner, loser }) => [winner, loser]))];
  if (items.length < 2) throw new BadInput("choices", `${items.length} items`, "at least 2", "add comparisons");
  if (items.length > mostItems) {
    throw new BadInput("choices", `${items.length} items`, `${mostItems} at most`, "rank the best of them");
  }
  const at = new Map(items.map((item, i) => [item, i]));
  const wins = items.map(() => new Float64Array(items.length));
  choices.forEach(({ winner, loser, times = 1 }, i) => {
    if (winner === loser) {
      throw new BadInput(
        `choices[${i}].loser`,
        quote(loser),
        "another item than the winner",
        "take the comparison out",
      );
    }
    if (!Number.isInteger(times) || times < 1) {
      throw new BadInput(`choices[${i}].times`, quote(times), "a whole number, 1 or more", "count again");
    }
    wins[at.get(winner)!]![at.get(loser)!]! += times;
  });
  return { items, wins };
}

/**
 * A group that never lost to the rest. There is none just when from every item a chain of wins leads to every other.
 */
function unbeatenGroup(wins: Wins): number[] | undefined {
  for (const start of wins.keys()) {
    const group = new Set([start]);
    for (const i of group) for (const [j, row] of wins.entries()) if (row[i]! > 0) group.add(j);
    if (group.size < wins.length) return [...group];
  }
  return undefined;
}

function logLikelihood(wins: Wins, ability: Float64Array): number {
  let sum = 0;
  wins.forEach((row, i) => {
    row.forEach((count, j) => {
      if (count > 0) sum -= count * Math.log1p(Math.exp(ability[j]! - ability[i]!));
    });
  });
  return sum;
}

/** Newton's steps on the concave likelihood, halved where they overshoot; abilities sum to 0. */
function mostLikely(wins: Wins): Float64Array {
  const n = wins.length;
  let ability = new Float64Array(n);
  let best = logLikelihood(wins, ability);
  const step = new Float64Array(n);
  for (let round = 0; round < 200; round++) {
    const { system, slope } = information(wins, ability);
    factorReal(system);
    solveReal(system, slope, step);
    let scale = 1;
    let next = ability.map((a, i) => a + step[i]!);
    while (logLikelihood(wins, next) < best && scale > 1e-6) {
      scale /= 2;
      next = ability.map((a, i) => a + scale * step[i]!);
    }
    [ability, best] = [next, Math.max(best, logLikelihood(wins, next))];
    if (Math.max(...step.map(Math.abs)) < 1e-12) break;
  }
  return ability;
}

/** Information matrix, with the one direction that no choice speaks of (all abilities alike) tied to 0. */
function information(wins: Wins, ability: Float64Array) {
  const n = wins.length;
  const system = realSystem(n);
  const slope = new Float64Array(n);
  system.matrix.fill(1 / n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const count = wins[i]![j]! + wins[j]![i]!;
      if (count === 0) continue;
      const chance = logistic(ability[i]! - ability[j]!);
      const weight = count * chance * (1 - chance);
      slope[i]! += wins[i]![j]! - count * chance;
      system.matrix[i * n + i]! += weight;
      system.matrix[i * n + j]! -= weight;
    }
  }
  return { system, slope };
}

/** Standard deviation of ln(πᵢ/(1 − πᵢ)): abilities weighed by how the others share what is left. */
function logitSpreads(wins: Wins, ability: Float64Array, heard?: readonly Float64Array[]): number[] {
  const n = wins.length;
  const { system } = information(wins, ability);
  factorReal(system);
  const column = new Float64Array(n);
  return Array.from(ability, (_, i) => {
    const rest = ability.reduce((sum, a, j) => (j === i ? sum : sum + Math.exp(a)), 0);
    const weights = ability.map((a, j) => (j === i ? 1 : -Math.exp(a) / rest));
    solveReal(system, weights, column);
    if (!heard) return Math.sqrt(weights.reduce((sum, weight, j) => sum + weight * column[j]!, 0));
    const squares = heard.reduce((sum, slope) => sum + slope.reduce((dot, s, j) => dot + s * column[j]!, 0) ** 2, 0);
    return Math.sqrt((heard.length / (heard.length - 1)) * squares);
  });
}

function listed(names: readonly string[]): string {
  const shown = names.slice(0, 5).join(", ");
  return names.length > 5 ? `${shown} and ${names.length - 5} more` : shown;
}
