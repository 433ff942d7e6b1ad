/** One order of a family that follows a socket's phase. */
export interface FamilyLine {
  readonly order: number;
  readonly level_Vrms: number;
  readonly phase_cycles: number;
}

/** Points of one cycle, and the points beyond either end that interpolation reaches to. */
const cycle_points = 2048;
const beyond = 2;

/**
 * Adds Σ √2·level·cos(2π(order·cycles + phase)) to a signal, in place.
 *
 * One cycle is worked out once and read between its points by a cubic through four of them, which keeps the thirteenth
 * order to within 10⁻⁷ of itself.
 */
export function addFamily(into_V: Float64Array, cycles: Float64Array, lines: readonly FamilyLine[]): void {
  if (lines.length === 0) return;
  const cycle_V = Float64Array.from({ length: cycle_points + 2 * beyond }, (_, k) => {
    const at = (k - beyond) / cycle_points;
    return lines.reduce(
      (sum, { order, level_Vrms, phase_cycles }) =>
        sum + Math.SQRT2 * level_Vrms * Math.cos(2 * Math.PI * (order * at + phase_cycles)),
      0,
    );
  });
  for (let n = 0; n < into_V.length; n++) {
    const turned = cycles[n]!;
    const place = (turned - Math.floor(turned)) * cycle_points;
    const k = Math.floor(place);
    const t = place - k;
    const before = cycle_V[k + 1]!;
    const left = cycle_V[k + 2]!;
    const right = cycle_V[k + 3]!;
    const after = cycle_V[k + 4]!;
    const bend = left - right + (after - before) / 3;
    into_V[n]! +=
      left + t * (right - before / 3 - left / 2 - after / 6 + t * ((before + right) / 2 - left + (t * bend) / 2));
  }
}
