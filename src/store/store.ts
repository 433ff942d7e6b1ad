import { existsSync, statSync } from "node:fs";
import { join } from "node:path";
import type { Evidence, EvidenceKind } from "../claims/evidence.ts";
import type { Shop, Submitted } from "../claims/index.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { canonicalJson } from "./chain.ts";
import { wordsOf } from "./copyLedger.ts";
import { Customers } from "./customers.ts";
import type { Engine, Queries } from "./engine.ts";
import { KeptFiles } from "./keptFiles.ts";
import { Lock } from "./lock.ts";
import { migrate, newestVersion, requireNotNewer } from "./migrations.ts";
import { movedAway, requireNotMoved } from "./move.ts";
import { PostgresEngine } from "./postgres/engine.ts";
import { grownChannel } from "./postgres/guards.ts";
import { SharedFiles } from "./postgres/sharedFiles.ts";
import { entryOf, saidColumns } from "./rows.ts";
import { requireSound } from "./sound.ts";
import { SqliteEngine } from "./sqliteEngine.ts";
import { StoreCorrupted, StoreMissing, StoreReadOnly } from "./storeErrors.ts";
import { parseSubmissions } from "./submissions.ts";
import { build } from "./tables.ts";
import { type Kept, type Verification, verifyChain } from "./verify.ts";
import { withWayBack } from "./wayBack.ts";
import { type Admitted, latest, WrittenRecord } from "./writtenRecord.ts";

export interface StoreOptions {
  /**
   * What the store's clock shows, as an ISO 8601 instant; the machine's own when left out. It is asked once for each
   * entry that is written, in their order.
   */
  readonly clock?: () => string;
  /** False to look at a folder while another process may be writing to it. */
  readonly write?: boolean;
  /** Connection string of a PostgreSQL database that holds the ledger instead of the folder's own file. */
  readonly database?: string | undefined;
  /** Told beforehand what will take long: in a large ledger, minutes. */
  readonly notice?: (words: string) => void;
}

export interface EvidenceFilter {
  readonly kind?: EvidenceKind;
  /** Entries that name this unit. */
  readonly unit?: string;
  /** Entries after this place in the chain. */
  readonly since?: number;
}

/** One statement for so many rows: a statement a row costs more than its row. */
const rowsAtOnce = 50;
/** A first reading of a long chain lets others have their turn. */
const readAtOnce = 5000;

/** A shop with so many entries is folded for drafts beforehand, so many at a time, with pauses for who asks meanwhile. */
const preparedFrom = 20_000;
const preparedAtOnce = 500;
const preparedApart_ms = 5;

/** So many writings go to the disk together, so that the first of them does not wait for long. */
const mostTogether = 200;

/** What waits to be written, and for whom. */
interface HandedIn {
  readonly given: readonly Submitted[] | (() => readonly unknown[]);
  done(entries: readonly Evidence[]): void;
  failed(fault: unknown): void;
}

export type Listener = (entries: readonly Evidence[]) => void;

/**
 * Opens a workshop: in its data folder alone, or in a database that several servers share, the folder then holding what
 * belongs to this machine.
 *
 * @throws StoreMissing           the folder, or to look at it the file in it, is not there
 * @throws StoreInUse             another process writes to it
 * @throws StoreFromNewerVersion  a newer Stillglow wrote it; it was not touched
 * @throws StoreUnreachable       the database does not answer
 * @throws StoreCorrupted, StoreReadOnly, StoreDiskFull
 */
export async function openStore(folder: string, options: StoreOptions = {}): Promise<Store> {
  const { clock = systemClock, write = true, database, notice = () => {} } = options;
  if (!existsSync(folder) || !statSync(folder).isDirectory()) {
    throw new StoreMissing(`${folder}: there is no such data folder; check the path, or make the folder first`);
  }
  if (database === undefined) requireNotMoved(folder);
  const lock = write && database === undefined ? Lock.take(folder, clock()) : undefined;
  let engine: Engine | undefined;
  try {
    if (lock) await requireSound(folder, { wasLeftOpen: lock.wasLeftOpen, now: clock(), notice });
    engine = await openEngine(folder, { write, database });
    if (write) await migrate(engine, clock());
    else await requireMigrated(engine);
    const moved = database === undefined ? undefined : await wordsOf(engine, "moved");
    if (moved !== undefined) throw movedAway(engine.name, moved);
    return await Store.on(engine, { folder, clock, write, lock });
  } catch (fault) {
    await engine?.close({ write: false });
    lock?.release();
    throw fault instanceof StoreCorrupted && database === undefined ? withWayBack(folder, fault) : fault;
  }
}

