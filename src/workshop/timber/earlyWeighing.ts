import type { Yard } from "../../claims/timber/yard.ts";
import type { EarlyWeighingView } from "./views.ts";

type MoistureAt = (
  piece: string,
  at: string,
) => Promise<{ readonly mean_pct: number; readonly doubt_pct: number } | { readonly wanting: string }>;

/** Where a limit would be set: four of five whole pieces pass it. */
const passing = 0.8;
/** Fewer pieces than these tell nothing. */
const fewest = 8;

/**
 * Whether pieces that cracked were wetter, as they were laid on the plate, than those that stayed whole: what a
 * weighing then would have held back. By each piece's own course, not by what anybody thought at the time.
 */
export async function earlyWeighing(yard: Yard, moistureAt: MoistureAt): Promise<EarlyWeighingView> {
  const plated = yard.pieces.flatMap((piece) => {
    const entries = yard.entriesOf(piece);
    const laid = entries.find(({ body }) => body.kind === "stood" && yard.places.get(body.place)?.what === "plate");
    if (!laid) return [];
    const own = [piece, ...(yard.state(piece)?.into ?? [])];
    const isCracked = own.some((one) =>
      yard.entriesOf(one).some(({ body }) => body.kind === "flaw" && body.flaw === "crack"),
    );
    return [{ piece, at: laid.at, isCracked }];
  });
  const read = await Promise.all(
    plated.map(async (one) => ({ ...one, moisture: await moistureAt(one.piece, one.at) })),
  );
  const known = read.flatMap(({ isCracked, moisture }) =>
    "wanting" in moisture ? [] : [{ isCracked, mean_pct: moisture.mean_pct }],
  );
  const cracked = known.filter(({ isCracked }) => isCracked);
  const whole = known
    .filter(({ isCracked }) => !isCracked)
    .map(({ mean_pct }) => mean_pct)
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
  const held = cracked.filter(({ mean_pct }) => mean_pct > limit_pct).length;
  return {
    ...base,
    limit_pct,
    held,
    share: held / cracked.length,
    words: `${held} of ${cracked.length} pieces that cracked lay on the plate wetter than ${limit_pct.toFixed(1)} %, which four of five whole ones were below: a weighing on leaving the chamber would have held them back, before any sanding.`,
  };
}
