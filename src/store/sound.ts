import { existsSync, readdirSync, renameSync, rmSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { type Files, syncFile, syncFolder } from "./keptFiles.ts";
import { migrate, newestVersion, requireNotNewer } from "./migrations.ts";
import { SqliteEngine } from "./sqliteEngine.ts";
import { StoreCorrupted, StoreInUse, StoreReadOnly, storeFault } from "./storeErrors.ts";
import { verifyChain } from "./verify.ts";

/** What SQLite takes for a page where nobody says otherwise, and nobody here does. */
const page_bytes = 4096;

/**
 * Looks a folder's ledger over before it is opened to write, without changing a byte of it, then brings an older one up to
 * this version on a copy.
 *
 * Its pages are read every time; the whole chain too when whoever had it open last did not close it, which is told
 * beforehand.
 *
 * @throws StoreCorrupted         naming what is wrong
 * @throws StoreFromNewerVersion  a newer Stillglow wrote it
 */
export async function requireSound(
  folder: string,
  { wasLeftOpen, now, notice }: { wasLeftOpen: boolean; now: string; notice: (words: string) => void },
): Promise<void> {
  const file = join(folder, "stillglow.db");
  refuseEmptied(folder, file);
  if (!existsSync(file)) return;
  // Closing had begun and was cut off: only who may write can put the pages back.
  if (existsSync(`${file}-journal`)) await SqliteEngine.toWrite(file).close({ write: false });
  refuseCut(file);
  const engine = SqliteEngine.toRead(file);
  let version: number;
  try {
    version = await requireNotNewer(engine, file);
    const fault = await engine.fault();
    if (fault !== undefined) throw damaged(file, fault);
    if (wasLeftOpen && version > 0) {
      notice(`${folder}: it was not closed the last time; its whole ledger is read through before it opens`);
      await readThrough(engine, file);
    }
  } finally {
    await engine.close({ write: false });
  }
  if (version > 0 && version < newestVersion) await raiseOnCopy(file, now);
}

const allThere: Files = {
  put: () => "",
  putStream: async () => "",
  path: () => "",
  bring: () => "",
  has: () => true,
  isWhole: () => true,
};

async function readThrough(engine: SqliteEngine, file: string): Promise<{ entries: number; head: string }> {
  const read = await verifyChain(engine, { recordings: allThere, photos: allThere });
  if (read.ok) return read;
  throw damaged(file, `entry ${read.seq}${read.id === undefined ? "" : ` (${read.id})`}: ${read.problem}`);
}

function damaged(file: string, what: string): StoreCorrupted {
  return new StoreCorrupted(`${file}: it is damaged (${what}); leave it as it is and restore the newest backup`);
}

/** Recordings without their ledger are no new workshop: an empty one would hide what was lost. */
function refuseEmptied(folder: string, file: string): void {
  if (existsSync(file) && !statSync(file).isFile()) {
    throw new StoreReadOnly(`${file}: it can't be opened; check that it is a plain file this user may read`);
  }
  const isEmpty = existsSync(file) && statSync(file).size === 0;
  if (existsSync(file) && !isEmpty) return;
  if (existsSync(`${file}-wal`) && statSync(`${file}-wal`).size > 0) {
    throw damaged(file, `${isEmpty ? "it is empty" : "it is missing"}, and what was written last lies beside it`);
  }
  const lonely = ["recordings", "photos"].filter((kept) => holdsFiles(join(folder, kept)));
  if (lonely.length === 0) return;
  throw damaged(file, `${isEmpty ? "it is empty" : "it is missing"}, and there are ${lonely.join(" and ")} beside it`);
}

/** A page that lacks its end reads as one that ends in zeros; while there is a log, it may hold that page whole. */
function refuseCut(file: string): void {
  if (existsSync(`${file}-wal`) && statSync(`${file}-wal`).size > 0) return;
  const over = statSync(file).size % page_bytes;
  if (over !== 0) throw damaged(file, `it ends ${over} bytes into a page, or is no Stillglow file`);
}

function holdsFiles(folder: string): boolean {
  return existsSync(folder) && readdirSync(folder).some((file) => !file.startsWith("."));
}

/** An older ledger, copied and brought up, stands in the place of the old one only once it was read whole. */
async function raiseOnCopy(file: string, now: string): Promise<void> {
  const copy = `${file}.raised`;
  const clear = () => {
    for (const ending of ["", "-wal", "-shm", "-journal"]) rmSync(`${copy}${ending}`, { force: true });
  };
  clear();
  try {
    // What a killed writer left in the log goes into the file first.
    if (existsSync(`${file}-wal`)) await SqliteEngine.toWrite(file).close({ write: true });
    const old = SqliteEngine.toRead(file);
    const before = await readThrough(old, file);
    await old.run(`VACUUM INTO '${copy.replaceAll("'", "''")}'`);
    await old.close({ write: false });
    const raised = SqliteEngine.toWrite(copy);
    try {
      await migrate(raised, now);
      const after = await readThrough(raised, copy);
      if (after.entries !== before.entries || after.head !== before.head) {
        throw damaged(copy, `its chain ends elsewhere than that of ${file}`);
      }
    } finally {
      await raised.close({ write: true });
    }
    // A log of the old file must never be read into the new one.
    if (existsSync(`${file}-wal`) || existsSync(`${file}-shm`)) {
      throw new StoreInUse(
        `${file}: its tables must be brought up to this version, and another program is reading there; let that end, then try again`,
      );
    }
    syncFile(copy);
    renameSync(copy, file);
    syncFolder(dirname(file));
  } catch (fault) {
    throw storeFault(fault, file);
  } finally {
    clear();
  }
}
