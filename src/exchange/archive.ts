import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { Readable } from "node:stream";
import { ZipFile } from "yazl";
import { z } from "zod";
import type { Evidence } from "../claims/evidence.ts";
import type { CustomerTable } from "../store/index.ts";
import { kinds } from "./columns.ts";
import { writeCsv } from "./csv.ts";
import { tableOf } from "./entries.ts";

/**
 * A whole workshop in open form, one zip archive:
 *
 *     stillglow.json           what it is: form, entries, newest hash of the chain, hash of every part below
 *     evidence.jsonl           the chain, an entry a line: id, seq, at, recordedAt, by, body
 *     customers.json           names and addresses, which stand outside the chain
 *     workshop.json            what the folder says of itself, where it does
 *     recordings/HASH.wav      each named by the SHA-256 of its content
 *     photos/HASH.photo
 *     tables/KIND.csv          the evidence again, a table for each kind, to be read by other programs
 *
 * Equal workshops make equal archives: nothing in them tells when or where they were made.
 */

export const manifestName = "stillglow.json";
export const form = 1;

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);

export const manifestShape = z.strictObject({
  kind: z.literal("stillglow workshop"),
  form: z.number().int().min(1),
  entries: z.number().int().nonnegative(),
  head: sha256,
  /** Parts that are read back, and what each must hash to. Tables are for other programs and not among them. */
  parts: z.record(z.string(), sha256),
});

export type Manifest = z.infer<typeof manifestShape>;

/** A workshop as it is handed to the archive. */
export interface WholeWorkshop {
  readonly entries: readonly Evidence[];
  readonly head: string;
  readonly customers: readonly CustomerTable[];
  /** Text of the folder's own `workshop.json`. */
  readonly about?: string | undefined;
  /** Where a kept file lies, by its hash. @throws StoreMissing  when it is not there */
  readonly recording: (sha256: string) => Promise<string> | string;
  readonly photo: (sha256: string) => Promise<string> | string;
}

/** The archive as a stream of bytes; recordings are never held in memory. */
export async function archiveOf(workshop: WholeWorkshop): Promise<NodeJS.ReadableStream> {
  const { entries, head } = workshop;
  const files = [
    ...(await keptFiles("recordings", ".wav", recordingsOf(entries), workshop.recording)),
    ...(await keptFiles("photos", ".photo", photosOf(entries), workshop.photo)),
  ];
  const customers = JSON.stringify(
    workshop.customers.map(({ customer, name, address }) => ({ customer, name, address })),
    null,
    1,
  );
  const texts = new Map<string, string>([["customers.json", `${customers}\n`]]);
  if (workshop.about !== undefined) texts.set("workshop.json", workshop.about);
  const chain = createHash("sha256");
  for (const entry of entries) chain.update(lineOf(entry));

  const manifest: Manifest = {
    kind: "stillglow workshop",
    form,
    entries: entries.length,
    head,
    parts: Object.fromEntries([
      ["evidence.jsonl", chain.digest("hex")],
      ...[...texts].map(([name, text]) => [name, createHash("sha256").update(text).digest("hex")]),
      ...files.map(({ name, sha256: hash }) => [name, hash]),
    ]),
  };
  const zip = new ZipFile();
  // Always the same moment, so that the same workshop gives the same bytes.
  const mtime = new Date(Date.UTC(2000, 0, 1, 12));
  const text = (name: string, content: string) => zip.addBuffer(Buffer.from(content), name, { mtime });
  text(manifestName, `${JSON.stringify(manifest, null, 1)}\n`);
  zip.addReadStreamLazy("evidence.jsonl", { mtime }, (give) => give(undefined, Readable.from(linesOf(entries))));
  for (const [name, content] of texts) text(name, content);
  for (const kind of kinds) {
    const of = entries.filter(({ body }) => body.kind === kind);
    if (of.length === 0) continue;
    zip.addReadStreamLazy(`tables/${kind}.csv`, { mtime }, (give) => {
      const { head: columns, rows } = tableOf(kind, of);
      give(undefined, Readable.from([writeCsv(columns, rows)]));
    });
  }
  for (const { name, path } of files) {
    zip.addReadStreamLazy(name, { mtime, compress: false }, (give) => give(undefined, createReadStream(path)));
  }
  zip.end();
  return zip.outputStream;
}

const lineOf = ({ id, seq, at, recordedAt, by, body }: Evidence): string =>
  `${JSON.stringify({ id, seq, at, recordedAt, by, body })}\n`;

function* linesOf(entries: readonly Evidence[]): Generator<string> {
  const atOnce = 500;
  for (let from = 0; from < entries.length; from += atOnce) {
    yield entries
      .slice(from, from + atOnce)
      .map(lineOf)
      .join("");
  }
}

/** Hashes of the files that evidence names, each once, in order. */
export function recordingsOf(entries: readonly Evidence[]): readonly string[] {
  return unique(
    entries.flatMap(({ body }) =>
      body.kind === "recording" ? [body.file_sha256] : body.kind === "recorder-calibration" ? body.files_sha256 : [],
    ),
  );
}

export function photosOf(entries: readonly Evidence[]): readonly string[] {
  return unique(
    entries.flatMap(({ body }) => (body.kind === "flaw" && body.photo_sha256 !== undefined ? [body.photo_sha256] : [])),
  );
}

const unique = (names: readonly string[]) => [...new Set(names)].toSorted();

async function keptFiles(
  folder: string,
  ending: string,
  hashes: readonly string[],
  find: (sha256: string) => Promise<string> | string,
): Promise<{ name: string; sha256: string; path: string }[]> {
  const found = [];
  for (const hash of hashes) found.push({ name: `${folder}/${hash}${ending}`, sha256: hash, path: await find(hash) });
  return found;
}
