import {
  constants,
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, join } from "node:path";
import { z } from "zod";
import { BadInput, quote } from "../maths/badInput.ts";
import { sha256 } from "./chain.ts";
import { copyOut, sharedFilesOf, wordsOf } from "./copyLedger.ts";
import { KeptFiles, syncFile, syncFolder } from "./keptFiles.ts";
import { PostgresEngine } from "./postgres/engine.ts";
import { SqliteEngine } from "./sqliteEngine.ts";
import { openStore } from "./store.ts";
import { StoreCorrupted, StoreMissing, storeFault } from "./storeErrors.ts";
import { verifyChain } from "./verify.ts";

/**
 * Copies of a workshop, taken while it is open: one folder for each, named by its instant, and beside them one pool of
 * recordings and photos that all share, since a file named by its content never changes.
 */

const database = "stillglow.db";
/** What a folder says of itself beside its ledger; small, and copied as it is. */
const besides = ["workshop.json", "waiting.json"] as const;
const note = "backup.json";
const pools = ["recordings", "photos"] as const;
type Pool = (typeof pools)[number];

const noteShape = z.strictObject({
  kind: z.literal("stillglow backup"),
  made: z.iso.datetime(),
  entries: z.number().int().nonnegative(),
  head: z.string().regex(/^[0-9a-f]{64}$/),
  database_sha256: z.string().regex(/^[0-9a-f]{64}$/),
  /** Names of the files in the pools that this copy needs. */
  recordings: z.array(z.string()),
  photos: z.array(z.string()),
});

export interface Backup extends z.infer<typeof noteShape> {
  /** Name of its folder. */
  readonly name: string;
}

/** Where a workshop is kept besides its folder: see `StoreOptions`. */
export interface LedgerPlace {
  readonly database?: string | undefined;
}

/** Where a ledger is kept when it is not in its folder: see `StoreOptions`. */
export interface LedgerPlace {
  readonly database?: string | undefined;
}

/**
 * Takes a copy of the workshop in `folder`, which may be open and written to, and reads it back. A workshop in a shared
 * database is copied into the same form: a file of its own with its recordings, which any folder can be restored from.
 *
 * @param into  where copies are kept; made when it is not there
 * @param now   ISO 8601 instant by which the copy is named
 * @throws StoreMissing, StoreReadOnly, StoreDiskFull; StoreCorrupted when what was read back is not what was written
 */
export async function takeBackup(
  folder: string,
  into: string,
  now: string,
  { database: shared }: LedgerPlace = {},
): Promise<Backup> {
  if (shared === undefined && !existsSync(join(folder, database))) {
    throw new StoreMissing(`${folder}: there is no workshop in this folder; check the path`);
  }
  const name = new Date(now).toISOString().replace(/\.\d+/, "").replaceAll(":", "");
  const place = join(into, name);
  const half = join(into, `.${name}.half`);
  if (existsSync(place)) {
    throw new BadInput("backup", quote(name), "one copy a second", "take it again in a second");
  }
  try {
    mkdirSync(half, { recursive: true });
    // Files come after the ledger: one that it names was kept before the entry that names it.
    const files =
      shared === undefined ? await copyFolder(folder, half, into) : await copyDatabase(shared, folder, half, into, now);
    const { entries, head } = await chainOf(half, into);
    const told = {
      kind: "stillglow backup" as const,
      made: new Date(now).toISOString(),
      entries,
      head,
      database_sha256: sha256(readFileSync(join(half, database))),
      ...files,
    };
    writeFileSync(join(half, note), `${JSON.stringify(told, null, 1)}\n`);
    for (const file of readdirSync(half)) syncFile(join(half, file));
    renameSync(half, place);
    syncFolder(into);
    return { name, ...told };
  } catch (fault) {
    rmSync(half, { recursive: true, force: true });
    throw storeFault(fault, `the backup in ${into}`);
  }
}

type PoolFiles = Record<Pool, string[]>;

async function copyFolder(folder: string, half: string, into: string): Promise<PoolFiles> {
  const engine = SqliteEngine.toRead(join(folder, database));
  try {
    await engine.run(`VACUUM INTO '${join(half, database).replaceAll("'", "''")}'`);
  } finally {
    await engine.close({ write: false });
  }
  const files = Object.fromEntries(pools.map((pool) => [pool, pour(folder, into, pool)])) as PoolFiles;
  copyBesides(folder, half);
  return files;
}

