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
 */
export function orderSweep(sweep: Sweep, order: number, rate_Hz: number, stretch: number): Float64Array {
  const L = growth_s(sweep);
  const highest_s = L * Math.log((0.4999 * rate_Hz) / (order * sweep.start_Hz * (1 + stretch)));
  const last_s = Math.min(sweep.duration_s, highest_s);
  const samples = new Float64Array(Math.max(1, Math.ceil((last_s / (1 + stretch)) * rate_Hz)));
  const turns = order * sweep.start_Hz * L;
  for (let n = 0; n < samples.length; n++) {
    const phase = turns * Math.expm1(((1 + stretch) * n) / rate_Hz / L);
    samples[n] = Math.sin(2 * Math.PI * (phase - Math.floor(phase)));
  }
  return samples;
}

/** Share of the sweep's length by which each harmonic's window must stay clear of its neighbours. */
const clear = 0.9;

/** Half length of the window in which the response of an order stands alone: its neighbours lie L·ln(n/m) off. */
export function room_s(sweep: Sweep, order: number): number {
  return clear * growth_s(sweep) * Math.log((order + 1) / order);
}
