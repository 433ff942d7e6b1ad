import { isUndoneBy, reworksBearingOn } from "./bearing.ts";
import type { BodyOf, Evidence, Model } from "./evidence.ts";
import { Ledger } from "./ledger.ts";
import { type ClaimState, isClosed } from "./state.ts";
import { inWords } from "./when.ts";

export interface ReleaseDecision {
  readonly granted: boolean;
  /** Every claim that stands in the way, in the model's order. */
  readonly missing: readonly Pick<ClaimState, "claim" | "title" | "state" | "because" | "wouldDecide">[];
}

/** A unit may be released when each claim is proven or conceded; undecided is not enough. */
export function releaseDecision(states: readonly ClaimState[]): ReleaseDecision {
  const missing = states
    .filter((state) => !isClosed(state))
    .map(({ claim, title, state, because, wouldDecide }) => ({
      claim,
      title,
      state,
      because,
      ...(wouldDecide !== undefined && { wouldDecide }),
    }));
  return { granted: missing.length === 0 && states.length > 0, missing };
}

/** The release as it is written down, with figures and verdicts as they stand now. */
export function releaseEntry(
  unit: string,
  states: readonly ClaimState[],
  version: string,
  resting_sha256: string,
): BodyOf<"release"> {
  return {
    kind: "release",
    unit,
    version,
    resting_sha256,
    claims: states.map(({ claim, state, figures }) => ({
      claim,
      state: state === "conceded" ? "conceded" : "proven",
      figures: figures.map((figure) => ({ ...figure })),
    })),
  };
}

export type ReleaseStanding =
  | { readonly released: true; readonly release: Evidence<"release"> }
  | { readonly released: false; readonly because: string };

/**
 * Whether a unit stands released: by its newest release, which a later rework that touches any claim takes back.
 *
 * What the release says is not judged again, so a newer version that would judge otherwise changes nothing here.
 */
export function releaseStanding(model: Model, evidence: readonly Evidence[] | Ledger, unit: string): ReleaseStanding {
  const ledger = evidence instanceof Ledger ? evidence : Ledger.of(evidence);
  const release = ledger
    .about("release", unit)
    .reduce<Evidence<"release"> | undefined>(
      (newest, entry) => (newest === undefined || entry.seq > newest.seq ? entry : newest),
      undefined,
    );
  if (!release) return { released: false, because: "It was never released." };
  const undone = model.claims
    .flatMap((claim) => reworksBearingOn(ledger, model, unit, claim))
    .find((rework) => isUndoneBy(release, rework, true));
  if (!undone) return { released: true, release };
  return {
    released: false,
    because: `The release of ${inWords(release.at)} fell with the rework ${undone.id} of ${inWords(undone.at)}.`,
  };
}

export function isReleased(model: Model, evidence: readonly Evidence[] | Ledger, unit: string): boolean {
  return releaseStanding(model, evidence, unit).released;
}
