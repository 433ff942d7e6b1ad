import type { Cause, CauseShare } from "./cause.ts";
import { togetherOf } from "./verdict.ts";

/** What may be said of where a line comes from. */
export type Origin =
  | { readonly state: "one cause"; readonly causes: readonly [Cause] }
  | { readonly state: "together"; readonly causes: readonly Cause[] }
  | { readonly state: "not told apart" };

/** Surely half of the line, and odds that no other cause makes more of it. */
const surely = 0.5;
const oddsToName = 0.98;

/**
 * Names what a line comes from: one cause where it surely makes half of it, two or three that surely make it together,
 * else nothing.
 *
 * @param causes  shares of one line, at least one
 */
export function originOf(causes: readonly CauseShare[]): Origin {
  const main = mainOf(causes);
  if (main) return { state: "one cause", causes: [nameOf(main)] };
  const together = togetherOf(causes);
  return together ? { state: "together", causes: together.map(nameOf) } : { state: "not told apart" };
}

/** The one cause that surely makes half of a line, if there is one. */
export function mainOf<T extends Pick<CauseShare, "low" | "leads">>(causes: readonly T[]): T | undefined {
  const [first] = causes.toSorted((a, b) => b.leads - a.leads);
  return first && first.low >= surely && first.leads >= oddsToName ? first : undefined;
}

function nameOf(cause: CauseShare): Cause {
  if (cause.cause !== "valve") return { cause: cause.cause };
  return { cause: "valve", position: cause.position, valve: cause.valve };
}
