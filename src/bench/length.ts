import { BadInput } from "../maths/badInput.ts";
import { thinningFactor } from "../maths/spectra/thinOut.ts";

/** An answer takes no longer than this unless whoever asks grants more. */
export const usualSeconds = 10;

/**
 * Microseconds that a sample value costs, all channels counted: each as it stands in the file, and each that is left of
 * them where an analysis thins them out first. From the processor time taken on two cores that were busy with as much
 * again, so that an idle machine has about half of it to spare.
 */
const cost_us = {
  tone: { read: 0.12, thinned: 1.2 },
  noise: { read: 0.13, thinned: 1.2 },
  twoTone: { read: 7 },
  balance: { read: 0.2, thinned: 0.8 },
  sweep: { read: 1.6 },
  tap: { read: 0.5 },
  switchOn: { read: 2 },
} as const satisfies Record<string, { readonly read: number; readonly thinned?: number }>;

/** Band that figures need when nothing else is asked for. */
const usualBand_Hz = 20_000;

/** Sample values that an analysis gets through in a second. */
function perSecond(analysis: keyof typeof cost_us, rate_Hz: number): number {
  const cost: { readonly read: number; readonly thinned?: number } = cost_us[analysis];
  return 1e6 / (cost.read + (cost.thinned ?? 0) / thinningFactor(rate_Hz, usualBand_Hz));
}

/** @throws BadInput at `recording`: too short, or too long for the time granted */
export function refuseLength(
  analysis: keyof typeof cost_us,
  length: number,
  rate_Hz: number,
  channels: number,
  least_s: number,
  seconds = usualSeconds,
): void {
  if (length < least_s * rate_Hz) {
    throw new BadInput(
      "recording",
      `${(length / rate_Hz).toFixed(3)} s of sound`,
      `at least ${least_s} s`,
      "record longer; 8 s or more is better",
    );
  }
  const each = perSecond(analysis, rate_Hz);
  const most = Math.floor(each * Math.max(seconds, 1));
  if (length * channels > most) {
    throw new BadInput(
      "recording",
      `${length} samples of ${channels} channels`,
      `at most ${most} sample values in all channels together within ${seconds} s`,
      `cut the recording shorter, record at a lower rate, or grant seconds: ${Math.ceil((length * channels) / each)}`,
    );
  }
}
