export interface Settled {
  /** From the switch until it stays within the band; undefined when the record ends before that. */
  readonly settle_s?: number;
  readonly doubt_s: number;
}

/** Means this long stand for the voltage without its hum: a period of 50 Hz. */
const mean_s = 0.02;

/**
 * When a voltage that was switched on at sample 0 has come within a band about its rest to stay, by means of a fiftieth
 * of a second each.
 *
 * @param noise_V  standard deviation of such a mean
 */
export function settled(departure_V: Float64Array, rate_Hz: number, band_V: number, noise_V: number): Settled {
  const block = Math.max(1, Math.round(mean_s * rate_Hz));
  const means = new Float64Array(Math.floor(departure_V.length / block)).map((_, b) => {
    let sum = 0;
    for (let n = b * block; n < (b + 1) * block; n++) sum += departure_V[n]!;
    return sum / block;
  });
  const last = means.findLastIndex((mean) => Math.abs(mean) > band_V);
  if (last < 0) return { settle_s: 0, doubt_s: mean_s };
  if (last >= means.length - 2) return { doubt_s: 0 };
  const [from, to] = [Math.abs(means[last]!), Math.abs(means[last + 1]!)];
  const fall = Math.max(from - to, Number.MIN_VALUE);
  const share = Math.min(1, (from - band_V) / fall);
  const slope_V_per_s = fall / mean_s;
  return {
    settle_s: (last + 0.5 + share) * mean_s,
    doubt_s: Math.hypot(mean_s / 2, Math.min(departure_V.length / rate_Hz, (1.96 * noise_V) / slope_V_per_s)),
  };
}
