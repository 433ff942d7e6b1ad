import { BadInput } from "../maths/badInput.ts";

/** An answer takes no longer than this unless whoever asks grants more. */
const usualSeconds = 10;

/**
 * Sample values, all channels together, that each analysis gets through in the usual time: from the processor time it
 * took on two cores that were busy with as much again, so that an idle machine has about half of it to spare.
 */
const mostValues = {
  tone: 5_000_000,
  noise: 5_500_000,
  twoTone: 1_400_000,
  balance: 3_500_000,
  sweep: 1_000_000,
  tap: 2_000_000,
  switchOn: 5_000_000,
} as const;

/** @throws BadInput at `recording`: too short, or too long for the time granted */
export function refuseLength(
  analysis: keyof typeof mostValues,
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
  const perSecond = mostValues[analysis] / usualSeconds;
  const most = Math.floor(perSecond * Math.max(seconds, 1));
  if (length * channels > most) {
    throw new BadInput(
      "recording",
      `${length} samples of ${channels} channels`,
      `at most ${most} sample values in all channels together within ${seconds} s`,
      `cut the recording shorter, record at a lower rate, or grant seconds: ${Math.ceil((length * channels) / perSecond)}`,
    );
  }
}
