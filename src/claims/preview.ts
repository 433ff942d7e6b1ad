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
  evidence: readonly Evidence[] | Ledger,
  unit: string,
  rework: Pick<BodyOf<"rework">, "touched" | "fitted">,
  now: string,
): ReworkPreview {
  const ledger = evidence instanceof Ledger ? evidence : Ledger.of(evidence);
  const before = claimStates(model, ledger, unit, now);
  const after = claimStates(model, ledger.supposing(imagined(ledger, unit, rework, now)), unit, now);
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
  { newest }: Ledger,
  unit: string,
  rework: Pick<BodyOf<"rework">, "touched" | "fitted">,
  now: string,
): Evidence<"rework"> {
  const at = new Date(Math.max(newest.taken_ms, Date.parse(now)) + 1).toISOString();
  return {
    id: "this-rework",
    seq: newest.seq + 1,
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
