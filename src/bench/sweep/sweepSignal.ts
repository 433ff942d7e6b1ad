/** An exponential sweep as it was sent: level·sin(2π·start·L·(e^{t/L} − 1)), L = duration/ln(stop/start), no fades. */
export interface Sweep {
  readonly start_Hz: number;
  readonly stop_Hz: number;
  readonly duration_s: number;
}

/** Time in which the sweep's frequency grows by a factor e. */
export function growth_s({ start_Hz, stop_Hz, duration_s }: Sweep): number {
  return duration_s / Math.log(stop_Hz / start_Hz);
}

/**
 * Sine of `order` times the sweep's phase, as a recorder sees it whose clock runs slow by `stretch` against the
 * player's; it ends where its frequency would pass half the sample rate.
 *
 * @param first  sample to begin with, counted from the sweep's start; before that there is silence
 * @param count  samples wanted, silent beyond the end; up to the end where left out
 */
export function orderSweep(
  sweep: Sweep,
  order: number,
  rate_Hz: number,
  stretch: number,
  first = 0,
  count?: number,
): Float64Array {
  const L = growth_s(sweep);
  const highest_s = L * Math.log((0.4999 * rate_Hz) / (order * sweep.start_Hz * (1 + stretch)));
  const last_s = Math.min(sweep.duration_s, highest_s);
  const end = Math.max(1, Math.ceil((last_s / (1 + stretch)) * rate_Hz));
  const samples = new Float64Array(count ?? Math.max(0, end - first));
  const turns = order * sweep.start_Hz * L;
  for (let n = Math.max(0, first); n < Math.min(end, first + samples.length); n++) {
    const phase = turns * Math.expm1(((1 + stretch) * n) / rate_Hz / L);
    samples[n - first] = Math.sin(2 * Math.PI * (phase - Math.floor(phase)));
  }
  return samples;
}

/** Share of the sweep's length by which each harmonic's window must stay clear of its neighbours. */
const clear = 0.9;

/** Longest half window of a response. */
export const longest_s = 1.5;
/** Responses this long are taken out of what counts as noise. */
export const explained_s = 0.3;
/** Periods that the window of a response holds on each side, where there is room. */
const periods = 60;
/** A window is never shorter: recorders answer with filters this long. */
const shortest_s = 0.012;

/** Half window in seconds for a response at a frequency. */
export function reach_s(frequency_Hz: number, room: number, least_s = shortest_s): number {
  return Math.min(room, longest_s, Math.max(least_s, periods / frequency_Hz));
}

/** Half length of the window in which the response of an order stands alone: its neighbours lie L·ln(n/m) off. */
export function room_s(sweep: Sweep, order: number): number {
  return clear * growth_s(sweep) * Math.log((order + 1) / order);
}
