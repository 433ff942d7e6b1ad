import { forerunners, isLive } from "./checkOrder.ts";
import type { ClaimSpec, Model } from "./evidence.ts";
import { type ClaimState, isClosed } from "./state.ts";

export interface NextCheck {
  readonly claim: string;
  readonly title: string;
  readonly why: string;
  /** Hours it is expected to save for each minute of hands. */
  readonly saves_h_per_min: number;
  readonly hands_min: number;
  readonly wait_h: number;
  readonly danger: ClaimSpec["check"]["danger"];
  readonly skill: string;
  readonly place?: string;
}

/** What bounds a choice of checks; these are never weighed against hours saved. */
export interface CheckLimits {
  readonly skills?: readonly string[];
  readonly dangers?: readonly ClaimSpec["check"]["danger"][];
  /** The longest a check may keep a unit waiting by itself. */
  readonly wait_h?: number;
}

/**
 * The checks that may be made now, the cheapest way to find a fault first.
 *
 *     saved hours per minute = failOdds · max(0, lateCost_h − repair_h) / hands_min
 *
 * A check may be made when every claim in its `after` is proven or conceded. One on live parts also waits for each
 * safety claim that is not proven, unless that safety test itself comes after it. A refuted claim is left out: it
 * waits for repair, not for a check.
 *
 * @source  ratio rule for a series of tests stopped at the first failure (common practice)
 */
export function nextChecks(
  states: readonly ClaimState[],
  model: Pick<Model, "claims">,
  limits: CheckLimits = {},
): readonly NextCheck[] {
  const before = forerunners(model);
  const stateOf = new Map(states.map((state) => [state.claim, state]));
  const closed = new Set(states.filter(isClosed).map(({ claim }) => claim));
  const guards = model.claims.filter((spec) => spec.safety && !closed.has(spec.claim));

  const mayBeMade = (spec: ClaimSpec) => {
    const { skill, danger, wait_h, after } = spec.check;
    return (
      after.every((claim) => closed.has(claim)) &&
      (spec.safety || !isLive(danger) || guards.every((guard) => before.get(guard.claim)?.has(spec.claim))) &&
      (limits.skills?.includes(skill) ?? true) &&
      (limits.dangers?.includes(danger) ?? true) &&
      wait_h <= (limits.wait_h ?? Number.POSITIVE_INFINITY)
    );
  };

  return model.claims
    .filter((spec) => {
      const state = stateOf.get(spec.claim);
      return state !== undefined && !closed.has(spec.claim) && state.state !== "refuted" && mayBeMade(spec);
    })
    .map((spec) => inWords(spec, stateOf.get(spec.claim)!))
    .toSorted(
      (a, b) => b.saves_h_per_min - a.saves_h_per_min || a.hands_min - b.hands_min || (a.claim < b.claim ? -1 : 1),
    );
}

/** Hands are never asked for less than half a minute, so that an automatic check has a finite worth. */
const least_min = 0.5;

function inWords({ claim, title, check }: ClaimSpec, { state, because, wouldDecide }: ClaimState): NextCheck {
  const { failOdds, lateCost_h, repair_h, hands_min, wait_h, danger, skill, place } = check;
  const saved_h = failOdds * Math.max(0, lateCost_h - repair_h);
  const worth = `${hands_min} min of hands against ${Number(saved_h.toPrecision(2))} h expected to be lost later`;
  const reason =
    state === "void"
      ? `Void: ${because}`
      : state === "undecided"
        ? `Undecided: ${wouldDecide ?? because}`
        : "Not yet checked";
  return {
    claim,
    title,
    why: `${reason.replace(/\.$/, "")}; ${worth}.`,
    saves_h_per_min: saved_h / Math.max(least_min, hands_min),
    hands_min,
    wait_h,
    danger,
    skill,
    ...(place !== undefined && { place }),
  };
}
