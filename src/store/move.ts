import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { BadInput } from "../maths/badInput.ts";
import { copyLedger, copyOut, isEmpty, putWords, sharedFilesOf, wordsOf } from "./copyLedger.ts";
import { KeptFiles, syncFile, syncFolder } from "./keptFiles.ts";
import { Lock } from "./lock.ts";
import { migrate } from "./migrations.ts";
import { PostgresEngine } from "./postgres/engine.ts";
import { SqliteEngine } from "./sqliteEngine.ts";
import { StoreCorrupted, StoreMissing } from "./storeErrors.ts";
import { type Verification, verifyChain } from "./verify.ts";

type Whole = Extract<Verification, { ok: true }>;

const ledgerFile = "stillglow.db";
const aboutFile = "workshop.json";
/** What stands in a folder in its ledger's place, once that was moved. */
const movedFile = "moved.json";

/**
 * Brings a workshop from its folder into a shared database: its chain as it is, to the last hash, its recordings and
 * photos, and all that stands beside them. The database is read whole before the folder lets go of its ledger, which
 * stays there under another name.
 *
 * @throws StoreInUse  while a server has the folder open
 * @throws BadInput    when the database holds a workshop already
 */
export async function moveIntoDatabase(folder: string, database: string, now: string): Promise<Whole> {
  const file = join(folder, ledgerFile);
  if (!existsSync(file)) throw new StoreMissing(`${folder}: there is no workshop in this folder; check the path`);
  const lock = Lock.take(folder, now);
  try {
    const engine = await PostgresEngine.open(database);
    try {
      await migrate(engine, now);
      await requireEmpty(engine);
      const from = SqliteEngine.toWrite(file);
      let head: string;
      try {
        await migrate(from, now);
        const own = { recordings: KeptFiles.recordings(folder), photos: KeptFiles.photos(folder) };
        head = wholeOr(await verifyChain(from, own), folder).head;
        const shared = sharedFilesOf(folder, engine);
        // Before the entries that name them.
        for (const pool of ["recordings", "photos"] as const) {
          for (const name of own[pool].names()) await shared[pool].share(name);
        }
        const about = existsSync(join(folder, aboutFile)) ? readFileSync(join(folder, aboutFile), "utf8") : undefined;
        await engine.grow(
          async (queries) => {
            await copyLedger(from, queries);
            if (about !== undefined) await putWords(queries, "workshop", about);
          },
          async () => !(await isEmpty(engine)),
        );
      } finally {
        await from.close({ write: true });
      }
      const whole = wholeOr(await verifyChain(engine, sharedFilesOf(folder, engine), head), engine.name);
      writeFileSync(join(folder, movedFile), `${JSON.stringify({ to: engine.name, at: now, head })}\n`);
      syncFile(join(folder, movedFile));
      renameSync(file, join(folder, `stillglow-until-${stamp(now)}.db`));
      syncFolder(folder);
      return whole;
    } finally {
      await engine.close();
    }
  } finally {
    lock.release();
  }
}

/**
 * Brings a workshop back from a shared database into a folder of its own. From then on the database takes nothing more,
 * so that no server that still runs beside it writes past the folder.
 */
export async function moveIntoFolder(database: string, folder: string, now: string): Promise<Whole> {
  mkdirSync(folder, { recursive: true });
  const file = join(folder, ledgerFile);
  const half = `${file}.half`;
  if (existsSync(file)) {
    throw new BadInput("folder", folder, "a folder without a workshop", "name another, or move that one away first");
  }
  const engine = await PostgresEngine.open(database);
  try {
    // Whoever began this and was stopped may go on with it; nobody else, or there would be two.
    const moved = await wordsOf(engine, "moved");
    if (moved !== undefined && moved !== resolve(folder)) throw movedAway(engine.name, moved);
    await engine.grow(
      (queries) => putWords(queries, "moved", resolve(folder)),
      async (queries) => (await wordsOf(queries, "moved")) === resolve(folder),
    );
    try {
      rmSync(half, { force: true });
      await copyOut(engine, half, now);
      const shared = sharedFilesOf(folder, engine);
      for (const pool of ["recordings", "photos"] as const) {
        for (const name of await shared[pool].names()) await shared[pool].bring(name);
      }
      const own = { recordings: KeptFiles.recordings(folder), photos: KeptFiles.photos(folder) };
      const copy = SqliteEngine.toRead(half);
      const read = await verifyChain(copy, own).finally(() => copy.close({ write: false }));
      const whole = wholeOr(read, folder);
      const about = await wordsOf(engine, "workshop");
      if (about !== undefined) writeFileSync(join(folder, aboutFile), about, { flush: true });
      syncFile(half);
      renameSync(half, file);
      rmSync(join(folder, movedFile), { force: true });
      syncFolder(folder);
      return whole;
    } catch (fault) {
      rmSync(half, { force: true });
      if (!existsSync(file)) await engine.rows("DELETE FROM meta WHERE key = 'moved'");
      throw fault;
    }
  } finally {
    await engine.close();
  }
}

/** @throws StoreMissing  when the ledger that is looked for in a folder was moved into a database */
export function requireNotMoved(folder: string): void {
  const note = join(folder, movedFile);
  if (existsSync(join(folder, ledgerFile)) || !existsSync(note)) return;
  const { to, at } = JSON.parse(readFileSync(note, "utf8")) as { readonly to: string; readonly at: string };
  throw new StoreMissing(
    `${folder}: this workshop was moved into ${to} on ${at.slice(0, 10)}; name that database with --database or STILLGLOW_DATABASE`,
  );
}

export function movedAway(name: string, folder: string): StoreMissing {
  return new StoreMissing(
    `${name}: this workshop was moved out of the database, into ${folder}; open it there, or empty the database first`,
  );
}

async function requireEmpty(engine: PostgresEngine): Promise<void> {
  if (await isEmpty(engine)) return;
  throw new BadInput("--database", engine.name, "a database without a workshop", "make a new one with createdb");
}

function wholeOr(read: Verification, where: string): Whole {
  if (read.ok) return read;
  throw new StoreCorrupted(`${where}: entry ${read.seq}: ${read.problem}; restore a backup first, nothing was moved`);
}

const stamp = (now: string) => new Date(now).toISOString().replace(/\.\d+/, "").replaceAll(":", "");
