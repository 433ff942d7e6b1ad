import type { EvidenceKind } from "../../claims/evidence.ts";
import { isEnough, neededFor } from "../../claims/index.ts";
import { quote } from "../../maths/badInput.ts";
import type { SignedIn } from "../../workshop/people/views.ts";

interface Refused {
  readonly status: 403;
  readonly path: string;
  readonly message: string;
}

type Fields = Record<string, unknown>;

/**
 * Puts a person's own id under what they hand in, and refuses another's and what they may not write.
 *
 * A body says who acts in `by`, or in the `by` of each of its `entries`.
 *
 * @param isAct  whether the route writes down what it is handed, so that a `by` left out is filled in
 * @returns the body under the person's id, or the first `by` that is somebody else's
 */
export function underOwnName(
  body: unknown,
  signedIn: SignedIn,
  isAct: boolean,
): { readonly ok: true; readonly body: unknown } | ({ readonly ok: false } & Refused) {
  if (!isFields(body)) return { ok: true, body: isAct && body === undefined ? { by: signedIn.person } : body };
  const { person } = signedIn;
  const refused = (path: string, message: string) => ({ ok: false, status: 403, path, message }) as const;
  const anothers = (by: unknown) => by !== undefined && by !== person;
  const words = (by: unknown) =>
    `${quote(by)}; you are signed in as ${person}, and every act is under whoever does it; leave it out, or let them sign in`;
  if (anothers(body.by)) return refused("by", words(body.by));
  if (!Array.isArray(body.entries)) return { ok: true, body: isAct ? { ...body, by: person } : body };
  const entries: unknown[] = [];
  for (const [i, entry] of body.entries.entries()) {
    if (!isFields(entry)) {
      entries.push(entry);
      continue;
    }
    if (anothers(entry.by)) return refused(`entries[${i}].by`, words(entry.by));
    const needed = typeof entry.kind === "string" ? neededFor(entry.kind as EvidenceKind) : "measure";
    if (!isEnough(signedIn, needed)) {
      const who =
        needed === "safety" ? "the licensed person who answers for safety limits" : `people with the right ${needed}`;
      return refused(
        `entries[${i}].kind`,
        `${quote(entry.kind)}; you may ${signedIn.may}; this is written by ${who}; ask one of them`,
      );
    }
    entries.push({ ...entry, by: person });
  }
  return { ok: true, body: { ...body, entries } };
}

function isFields(value: unknown): value is Fields {
  return (
    typeof value === "object" &&
    value !== null &&
    !Array.isArray(value) &&
    !Buffer.isBuffer(value) &&
    !("pipe" in value)
  );
}