async function openEngine(
  folder: string,
  { write, database }: Pick<StoreOptions, "write" | "database">,
): Promise<Engine> {
  if (database !== undefined) return PostgresEngine.open(database);
  const file = join(folder, "stillglow.db");
  if (write) return SqliteEngine.toWrite(file);
  if (existsSync(file)) return SqliteEngine.toRead(file);
  throw new StoreMissing(`${folder}: there is no workshop in this folder; check the path, or start one there first`);
}

async function requireMigrated(engine: Engine): Promise<void> {
  if ((await requireNotNewer(engine, engine.name)) === newestVersion) return;
  throw new StoreReadOnly(
    `${engine.name}: its tables are of an older version; open it once to write, so that they are brought up`,
  );
}

interface Opened {
  readonly folder: string;
  readonly clock: () => string;
  readonly write: boolean;
  readonly lock?: Lock | undefined;
}

/** A workshop's evidence: only ever added to, each entry tied by its hash to all before it, all of it in memory. */
export class Store {
  readonly folder: string;
  readonly customers: Customers;
  /** Tables outside the chain are asked through it. */
  readonly engine: Engine;
  private readonly clock: () => string;
  private readonly write: boolean;
  private readonly lock: Lock | undefined;
  private readonly files: Kept;
  private readonly listeners = new Set<Listener>();
  private readonly written = new WrittenRecord();
  private waiting: HandedIn[] = [];
  private appending: Promise<void> | undefined;
  private isClosed = false;
  private isPreparing = false;
  private reading: Promise<void> | undefined;
  private nextReading: Promise<void> | undefined;

  private constructor(engine: Engine, { folder, clock, write, lock }: Opened) {
    this.folder = folder;
    this.engine = engine;
    this.clock = clock;
    this.write = write;
    this.lock = lock;
    const own = { recordings: KeptFiles.recordings(folder), photos: KeptFiles.photos(folder) };
    this.files =
      engine instanceof PostgresEngine
        ? { recordings: new SharedFiles(own.recordings, engine), photos: new SharedFiles(own.photos, engine) }
        : own;
    this.customers = new Customers(engine);
  }

  static async on(engine: Engine, opened: Opened): Promise<Store> {
    const store = new Store(engine, opened);
    await store.readOn(engine);
    store.prepareDrafts();
    if (engine instanceof PostgresEngine) {
      const fault = (trouble: unknown) => {
        if (!store.isClosed) process.emitWarning(trouble instanceof Error ? trouble : String(trouble));
      };
      await engine.hear(grownChannel, () => void store.current().catch(fault));
    }
    return store;
  }

  /**
   * Writes entries down, all or none; what it resolves to is on disk. What is handed in while the disk is busy goes there
   * together, each still all or none.
   *
   * @param handedIn  the entries; or what makes them from the shop as it stands once nobody else can write
   * @throws BadInput  at `entries[2].unit` and the like, when an entry has the wrong shape or does not fit the record
   * @throws StoreUnreachable, StoreOutcomeUnknown  when a shared database was lost
   */
  async append(handedIn: readonly unknown[] | (() => readonly unknown[])): Promise<readonly Evidence[]> {
    this.requireWriter();
    const given = typeof handedIn === "function" ? handedIn : parseSubmissions(handedIn);
    if (given.length === 0 && typeof given !== "function") return [];
    return new Promise((done, failed) => {
      this.waiting.push({ given, done, failed });
      this.appending ??= this.appendWaiting();
    });
  }

  private async appendWaiting(): Promise<void> {
    // Those who come in the same breath go together.
    await Promise.resolve();
    while (this.waiting.length > 0) {
      const together = this.waiting.findIndex(({ given }) => typeof given === "function");
      // What is made from the newest shop goes alone: nothing undecided may stand before it.
      const most = together === 0 ? 1 : together < 0 ? mostTogether : Math.min(together, mostTogether);
      await this.writeTogether(this.waiting.splice(0, most));
    }
    this.appending = undefined;
  }

  private async writeTogether(handedIn: readonly HandedIn[]): Promise<void> {
    let outcomes: (() => void)[] = [];
    let admitted: readonly Admitted[] = [];
    try {
      await this.engine.grow(
        async (queries) => {
          if (!this.isAlone) await this.readOn(queries);
          const draft = this.written.draft();
          outcomes = [];
          for (const { given, done, failed } of handedIn) {
            try {
              const submitted = typeof given === "function" ? parseSubmissions(given()) : given;
              const lacking = await this.lackingFiles(submitted);
              const own = draft.admit(
                submitted,
                () => this.instant(),
                (entry) => refuseLacking(entry, lacking),
              );
              outcomes.push(() => done(own.map(({ entry }) => entry)));
            } catch (fault) {
              if (!(fault instanceof BadInput)) throw fault;
              outcomes.push(() => failed(fault));
            }
          }
          admitted = draft.admitted;
          await insert(queries, admitted);
        },
        (queries) => isThere(queries, admitted.at(-1)),
      );
    } catch (fault) {
      for (const { failed } of handedIn) failed(fault);
      return;
    }
    const newest = admitted.at(-1);
    if (newest) {
      this.tell(
        this.written.take(
          admitted.map(({ entry }) => entry),
          newest.row.sha256,
        ),
      );
    }
    for (const tell of outcomes) tell();
    this.prepareDrafts();
  }

