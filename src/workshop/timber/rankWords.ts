import type { Calculate } from "../calculate.ts";
import type { Life } from "./life.ts";
import type { PastPiece } from "./pastPieces.ts";

interface Ranked {
  readonly checkRank?: number;
  readonly checkChance?: { readonly value: number; readonly low: number; readonly high: number };
}

/** Where a piece's check index stands among the shop's own past pieces of its species, in words. */
export async function rankWords({ question }: Life, past: readonly PastPiece[], calculate: Calculate): Promise<string> {
  if (past.length === 0) return "No other piece of this species went over the plate here: nothing to rank it by.";
  const { checkRank, checkChance } = await calculate<Ranked>("timber.piece", {
    ...question,
    past: past.map(({ checkIndex, isCracked }) => ({ checkIndex: Number(checkIndex.toFixed(4)), cracked: isCracked })),
  });
  const below = Math.round((checkRank ?? 0) * past.length);
  const cracked = past.filter(({ isCracked }) => isCracked).length;
  const rank =
    below === 0
      ? `Lower, so far, than all ${past.length} past pieces of this species`
      : below === past.length
        ? `Higher than all ${past.length} past pieces of this species`
        : `Higher than ${below} of ${past.length} past pieces of this species`;
  const percent = (share: number) => Math.round(100 * share);
  const chance = checkChance
    ? ` Of those nearest to it ${percent(checkChance.value)} % cracked (${percent(checkChance.low)} to ${percent(checkChance.high)} %): the shop's own record.`
    : ` The shop's record is too short to make a chance of it.`;
  return `${rank}; ${cracked === 0 ? "none" : cracked} of them cracked.${chance}`;
}
