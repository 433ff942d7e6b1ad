import type { GainSums } from "./gainSums.ts";
import { isLate, type Order } from "./question.ts";

/** Heat at the beginning and at the end, in mean costs of a set as they come. */
const HOT = 0.5;
const COLD = 1e-6;

/**
 * Betters sets whose members stand in their positions: two valves change places, at first also where that costs more,
 * ever less so. No set becomes dearer than the limit unless it was.
 *
 * @param sets  valves by position
 * @source S. Kirkpatrick, C. Gelatt and M. Vecchi, Optimization by simulated annealing, Science 220, 1983 (remembered)
 */
export function reseated(
  { own, shift }: GainSums,
  sets: readonly (readonly number[])[],
  { limit, hasTime }: Pick<Order, "limit" | "hasTime">,
  moves: number,
  random: () => number,
): number[][] {
  const channels = own.length;
  const positions = shift[0]!.length;
  const seats = sets.length * positions;
  const used = new Set(sets.flat());
  const at = Int32Array.from([...sets.flat(), ...[...shift.keys()].filter((v) => !used.has(v))]);
  const flat = Float64Array.from(shift.flat(2));
  const gains = new Float64Array(sets.length * channels);
  const costs = new Float64Array(sets.length);
  const one = new Float64Array(channels);
  const other = new Float64Array(channels);
  const spread = (of: Float64Array): number => {
    let low = of[0]!;
    let high = low;
    for (let c = 1; c < channels; c++) {
      const dB = of[c]!;
      if (dB < low) low = dB;
      else if (dB > high) high = dB;
    }
    return high - low;
  };
  sets.forEach((set, g) => {
    for (let c = 0; c < channels; c++) {
      one[c] = set.reduce((sum, v, k) => sum + shift[v]![k]![c]!, own[c]!);
      gains[g * channels + c] = one[c]!;
    }
    costs[g] = spread(one);
  });
  const usual = costs.reduce((a, b) => a + b, 0) / sets.length;
  let best = at.slice();
  let total = costs.reduce((a, b) => a + b, 0);
  let least = total;
  let heat = HOT * usual;
  const cooling = (COLD / HOT) ** (1 / Math.max(1, moves >> 8));
  for (let move = 0; move < moves; move++) {
    if ((move & 255) === 255) {
      heat *= cooling;
      if ((move & 16383) === 16383 && isLate({ hasTime })) break;
    }
    const i = Math.floor(random() * seats);
    const j = Math.floor(random() * at.length);
    const g = Math.floor(i / positions);
    const h = j < seats ? Math.floor(j / positions) : -1;
    if (i === j) continue;
    const k = i - g * positions;
    const v = at[i]!;
    const u = at[j]!;
    const ki = k * channels;
    const kj = (j - h * positions) * channels;
    const width = positions * channels;
    const out = v * width;
    const into = u * width;
    for (let c = 0; c < channels; c++) one[c] = gains[g * channels + c]! + flat[into + ki + c]! - flat[out + ki + c]!;
    if (h === g) for (let c = 0; c < channels; c++) one[c]! += flat[out + kj + c]! - flat[into + kj + c]!;
    const a = spread(one);
    let b = 0;
    let rise = a - costs[g]!;
    if (a > limit && a > costs[g]!) continue;
    if (h >= 0 && h !== g) {
      for (let c = 0; c < channels; c++) {
        other[c] = gains[h * channels + c]! + flat[out + kj + c]! - flat[into + kj + c]!;
      }
      b = spread(other);
      if (b > limit && b > costs[h]!) continue;
      rise += b - costs[h]!;
    }
    if (rise > 0 && rise > -heat * Math.log(random())) continue;
    at[i] = u;
    at[j] = v;
    gains.set(one, g * channels);
    costs[g] = a;
    if (h >= 0 && h !== g) {
      gains.set(other, h * channels);
      costs[h] = b;
    }
    total += rise;
    if (total < least - 1e-15) {
      least = total;
      if (heat < 1e-2 * usual || move > 0.5 * moves) best = at.slice();
    }
  }
  const kept = total <= least + 1e-15 ? at : best;
  return sets.map((_, g) => [...kept.subarray(g * positions, (g + 1) * positions)]);
}
