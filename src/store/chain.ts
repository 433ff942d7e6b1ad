import { createHash } from "node:crypto";
import type { Evidence } from "../claims/evidence.ts";

/** What the first entry of a chain names as the one before it. */
export const chainStart = "0".repeat(64);

export function sha256(bytes: string | Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex");
}

/**
 * JSON with the keys of every object in order of their code units and no blanks, so that equal values have equal text.
 *
 * @source  as RFC 8785 orders members and writes numbers (from memory)
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((item) => canonicalJson(item ?? null)).join(",")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const members = Object.entries(value)
    .filter(([, member]) => member !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, member]) => `${JSON.stringify(key)}:${canonicalJson(member)}`);
  return `{${members.join(",")}}`;
}

/** The hash that ties an entry to all before it: SHA-256 over the hash before it and all that the entry says. */
export function linkHash(prev: string, { id, at, recordedAt, by, body }: Omit<Evidence, "seq">): string {
  return linkHashOf(prev, { id, at, recordedAt, by }, canonicalJson(body));
}

/** The same from a body that was put into its fixed form already; members stand in the order of their names. */
export function linkHashOf(
  prev: string,
  { id, at, recordedAt, by }: Omit<Evidence, "seq" | "body">,
  body: string,
): string {
  const text = JSON.stringify;
  return sha256(
    `{"at":${text(at)},"body":${body},"by":${text(by)},"id":${text(id)},"prev":${text(prev)},"recordedAt":${text(recordedAt)}}`,
  );
}
