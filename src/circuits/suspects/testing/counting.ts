import type { SuspectsAnswer } from "../suspects.ts";
import type { TrueFault } from "./faultyUnit.ts";

/** Faults of equal odds share a place; 1 is the first, Infinity not named at all. */
export function placeOf({ suspects }: SuspectsAnswer, { part, fault }: TrueFault): number {
  const found = suspects.find((suspect) => suspect.part === part && suspect.fault === fault);
  if (found === undefined) return Number.POSITIVE_INFINITY;
  return 1 + new Set(suspects.filter(({ odds }) => odds > found.odds).map(({ odds }) => odds)).size;
}

/** More than this many failures in n would be met once in a thousand if each had this chance. */
export function mostByChance(n: number, chance: number): number {
  let term = (1 - chance) ** n;
  let sum = term;
  let k = 0;
  while (sum < 0.999 && k < n) {
    k++;
    term *= ((n - k + 1) / k) * (chance / (1 - chance));
    sum += term;
  }
  return k;
}
