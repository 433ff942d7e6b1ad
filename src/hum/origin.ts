import type { Cause, CauseShare } from "./cause.ts";

/** What may be said of where a line comes from. */
export type Origin =
  | { readonly state: "one cause"; readonly causes: readonly [Cause] }
  | { readonly state: "not told apart" };

/** Surely nearly all of the line, and odds that no other cause makes more of it. */
const surely = 0.85;
const oddsToName = 0.98;

/**
 * Names what a line comes from: one cause where it surely makes 85 % of it, else nothing. Two that nearly cancel in one
 * recording look like one that is alone, or like others that share a line, so mixtures are left to their bounds.
 *
 * @param causes  shares of one line, at least one
 */
export function originOf(causes: readonly CauseShare[]): Origin {
  const main = mainOf(causes);
  if (main) return { state: "one cause", causes: [nameOf(main)] };
  return { state: "not told apart" };
}

/** The one cause that surely makes nearly all of a line, if there is one. */
export function mainOf<T extends Pick<CauseShare, "low" | "leads">>(causes: readonly T[]): T | undefined {
  const [first] = causes.toSorted((a, b) => b.leads - a.leads);
  return first && first.low >= surely && first.leads >= oddsToName ? first : undefined;
}

function nameOf(cause: CauseShare): Cause {
  if (cause.cause !== "valve") return { cause: cause.cause };
  return { cause: "valve", position: cause.position, valve: cause.valve };
}
