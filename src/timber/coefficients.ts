import type { Shrinkage, Species } from "./species.ts";

/** Share of a dimension that each percent of moisture changes it by, along the rings and across them. */
export interface Coefficients {
  readonly tangential_per_pct: number;
  readonly radial_per_pct: number;
}

export interface KnownCoefficients {
  readonly best: Coefficients;
  /** What each source says, the best first; where one is silent in a direction, the best stands in. */
  readonly bySource: readonly (Coefficients & { readonly source: string })[];
}

/** 95 % half-width of boards of one species about its mean: a coefficient of variation of 15 % (from memory). */
export const boardScatter = 0.3;

/**
 * Coefficients of a species from every source at hand.
 *
 *     C = (S/(100·F)) / (1 − (S/100)·(1 − 10/F))      per percent at 10 % moisture, from total shrinkage S in percent
 *
 * with F the moisture from which shrinkage counts (30 % unless the species' own is known).
 *
 * @source  Wood Handbook, FPL-GTR-190, tables 13-5, 4-3 and 4-4; for F = 30 the formula is (S/3000)/(1 − S/150), which
 *   reproduces table 13-5 from table 4-3 within 1 percent for domestic species
 */
export function coefficientsOf(species: Species): KnownCoefficients {
  const stated = { ...species.coefficient, source: species.coefficient?.source ?? "" };
  const isHandbook = stated.source.startsWith("Wood Handbook");
  const said = [
    ...(isHandbook ? [stated] : []),
    ...[species.shrinkage ?? [], species.otherShrinkage ?? []].flat().map((one) => fromShrinkage(one, species)),
    ...(species.coefficient && !isHandbook ? [stated] : []),
  ];
  const best = {
    tangential_per_pct: said.find((one) => one.tangential_per_pct !== undefined)!.tangential_per_pct!,
    radial_per_pct:
      said.find((one) => one.radial_per_pct !== undefined)?.radial_per_pct ??
      0.6 * said.find((one) => one.tangential_per_pct !== undefined)!.tangential_per_pct!,
  };
  return {
    best,
    bySource: said.map((one) => ({
      source: one.source,
      tangential_per_pct: one.tangential_per_pct ?? best.tangential_per_pct,
      radial_per_pct: one.radial_per_pct ?? best.radial_per_pct,
    })),
  };
}

function fromShrinkage({ radial_pct, tangential_pct, source }: Shrinkage, { fibreSaturation_pct: from }: Species) {
  const coefficient = (total_pct?: number) =>
    total_pct === undefined ? undefined : total_pct / (100 * from) / (1 - (total_pct / 100) * (1 - 10 / from));
  return { tangential_per_pct: coefficient(tangential_pct), radial_per_pct: coefficient(radial_pct), source };
}

/** C_T·cos² + C_R·sin², across a board whose rings lie at that angle to its width. */
export function acrossWidth({ tangential_per_pct, radial_per_pct }: Coefficients, ringAngle_deg: number): number {
  const angle = (ringAngle_deg * Math.PI) / 180;
  return tangential_per_pct * Math.cos(angle) ** 2 + radial_per_pct * Math.sin(angle) ** 2;
}

/**
 * 95 % half-width, as a share, of one board's movement across its width about the mean that is known of its species:
 * boards differ, and the mean of a wood that the shop measured is itself in doubt.
 */
export function boardsDiffer(species: Species, ringAngle_deg: number): number {
  const { coefficientDoubt: doubt } = species;
  if (!doubt) return boardScatter;
  const angle = (ringAngle_deg * Math.PI) / 180;
  const [along, across] = [Math.cos(angle) ** 2, Math.sin(angle) ** 2];
  const ofMean = Math.sqrt(
    (along * doubt.tangential_per_pct) ** 2 +
      (across * doubt.radial_per_pct) ** 2 +
      2 * along * across * doubt.shared_per_pct2,
  );
  return Math.hypot(boardScatter, ofMean / acrossWidth(coefficientsOf(species).best, ringAngle_deg));
}