  /**
   * Takes in what others have written up to now. A server that shares its database asks for it before each answer; one
   * that has its folder alone knows it all already.
   */
  current(): Promise<void> {
    if (this.isAlone) return Promise.resolve();
    if (!this.reading) {
      this.reading = this.readOn(this.engine).finally(() => {
        this.reading = undefined;
      });
      return this.reading;
    }
    // A reading under way may have begun before what this caller must see; one more serves all who wait.
    this.nextReading ??= this.reading
      .catch(() => undefined)
      .then(() => {
        this.nextReading = undefined;
        return this.current();
      });
    return this.nextReading;
  }

  /** Entries in the order they were written down. */
  evidence({ kind, unit, since = 0 }: EvidenceFilter = {}): readonly Evidence[] {
    const later = this.written.since(since);
    if (kind === undefined && unit === undefined) return later;
    return later.filter(
      ({ body }) => (kind === undefined || body.kind === kind) && (unit === undefined || names(body, unit)),
    );
  }

  /** The shop as all evidence leaves it. */
  get shop(): Shop {
    return this.written.shop;
  }

  /** The entry that was written down last. */
  newest(): Evidence | undefined {
    return this.written.newest;
  }

  /** What a shared database says of its workshop; nothing where the folder says it. */
  async about<T>(): Promise<T | undefined> {
    const words = this.engine instanceof PostgresEngine ? await wordsOf(this.engine, "workshop") : undefined;
    return words === undefined ? undefined : (JSON.parse(words) as T);
  }

  /** Newest hash of the chain; on a dossier or a backup it shows later whether the tail was cut. */
  head(): string {
    return this.written.head;
  }

  /** The store's clock, never behind what was written down last. */
  now(): string {
    return latest(this.instant(), this.written.newest?.recordedAt);
  }

  /** How far this machine's clock stands behind what was written down last; 0 where it does not. */
  clockBehind_ms(): number {
    const newest = this.written.newest?.recordedAt;
    return newest === undefined ? 0 : Math.max(0, Date.parse(newest) - Date.parse(this.instant()));
  }

  verify(keptHead?: string): Promise<Verification> {
    return verifyChain(this.engine, this.files, keptHead);
  }

  /** Keeps a WAV file and returns its content hash, by which a recording names it. */
  async putRecording(bytes: Uint8Array): Promise<string> {
    this.requireWriter();
    return this.files.recordings.put(bytes);
  }

  /** Keeps a WAV file of any size as its bytes come, `check` having looked at it; returns its content hash. */
  async putRecordingStream(
    chunks: AsyncIterable<Uint8Array>,
    check: (path: string) => Promise<void> | void,
  ): Promise<string> {
    this.requireWriter();
    return this.files.recordings.putStream(chunks, check);
  }

  /** @throws StoreMissing  when no recording has that hash, or this machine was not brought it yet */
  recordingPath(sha256: string): string {
    return this.files.recordings.path(sha256);
  }

  /** Where a recording lies on this machine, fetched first from the shared database where it came in elsewhere. */
  async bringRecording(sha256: string): Promise<string> {
    return this.files.recordings.bring(sha256);
  }

  /** Keeps a photo and returns its content hash, by which a flaw names it. */
  async putPhoto(bytes: Uint8Array): Promise<string> {
    this.requireWriter();
    return this.files.photos.put(bytes);
  }

  /** As `bringRecording`. @throws StoreMissing  when no photo has that hash */
  async bringPhoto(sha256: string): Promise<string> {
    return this.files.photos.bring(sha256);
  }

  /**
   * A value computed from the chain, kept until the chain grows.
   *
   * @param key      names the value and all it was computed with besides the chain
   * @param compute  pure; what it returns must survive JSON
   */
  async cached<T>(key: string, compute: () => T): Promise<T> {
    await this.current();
    const seq = this.written.size;
    const find = build.selectFrom("cached_state").selectAll().where("key", "=", key).where("seq", "=", seq);
    const [known] = await this.engine.all(find);
    if (known) return JSON.parse(known.state) as T;
    const value = compute();
    if (this.write) {
      const state = canonicalJson(value);
      await this.engine.do(
        build
          .insertInto("cached_state")
          .values({ key, seq, state })
          .onConflict((conflict) => conflict.column("key").doUpdateSet({ seq, state })),
      );
    }
    return value;
  }

  /** Throws away all that was computed; it is computed again when asked for. */
  async forgetCached(): Promise<void> {
    this.requireWriter();
    await this.engine.do(build.deleteFrom("cached_state"));
  }

