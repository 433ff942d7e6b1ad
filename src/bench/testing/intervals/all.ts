import { balanceDraws } from "./balance.ts";
import type { AskedDraws, Draws } from "./draw.ts";
import { agreeingStrayDraws, loudToneDraws } from "./longNoise.ts";
import { noiseDraws } from "./noise.ts";
import { longSweepDraws, sweepDraws } from "./sweep.ts";
import { switchOnDraws } from "./switchOn.ts";
import { tapDraws } from "./tap.ts";
import { toneDraws } from "./tone.ts";
import { twoToneDraws } from "./twoTone.ts";

/** Every bench analysis whose intervals are held against the truth. */
export const allDraws: readonly AskedDraws[] = [
  balanceDraws,
  noiseDraws,
  sweepDraws,
  switchOnDraws,
  tapDraws,
  toneDraws,
  twoToneDraws,
];

/** Those too long for the suite, drawn by command alone. */
export const longDraws: readonly Draws[] = [loudToneDraws, agreeingStrayDraws, longSweepDraws];
