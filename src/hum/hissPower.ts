export interface HissPoint {
  readonly frequency_Hz: number;
  readonly V_per_rtHz: number;
}

/**
 * Power of a hiss between two frequencies, its density a straight line in dB over log f between the points given and
 * level beyond the first and the last.
 *
 *     P(a, b) = ∫ₐᵇ e(f)² df
 *
 * @param points  at least one; densities ≥ 0, frequencies above 0, in any order
 * @returns a function of the band's edges [Hz] giving power [V²]
 * @remarks Next to a point of zero density the line is straight in power instead.
 */
export function hissPower(points: readonly HissPoint[]): (low_Hz: number, high_Hz: number) => number {
  const sorted = points.toSorted((a, b) => a.frequency_Hz - b.frequency_Hz);
  const frequencies = sorted.map((point) => point.frequency_Hz);
  const densities = sorted.map((point) => point.V_per_rtHz ** 2);
  const upTo = [0];
  for (let i = 1; i < sorted.length; i++) upTo.push(upTo[i - 1]! + piece(i, frequencies[i]!));

  function piece(i: number, end_Hz: number): number {
    const start_Hz = frequencies[i - 1]!;
    const from = densities[i - 1]!;
    const to = densities[i]!;
    const width = frequencies[i]! - start_Hz;
    if (width <= 0 || end_Hz <= start_Hz) return 0;
    if (from === 0 || to === 0) {
      const reached = (end_Hz - start_Hz) / width;
      return (end_Hz - start_Hz) * (from + ((to - from) * reached) / 2);
    }
    const slope = Math.log(to / from) / Math.log(frequencies[i]! / start_Hz);
    const octaves = Math.log(end_Hz / start_Hz);
    const power = (slope + 1) * octaves;
    return from * start_Hz * octaves * (Math.abs(power) < 1e-9 ? 1 : Math.expm1(power) / power);
  }

  function integral(end_Hz: number): number {
    const last = frequencies.length - 1;
    if (end_Hz <= frequencies[0]!) return (end_Hz - frequencies[0]!) * densities[0]!;
    if (end_Hz >= frequencies[last]!) return upTo[last]! + (end_Hz - frequencies[last]!) * densities[last]!;
    let low = 0;
    let high = last;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (frequencies[middle]! <= end_Hz) low = middle;
      else high = middle;
    }
    return upTo[low]! + piece(high, end_Hz);
  }

  return (low_Hz, high_Hz) => Math.max(0, integral(high_Hz) - integral(low_Hz));
}
