import type { ClaimView, UnitView } from "../../workshop/views.ts";

export type Figure = ClaimView["figures"][number];

export interface SheetOfClaims {
  readonly sheet: ClaimView["sheet"];
  readonly claims: readonly ClaimView[];
  readonly closed: number;
}

const order: readonly ClaimView["sheet"][] = ["valves", "voltages", "sound", "hum", "timber", "supply", "safety"];

/** A claim that no longer stands in the way of release. */
export const isClosed = (claim: Pick<ClaimView, "state">): boolean =>
  claim.state === "proven" || claim.state === "conceded";

/** One sheet a group of claims, in the order in which they lie in the folder; on each, what is missing comes first. */
export function sheetsOf(claims: readonly ClaimView[]): readonly SheetOfClaims[] {
  return order
    .map((sheet) => {
      const ofSheet = claims.filter((claim) => claim.sheet === sheet);
      const here = [...ofSheet.filter((claim) => !isClosed(claim)), ...ofSheet.filter(isClosed)];
      return { sheet, claims: here, closed: here.filter(isClosed).length };
    })
    .filter((sheet) => sheet.claims.length > 0);
}

/** Share of its window, or of its one limit, that a figure leaves free once its doubt is taken off. */
function room({ value, doubt = 0, low, high }: Figure): number {
  if (value === undefined) return Number.POSITIVE_INFINITY;
  const span = low !== undefined && high !== undefined ? (high - low) / 2 : Math.abs(low ?? high ?? 0);
  const free = Math.min(
    low === undefined ? Number.POSITIVE_INFINITY : value - low,
    high === undefined ? Number.POSITIVE_INFINITY : high - value,
  );
  return (free - doubt) / (span || Math.abs(value) || 1);
}

/** The figure of a claim that lies nearest to its limits; nothing where none was read. */
export function tightestFigure(figures: readonly Figure[]): Figure | undefined {
  return figures
    .filter((figure) => figure.value !== undefined)
    .reduce<Figure | undefined>((least, figure) => (least && room(least) <= room(figure) ? least : figure), undefined);
}

/** Claims that wait for a reading: first the checks in the order asked for, then the rest as they lie. */
export function claimsToRead(unit: Pick<UnitView, "claims" | "nextChecks">): readonly ClaimView[] {
  const rank = new Map(unit.nextChecks.map((check, i) => [check.claim, i]));
  const last = unit.nextChecks.length;
  return unit.claims
    .filter((claim) => !isClosed(claim) && claim.figures.length > 0)
    .map((claim, i) => ({ claim, rank: rank.get(claim.claim) ?? last + i }))
    .sort((a, b) => a.rank - b.rank)
    .map(({ claim }) => claim);
}
