import { type Evidence, submission } from "../claims/evidence.ts";
import type { Shop } from "../claims/index.ts";
import { canonicalJson } from "../store/chain.ts";

/**
 * The entries as they stand, when every one of them was written down before under the same id with the same body: an
 * answer that was lost on its way is told again, and nothing is written twice.
 *
 * @returns undefined  when any of them is new, or stands with another body
 */
export function alreadyWritten({ ledger }: Shop, entries: readonly unknown[]): readonly Evidence[] | undefined {
  if (entries.length === 0) return undefined;
  const standing: Evidence[] = [];
  for (const entry of entries) {
    const id = (entry as { readonly id?: unknown } | null)?.id;
    const known = typeof id === "string" ? ledger.get(id) : undefined;
    if (!known) return undefined;
    const parsed = submission.safeParse(entry);
    if (!parsed.success) return undefined;
    const { id: _id, at: _at, by: _by, ...body } = parsed.data;
    if (canonicalJson(body) !== canonicalJson(known.body)) return undefined;
    standing.push(known);
  }
  return standing;
}
