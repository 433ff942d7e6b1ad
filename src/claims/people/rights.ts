import type { Evidence, EvidenceKind } from "../evidence.ts";
import type { Ledger } from "../ledger.ts";
import { everybody } from "./everybody.ts";
import type { Right, Standing } from "./right.ts";

/** Findings are drawn by the program, on nobody's authority. */
export const drawnBy = "stillglow";

/** Kinds of entries that take more than the right to measure: what a figure is judged by, and what leaves the shop. */
const needs: Readonly<Partial<Record<EvidenceKind, Right | "safety">>> = {
  release: "release",
  model: "release",
  "valve-limits": "release",
  promise: "release",
  shop: "release",
  rates: "release",
  bill: "release",
  concession: "owner",
  person: "owner",
  link: "owner",
  "supply-limits": "owner",
  "safety-limits": "safety",
};

/** What it takes to write an entry of a kind: a right, or being the licensed person who answers for safety limits. */
export function neededFor(kind: EvidenceKind): Right | "safety" {
  return needs[kind] ?? "measure";
}

/**
 * What somebody might do when the entry of place `seq` was written down: by the order of writing, since a date can be
 * chosen.
 *
 * @returns undefined  when nobody had been entered by then, and anybody might write
 */
export function standingAt(ledger: Ledger, person: string, seq = Number.POSITIVE_INFINITY): Standing | undefined {
  const before = (one: Evidence<"person">) => one.seq < seq;
  if (!ledger.about("person", everybody).some(before)) return undefined;
  const newest = ledger
    .about("person", person)
    .filter(before)
    .reduce<Evidence<"person"> | undefined>((a, b) => (a === undefined || b.seq > a.seq ? b : a), undefined);
  return newest?.body ?? { may: "nothing", answersForSafety: false };
}

/** Whether the owner stands behind an entry: by the right they had then, or by that word where nobody is entered. */
export function isByOwner({ by, seq }: { readonly by: string; readonly seq?: number }, ledger: Ledger): boolean {
  const standing = standingAt(ledger, by, seq);
  return standing === undefined ? by === "owner" : standing.may === "owner";
}

/** Everybody who was ever entered, with what they may do now. */
export function peopleOf(ledger: Ledger): ReadonlyMap<string, Standing & { readonly since: string }> {
  const newest = new Map<string, Evidence<"person">>();
  for (const entry of ledger.about("person", everybody)) {
    const known = newest.get(entry.body.person);
    if (!known || entry.seq > known.seq) newest.set(entry.body.person, entry);
  }
  return new Map(
    [...newest].map(([person, { body, recordedAt }]) => [
      person,
      { may: body.may, answersForSafety: body.answersForSafety, since: recordedAt },
    ]),
  );
}
