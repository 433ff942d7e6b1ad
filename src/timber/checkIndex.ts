import type { Species } from "./species.ts";
import { partingStrain, tangentialOf } from "./strength.ts";

/** The shop's own pieces of the species: the index each reached, and whether it checked. */
export type PastPieces = readonly { readonly checkIndex: number; readonly cracked: boolean }[];

export interface CheckIndex {
  readonly index: number;
  readonly doubt: number;
  /** Share of the shop's past pieces of this species that stayed below this index. */
  readonly rank?: number;
  /** Left out until the shop's records justify it. */
  readonly chance?: { readonly value: number; readonly low: number; readonly high: number; readonly pieces: number };
  readonly words: string;
}

/** Cracked and whole pieces, near this index, from which a share may be told as a chance. */
export const enough = { cracked: 8, whole: 8, near: 30 } as const;

/**
 * Strain that the face wanted to shrink by beyond the mean, over the strain at which wood parts; and where it stands
 * among the shop's own past pieces.
 *
 *     index = (mean − face)·C_T / ε,      near an index: the third of past pieces nearest to it, 30 at least
 *     chance = (cracked + 1)/(near + 2), with Wilson's 95 % interval: only from 8 cracked, 8 whole and 30 near ones on
 *
 * @param steepest_pct  most that an open face was drier than the mean
 * @remarks Elastic: creep relieves a large part of the stress. Until the records justify a chance it is an index to
 *   rank by, never a probability. Which board checks cannot be told.
 */
export function checkIndexOf(steepest_pct: number, species?: Species, past: PastPieces = []): CheckIndex {
  const [movement, strain] = [tangentialOf(species), partingStrain(species)];
  const index = (steepest_pct * movement.value) / strain.value;
  const spread = Math.hypot(
    (movement.high - movement.low) / (2 * movement.value),
    (strain.high - strain.low) / (2 * strain.value),
  );
  const base = { index, doubt: index * spread };
  const words =
    "checkIndex: most that the face wanted to shrink beyond the mean, over the strain at which wood parts; elastic, so a number to rank by, not a chance. Creep relieves a large part; which board cracks cannot be told.";
  if (past.length === 0) return { ...base, words };
  const rank = past.filter((one) => one.checkIndex < index).length / past.length;
  const cracked = past.filter((one) => one.cracked).length;
  const near = [...past]
    .sort((a, b) => Math.abs(a.checkIndex - index) - Math.abs(b.checkIndex - index))
    .slice(0, Math.max(enough.near, Math.ceil(past.length / 3)));
  const isEnough = cracked >= enough.cracked && past.length - cracked >= enough.whole && near.length >= enough.near;
  const ranked = `Of ${past.length} past pieces of this species ${Math.round(100 * rank)} % stayed below this index; ${cracked} of them checked.`;
  if (!isEnough) {
    return {
      ...base,
      rank,
      words: `${words} ${ranked} Records justify a chance from ${enough.cracked} checked and ${enough.whole} whole pieces on, ${enough.near} in all.`,
    };
  }
  const failed = near.filter((one) => one.cracked).length;
  return {
    ...base,
    rank,
    chance: { value: (failed + 1) / (near.length + 2), ...wilson(failed, near.length), pieces: near.length },
    words: `${ranked} Of the ${near.length} with an index nearest to this one ${failed} checked; that share is the shop's own record, dried as it was then.`,
  };
}

/** @source  E. B. Wilson, J. American Statistical Association 22 (1927) 209-212 (from memory) */
export function wilson(count: number, of: number): { readonly low: number; readonly high: number } {
  if (of === 0) return { low: 0, high: 1 };
  const z2 = 1.959963984540054 ** 2;
  const share = count / of;
  const centre = share + z2 / (2 * of);
  const reach = Math.sqrt(z2 * ((share * (1 - share)) / of + z2 / (4 * of * of)));
  return { low: Math.max(0, (centre - reach) / (1 + z2 / of)), high: Math.min(1, (centre + reach) / (1 + z2 / of)) };
}
