import { pathToFileURL } from "node:url";
import type { Compilable, CompiledQuery } from "kysely";
import Database from "libsql";
import { storeFault } from "./storeErrors.ts";

/** Runs built queries on the one SQLite file, each at once; what comes back has been done. */
export class Engine {
  private readonly database: Database.Database;
  private readonly file: string;

  private constructor(database: Database.Database, file: string) {
    this.database = database;
    this.file = file;
  }

  /** Opens the file to write, making it when it is not there; a commit returns after the disk has it. */
  static toWrite(file: string): Engine {
    return Engine.opening(file, () => {
      const engine = new Engine(new Database(file, { timeout: 2000 }), file);
      engine.run("PRAGMA journal_mode = WAL");
      engine.run("PRAGMA synchronous = FULL");
      engine.run("PRAGMA secure_delete = ON");
      return engine;
    });
  }

  /** Opens the file to look at, beside whoever writes to it. */
  static toRead(file: string): Engine {
    return Engine.opening(
      file,
      () => new Engine(new Database(`${pathToFileURL(file).href}?mode=ro`, { timeout: 2000 }), file),
    );
  }

  private static opening(file: string, open: () => Engine): Engine {
    try {
      const engine = open();
      engine.run("SELECT count(*) FROM sqlite_master");
      return engine;
    } catch (fault) {
      throw storeFault(fault, file);
    }
  }

  all<Row>(query: Compilable<Row>): Row[] {
    const { sql, parameters } = query.compile();
    return this.guarded(() => this.database.prepare(sql).all(...parameters) as Row[]);
  }

  do(query: Compilable<unknown> | CompiledQuery): void {
    const { sql, parameters } = "compile" in query ? query.compile() : query;
    this.guarded(() => this.database.prepare(sql).run(...parameters));
  }

  /** For what no query builder writes: pragmas and triggers. */
  run(sql: string): void {
    this.guarded(() => this.database.exec(sql));
  }

  hasTable(name: string): boolean {
    const find = "SELECT name FROM sqlite_master WHERE type = 'table' AND name = ?";
    return this.guarded(() => this.database.prepare(find).all(name)).length > 0;
  }

  /** All of it or nothing, on disk when this returns. */
  transaction<T>(work: () => T): T {
    this.run("BEGIN IMMEDIATE");
    try {
      const result = work();
      this.run("COMMIT");
      return result;
    } catch (fault) {
      // A full disk may have rolled it back already, and then a second rollback would hide the fault.
      if (this.database.inTransaction) this.run("ROLLBACK");
      throw fault;
    }
  }

  /** Moves everything into the one file and lets go of it. */
  close({ write }: { readonly write: boolean }): void {
    try {
      if (write) {
        this.database.pragma("wal_checkpoint(TRUNCATE)");
        // Leaves one file, unless somebody is still reading: then the emptied log stays beside it.
        this.database.pragma("journal_mode = DELETE");
      }
    } catch {
      // The log is replayed at the next opening; nothing is lost by leaving it.
    } finally {
      this.database.close();
    }
  }

  /** Empties the log into the file, so that what was erased is in neither. */
  checkpoint(): void {
    this.guarded(() => this.database.pragma("wal_checkpoint(TRUNCATE)"));
  }

  private guarded<T>(work: () => T): T {
    try {
      return work();
    } catch (fault) {
      throw storeFault(fault, this.file);
    }
  }
}
