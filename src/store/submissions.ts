import { refusal } from "../calculations/refusal.ts";
import { type EvidenceBody, submission } from "../claims/evidence.ts";
import type { Submitted } from "../claims/index.ts";
import { BadInput, quote } from "../maths/badInput.ts";

/** So many entries at a time, so that the others get their turn. */
const most_entries = 20_000;

/**
 * Checks the shape of entries handed in.
 *
 * @throws BadInput  at `entries[3].subject.valve`, naming the first fault
 */
export function parseSubmissions(entries: unknown): readonly Submitted[] {
  if (!Array.isArray(entries)) throw new BadInput("entries", quote(entries), "a list of entries", "put them in a list");
  if (entries.length > most_entries) {
    throw new BadInput(
      "entries",
      `${entries.length} entries`,
      `at most ${most_entries} at a time`,
      "hand them in by parts",
    );
  }
  return entries.map((entry, i) =>
    filedUnder(`entries[${i}]`, () => {
      const parsed = submission.safeParse(entry);
      if (!parsed.success) throw refusal(parsed.error, entry);
      return parsed.data;
    }),
  );
}

/** Runs a check of one entry, its fault named by where the entry stands in what was handed in. */
export function filedUnder<T>(path: string, check: () => T): T {
  try {
    return check();
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    const join = fault.path === "" || fault.path.startsWith("[") ? "" : ".";
    throw BadInput.at(`${path}${join}${fault.path}`, fault);
  }
}

/** The body alone, without who and when. */
export function bodyOf({ id: _id, at: _at, by: _by, ...body }: Submitted): EvidenceBody {
  return body as EvidenceBody;
}
