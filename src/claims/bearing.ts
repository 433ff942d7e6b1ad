import type { ClaimSpec, Evidence, Model } from "./evidence.ts";
import type { Ledger } from "./ledger.ts";
import { reached, reachesOneOf } from "./things.ts";
import { byTaking } from "./when.ts";

/** The reworks on a unit that touched something the claim rests on, in the order they were done. */
export function reworksBearingOn(
  ledger: Ledger,
  model: Model,
  unit: string,
  claim: Pick<ClaimSpec, "restsOn">,
): readonly Evidence<"rework">[] {
  return ledger.about("rework", unit).filter((rework) => reachesOneOf(reached(model, rework.body), claim.restsOn));
}

/**
 * Whether what an entry says may have been undone by a rework.
 *
 * By the times given. For what must be safe, or must have been known (`strict`), also when only the chain has the
 * rework later: a rework written down late, or a clock that ran ahead, then costs a test and not a life.
 */
export function isUndoneBy(entry: Evidence, rework: Evidence<"rework">, strict: boolean): boolean {
  return byTaking(entry, rework) < 0 || (strict && entry.seq < rework.seq);
}
