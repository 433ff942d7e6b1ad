import type { PastPiece } from "./pastPieces.ts";
import type { EarlyWeighingView } from "./views.ts";

/** Where a limit would be set: four of five whole pieces pass it. */
const passing = 0.8;
/** Fewer pieces than these tell nothing. */
const fewest = 8;

/**
 * Whether pieces that cracked were wetter, as they were laid on the plate, than those that stayed whole: what a
 * weighing then would have held back. By each piece's own course, not by what anybody thought at the time.
 */
export function earlyWeighing(past: readonly PastPiece[]): EarlyWeighingView {
  const cracked = past.filter(({ isCracked }) => isCracked);
  const whole = past
    .filter(({ isCracked }) => !isCracked)
    .map(({ laid_pct }) => laid_pct)
    .toSorted((a, b) => a - b);
  const base = { cracked: cracked.length, whole: whole.length };
  if (cracked.length < fewest || whole.length < fewest) {
    return {
      ...base,
      held: 0,
      words: `Too few pieces went over the plate to tell: ${cracked.length} cracked and ${whole.length} whole, ${fewest} of each are needed.`,
    };
  }
  const limit_pct = whole[Math.floor(passing * (whole.length - 1))]!;
  const held = cracked.filter(({ laid_pct }) => laid_pct > limit_pct).length;
  return {
    ...base,
    limit_pct,
    held,
    share: held / cracked.length,
    words: `${held} of ${cracked.length} pieces that cracked lay on the plate wetter than ${limit_pct.toFixed(1)} %, which four of five whole ones were below: a weighing on leaving the chamber would have held them back, before any sanding.`,
  };
}
