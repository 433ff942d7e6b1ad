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
