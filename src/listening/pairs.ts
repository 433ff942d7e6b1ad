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
  /** Which of the two was played first, so that a liking for the first or the second playing is not taken for taste. */
  readonly first?: string;
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
      readonly order?: OrderOfPlaying;
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

/** What playing first does by itself. */
export type OrderOfPlaying =
  | {
      readonly state: "solved";
      /** Odds that the first playing is chosen of two items that are alike; 1 where the order does nothing. */
      readonly odds: number;
      readonly low: number;
      readonly high: number;
    }
  | { readonly state: "undecided"; readonly reason: string };

const mostItems = 100;
/** With fewer, nothing can be said of listeners in general. */
const leastListeners = 3;

/**
 * Ranks items that were compared in pairs.
 *
 *     P(i chosen over j) = πᵢ/(πᵢ + πⱼ),   Σπ = 1,   maximum likelihood                     Bradley and Terry
 *     P(i chosen over j, i played first) = ω·πᵢ/(ω·πᵢ + πⱼ)                                 where all choices say so
 *     p = P(χ²(items − 1) ≥ 2·(ℓ − ℓ₀)),   ℓ₀ with all items alike                          against all equal
 *
 * Where every choice names its listener, of three or more, intervals are those of listeners and not of choices:
 *
 *     V = H⁻¹·(L/(L − 1)·Σ gₗgₗᵀ)·H⁻¹,   gₗ = wins − expected wins of listener l,   t with L − 1 degrees of freedom
 *
 * @returns best first, each strength with a 95 % interval (normal, or t, in ln(π/(1 − π)));
 *   undecided where some items never lost to the others, for then no maximum exists; the order of playing undecided by
 *   itself where it can't be told from the items, or one playing was always chosen
 * @throws BadInput  an item against itself, a count that is not a whole number above 0, fewer than two items, a first
 *   playing that is neither of the two
 * @source  R. A. Bradley and M. E. Terry, Biometrika 39 (1952) 324-345; L. R. Ford, American Mathematical Monthly 64
 *   (1957) 28-33, for when a maximum exists; the order effect as a factor: R. R. Davidson and R. J. Beaver, Biometrics 33
 *   (1977) 693-702 (all from memory); variance by clusters: K.-Y. Liang and S. L. Zeger, Biometrika 73 (1986) 13-22
 *   (from memory)
 */
export function rankPairs(choices: readonly Choice[]): Ranking {
  const { items, cells, isOrdered } = tally(choices);
  const unbeaten = unbeatenGroup(items.length, cells);
  if (unbeaten) {
    const names = unbeaten.map((i) => items[i]!);
    return {
      state: "undecided",
      reason: `${listed(names)} never lost to the other items, so no strengths are most likely; more comparisons of these with the others, or a model that allows for fewer, would decide.`,
      unbeaten: names,
    };
  }
  const blurred = isOrdered ? orderBlurred(items.length, cells) : undefined;
  const model: Model = { count: items.length, cells, hasOrder: isOrdered && blurred === undefined };
  const fit = mostLikely(model);
  const ability = fit.subarray(0, items.length);
  const sum = ability.reduce((total, a) => total + Math.exp(a), 0);
  const heard = byListener(choices, items, model, fit);
  const plain = spreadsOf(model, fit);
  const robust = heard && spreadsOf(model, fit, heard);
  const spreads = robust ?? plain;
  const factor = heard ? tQuantile(0.975, heard.length - 1) : 1.959963984540054;
  const ranking = items
    .map((item, i): Ranked => {
      const strength = Math.exp(ability[i]!) / sum;
      const logit = Math.log(strength) - Math.log1p(-strength);
      const reach = factor * spreads.items[i]!;
      return { item, strength, low: logistic(logit - reach), high: logistic(logit + reach) };
    })
    .sort((a, b) => b.strength - a.strength);
  const deviance = Math.max(0, 2 * (logLikelihood(model, fit) - alikeLikelihood(model)));
  return {
    state: "solved",
    ranking,
    p: 1 - chiSquaredCdf(deviance, items.length - 1),
    ...(isOrdered && { order: blurred ?? orderTold(fit.at(-1)!, factor * spreads.order!) }),
    ...(heard && robust
      ? {
          listeners: {
            count: heard.length,
            spread: robust.items.reduce((total, r, i) => total + (r / plain.items[i]!) ** 2, 0) / robust.items.length,
            ...unevenness(model, fit, heard),
          },
        }
      : {}),
  };
}

