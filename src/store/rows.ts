import type { Evidence, EvidenceBody } from "../claims/evidence.ts";
import { canonicalJson, linkHashOf } from "./chain.ts";
import { StoreCorrupted } from "./storeErrors.ts";
import type { EvidenceTable } from "./tables.ts";

/** An entry as the table holds it, tied to the one before. */
export function rowOf(entry: Evidence, prev: string): EvidenceTable {
  const { seq, id, at, recordedAt, by, body } = entry;
  const written = canonicalJson(body);
  return {
    seq,
    id,
    at,
    recorded_at: recordedAt,
    by,
    kind: body.kind,
    ...indexed(body),
    body: written,
    prev_sha256: prev,
    sha256: linkHashOf(prev, entry, written),
  };
}

/** What a row says, without its hashes and what its body is repeated in for the index. */
type SaidRow = Pick<EvidenceTable, "seq" | "id" | "at" | "recorded_at" | "by" | "body">;
export const saidColumns = ["seq", "id", "at", "recorded_at", "by", "body"] as const satisfies (keyof SaidRow)[];

/** @throws StoreCorrupted  naming the row, when its body is no JSON */
export function entryOf(row: SaidRow): Evidence {
  const { seq, id, at, recorded_at, by } = row;
  try {
    return { id, seq, at, recordedAt: recorded_at, by, body: JSON.parse(row.body) as EvidenceBody };
  } catch {
    throw new StoreCorrupted(`entry ${seq} (${id}) can't be read; restore the newest backup`);
  }
}

/** What an entry is about, repeated in columns of its own for the index. */
function indexed(body: EvidenceBody): Pick<EvidenceTable, "unit" | "valve" | "instrument"> {
  const about: object = "subject" in body ? { ...body, ...body.subject } : body;
  const column = (key: string): string | null => {
    const value = Reflect.get(about, key);
    return typeof value === "string" ? value : null;
  };
  return { unit: column("unit"), valve: column("valve"), instrument: column("instrument") };
}
