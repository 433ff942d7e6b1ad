import { DummyDriver, Kysely, SqliteAdapter, SqliteIntrospector, SqliteQueryCompiler } from "kysely";

/** One entry of the chain. The columns between `by` and `body` repeat the body's, for the index alone. */
export interface EvidenceTable {
  readonly seq: number;
  readonly id: string;
  readonly at: string;
  readonly recorded_at: string;
  readonly by: string;
  readonly kind: string;
  readonly unit: string | null;
  readonly valve: string | null;
  readonly instrument: string | null;
  readonly body: string;
  readonly prev_sha256: string;
  readonly sha256: string;
}

/** Outside the chain, so that a customer can be forgotten. */
export interface CustomerTable {
  readonly customer: string;
  readonly name: string;
  readonly address: string;
}

/** Outside the chain, so that a person's name can be forgotten; what they may do stands in the chain. */
export interface PersonTable {
  readonly person: string;
  readonly name: string;
  /** What a passphrase is held against, with how it was made; no passphrase follows from it. */
  readonly secret: string;
}

/** Somebody signed in at one browser. The token itself is known to that browser alone. */
export interface SessionTable {
  readonly token_sha256: string;
  readonly person: string;
  readonly begun_at: string;
  readonly seen_at: string;
}

/** What was computed from the chain up to `seq`; may be thrown away at any time. */
export interface CachedStateTable {
  readonly key: string;
  readonly seq: number;
  readonly state: string;
}

export interface MigrationTable {
  readonly version: number;
  readonly name: string;
  readonly applied_at: string;
}

export interface MetaTable {
  readonly key: string;
  readonly value: string;
}

export interface Tables {
  readonly evidence: EvidenceTable;
  readonly customer: CustomerTable;
  readonly person: PersonTable;
  readonly session: SessionTable;
  readonly cached_state: CachedStateTable;
  readonly migration: MigrationTable;
  readonly meta: MetaTable;
}

/**
 * Builds queries and runs none.
 *
 * Another database needs another compiler here, an engine of its own beside `engine.ts`, and its own guards in
 * `migrations.ts`; the queries stay.
 */
export const build = new Kysely<Tables>({
  dialect: {
    createAdapter: () => new SqliteAdapter(),
    createDriver: () => new DummyDriver(),
    createIntrospector: (db) => new SqliteIntrospector(db),
    createQueryCompiler: () => new SqliteQueryCompiler(),
  },
});
