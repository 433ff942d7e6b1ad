import type { EvidenceBody, EvidenceKind } from "../claims/evidence.ts";
import type { Submitted } from "../claims/index.ts";

/** Kinds that say what was read, and nothing of what is in the shop. */
const readings: ReadonlySet<EvidenceKind> = new Set([
  "reading",
  "valve-reading",
  "reference-reading",
  "trial",
  "finding",
]);

/** Whether an entry bears on none after it that is of the same sort, unless that one names it. */
export function isPlain(body: EvidenceBody | Submitted): boolean {
  return readings.has(body.kind) && !("supersedes" in body && body.supersedes !== undefined);
}

/** Whether an entry claims one of these ids, or was drawn from the entry that has it. */
export function namesOneOf(entry: Submitted, ids: ReadonlySet<string>): boolean {
  if (entry.id !== undefined && ids.has(entry.id)) return true;
  return entry.kind === "finding" && entry.from.some((id) => ids.has(id));
}
