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

/** One sheet a group of claims, in the order in which they lie in the folder. */
export function sheetsOf(claims: readonly ClaimView[]): readonly SheetOfClaims[] {
  return order
    .map((sheet) => {
      const here = claims.filter((claim) => claim.sheet === sheet);
      return { sheet, claims: here, closed: here.filter(isClosed).length };
    })
    .filter((sheet) => sheet.claims.length > 0);
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
