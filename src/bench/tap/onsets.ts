import type { Decay, Striking } from "./decays.ts";

/** Earlier and later than found, samples in which the onset is sought again. */
const onsetReach_s = [0.002, 0.0015] as const;

interface Onset {
  /** In samples; between two where that is likeliest. */
  readonly at: number;
  readonly doubt: number;
}

/** A tap falls anywhere between two samples: 95 % of one sample's width, halved. */
const withinSample = 0.475;

/**
 * When each tap fell: before it what it struck is silent, after it that rings beside what rang already. Every sample is weighed by how likely
 * noise makes what is left, and the tap fell within the sample before.
 */
export function refinedOnsets(
  signal: Float64Array,
  taps: readonly number[],
  starts: readonly number[],
  decays: readonly Decay[],
  struckDecays: readonly Decay[],
  { rate_Hz, noise_V2_per_Hz }: Striking,
): Onset[] {
  const noise_V2 = ((noise_V2_per_Hz.reduce((sum, V2) => sum + V2, 0) / noise_V2_per_Hz.length) * rate_Hz) / 2;
  return taps.map((tap, j) => {
    const from = Math.max(0, tap - Math.round(onsetReach_s[0] * rate_Hz));
    const to = Math.min(signal.length - 1, starts[j]! + Math.round(onsetReach_s[1] * rate_Hz));
    const at = (of: readonly Decay[], tapIndex: number, n: number) =>
      of.reduce((sum, { frequency_Hz, rate_per_s, amplitudes }) => {
        const t = (n - starts[tapIndex]!) / rate_Hz;
        const [a, b] = amplitudes[tapIndex]!;
        const turn = 2 * Math.PI * frequency_Hz * t;
        return sum + Math.exp(-rate_per_s * t) * (a * Math.cos(turn) - b * Math.sin(turn));
      }, 0);
    const costs = new Float64Array(to - from + 1);
    for (let n = from; n < to; n++) {
      const left = signal[n]! - (j > 0 ? at(decays, j - 1, n) : 0);
      // Moving the onset past this sample makes it silence instead of decay.
      costs[n + 1 - from] = costs[n - from]! + left ** 2 - (left - at(struckDecays, j, n)) ** 2;
    }
    const least = costs.reduce((a, b) => Math.min(a, b));
    const weights = costs.map((cost) => Math.exp((least - cost) / (2 * Math.max(noise_V2, Number.MIN_VALUE))));
    const whole = weights.reduce((a, b) => a + b, 0);
    const mean = weights.reduce((sum, weight, i) => sum + weight * i, 0) / whole;
    const variance = weights.reduce((sum, weight, i) => sum + weight * (i - mean) ** 2, 0) / whole;
    return { at: from + mean - 0.5, doubt: Math.hypot(withinSample, 1.96 * Math.sqrt(variance)) };
  });
}
