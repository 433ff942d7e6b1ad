import type { Engine, Queries } from "./engine.ts";
import { KeptFiles } from "./keptFiles.ts";
import { migrate, newestVersion, requireNotNewer } from "./migrations.ts";
import type { PostgresEngine } from "./postgres/engine.ts";
import { SharedFiles } from "./postgres/sharedFiles.ts";
import { SqliteEngine } from "./sqliteEngine.ts";
import { StoreReadOnly } from "./storeErrors.ts";
import { build, type Tables } from "./tables.ts";

/**
 * Tables beside the chain that go with a workshop wherever it is kept. What was computed, and what holds for one
 * machine or one evening, stays behind.
 */
const movingTables = ["customer", "person", "meta"] as const satisfies readonly (keyof Tables)[];

/** Words that a database says of itself. */
const ownWords: ReadonlySet<string> = new Set(["workshop", "moved"]);
const rowsAtOnce = 50;
const page = 2000;

/** Copies the chain as it is, row by row through the guards of the other database, and all that stands beside it. */
export async function copyLedger(from: Queries, to: Queries): Promise<void> {
  for (let seq = 0; ; ) {
    const newer = build.selectFrom("evidence").selectAll().where("seq", ">", seq).orderBy("seq").limit(page);
    const rows = await from.all(newer);
    for (const some of parts(rows)) await to.do(build.insertInto("evidence").values(some));
    if (rows.length < page) break;
    seq = rows.at(-1)!.seq;
  }
  for (const table of movingTables) {
    const rows = (await from.all(build.selectFrom(table).selectAll())) as object[];
    const kept = rows.filter((row) => !("key" in row && ownWords.has(String(row.key))));
    for (const some of parts(kept)) await to.do(build.insertInto(table).values(some as never));
  }
}

/** Copies a shared database, as it stands at one moment, into a file of its own. */
export async function copyOut(engine: PostgresEngine, file: string, now: string): Promise<void> {
  const copy = SqliteEngine.toWrite(file);
  try {
    await migrate(copy, now);
    await engine.snapshot(async (queries) => {
      if ((await requireNotNewer(queries, engine.name)) < newestVersion) {
        throw new StoreReadOnly(`${engine.name}: its tables are of an older version; open it once to write`);
      }
      await copy.transaction((own) => copyLedger(queries, own));
    });
  } finally {
    await copy.close({ write: true });
  }
}

function parts<T>(rows: readonly T[]): T[][] {
  return Array.from({ length: Math.ceil(rows.length / rowsAtOnce) }, (_, i) =>
    rows.slice(i * rowsAtOnce, (i + 1) * rowsAtOnce),
  );
}

/** What the workshop says of itself (`workshop.json`), where its database keeps it. */
export async function wordsOf(queries: Queries, key: "workshop" | "moved"): Promise<string | undefined> {
  const [row] = await queries.all(build.selectFrom("meta").select("value").where("key", "=", key));
  return row?.value;
}

export async function putWords(queries: Queries, key: "workshop" | "moved", value: string): Promise<void> {
  await queries.do(
    build
      .insertInto("meta")
      .values({ key, value })
      .onConflict((conflict) => conflict.column("key").doUpdateSet({ value })),
  );
}

export async function isEmpty(engine: Engine): Promise<boolean> {
  return (await engine.all(build.selectFrom("evidence").select("seq").limit(1))).length === 0;
}

/** Files of a data folder as a shared database has them. */
export function sharedFilesOf(folder: string, engine: PostgresEngine) {
  return {
    recordings: new SharedFiles(KeptFiles.recordings(folder), engine),
    photos: new SharedFiles(KeptFiles.photos(folder), engine),
  };
}