async function copyDatabase(
  shared: string,
  folder: string,
  half: string,
  into: string,
  now: string,
): Promise<PoolFiles> {
  const engine = await PostgresEngine.open(shared);
  try {
    await copyOut(engine, join(half, database), now);
    const kept = sharedFilesOf(into, engine);
    const files: PoolFiles = { recordings: [], photos: [] };
    for (const pool of pools) {
      for (const file of await kept[pool].names()) files[pool].push(basename(await kept[pool].bring(file)));
    }
    copyBesides(folder, half);
    const words = await wordsOf(engine, "workshop");
    if (words !== undefined) writeFileSync(join(half, besides[0]), words);
    return files;
  } finally {
    await engine.close();
  }
}

function copyBesides(folder: string, half: string): void {
  for (const file of besides) {
    if (existsSync(join(folder, file))) copyFileSync(join(folder, file), join(half, file));
  }
}

/** Copies files that the pool lacks, each under its name only once it is whole there. @returns the names of all */
function pour(folder: string, into: string, pool: Pool): string[] {
  const source = join(folder, pool);
  if (!existsSync(source)) return [];
  const target = join(into, pool);
  mkdirSync(target, { recursive: true });
  const names = readdirSync(source).filter((file) => !file.startsWith("."));
  for (const file of names) {
    const copy = join(target, file);
    const original = join(source, file);
    if (existsSync(copy) && statSync(copy).size === statSync(original).size) continue;
    const half = join(target, `.${file}.half`);
    copyFileSync(original, half, constants.COPYFILE_FICLONE);
    const hash = sha256(readFileSync(half));
    if (!file.startsWith(hash)) {
      rmSync(half, { force: true });
      throw new StoreCorrupted(
        `${original}: its content no longer fits its name; restore it from an earlier backup before the next is taken`,
      );
    }
    syncFile(half);
    renameSync(half, copy);
  }
  syncFolder(target);
  return names.toSorted();
}

/** Reads a copy's whole chain with the files that it names. */
async function chainOf(
  place: string,
  into: string,
  head?: string,
): Promise<{ readonly entries: number; readonly head: string }> {
  const engine = SqliteEngine.toRead(join(place, database));
  try {
    if (!(await engine.hasTable("evidence"))) {
      throw new StoreCorrupted(`${place}: its ledger holds no evidence; use another copy`);
    }
    const files = { recordings: KeptFiles.recordings(into), photos: KeptFiles.photos(into) };
    const read = await verifyChain(engine, files, head);
    if (read.ok) return read;
    throw new StoreCorrupted(
      `${place}: entry ${read.seq}${read.id === undefined ? "" : ` (${read.id})`}: ${read.problem}; take the copy again, or use an earlier one`,
    );
  } finally {
    await engine.close({ write: false });
  }
}

/** The copies in a folder, the oldest first; one that was not finished is not among them. */
export function backupsIn(into: string): readonly Backup[] {
  if (!existsSync(into)) return [];
  return readdirSync(into)
    .filter((name) => existsSync(join(into, name, note)))
    .toSorted()
    .map((name) => readNote(into, name));
}

function readNote(into: string, name: string): Backup {
  const path = join(into, name, note);
  try {
    return { name, ...noteShape.parse(JSON.parse(readFileSync(path, "utf8"))) };
  } catch (fault) {
    throw new StoreCorrupted(`${path}: it can't be read as a backup's note; use another copy`, { cause: fault });
  }
}

/**
 * Reads a copy again, every byte: its ledger against its own note, and each file it needs against its name.
 * @throws StoreMissing, StoreCorrupted
 */
