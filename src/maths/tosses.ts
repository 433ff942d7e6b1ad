import type { Random } from "./random.ts";

/** Tosses of a fair coin. */
export function tosses(count: number, chance: Random): readonly boolean[] {
  return Array.from({ length: count }, () => chance.uniform() < 0.5);
}

/** Half of them true, half false, in drawn order; of an odd number the one over is tossed for. */
export function halves(count: number, chance: Random): readonly boolean[] {
  const ways = Array.from({ length: count }, (_, i) => i % 2 === 0);
  if (count % 2 === 1 && chance.uniform() < 0.5) ways[count - 1] = false;
  for (let i = count - 1; i > 0; i--) {
    const j = chance.integer(i + 1);
    [ways[i], ways[j]] = [ways[j]!, ways[i]!];
  }
  return ways;
}