  /** Called with new entries once they are on disk, whoever wrote them. @returns stops it */
  subscribe(listener: Listener): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Tells commands on this machine where the server of this folder answers; a shared database they reach by themselves. */
  announce(address: string, commands?: string): void {
    this.requireWriter();
    this.lock?.announce(address, commands);
  }

  async close(): Promise<void> {
    this.listeners.clear();
    await this.appending;
    this.isClosed = true;
    await this.engine.close({ write: this.write });
    this.lock?.release();
  }

  /** Whether a database holds the ledger that other machines use too. */
  get isShared(): boolean {
    return this.engine.kind === "postgres";
  }

  /** Whether nobody else can write: who holds the folder's lock. */
  private get isAlone(): boolean {
    return this.lock !== undefined;
  }

  private instant(): string {
    return new Date(this.clock()).toISOString();
  }

  private async readOn(queries: Queries): Promise<void> {
    for (;;) {
      const newer = build.selectFrom("evidence").select(saidColumns).where("seq", ">", this.written.size);
      const rows = await queries.all(newer.orderBy("seq").limit(readAtOnce));
      const last = rows.at(-1);
      if (!last) return;
      const hash = build.selectFrom("evidence").select("sha256").where("seq", "=", last.seq);
      const [head] = await queries.all(hash);
      this.tell(this.written.take(rows.map(entryOf), head!.sha256));
      if (rows.length < readAtOnce) return;
    }
  }

  /** A shop of years is made ready for drafts between what is asked of it. */
  private prepareDrafts(): void {
    if (!this.write || this.isPreparing || this.written.size < preparedFrom) return;
    this.isPreparing = true;
    const goOn = () => {
      // A draft under way has more in its shop than is written.
      const isLeft = !this.isClosed && (this.appending !== undefined || this.written.prepare(preparedAtOnce));
      if (isLeft) setTimeout(goOn, preparedApart_ms).unref();
      else this.isPreparing = false;
    };
    setTimeout(goOn, preparedApart_ms).unref();
  }

  /** Names of files that entries name and nobody has kept. */
  private async lackingFiles(submitted: readonly Submitted[]): Promise<ReadonlySet<string>> {
    const lacking = new Set<string>();
    for (const entry of submitted) {
      const named = fileNamedBy(entry);
      if (named && !(await this.files[named.of].has(named.name))) lacking.add(named.name);
    }
    return lacking;
  }

  private tell(entries: readonly Evidence[]): void {
    if (entries.length === 0) return;
    for (const listener of this.listeners) {
      try {
        listener(entries);
      } catch (fault) {
        // What was written stands, whatever a listener makes of it.
        process.emitWarning(fault instanceof Error ? fault : String(fault));
      }
    }
  }

  private requireWriter(): void {
    if (this.write) return;
    throw new StoreReadOnly(
      `${this.folder}: this store was opened to look, not to write; open it to write, or hand the entry to the running server`,
    );
  }
}

async function insert(queries: Queries, admitted: readonly Admitted[]): Promise<void> {
  for (let from = 0; from < admitted.length; from += rowsAtOnce) {
    const rows = admitted.slice(from, from + rowsAtOnce).map(({ row }) => row);
    await queries.do(build.insertInto("evidence").values(rows));
  }
}

/** Whether the newest of what was written stands in the chain: at its place, with its hash. */
async function isThere(queries: Queries, newest: Admitted | undefined): Promise<boolean> {
  if (!newest) return true;
  const { seq, sha256 } = newest.row;
  const rows = await queries.all(build.selectFrom("evidence").select("sha256").where("seq", "=", seq));
  return rows[0]?.sha256 === sha256;
}

function fileNamedBy(entry: Submitted): { readonly of: keyof Kept; readonly name: string } | undefined {
  if (entry.kind === "recording") return { of: "recordings", name: entry.file_sha256 };
  if (entry.kind !== "flaw" || entry.photo_sha256 === undefined) return undefined;
  return { of: "photos", name: entry.photo_sha256 };
}

function refuseLacking(entry: Submitted, lacking: ReadonlySet<string>): void {
  const named = fileNamedBy(entry);
  if (!named || !lacking.has(named.name)) return;
  if (named.of === "photos")
    throw new BadInput("photo_sha256", quote(named.name), "the hash of a kept photo", "hand in the photo first");
  throw new BadInput("file_sha256", quote(named.name), "the hash of a kept WAV file", "hand in the file first");
}

function names(body: Evidence["body"], unit: string): boolean {
  if (body.kind === "reading" || body.kind === "finding") return body.subject.unit === unit;
  if (body.kind === "order") return body.units.includes(unit);
  return "unit" in body && body.unit === unit;
}

function systemClock(): string {
  return new Date().toISOString();
}
