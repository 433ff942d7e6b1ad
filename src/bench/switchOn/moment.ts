/** Shortest quiet before the switch that tells where zero lies. */
export const leastQuiet_s = 0.1;
/** Departures below this share of the greatest are not yet the switch. */
const leastShare = 0.01;
/** Hum and hiss of so short a quiet reach further now and then; no noise of any recording reaches twice as far. */
const overQuiet = 2;
/** A beginning that strays so much further than the end was no quiet: the amplifier was on already. */
const movesAlready = 3;

/**
 * First sample at which a recording leaves what it was before: further off its first tenth of a second than that ever
 * strayed, and by a hundredth of the greatest departure.
 *
 * @returns undefined when it never does, 0 when the beginning itself moves more than the end
 */
export function momentOfSwitch(signal_V: Float64Array, rate_Hz: number): number | undefined {
  const [quiet, zero] = meanOf(signal_V.subarray(0, Math.round(leastQuiet_s * rate_Hz)));
  const strayed = farthest(quiet, zero);
  const [last, lastZero] = meanOf(signal_V.subarray(-quiet.length));
  if (strayed > movesAlready * farthest(last, lastZero)) return 0;
  const most = farthest(signal_V, zero);
  const threshold = Math.max(overQuiet * strayed, leastShare * most);
  const at = signal_V.findIndex((value) => Math.abs(value - zero) > threshold);
  return at < 0 ? undefined : at;
}

function meanOf(signal: Float64Array): [Float64Array, number] {
  return [signal, signal.reduce((sum, value) => sum + value, 0) / signal.length];
}

function farthest(signal: Float64Array, zero: number): number {
  let most = 0;
  for (let n = 0; n < signal.length; n++) most = Math.max(most, Math.abs(signal[n]! - zero));
  return most;
}

/** When a voltage left zero, counted in samples back from the first that was seen to have left it. */
export interface Onset {
  readonly before: number;
  /** 95 % half-width. */
  readonly doubt: number;
}

/** A jump fell anywhere between two samples: 95 % of one sample's width, halved. */
const withinSample: Onset = { before: 0.5, doubt: 0.475 };
/** Ratios of one rise to the one before that a first-order rise has: sudden, and slow. */
const [sudden, slow] = [0.05, 0.999];
/** What a rise of another form misplaces, in samples. */
const otherForm = 0.1;
const farthestBack = 50;

/**
 * How far before the first of these samples the voltage left zero, where they show its rise: with v₀ and its next two
 * rises d₁, d₂ on a first-order rise, r = d₂/d₁,
 *
 *     v = v∞·(1 − r^u),   v∞ = v₀ + d₁/(1 − r),   u = ln(1 − v₀/v∞)/ln r
 *
 * @param noise_V  standard deviation of a sample
 */
export function onsetBefore(after_V: Float64Array, noise_V: number): Onset {
  const [v0, v1, v2] = [0, 1, 2].map((n) => (after_V[n] ?? 0) * Math.sign(after_V[0]!)) as [number, number, number];
  const rise = v1 - v0;
  if (!(rise > 4 * noise_V) || !(v0 > 0)) return withinSample;
  const ratio = Math.max(sudden, Math.min(slow, (v2 - v1) / rise));
  const before = Math.log(1 - v0 / (v0 + rise / (1 - ratio))) / Math.log(ratio);
  if (!(before < farthestBack)) return withinSample;
  return { before, doubt: Math.hypot(otherForm, (1.96 * noise_V * (1 + 2 * before)) / rise) };
}
