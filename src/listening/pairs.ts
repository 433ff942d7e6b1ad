import { BadInput, quote } from "../maths/badInput.ts";
import { factorReal, realSystem, solveReal } from "../maths/linear/realLu.ts";
import { chiSquaredCdf } from "../maths/statistics/index.ts";

export interface Choice {
  readonly winner: string;
  readonly loser: string;
  /** How often; once if left out. */
  readonly times?: number;
}

export interface Ranked {
  readonly item: string;
  /** Share of the sum over all items; a to b is the odds that a is chosen over b. */
  readonly strength: number;
  readonly low: number;
  readonly high: number;
}

export type Ranking =
  | { readonly state: "solved"; readonly ranking: readonly Ranked[]; readonly p: number }
  | { readonly state: "undecided"; readonly reason: string; readonly unbeaten: readonly string[] };

const mostItems = 100;

/**
 * Ranks items that were compared in pairs.
 *
 *     P(i chosen over j) = πᵢ/(πᵢ + πⱼ),   Σπ = 1,   maximum likelihood                     Bradley and Terry
 *     p = P(χ²(items − 1) ≥ 2·(ℓ − N·ln ½))                                                against all equal
 *
 * @returns best first, each strength with a 95 % interval (normal in ln(π/(1 − π)), from the information matrix);
 *   undecided where some items never lost to the others, for then no maximum exists
 * @throws BadInput  an item against itself, a count that is not a whole number above 0, fewer than two items
 * @source  R. A. Bradley and M. E. Terry, Biometrika 39 (1952) 324-345; L. R. Ford, American Mathematical Monthly 64
 *   (1957) 28-33, for when a maximum exists (both from memory)
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
  const spreads = logitSpreads(wins, ability);
  const ranking = items
    .map((item, i): Ranked => {
      const strength = Math.exp(ability[i]!) / sum;
      const logit = Math.log(strength) - Math.log1p(-strength);
      const reach = 1.959963984540054 * spreads[i]!;
      return { item, strength, low: logistic(logit - reach), high: logistic(logit + reach) };
    })
    .sort((a, b) => b.strength - a.strength);
  const deviance = Math.max(
    0,
    2 * (logLikelihood(wins, ability) - logLikelihood(wins, new Float64Array(items.length))),
  );
  return { state: "solved", ranking, p: 1 - chiSquaredCdf(deviance, items.length - 1) };
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
function logitSpreads(wins: Wins, ability: Float64Array): number[] {
  const n = wins.length;
  const { system } = information(wins, ability);
  factorReal(system);
  const column = new Float64Array(n);
  return Array.from(ability, (_, i) => {
    const rest = ability.reduce((sum, a, j) => (j === i ? sum : sum + Math.exp(a)), 0);
    const weights = ability.map((a, j) => (j === i ? 1 : -Math.exp(a) / rest));
    solveReal(system, weights, column);
    return Math.sqrt(weights.reduce((sum, weight, j) => sum + weight * column[j]!, 0));
  });
}

function listed(names: readonly string[]): string {
  const shown = names.slice(0, 5).join(", ");
  return names.length > 5 ? `${shown} and ${names.length - 5} more` : shown;
}
