export interface Settled {
  /** From the switch until it stays within the band; undefined when the record ends before that. */
  readonly settle_s?: number;
  readonly doubt_s: number;
}

/** Means this long stand for the voltage without its hum: a period of 50 Hz. */
const mean_s = 0.02;

/** From one mean to the next a voltage is taken to fall by no more than this power of e. */
const steepest = 3;
/** Share of a mean's length within which a fall that is no exponential is placed. */
const resolution = 0.004;

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
  // Between two means it falls as an exponential does, whose mean lies a little above its middle.
  const fall = Math.min(steepest, Math.log(from / Math.max(to, Number.MIN_VALUE)));
  const half = fall / 2;
  const lift = half > 0 ? Math.log(Math.sinh(half) / half) : 0;
  const share = fall > 0 ? Math.max(0, Math.min(1, (Math.log(from / band_V) - lift) / fall)) : 1;
  const slope_V_per_s = (band_V * Math.max(fall, Number.MIN_VALUE)) / mean_s;
  return {
    settle_s: (last + 0.5 + share) * mean_s,
    doubt_s: Math.hypot(resolution * mean_s, Math.min(departure_V.length / rate_Hz, (1.96 * noise_V) / slope_V_per_s)),
  };
}
