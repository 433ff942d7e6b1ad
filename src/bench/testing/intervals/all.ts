import { balanceDraws } from "./balance.ts";
import type { Draws } from "./draw.ts";
import { longNoiseDraws, noiseDraws } from "./noise.ts";
import { longSweepDraws, sweepDraws } from "./sweep.ts";
import { switchOnDraws } from "./switchOn.ts";
import { tapDraws } from "./tap.ts";
import { toneDraws } from "./tone.ts";
import { twoToneDraws } from "./twoTone.ts";

/** Every bench analysis whose intervals are held against the truth. */
export const allDraws: readonly Draws[] = [
  balanceDraws,
  noiseDraws,
  sweepDraws,
  switchOnDraws,
  tapDraws,
  toneDraws,
  twoToneDraws,
];

/** Those too long for the suite, drawn by command alone. */
export const longDraws: readonly Draws[] = [longNoiseDraws, longSweepDraws];
