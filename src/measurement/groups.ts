import { BadInput, quote } from "../maths/badInput.ts";
import { fCdf, summary } from "../maths/statistics/index.ts";

export interface Groups {
  readonly between: { readonly freedom: number; readonly squares: number; readonly meanSquare: number };
  readonly within: { readonly freedom: number; readonly squares: number; readonly meanSquare: number };
  /** Left out where nothing varies within the groups. */
  readonly F?: number;
  /** Chance of as much difference between groups, were they alike. */
  readonly p?: number;
  readonly rSquared: number;
  /** Scatter within a group. */
  readonly sd: number;
}

/**
 * Whether groups of readings (by instrument, by batch, by hand) differ by more than their own scatter.
 *
 *     F = (Σ nᵢ(meanᵢ − mean)²/(k − 1)) / (Σ Σ(x − meanᵢ)²/(n − k))              one-way analysis of variance
 *
 * @throws BadInput  fewer than two groups, an empty group, no second reading anywhere
 * @source  NIST/SEMATECH e-Handbook, section 3.2.3.1; certified data of NIST StRD (figures read)
 */
export function compareGroups(groups: readonly (readonly number[])[]): Groups {
  if (groups.length < 2) throw new BadInput("groups", `${groups.length} groups`, "at least 2", "add another group");
  groups.forEach((group, i) => {
    if (group.length === 0) {
      throw new BadInput(`groups[${i}]`, "no readings", "at least one", "take it out or read it");
    }
    group.forEach((value, k) => {
      if (!Number.isFinite(value))
        throw new BadInput(`groups[${i}][${k}]`, quote(value), "a finite number", "read again");
    });
  });
  const all = groups.flat();
  const freedomWithin = all.length - groups.length;
  if (freedomWithin < 1) {
    throw new BadInput("groups", "one reading in each", "a group with two or more", "read one of them again");
  }
  const origin = summary(all).mean;
  const means = groups.map((group) => origin + group.reduce((sum, x) => sum + (x - origin), 0) / group.length);
  const grand = origin + all.reduce((sum, x) => sum + (x - origin), 0) / all.length;
  const betweenSquares = groups.reduce((sum, group, i) => sum + group.length * (means[i]! - grand) ** 2, 0);
  const withinSquares = groups.reduce(
    (sum, group, i) => sum + group.reduce((part, x) => part + (x - means[i]!) ** 2, 0),
    0,
  );
  const between = meanSquareOf(betweenSquares, groups.length - 1);
  const within = meanSquareOf(withinSquares, freedomWithin);
  const total = betweenSquares + withinSquares;
  const F = within.meanSquare > 0 ? between.meanSquare / within.meanSquare : undefined;
  return {
    between,
    within,
    ...(F === undefined ? {} : { F, p: 1 - fCdf(F, between.freedom, within.freedom) }),
    rSquared: total === 0 ? 0 : betweenSquares / total,
    sd: Math.sqrt(within.meanSquare),
  };
}

const meanSquareOf = (squares: number, freedom: number) => ({ freedom, squares, meanSquare: squares / freedom });
