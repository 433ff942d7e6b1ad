import { claimStates } from "./claimStates.ts";
import type { BodyOf, Evidence, Model } from "./evidence.ts";
import { Ledger } from "./ledger.ts";
import type { ClaimState } from "./state.ts";

export interface ReworkPreview {
  /** Claims that would become void, as they would then stand. */
  readonly voids: readonly ClaimState[];
  /** Every claim whose state would change; a claim on a valve may even be proven by the valve put in. */
  readonly changes: readonly { readonly before: ClaimState; readonly after: ClaimState }[];
  readonly states: readonly ClaimState[];
}

/** What a rework would do to a unit's claims, were it done now; nothing is written down. */
export function previewRework(
  model: Model,
  evidence: readonly Evidence[],
  unit: string,
  rework: Pick<BodyOf<"rework">, "touched" | "fitted">,
  now: string,
): ReworkPreview {
  const before = claimStates(model, evidence, unit, now);
  const after = claimStates(model, Ledger.of([...evidence, imagined(evidence, unit, rework, now)]), unit, now);
  const changes = after
    .map((state, index) => ({ before: before[index]!, after: state }))
    .filter((change) => change.before.state !== change.after.state);
  return {
    voids: changes.filter(({ after }) => after.state === "void").map(({ after }) => after),
    changes,
    states: after,
  };
}

/** The rework as the newest entry of all, later than any clock on record. */
function imagined(
  evidence: readonly Evidence[],
  unit: string,
  rework: Pick<BodyOf<"rework">, "touched" | "fitted">,
  now: string,
): Evidence<"rework"> {
  const latest_ms = evidence.reduce((latest, { at }) => Math.max(latest, Date.parse(at)), Date.parse(now));
  const at = new Date(latest_ms + 1).toISOString();
  return {
    id: "this-rework",
    seq: evidence.reduce((last, { seq }) => Math.max(last, seq), -1) + 1,
    at,
    recordedAt: at,
    by: "preview",
    body: {
      kind: "rework",
      unit,
      touched: rework.touched,
      ...(rework.fitted && { fitted: rework.fitted }),
      why: "tried out",
    },
  };
}
