/** The step that all masses are multiples of, from how they are written: 0.1 g for 512.3 and 508.9. */
export function stepOf(masses: readonly number[]): number {
  for (const step of [1, 0.1, 0.01, 0.001]) {
    if (masses.every((mass) => Math.abs(mass / step - Math.round(mass / step)) < 1e-6)) return step;
  }
  return 0.0001;
}