export async function verifyBackup(into: string, name?: string): Promise<Backup> {
  const backup = backupNamed(into, name);
  const place = join(into, backup.name);
  if (sha256(readFileSync(join(place, database))) !== backup.database_sha256) {
    throw new StoreCorrupted(`${place}: its ledger was changed since it was taken; use another copy`);
  }
  const kept = { recordings: KeptFiles.recordings(into), photos: KeptFiles.photos(into) };
  for (const pool of pools) {
    for (const file of backup[pool]) {
      if (!kept[pool].isWhole(file.split(".")[0]!)) {
        throw new StoreCorrupted(`${join(into, pool, file)}: it is missing or was changed; use another copy`);
      }
    }
  }
  const { entries, head } = await chainOf(place, into, backup.head);
  if (entries !== backup.entries || head !== backup.head) {
    throw new StoreCorrupted(`${place}: its ledger ends elsewhere than its note says; use another copy`);
  }
  return backup;
}

function backupNamed(into: string, name?: string): Backup {
  const all = backupsIn(into);
  const found = name === undefined ? all.at(-1) : all.find((one) => one.name === name);
  if (found) return found;
  const known = all.map((one) => one.name).slice(-6);
  throw new StoreMissing(
    `${into}: there is no ${name === undefined ? "backup" : `backup ${name}`} here; ${known.length === 0 ? "check the path" : `there are ${known.join(", ")}`}`,
  );
}

/**
 * Puts a copy back as a workshop's folder, and reads it whole before it may be used.
 *
 * @param folder  where to put it: not there yet, or empty, so that nothing can be overwritten
 * @param name    which copy; the newest when left out
 */
export async function restoreBackup(into: string, folder: string, name?: string): Promise<Backup> {
  if (existsSync(folder) && readdirSync(folder).length > 0) {
    throw new BadInput(
      "folder",
      quote(folder),
      "a folder that is empty or not there, so that nothing is overwritten",
      "name another, or move what is there away first",
    );
  }
  const backup = await verifyBackup(into, name);
  const place = join(into, backup.name);
  try {
    mkdirSync(folder, { recursive: true });
    for (const pool of pools) {
      if (backup[pool].length > 0) mkdirSync(join(folder, pool), { recursive: true });
      for (const file of backup[pool]) {
        copyFileSync(join(into, pool, file), join(folder, pool, file), constants.COPYFILE_FICLONE);
        syncFile(join(folder, pool, file));
      }
    }
    for (const file of [database, ...besides]) {
      if (!existsSync(join(place, file))) continue;
      copyFileSync(join(place, file), join(folder, file));
      syncFile(join(folder, file));
    }
    syncFolder(folder);
  } catch (fault) {
    throw storeFault(fault, folder);
  }
  const store = await openStore(folder);
  try {
    const read = await store.verify(backup.head);
    if (!read.ok) throw new StoreCorrupted(`${folder}: entry ${read.seq}: ${read.problem}; restore another copy`);
  } finally {
    await store.close();
  }
  return backup;
}

const day_ms = 86_400_000;

/**
 * Lets go of copies that newer ones stand for: kept are the newest of each of the last 14 days, of each of the last
 * 8 weeks, of each of the last 24 months, and of every year; then of files that no copy left needs.
 *
 * @returns names of the copies let go
 */
export function thinBackups(into: string, now: string): readonly string[] {
  const all = backupsIn(into);
  const kept = new Set<string>();
  const spans: readonly (readonly [number, (made: Date) => string])[] = [
    [14, (made) => made.toISOString().slice(0, 10)],
    [56, (made) => String(Math.floor(made.getTime() / (7 * day_ms)))],
    [731, (made) => made.toISOString().slice(0, 7)],
    [Number.POSITIVE_INFINITY, (made) => made.toISOString().slice(0, 4)],
  ];
  for (const [most_days, spanOf] of spans) {
    const newest = new Map<string, string>();
    for (const { name, made } of all) {
      if (Date.parse(now) - Date.parse(made) <= most_days * day_ms) newest.set(spanOf(new Date(made)), name);
    }
    for (const name of newest.values()) kept.add(name);
  }
  const gone = all.filter(({ name }) => !kept.has(name));
  if (gone.length === 0) return [];
  for (const { name } of gone) rmSync(join(into, name), { recursive: true });
  for (const pool of pools) {
    const needed = new Set(all.filter(({ name }) => kept.has(name)).flatMap((one) => one[pool]));
    const folder = join(into, pool);
    if (!existsSync(folder)) continue;
    for (const file of readdirSync(folder)) if (!needed.has(file)) rmSync(join(folder, file));
  }
  return gone.map(({ name }) => name);
}
