import { setTimeout as pause } from "node:timers/promises";
import { PostgresQueryCompiler } from "kysely";
import type pg from "pg";
import type { Engine, Queries, Query } from "../engine.ts";
import { StoreInUse, StoreOutcomeUnknown } from "../storeErrors.ts";
import { connectionOf } from "./connection.ts";
import { isLost, postgresFault } from "./faults.ts";
import { Hearing } from "./hearing.ts";

/** Who holds this lock of the database may add to the chain; it falls with the transaction, however that ends. */
const growing = 7_114_170;
/** A database that is being restarted is waited for; a page's patience is longer. */
const patience_ms = 10_000;
/** PostgreSQL's own code for a lock that was not to be had in time. */
const lockNotGiven = "55P03";
const mostConnections = 8;

/**
 * A transaction that alone may grow the chain. Settings of the server that would let a commit return before the disk
 * has it are overruled; whoever stands still in the middle, frozen or cut off, is thrown out so that others go on.
 */
const beginGrowing = `BEGIN ISOLATION LEVEL READ COMMITTED;
  SELECT set_config('synchronous_commit', 'on', true) WHERE current_setting('synchronous_commit') IN ('off', 'local');
  SET LOCAL lock_timeout = '10s';
  SET LOCAL idle_in_transaction_session_timeout = '10s';
  SELECT pg_advisory_xact_lock(${growing});`;

/** A PostgreSQL database that several servers, commands and workers share. */
export class PostgresEngine implements Engine {
  readonly kind = "postgres";
  readonly name: string;
  private readonly pool: pg.Pool;
  private readonly hearing: Hearing;
  private readonly config: pg.ClientConfig;
  private readonly onPool: Queries;

  private constructor(
    database: string,
    /** Loaded only for a shop that has a database. */
    private readonly library: typeof pg,
  ) {
    const { name, config } = connectionOf(database);
    this.name = name;
    this.pool = new library.Pool({ ...config, max: mostConnections, types: plainTypes(library.types) });
    // An idle line that breaks is replaced when it is needed.
    this.pool.on("error", () => undefined);
    this.config = config;
    this.hearing = new Hearing(config);
    this.onPool = queriesOn({ query: (text, values) => this.asked(text, values) });
  }

  /** @throws BadInput, StoreUnreachable, StoreReadOnly, StoreMissing */
  static async open(database: string): Promise<PostgresEngine> {
    const engine = new PostgresEngine(database, (await import("pg")).default);
    try {
      await engine.run("SELECT 1");
      return engine;
    } catch (fault) {
      await engine.close();
      throw fault;
    }
  }

  all<Row>(query: Query<Row>): Promise<Row[]> {
    return this.onPool.all(query);
  }
  do(query: Query): Promise<void> {
    return this.onPool.do(query);
  }
  run(sql: string): Promise<void> {
    return this.onPool.run(sql);
  }
  hasTable(name: string): Promise<boolean> {
    return this.onPool.hasTable(name);
  }

  /** For what is asked in PostgreSQL's own words. */
  async rows<Row>(text: string, values: readonly unknown[] = []): Promise<readonly Row[]> {
    return (await this.asked(text, values)).rows as Row[];
  }

  transaction<T>(work: (queries: Queries) => Promise<T>): Promise<T> {
    return this.named(() => this.inOne("BEGIN", work));
  }

  /** Reads one and the same state of everything, however long it takes and whoever writes. */
  snapshot<T>(work: (queries: Queries) => Promise<T>): Promise<T> {
    return this.named(() => this.inOne("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY", work));
  }

  /** A transaction in PostgreSQL's own words; each question resolves to the number of rows it touched. */
  alone(work: (ask: (text: string, values: readonly unknown[]) => Promise<number>) => Promise<void>): Promise<void> {
    return this.named(() =>
      this.inOne("BEGIN", (_queries, client) =>
        work(async (text, values) => (await client.query(text, [...values])).rowCount ?? 0),
      ),
    );
  }

  async grow<T>(work: (queries: Queries) => Promise<T>, wasKept: (queries: Queries) => Promise<boolean>): Promise<T> {
    let unsure: { readonly result: T } | undefined;
    const committed = () => {
      if (!unsure) throw new Error("nothing was being committed");
      return unsure.result;
    };
    for (const until = Date.now() + patience_ms, wait = waits(); ; ) {
      try {
        // What was lost while it was being committed held the lock until it was decided: now it is.
        if (unsure && (await this.inOne(beginGrowing, wasKept))) return committed();
        unsure = undefined;
        return await this.inOne(beginGrowing, work, (result) => {
          unsure = { result };
        });
      } catch (fault) {
        if (!isLost(fault)) {
          if (unsure) throw this.unknown(fault);
          throw postgresFault(fault, this.name);
        }
        if (Date.now() > until) throw unsure ? this.unknown(fault) : postgresFault(fault, this.name);
        await pause(wait());
      }
    }
  }

