/** A wave at uneven moments, straight between them. */
export interface UnevenWave {
  readonly time_s: readonly number[];
  readonly volts: readonly number[];
}

/**
 * Levels of the multiples of a frequency in a wave, over as many whole periods as it holds.
 *
 *     level_n = √2/T · |∫ (v − drift)·e^(−2πi·n·f·t) dt|
 *
 * A straight drift from the first period's value to the last's is taken out; the integral is exact for straight pieces.
 */
export function rippleOf(
  { time_s, volts }: UnevenWave,
  frequency_Hz: number,
  orders: number,
): { order: number; level_Vrms: number }[] {
  const end_s = time_s.at(-1)!;
  const periods = Math.floor((end_s - time_s[0]!) * frequency_Hz + 1e-6);
  if (periods < 1) return [];
  const begin_s = end_s - periods / frequency_Hz;
  const from = valueAt(time_s, volts, begin_s);
  const drift = (volts.at(-1)! - from) / (end_s - begin_s);
  const first = time_s.findIndex((t) => t > begin_s);
  const t = [begin_s, ...time_s.slice(first)];
  const v = [from, ...volts.slice(first)].map((value, i) => value - drift * (t[i]! - begin_s));
  return Array.from({ length: orders }, (_, k) => {
    const omega = 2 * Math.PI * (k + 1) * frequency_Hz;
    let re = 0;
    let im = 0;
    for (let i = 1; i < t.length; i++) {
      // ∫ of a straight piece times e^(−iωt): by parts, the slope's share over ω².
      const slope = (v[i]! - v[i - 1]!) / (t[i]! - t[i - 1]!);
      const [a, b] = [omega * (t[i - 1]! - begin_s), omega * (t[i]! - begin_s)];
      re +=
        (v[i]! * Math.sin(b) - v[i - 1]! * Math.sin(a)) / omega + (slope * (Math.cos(b) - Math.cos(a))) / omega ** 2;
      im +=
        (v[i]! * Math.cos(b) - v[i - 1]! * Math.cos(a)) / omega - (slope * (Math.sin(b) - Math.sin(a))) / omega ** 2;
    }
    return { order: k + 1, level_Vrms: (Math.SQRT2 * Math.hypot(re, im)) / (end_s - begin_s) };
  });
}

function valueAt(time_s: readonly number[], volts: readonly number[], at_s: number): number {
  const next = time_s.findIndex((t) => t >= at_s);
  if (next <= 0) return volts[0]!;
  const share = (at_s - time_s[next - 1]!) / (time_s[next]! - time_s[next - 1]!);
  return volts[next - 1]! + share * (volts[next]! - volts[next - 1]!);
}
