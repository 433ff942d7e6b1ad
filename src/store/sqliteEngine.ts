import { pathToFileURL } from "node:url";
import Database from "libsql";
import type { Engine, Queries, Query } from "./engine.ts";
import { StoreInUse, storeFault } from "./storeErrors.ts";

/** One SQLite file. What is asked of it runs at once and in turn; nobody gets between the parts of a transaction. */
export class SqliteEngine implements Engine {
  readonly kind = "sqlite";
  readonly name: string;
  private readonly database: Database.Database;
  private turn: Promise<unknown> = Promise.resolve();

  private constructor(database: Database.Database, file: string) {
    this.database = database;
    this.name = file;
  }

  /** Opens the file to write, making it when it is not there; a commit returns after the disk has it. */
  static toWrite(file: string): SqliteEngine {
    return SqliteEngine.opening(file, () => {
      // A disk may spoil a whole sector when the power fails while a part of it is written; so a commit fills its last one.
      const path = `${pathToFileURL(file).href}?psow=0`;
      const engine = new SqliteEngine(new Database(path, { timeout: 2000 }), file);
      for (const pragma of ["journal_mode = WAL", "synchronous = FULL", "secure_delete = ON"]) {
        engine.database.exec(`PRAGMA ${pragma}`);
      }
      return engine;
    });
  }

  /** Opens the file to look at, beside whoever writes to it. */
  static toRead(file: string): SqliteEngine {
    return SqliteEngine.opening(
      file,
      () => new SqliteEngine(new Database(`${pathToFileURL(file).href}?mode=ro`, { timeout: 2000 }), file),
    );
  }

  private static opening(file: string, open: () => SqliteEngine): SqliteEngine {
    try {
      const engine = open();
      engine.database.exec("SELECT count(*) FROM sqlite_master");
      return engine;
    } catch (fault) {
      throw storeFault(fault, file);
    }
  }

  all<Row>(query: Query<Row>): Promise<Row[]> {
    return this.inTurn(() => this.atOnce.all(query));
  }

  do(query: Query): Promise<void> {
    return this.inTurn(() => this.atOnce.do(query));
  }

  run(sql: string): Promise<void> {
    return this.inTurn(() => this.atOnce.run(sql));
  }

  hasTable(name: string): Promise<boolean> {
    return this.inTurn(() => this.atOnce.hasTable(name));
  }

  transaction<T>(work: (queries: Queries) => Promise<T>): Promise<T> {
    return this.inTurn(async () => {
      await this.atOnce.run("BEGIN IMMEDIATE");
      try {
        const result = await work(this.atOnce);
        await this.atOnce.run("COMMIT");
        return result;
      } catch (fault) {
        // A full disk may have rolled it back already, and then a second rollback would hide the fault.
        if (this.database.inTransaction) await this.atOnce.run("ROLLBACK");
        throw fault;
      }
    });
  }

  /** Who holds the folder's lock is the only writer. */
  grow<T>(work: (queries: Queries) => Promise<T>): Promise<T> {
    return this.transaction(work);
  }

  /** What is wrong with the file's pages, in the database's own words; nothing where they hold together. */
  fault(): Promise<string | undefined> {
    return this.inTurn(async () => {
      const [told] = this.guarded(() => this.database.pragma("quick_check(1)")) as { quick_check?: string }[];
      const words = told?.quick_check ?? "its pages can't be read";
      return words === "ok" ? undefined : words.replaceAll(/\s+/g, " ").slice(0, 200);
    });
  }

  /** Empties the log into the file, so that what was erased is in neither. */
  scrub(): Promise<void> {
    return this.inTurn(async () => {
      const [told] = this.guarded(() => this.database.pragma("wal_checkpoint(TRUNCATE)")) as { busy?: number }[];
      if (told?.busy === 0) return;
      throw new StoreInUse(
        `${this.name}: it was deleted, but the log that still holds it can't be emptied while another program reads here; let that end, then erase again`,
      );
    });
  }

  /** Moves everything into the one file and lets go of it. */
  close({ write }: { readonly write: boolean }): Promise<void> {
    return this.inTurn(async () => {
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
    });
  }

  private readonly atOnce: Queries = {
    kind: "sqlite",
    all: async <Row>(query: Query<Row>) => {
      const { sql, parameters } = query.compile();
      return this.guarded(() => this.database.prepare(sql).all(...parameters) as Row[]);
    },
    do: async (query) => {
      const { sql, parameters } = query.compile();
      this.guarded(() => this.database.prepare(sql).run(...parameters));
    },
    run: async (sql) => {
      this.guarded(() => this.database.exec(sql));
    },
    hasTable: async (name) => {
      const find = "SELECT name FROM sqlite_master WHERE type = 'table' AND name = ?";
      return this.guarded(() => this.database.prepare(find).all(name)).length > 0;
    },
  };

  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    const done = this.turn.then(work);
    this.turn = done.catch(() => undefined);
    return done;
  }

  private guarded<T>(work: () => T): T {
    try {
      return work();
    } catch (fault) {
      throw storeFault(fault, this.name);
    }
  }
}