  /**
   * Puts what stands of the table into a new file and lets go of the old one, which goes when that is committed.
   *
   * A vacuum would not do: it keeps what any look at the database from before may still ask for, even one that only just
   * begins, and says nothing of it. The write-ahead log and backups keep what was deleted for as long as they are kept.
   *
   * @throws StoreInUse  when somebody goes on reading the table as of before
   */
  async scrub(table: string): Promise<void> {
    await this.named(() =>
      this.inOne("BEGIN", async (_queries, client) => {
        try {
          await client.query(`SET LOCAL lock_timeout = ${patience_ms}`);
          await client.query(`LOCK TABLE "${table}" IN ACCESS EXCLUSIVE MODE`);
        } catch (fault) {
          if ((fault as { code?: string }).code !== lockNotGiven) throw fault;
          throw new StoreInUse(
            `${this.name}: it was deleted, but the table that still holds it can't be written anew while another program reads it; let that end, then erase again`,
          );
        }
        await client.query(`CREATE TEMPORARY TABLE standing ON COMMIT DROP AS TABLE "${table}"`);
        await client.query(`TRUNCATE "${table}"`);
        await client.query(`INSERT INTO "${table}" SELECT * FROM standing`);
      }),
    );
  }

  /** Calls back with every message sent on a channel, and once with none when messages may have been missed. */
  hear(channel: string, listener: (message: string | undefined) => void): Promise<() => void> {
    return this.named(() => this.hearing.add(channel, listener));
  }

  async tell(channel: string, message: string): Promise<void> {
    await this.asked("SELECT pg_notify($1, $2)", [channel, message]);
  }

  /** A line of one's own, for locks that live and fall with it. */
  ownLine(): Promise<OwnLine> {
    return this.named(async () => {
      const line = new this.library.Client(this.config);
      line.on("error", () => undefined);
      await line.connect();
      return { ask: async (text, values) => void (await line.query(text, values)), close: () => line.end() };
    });
  }

  async close(): Promise<void> {
    await this.hearing.close();
    await this.pool.end();
  }

  /** A question may be put again when the line was lost: it changes nothing, or the same. */
  private async asked(text: string, values: readonly unknown[] = []): Promise<pg.QueryResult> {
    return this.named(async () => {
      for (const until = Date.now() + patience_ms, wait = waits(); ; ) {
        try {
          return await this.pool.query(text, [...values]);
        } catch (fault) {
          if (!isLost(fault) || Date.now() > until) throw fault;
          await pause(wait());
        }
      }
    });
  }

  private async inOne<T>(
    begin: string,
    work: (queries: Queries, client: pg.PoolClient) => Promise<T>,
    committing: (result: T) => void = () => undefined,
  ): Promise<T> {
    const client = await this.pool.connect();
    let broken: Error | undefined;
    const onError = (fault: Error) => {
      broken = fault;
    };
    client.on("error", onError);
    try {
      await client.query(begin);
      const result = await work(queriesOn(client), client);
      if (broken) throw broken;
      committing(result);
      const { command } = await client.query("COMMIT");
      if (command !== "COMMIT") throw new Error(`${this.name}: the transaction was rolled back`);
      client.removeListener("error", onError);
      client.release();
      return result;
    } catch (fault) {
      client.removeListener("error", onError);
      client.on("error", () => undefined);
      // The line goes, and with it all that was not committed.
      client.release(true);
      throw broken ?? fault;
    }
  }

  private unknown(fault: unknown): StoreOutcomeUnknown {
    return new StoreOutcomeUnknown(
      `${this.name}: the database was lost while it was writing this; whether it was kept is not known yet; look at the record before entering it again`,
      { cause: fault },
    );
  }

  private async named<T>(work: () => Promise<T>): Promise<T> {
    try {
      return await work();
    } catch (fault) {
      throw postgresFault(fault, this.name);
    }
  }
}

function waits(): () => number {
  let next_ms = 25;
  return () => {
    next_ms = Math.min(2 * next_ms, 500);
    return next_ms;
  };
}

export interface OwnLine {
  ask(text: string, values: unknown[]): Promise<void>;
  close(): Promise<void>;
}

interface Asked {
  query(text: string, values?: unknown[]): Promise<pg.QueryResult>;
}

const compiler = new PostgresQueryCompiler();

function queriesOn(line: Asked): Queries {
  const put = (query: Query) => {
    const { sql, parameters } = compiler.compileQuery(query.toOperationNode() as never, query.compile().queryId);
    return line.query(sql, [...parameters]);
  };
  return {
    kind: "postgres",
    all: async <Row>(query: Query<Row>) => (await put(query)).rows as Row[],
    do: async (query) => void (await put(query)),
    run: async (sql) => void (await line.query(sql)),
    hasTable: async (name) => {
      // Read from the catalogue itself: what a line remembers of it may be older than the transaction.
      const find = "SELECT 1 FROM pg_class WHERE relname = $1 AND relnamespace = current_schema()::regnamespace";
      return (await line.query(find, [name])).rows.length > 0;
    },
  };
}

/** Counts come as numbers: none is beyond what a number holds exactly. */
const plainTypes = (types: typeof pg.types): pg.CustomTypesConfig => ({
  getTypeParser: ((oid: number, format?: "text" | "binary") =>
    oid === types.builtins.INT8 ? Number : types.getTypeParser(oid, format as "text")) as never,
});