const orderTold = (effect: number, reach: number): OrderOfPlaying => ({
  state: "solved",
  odds: Math.exp(effect),
  low: Math.exp(effect - reach),
  high: Math.exp(effect + reach),
});

/** A choice and how often it was made; `sign` 1 where the winner was played first, −1 where the loser was, 0 unsaid. */
interface Cell {
  readonly winner: number;
  readonly loser: number;
  readonly sign: number;
  times: number;
}

/** Parameters are the items' abilities, and after them the effect of playing first where there is one. */
interface Model {
  readonly count: number;
  readonly cells: readonly Cell[];
  readonly hasOrder: boolean;
}

/** What each listener chose beyond what the common strengths expect; nothing unless all choices name one. */
function byListener(
  choices: readonly Choice[],
  items: readonly string[],
  { count, hasOrder }: Model,
  fit: Float64Array,
): Float64Array[] | undefined {
  if (choices.some(({ listener }) => listener === undefined)) return undefined;
  const at = new Map(items.map((item, i) => [item, i]));
  const slopes = new Map<string, Float64Array>();
  for (const { winner, loser, times = 1, listener, first } of choices) {
    const own = slopes.get(listener!) ?? new Float64Array(fit.length);
    slopes.set(listener!, own);
    const [w, l] = [at.get(winner)!, at.get(loser)!];
    const sign = hasOrder ? signOf(winner, first) : 0;
    const surprise = times * (1 - logistic(fit[w]! - fit[l]! + (hasOrder ? sign * fit[count]! : 0)));
    own[w]! += surprise;
    own[l]! -= surprise;
    if (hasOrder) own[count]! += sign * surprise;
  }
  return slopes.size >= leastListeners ? [...slopes.values()] : undefined;
}

