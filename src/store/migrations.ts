import { chainStart } from "./chain.ts";
import type { Engine, Queries } from "./engine.ts";
import { makePeopleTables } from "./peopleTables.ts";
import { evidenceGuards as postgresGuards, sharedTables } from "./postgres/guards.ts";
import { StoreFromNewerVersion } from "./storeErrors.ts";
import { build } from "./tables.ts";

interface Migration {
  readonly name: string;
  up(queries: Queries): Promise<void>;
}

/** In order, forward only; one that was released is never changed. */
const migrations: readonly Migration[] = [
  {
    name: "evidence, customers, cached states",
    async up(queries) {
      const { schema } = build;
      await queries.do(
        schema
          .createTable("evidence")
          .addColumn("seq", "integer", (c) => c.primaryKey())
          .addColumn("id", "text", (c) => c.notNull().unique())
          .addColumn("at", "text", (c) => c.notNull())
          .addColumn("recorded_at", "text", (c) => c.notNull())
          .addColumn("by", "text", (c) => c.notNull())
          .addColumn("kind", "text", (c) => c.notNull())
          .addColumn("unit", "text")
          .addColumn("valve", "text")
          .addColumn("instrument", "text")
          .addColumn("body", "text", (c) => c.notNull())
          .addColumn("prev_sha256", "text", (c) => c.notNull())
          .addColumn("sha256", "text", (c) => c.notNull()),
      );
      for (const column of ["kind", "unit", "valve", "instrument"] as const) {
        await queries.do(schema.createIndex(`evidence_by_${column}`).on("evidence").column(column));
      }
      await queries.do(
        schema
          .createTable("customer")
          .addColumn("customer", "text", (c) => c.primaryKey())
          .addColumn("name", "text", (c) => c.notNull())
          .addColumn("address", "text", (c) => c.notNull()),
      );
      await queries.do(
        schema
          .createTable("cached_state")
          .addColumn("key", "text", (c) => c.primaryKey())
          .addColumn("seq", "integer", (c) => c.notNull())
          .addColumn("state", "text", (c) => c.notNull()),
      );
      await queries.do(
        schema
          .createTable("meta")
          .addColumn("key", "text", (c) => c.primaryKey())
          .addColumn("value", "text", (c) => c.notNull()),
      );
      const guards = queries.kind === "postgres" ? postgresGuards : evidenceGuards;
      for (const guard of guards) await queries.run(guard);
    },
  },
  {
    name: "files and answers that several machines share",
    /** A folder of its own keeps both beside its file. */
    async up(queries) {
      if (queries.kind === "postgres") for (const table of sharedTables) await queries.run(table);
    },
  },
  { name: "people and their sessions", up: makePeopleTables },
];

/**
 * What keeps the chain whole against any program that writes to the file, ours included; PostgreSQL has its own.
 *
 * The insertion guard also stops `INSERT OR REPLACE`, which would delete a row without asking the delete guard.
 */
const evidenceGuards = [
  `CREATE TRIGGER evidence_is_never_edited BEFORE UPDATE ON evidence
   BEGIN SELECT RAISE(ABORT, 'evidence is append-only: supersede the entry instead of editing it'); END`,
  `CREATE TRIGGER evidence_is_never_deleted BEFORE DELETE ON evidence
   BEGIN SELECT RAISE(ABORT, 'evidence is append-only: supersede the entry instead of deleting it'); END`,
  `CREATE TRIGGER evidence_grows_at_its_end BEFORE INSERT ON evidence
   WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM evidence)
     OR NEW.prev_sha256 IS NOT coalesce((SELECT sha256 FROM evidence ORDER BY seq DESC LIMIT 1), '${chainStart}')
     OR EXISTS (SELECT 1 FROM evidence WHERE id = NEW.id)
   BEGIN SELECT RAISE(ABORT, 'evidence is append-only: an entry follows the newest one'); END`,
];

export const newestVersion = migrations.length;

/** Version of the tables in a database, 0 in an empty one. */
export async function versionOf(queries: Queries): Promise<number> {
  if (!(await queries.hasTable("migration"))) return 0;
  const [newest] = await queries.all(build.selectFrom("migration").select((e) => e.fn.max("version").as("version")));
  return newest?.version ?? 0;
}

/**
 * Brings the tables up to this version.
 *
 * @throws StoreFromNewerVersion  before anything is touched, when a newer Stillglow wrote them
 */
export async function migrate(engine: Engine, now: string): Promise<void> {
  if ((await requireNotNewer(engine, engine.name)) === newestVersion) return;
  const bringUp = async (queries: Queries) => {
    // Another server may have done it in between.
    const version = await requireNotNewer(queries, engine.name);
    if (version === 0) {
      await queries.do(
        build.schema
          .createTable("migration")
          .addColumn("version", "integer", (c) => c.primaryKey())
          .addColumn("name", "text", (c) => c.notNull())
          .addColumn("applied_at", "text", (c) => c.notNull()),
      );
    }
    for (const [i, { name, up }] of migrations.entries()) {
      if (i < version) continue;
      await up(queries);
      await queries.do(build.insertInto("migration").values({ version: i + 1, name, applied_at: now }));
    }
  };
  await engine.grow(bringUp, async (queries) => (await versionOf(queries)) === newestVersion);
}

/** @returns the version, which is none that this Stillglow does not know */
export async function requireNotNewer(queries: Queries, where: string): Promise<number> {
  const version = await versionOf(queries);
  if (version <= newestVersion) return version;
  throw new StoreFromNewerVersion(
    `${where}: its tables are of version ${version}, and this Stillglow knows up to ${newestVersion}; nothing was touched; open it with the Stillglow that wrote it, or a newer one`,
  );
}
