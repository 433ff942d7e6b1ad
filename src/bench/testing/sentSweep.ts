import type { SweepInput } from "../sweep.ts";

/** The sweep as the contract writes it, started `before_s` into a recording by a player whose clock runs fast. */
export function sentSweep(rate_Hz: number, seconds: number, sweep: SweepInput, before_s: number, fast = 0) {
  const L = sweep.duration_s / Math.log(sweep.stop_Hz / sweep.start_Hz);
  return new Float64Array(Math.round(seconds * rate_Hz)).map((_, n) => {
    const t = (n / rate_Hz - before_s) * (1 + fast);
    if (t < 0 || t > sweep.duration_s) return 0;
    return (sweep.level_Vpk ?? 1) * Math.sin(2 * Math.PI * sweep.start_Hz * L * (Math.exp(t / L) - 1));
  });
}
