import { mkdirSync, renameSync, writeFileSync } from "node:fs";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { PostgresEngine } from "../postgres/engine.ts";
import type { Store, StoreOptions } from "../store.ts";
import { clusterNote } from "./clusterNote.ts";
import { freshFolder, openFor } from "./folder.ts";
import { type Cluster, makeCluster, makeDatabase } from "./postgres.ts";

/** Where a store may be kept; what holds of one holds of the other. */
export const kinds = ["a folder of its own", "PostgreSQL"] as const;
export type Kind = (typeof kinds)[number];

export interface Place {
  readonly folder: string;
  readonly database?: string;
}

/** An empty place of its own for one test. */
export async function freshPlace(kind: Kind): Promise<Place> {
  const folder = freshFolder();
  return kind === "PostgreSQL" ? { folder, database: await freshDatabase() } : { folder };
}

export function openAt({ folder, database }: Place, options: StoreOptions = {}): Promise<Store> {
  return openFor(folder, { database, ...options });
}

/** Every byte of the files that hold a place's tables, whoever is let see them; the log of writing is not among them. */
export async function tablesAt({ folder, database }: Place): Promise<Buffer> {
  if (database === undefined) return readFile(join(folder, "stillglow.db"));
  const engine = await PostgresEngine.open(database);
  try {
    await engine.run("CHECKPOINT");
    const [of] = await engine.rows<{ data: string; oid: number }>(
      "SELECT current_setting('data_directory') AS data, oid FROM pg_database WHERE datname = current_database()",
    );
    const tables = join(of!.data, "base", String(of!.oid));
    const files = await readdir(tables);
    return Buffer.concat(await Promise.all(files.map((file) => readFile(join(tables, file)))));
  } finally {
    await engine.close();
  }
}

/** An empty database on the server that all tests of a run share. */
export async function freshDatabase(): Promise<string> {
  return makeDatabase(await sharedCluster());
}

/** The first to ask starts the server; the run stops it at its end. */
async function sharedCluster(): Promise<Cluster> {
  const folder = process.env.STILLGLOW_RUN_FOLDER;
  if (folder === undefined) throw new Error("a database for tests lives in the folder of a run");
  const note = join(folder, clusterNote);
  try {
    mkdirSync(`${note}.lock`);
    const cluster = await makeCluster();
    // Whole once it is there.
    writeFileSync(`${note}.half`, JSON.stringify(cluster));
    renameSync(`${note}.half`, note);
  } catch (fault) {
    if ((fault as NodeJS.ErrnoException).code !== "EEXIST") {
      writeFileSync(note, "");
      throw fault;
    }
  }
  for (let left = 600; left > 0; left -= 1) {
    const text = await readFile(note, "utf8").catch(() => undefined);
    if (text === "") throw new Error("the database of this run was not started; see the first test that asked for it");
    if (text !== undefined) return JSON.parse(text) as Cluster;
    await pause(100);
  }
  throw new Error("the database of this run was not started within a minute");
}
