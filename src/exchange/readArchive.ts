import { createHash, type Hash } from "node:crypto";
import { mkdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import { Readable } from "node:stream";
import { type Entry, open, type ZipFile } from "yauzl";
import { z } from "zod";
import { refusal } from "../calculations/refusal.ts";
import { body, type Evidence, instant } from "../claims/evidence.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { adoptLedger, requireEmptyFolder } from "../store/adopt.ts";
import { KeptFiles, syncFile, syncFolder } from "../store/keptFiles.ts";
import { openStore } from "../store/store.ts";
import { form, type Manifest, manifestName, manifestShape } from "./archive.ts";
import { broken, eachEntry, streamOf } from "./zipGuard.ts";

export interface TakenIn {
  readonly entries: number;
  readonly head: string;
}

const most_text_bytes = 256 * 2 ** 20;
const mostManifest_bytes = 64 * 2 ** 20;

/**
 * Takes a workshop out of its archive into a folder that is empty or not there, whole or not at all: every part is held
 * against its hash, the chain is computed anew, and the folder gets its name once all of it was read back.
 *
 * @throws BadInput  naming the part, the line and what is wrong
 */
export async function takeInArchive(path: string, folder: string, now: string): Promise<TakenIn> {
  requireEmptyFolder(folder);
  const parts = await partsOf(path);
  const manifest = await manifestOf(path, parts);
  for (const name of Object.keys(manifest.parts)) {
    if (!parts.has(name)) throw lacking(name, "not in the archive");
    if (!allowedPart.test(name))
      throw new BadInput(name, "a part of no known name", "the parts of a workshop", "export it again");
  }
  for (const name of ["evidence.jsonl", "customers.json"]) {
    if (manifest.parts[name] === undefined) throw lacking(name, "not in the archive");
  }
  const half = join(dirname(folder), `.${folder.split(/[\\/]/).at(-1)}.${process.pid}.half`);
  rmSync(half, { recursive: true, force: true });
  mkdirSync(half, { recursive: true });
  try {
    const head = await fill(half, path, manifest, now);
    if (head !== manifest.head) {
      throw new BadInput(
        "evidence.jsonl",
        `a chain that ends at ${head}`,
        `the one that ends at ${manifest.head}, as the archive says`,
        "export it again; nothing was taken in",
      );
    }
    await readBack(half, manifest);
    rmSync(folder, { recursive: true, force: true });
    renameSync(half, folder);
    syncFolder(dirname(folder));
    return { entries: manifest.entries, head };
  } finally {
    rmSync(half, { recursive: true, force: true });
  }
}

const allowedPart =
  /^(evidence\.jsonl|customers\.json|workshop\.json|recordings\/[0-9a-f]{64}\.wav|photos\/[0-9a-f]{64}\.photo)$/;

/** Names of all parts; the archive is opened anew for each part that is read. */
async function partsOf(path: string): Promise<ReadonlySet<string>> {
  const names = new Set<string>();
  const note = async (_zip: ZipFile, { fileName }: Entry) => {
    names.add(fileName);
  };
  await eachEntry(await opened(path), note).catch((fault: unknown) => {
    throw broken(fault);
  });
  return names;
}

function opened(path: string): Promise<ZipFile> {
  return new Promise((resolve, reject) => {
    open(path, { lazyEntries: true, validateEntrySizes: true }, (fault, zip) => {
      if (!fault) resolve(zip);
      else if ("code" in fault && fault.code === "ENOENT")
        reject(new BadInput("file", quote(path), "a file that is there", "check the path"));
      else reject(broken(fault));
    });
  });
}

async function manifestOf(path: string, parts: ReadonlySet<string>): Promise<Manifest> {
  const notOurs = (given: string) =>
    new BadInput("file", given, "a workshop's archive, as 'stillglow export' writes it", "give that file");
  if (!parts.has(manifestName)) throw notOurs(`an archive without ${manifestName}`);
  let text = "";
  const read: Use = async (stream) => {
    text = await textOf(stream, mostManifest_bytes, manifestName);
  };
  await withParts(path, new Map([[manifestName, read]]));
  let told: unknown;
  try {
    told = JSON.parse(text);
  } catch {
    throw notOurs(`a ${manifestName} that is no JSON`);
  }
  const newer = (told as { form?: unknown } | null)?.form;
  if (typeof newer === "number" && newer > form) {
    throw new BadInput(manifestName, `form ${newer}`, `form ${form} or older`, "take it in with a newer Stillglow");
  }
  const shaped = manifestShape.safeParse(told);
  if (!shaped.success) throw BadInput.at(manifestName, refusal(shaped.error, told));
  return shaped.data;
}

type Use = (stream: Readable, name: string) => Promise<void>;

/** Goes through the archive once and hands over the parts asked for, as streams. */
async function withParts(path: string, uses: ReadonlyMap<string, Use>): Promise<void> {
  const seen = new Set<string>();
  try {
    await eachEntry(await opened(path), async (zip: ZipFile, entry: Entry) => {
      const use = uses.get(entry.fileName);
      if (!use) return;
      if (seen.has(entry.fileName))
        throw new BadInput(entry.fileName, "there twice", "each part once", "export it again");
      seen.add(entry.fileName);
      await use((await streamOf(zip, entry)) as Readable, entry.fileName);
    });
  } catch (fault) {
    const isOurs = fault instanceof BadInput || (fault instanceof Error && fault.name.startsWith("Store"));
    throw isOurs ? fault : broken(fault);
  }
}

async function fill(half: string, path: string, manifest: Manifest, now: string): Promise<string> {
  const customersShape = z.array(
    z.strictObject({ customer: z.string().min(1).max(120), name: z.string().max(4000), address: z.string().max(4000) }),
  );
  let customers: z.infer<typeof customersShape> = [];
  const kept = { recordings: KeptFiles.recordings(half), photos: KeptFiles.photos(half) };
  const uses = new Map<string, Use>();
  for (const [name, hash] of Object.entries(manifest.parts)) {
    const pool = /^(recordings|photos)\//.exec(name)?.[1] as "recordings" | "photos" | undefined;
    if (pool) {
      uses.set(name, async (stream) => {
        const found = await kept[pool].putStream(stream, () => undefined);
        if (found !== hash || !name.includes(hash)) throw changed(name);
      });
    } else if (name !== "evidence.jsonl") {
      uses.set(name, async (stream) => {
        const text = await textOf(stream, most_text_bytes, name);
        if (createHash("sha256").update(text).digest("hex") !== hash) throw changed(name);
        if (name === "workshop.json") return writeThrough(join(half, name), text);
        const read = customersShape.safeParse(JSON.parse(text));
        if (!read.success) throw BadInput.at(name, refusal(read.error, JSON.parse(text)));
        customers = read.data;
      });
    }
  }
  await withParts(path, uses);
  let head = "";
  await withParts(
    path,
    new Map<string, Use>([
      [
        "evidence.jsonl",
        async (stream, name) => {
          const hash = createHash("sha256");
          head = await adoptLedger(
            half,
            entriesIn(Readable.from(hashed(stream, hash)), manifest.entries),
            customers,
            now,
          );
          if (hash.digest("hex") !== manifest.parts[name]) throw changed(name);
        },
      ],
    ]),
  );
  return head;
}

async function* hashed(stream: Readable, hash: Hash): AsyncGenerator<Buffer> {
  for await (const chunk of stream as AsyncIterable<Buffer>) {
    hash.update(chunk);
    yield chunk;
  }
}

const entryShape = z.strictObject({
  id: z.string().regex(/^[A-Za-z0-9._:-]{1,80}$/),
  seq: z.number().int().positive(),
  at: instant,
  recordedAt: z.iso.datetime(),
  by: z.string().min(1).max(120),
  body: z.looseObject({ kind: z.string() }),
});

/** Entries a line each; their shape is looked at, and what they say is kept to the letter, so that its hash stays. */
async function* entriesIn(stream: Readable, wanted: number): AsyncGenerator<Evidence> {
  let seq = 0;
  for await (const line of createInterface({ input: stream, crlfDelay: Number.POSITIVE_INFINITY })) {
    seq += 1;
    const place = `evidence.jsonl, line ${seq}`;
    let told: unknown;
    try {
      told = JSON.parse(line);
    } catch {
      throw new BadInput(place, quote(line.slice(0, 60)), "one JSON object on each line", "export it again");
    }
    const read = entryShape.safeParse(told);
    if (!read.success) throw BadInput.at(`${place}: `, refusal(read.error, told));
    if (read.data.seq !== seq) throw new BadInput(place, `entry ${read.data.seq}`, `entry ${seq}`, "export it again");
    const of = body.safeParse(read.data.body);
    if (!of.success) throw BadInput.at(`${place}: body`, refusal(of.error, read.data.body));
    yield told as Evidence;
  }
  if (seq !== wanted) {
    throw new BadInput("evidence.jsonl", `${seq} entries`, `${wanted}, as the archive says`, "export it again");
  }
}

async function readBack(half: string, manifest: Manifest): Promise<void> {
  const store = await openStore(half, { write: true });
  try {
    const read = await store.verify(manifest.head);
    if (!read.ok) {
      throw new BadInput(`entry ${read.seq}`, read.problem, "a whole chain", "export it again; nothing was taken in");
    }
  } finally {
    await store.close();
    rmSync(join(half, "lock"), { force: true });
  }
}

async function textOf(stream: Readable, most_bytes: number, name: string): Promise<string> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of stream as AsyncIterable<Buffer>) {
    bytes += chunk.length;
    if (bytes > most_bytes)
      throw new BadInput(name, "larger than any workshop's", `at most ${most_bytes} bytes`, "export it again");
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString("utf8");
}

function writeThrough(path: string, text: string): void {
  writeFileSync(path, text);
  syncFile(path);
}

const lacking = (name: string, given: string) =>
  new BadInput(name, given, "every part that the archive names", "export it again");
const changed = (name: string) =>
  new BadInput(
    name,
    "content that does not fit its hash",
    "the archive as it was written",
    "copy it again; nothing was taken in",
  );