/** Hotelling's test of all abilities alike, listeners being the independent ones. */
function unevenness(model: Model, fit: Float64Array, heard: readonly Float64Array[]): { p?: number } {
  const [k, L] = [model.count, heard.length];
  if (L <= k) return {};
  const { system } = information(model, fit);
  factorReal(system);
  const moved = heard.map((slope) => {
    const column = new Float64Array(fit.length);
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
  const contrast = Float64Array.from({ length: k - 1 }, (_, i) => fit[i]! - fit[k - 1]!);
  const solved = new Float64Array(k - 1);
  factorReal(inner);
  solveReal(inner, contrast, solved);
  const t2 = contrast.reduce((sum, c, i) => sum + c * solved[i]!, 0);
  const f = ((L - k + 1) / ((L - 1) * (k - 1))) * t2;
  return Number.isFinite(f) && f >= 0 ? { p: 1 - fCdf(f, k - 1, L - k + 1) } : {};
}

const logistic = (x: number) => 1 / (1 + Math.exp(-x));
const signOf = (winner: string, first: string | undefined) => (first === undefined ? 0 : first === winner ? 1 : -1);

function tally(choices: readonly Choice[]): { items: string[]; cells: Cell[]; isOrdered: boolean } {
  const items = [...new Set(choices.flatMap(({ winner, loser }) => [winner, loser]))];
  if (items.length < 2) throw new BadInput("choices", `${items.length} items`, "at least 2", "add comparisons");
  if (items.length > mostItems) {
    throw new BadInput("choices", `${items.length} items`, `${mostItems} at most`, "rank the best of them");
  }
  const at = new Map(items.map((item, i) => [item, i]));
  const cells = new Map<string, Cell>();
  choices.forEach(({ winner, loser, times = 1, first }, i) => {
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
    if (first !== undefined && first !== winner && first !== loser) {
      throw new BadInput(
        `choices[${i}].first`,
        quote(first),
        `${quote(winner)} or ${quote(loser)}, the two that were played`,
        "name the one played first",
      );
    }
    const sign = signOf(winner, first);
    const key = `${at.get(winner)} ${at.get(loser)} ${sign}`;
    const known = cells.get(key);
    if (known) known.times += times;
    else cells.set(key, { winner: at.get(winner)!, loser: at.get(loser)!, sign, times });
  });
  return { items, cells: [...cells.values()], isOrdered: choices.every(({ first }) => first !== undefined) };
}

/**
 * A group that never lost to the rest. There is none just when from every item a chain of wins leads to every other.
 */
function unbeatenGroup(count: number, cells: readonly Cell[]): number[] | undefined {
  const beatenBy: number[][] = Array.from({ length: count }, () => []);
  for (const { winner, loser } of cells) beatenBy[loser]!.push(winner);
  for (let start = 0; start < count; start++) {
    const group = new Set([start]);
    for (const i of group) for (const j of beatenBy[i]!) group.add(j);
    if (group.size < count) return [...group];
  }
  return undefined;
}

/** Why the order of playing can't be told apart; nothing where it can. */
function orderBlurred(count: number, cells: readonly Cell[]): OrderOfPlaying | undefined {
  const chosenFirst = cells.some(({ sign }) => sign > 0);
  const chosenSecond = cells.some(({ sign }) => sign < 0);
  if (!chosenFirst || !chosenSecond) {
    return {
      state: "undecided",
      reason: `The ${chosenFirst ? "first" : "second"} playing was chosen every time, so no strength of that habit is most likely.`,
    };
  }
  const model: Model = { count, cells, hasOrder: true };
  const { system } = information(model, new Float64Array(count + 1));
  const own = system.matrix[count * (count + 1) + count]!;
  const across = Float64Array.from({ length: count }, (_, i) => system.matrix[i * (count + 1) + count]!);
  const items = information({ count, cells, hasOrder: false }, new Float64Array(count)).system;
  factorReal(items);
  const explained = new Float64Array(count);
  solveReal(items, across, explained);
  const left = own - across.reduce((sum, a, i) => sum + a * explained[i]!, 0);
  const runsAway = left > 1e-9 * own && Math.max(...mostLikely(model).map(Math.abs)) > farthest;
  if (left > 1e-9 * own && !runsAway) return undefined;
  return {
    state: "undecided",
    reason: runsAway
      ? "Item and order of playing together say every choice, so no strength of that habit is most likely; more comparisons would decide."
      : "The same item was always played first, so order and item can't be told apart: play each pair both ways round.",
  };
}

/** Beyond it a maximum is held not to exist: odds of more than a hundred million. */
const farthest = 18;

function logLikelihood({ count, cells, hasOrder }: Model, fit: Float64Array): number {
  let sum = 0;
  for (const { winner, loser, sign, times } of cells) {
    const lead = fit[winner]! - fit[loser]! + (hasOrder ? sign * fit[count]! : 0);
    sum -= times * Math.log1p(Math.exp(-lead));
  }
  return sum;
}

/** The likelihood with all items alike, the order of playing still free. */
function alikeLikelihood({ cells, hasOrder }: Model): number {
  const all = cells.reduce((sum, { times }) => sum + times, 0);
  if (!hasOrder) return -all * Math.LN2;
  const first = cells.reduce((sum, { sign, times }) => sum + (sign > 0 ? times : 0), 0);
  const part = (count: number) => (count === 0 ? 0 : count * Math.log(count / all));
  return part(first) + part(all - first);
}

/** Newton's steps on the concave likelihood, halved where they overshoot; abilities sum to 0. */
function mostLikely(model: Model): Float64Array {
  const n = model.count + (model.hasOrder ? 1 : 0);
  let fit = new Float64Array(n);
  let best = logLikelihood(model, fit);
  const step = new Float64Array(n);
  for (let round = 0; round < 200; round++) {
    const { system, slope } = information(model, fit);
    factorReal(system);
    solveReal(system, slope, step);
    let scale = 1;
    let next = fit.map((a, i) => a + step[i]!);
    while (logLikelihood(model, next) < best && scale > 1e-6) {
      scale /= 2;
      next = fit.map((a, i) => a + scale * step[i]!);
    }
    [fit, best] = [next, Math.max(best, logLikelihood(model, next))];
    if (Math.max(...step.map(Math.abs)) < 1e-12 || Math.max(...fit.map(Math.abs)) > 2 * farthest) break;
  }
  return fit;
}

/** Information matrix, with the one direction that no choice speaks of (all abilities alike) tied to 0. */
function information({ count, cells, hasOrder }: Model, fit: Float64Array) {
  const n = count + (hasOrder ? 1 : 0);
  const system = realSystem(n);
  const slope = new Float64Array(n);
  const { matrix } = system;
  for (let i = 0; i < count; i++) for (let j = 0; j < count; j++) matrix[i * n + j] = 1 / count;
  for (const { winner, loser, sign, times } of cells) {
    const chance = logistic(fit[winner]! - fit[loser]! + (hasOrder ? sign * fit[count]! : 0));
    const weight = times * chance * (1 - chance);
    const surprise = times * (1 - chance);
    slope[winner]! += surprise;
    slope[loser]! -= surprise;
    matrix[winner * n + winner]! += weight;
    matrix[loser * n + loser]! += weight;
    matrix[winner * n + loser]! -= weight;
    matrix[loser * n + winner]! -= weight;
    if (!hasOrder) continue;
    slope[count]! += sign * surprise;
    matrix[count * n + count]! += weight * sign * sign;
    for (const [item, side] of [
      [winner, sign],
      [loser, -sign],
    ] as const) {
      matrix[item * n + count]! += weight * side;
      matrix[count * n + item]! += weight * side;
    }
  }
  return { system, slope };
}

/** Standard deviations of ln(πᵢ/(1 − πᵢ)), abilities weighed by how the others share what is left, and of the order's effect. */
function spreadsOf(
  model: Model,
  fit: Float64Array,
  heard?: readonly Float64Array[],
): { readonly items: readonly number[]; readonly order?: number } {
  const { count, hasOrder } = model;
  const { system } = information(model, fit);
  factorReal(system);
  const column = new Float64Array(fit.length);
  const spread = (weights: Float64Array) => {
    solveReal(system, weights, column);
    if (!heard) return Math.sqrt(weights.reduce((sum, weight, j) => sum + weight * column[j]!, 0));
    const squares = heard.reduce((sum, slope) => sum + slope.reduce((dot, s, j) => dot + s * column[j]!, 0) ** 2, 0);
    return Math.sqrt((heard.length / (heard.length - 1)) * squares);
  };
  const items = Array.from({ length: count }, (_, i) => {
    let rest = 0;
    for (let j = 0; j < count; j++) if (j !== i) rest += Math.exp(fit[j]!);
    return spread(fit.map((a, j) => (j === i ? 1 : j < count ? -Math.exp(a) / rest : 0)));
  });
  return hasOrder ? { items, order: spread(fit.map((_, j) => (j === count ? 1 : 0))) } : { items };
}

function listed(names: readonly string[]): string {
  const shown = names.slice(0, 5).join(", ");
  return names.length > 5 ? `${shown} and ${names.length - 5} more` : shown;
}
