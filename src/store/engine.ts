import type { Compilable, OperationNodeSource } from "kysely";

/** A query as `build` makes it; each engine puts it into the words of its own database. */
export type Query<Row = unknown> = Compilable<Row> & OperationNodeSource;

/** Runs built queries; what comes back has been done. */
export interface Queries {
  /** Which database it is, for the few places whose words differ. */
  readonly kind: "sqlite" | "postgres";
  all<Row>(query: Query<Row>): Promise<Row[]>;
  do(query: Query): Promise<void>;
  /** For what no query builder writes: pragmas and triggers. */
  run(sql: string): Promise<void>;
  hasTable(name: string): Promise<boolean>;
}

/** A database that holds a workshop: one file of its own, or one that several servers share. */
export interface Engine extends Queries {
  /** As messages name it: a file, or a database without its password. */
  readonly name: string;
  /** All of it or nothing, on disk when this resolves. */
  transaction<T>(work: (queries: Queries) => Promise<T>): Promise<T>;
  /**
   * A transaction with the sole right to add to the chain, whoever else writes. `work` may run again when the line to
   * the database was lost before it could count.
   *
   * @param wasKept  looks whether what `work` wrote is there, when the line was lost while it was being committed
   */
  grow<T>(work: (queries: Queries) => Promise<T>, wasKept: (queries: Queries) => Promise<boolean>): Promise<T>;
  /** Makes sure that what was deleted from a table is no longer in the database's files either. */
  scrub(table: string): Promise<void>;
  close(options: { readonly write: boolean }): Promise<void>;
}
