import { existsSync, statSync } from "node:fs";
import { join } from "node:path";
import type { Evidence, EvidenceKind } from "../claims/evidence.ts";
import { admit, foldShop, type Shop, type Submitted } from "../claims/index.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { canonicalJson, chainStart } from "./chain.ts";
import { Customers } from "./customers.ts";
import { Engine } from "./engine.ts";
import { KeptFiles } from "./keptFiles.ts";
import { Lock } from "./lock.ts";
import { migrate, newestVersion, requireNotNewer, versionOf } from "./migrations.ts";
import { entryOf, rowOf } from "./rows.ts";
import { StoreMissing, StoreReadOnly } from "./storeErrors.ts";
import { bodyOf, filedUnder, parseSubmissions } from "./submissions.ts";
import { build, type EvidenceTable } from "./tables.ts";
import { type Verification, verifyChain } from "./verify.ts";

export interface StoreOptions {
  /** What the store's clock shows, as an ISO 8601 instant; the machine's own when left out. */
  readonly clock?: () => string;
  /** False to look at a folder while another process may be writing to it. */
  readonly write?: boolean;
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

export type Listener = (entries: readonly Evidence[]) => void;

/**
 * Opens a workshop's data folder.
 *
 * @throws StoreMissing           the folder, or to look at it the file in it, is not there
 * @throws StoreInUse             another process writes to it
 * @throws StoreFromNewerVersion  a newer Stillglow wrote it; it was not touched
 * @throws StoreCorrupted, StoreReadOnly, StoreDiskFull
 */
export function openStore(folder: string, { clock = systemClock, write = true }: StoreOptions = {}): Store {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) {
    throw new StoreMissing(`${folder}: there is no such data folder; check the path, or make the folder first`);
  }
  const file = join(folder, "stillglow.db");
  if (!write) return openToLook(folder, file, clock);
  const lock = Lock.take(folder, clock());
  let engine: Engine | undefined;
  try {
    engine = Engine.toWrite(file);
    migrate(engine, file, clock());
    return new Store(folder, engine, clock, lock);
  } catch (fault) {
    engine?.close({ write: false });
    lock.release();
    throw fault;
  }
}

function openToLook(folder: string, file: string, clock: () => string): Store {
  if (!existsSync(file)) {
    throw new StoreMissing(`${folder}: there is no workshop in this folder; check the path, or start one there first`);
  }
  const engine = Engine.toRead(file);
  try {
    requireNotNewer(engine, file);
    if (versionOf(engine) < newestVersion) {
      throw new StoreReadOnly(
        `${file}: its tables are of an older version; open it once to write, so that they are brought up`,
      );
    }
    return new Store(folder, engine, clock);
  } catch (fault) {
    engine.close({ write: false });
    throw fault;
  }
}

/** A workshop's evidence on disk: only ever added to, each entry tied by its hash to all before it. */
export class Store {
  readonly folder: string;
  readonly customers: Customers;
  private readonly engine: Engine;
  private readonly clock: () => string;
  private readonly lock: Lock | undefined;
  private readonly recordings: KeptFiles;
  private readonly photos: KeptFiles;
  private readonly listeners = new Set<Listener>();
  private entries: Evidence[] = [];
  private folded = foldShop([]);
  private newestHash = chainStart;

  constructor(folder: string, engine: Engine, clock: () => string, lock?: Lock) {
    this.folder = folder;
    this.engine = engine;
    this.clock = clock;
    this.lock = lock;
    this.recordings = KeptFiles.recordings(folder);
    this.photos = KeptFiles.photos(folder);
    this.customers = new Customers(engine);
    this.catchUp();
  }

  /**
   * Writes entries down, all or none; what it returns is on disk.
   *
   * @throws BadInput  at `entries[2].unit` and the like, when an entry has the wrong shape or does not fit the record
   */
  append(submissions: readonly unknown[]): readonly Evidence[] {
    this.requireWriter();
    const submitted = parseSubmissions(submissions);
    if (submitted.length === 0) return [];
    try {
      const added = this.admitAll(submitted);
      this.engine.transaction(() => {
        for (let from = 0; from < added.length; from += rowsAtOnce) {
          const rows = added.slice(from, from + rowsAtOnce).map(({ row }) => row);
          this.engine.do(build.insertInto("evidence").values(rows));
        }
      });
      const entries = added.map(({ entry }) => entry);
      this.entries.push(...entries);
      this.newestHash = added.at(-1)!.row.sha256;
      this.tell(entries);
      return entries;
    } catch (fault) {
      if (fault instanceof BadInput) this.foldAgain();
      else this.readAgain();
      throw fault;
    }
  }

  /** Entries in the order they were written down. */
  evidence({ kind, unit, since = 0 }: EvidenceFilter = {}): readonly Evidence[] {
    this.catchUp();
    const later = since > 0 ? this.entries.slice(since) : this.entries.slice();
    if (kind === undefined && unit === undefined) return later;
    return later.filter(
      ({ body }) => (kind === undefined || body.kind === kind) && (unit === undefined || names(body, unit)),
    );
  }

  /** The shop as all evidence leaves it; always the newest. */
  get shop(): Shop {
    this.catchUp();
    return this.folded;
  }

  /** Newest hash of the chain; on a dossier or a backup it shows later whether the tail was cut. */
  head(): string {
    this.catchUp();
    return this.newestHash;
  }

  /** The store's clock, never behind what was written down last. */
  now(): string {
    return latest(new Date(this.clock()).toISOString(), this.entries.at(-1)?.recordedAt);
  }

  verify(keptHead?: string): Verification {
    return verifyChain(this.engine, { recordings: this.recordings, photos: this.photos }, keptHead);
  }

  /** Keeps a WAV file and returns its content hash, by which a recording names it. */
  putRecording(bytes: Uint8Array): string {
    this.requireWriter();
    return this.recordings.put(bytes);
  }

  /** Keeps a WAV file of any size as its bytes come, `check` having looked at it; returns its content hash. */
  async putRecordingStream(
    chunks: AsyncIterable<Uint8Array>,
    check: (path: string) => Promise<void> | void,
  ): Promise<string> {
    this.requireWriter();
    return this.recordings.putStream(chunks, check);
  }

  /** @throws StoreMissing  when no recording has that hash */
  recordingPath(sha256: string): string {
    return this.recordings.path(sha256);
  }

  /** Keeps a photo and returns its content hash, by which a flaw names it. */
  putPhoto(bytes: Uint8Array): string {
    this.requireWriter();
    return this.photos.put(bytes);
  }

  /** @throws StoreMissing  when no photo has that hash */
  photoPath(sha256: string): string {
    return this.photos.path(sha256);
  }

  /**
   * A value computed from the chain, kept until the chain grows.
   *
   * @param key      names the value and all it was computed with besides the chain
   * @param compute  pure; what it returns must survive JSON
   */
  cached<T>(key: string, compute: () => T): T {
    this.catchUp();
    const seq = this.entries.length;
    const find = build.selectFrom("cached_state").selectAll().where("key", "=", key).where("seq", "=", seq);
    const [known] = this.engine.all(find);
    if (known) return JSON.parse(known.state) as T;
    const value = compute();
    if (this.lock) {
      const state = canonicalJson(value);
      const row = { key, seq, state };
      this.engine.do(
        build
          .insertInto("cached_state")
          .values(row)
          .onConflict((conflict) => conflict.column("key").doUpdateSet({ seq, state })),
      );
    }
    return value;
  }

  /** Throws away all that was computed; it is computed again when asked for. */
  forgetCached(): void {
    this.requireWriter();
    this.engine.do(build.deleteFrom("cached_state"));
  }

  /** Called with new entries once they are on disk. @returns stops it */
  subscribe(listener: Listener): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Tells commands on this machine where the server of this folder answers. */
  announce(address: string): void {
    this.requireWriter();
    this.lock?.announce(address);
  }

  close(): void {
    this.listeners.clear();
    this.engine.close({ write: this.lock !== undefined });
    this.lock?.release();
  }

  /** Admits each entry on top of those before it. */
  private admitAll(submitted: readonly Submitted[]): { entry: Evidence; row: EvidenceTable }[] {
    let prev = this.newestHash;
    let recordedAt = this.now();
    return submitted.map((handedIn, i) => {
      recordedAt = latest(new Date(this.clock()).toISOString(), recordedAt);
      const seq = this.entries.length + i + 1;
      filedUnder(`entries[${i}]`, () => {
        admit(handedIn, this.folded, { now: recordedAt, head: prev });
        this.requireRecording(handedIn);
      });
      const { at, by } = handedIn;
      const entry: Evidence = { id: handedIn.id ?? this.freshId(seq), seq, at, recordedAt, by, body: bodyOf(handedIn) };
      const row = rowOf(entry, prev);
      this.folded.add(entry);
      prev = row.sha256;
      return { entry, row };
    });
  }

  private requireRecording(entry: Submitted): void {
    if (entry.kind === "flaw" && entry.photo_sha256 !== undefined && !this.photos.has(entry.photo_sha256)) {
      throw new BadInput(
        "photo_sha256",
        quote(entry.photo_sha256),
        "the hash of a kept photo",
        "hand in the photo first",
      );
    }
    if (entry.kind !== "recording" || this.recordings.has(entry.file_sha256)) return;
    throw new BadInput(
      "file_sha256",
      quote(entry.file_sha256),
      "the hash of a kept WAV file",
      "hand in the file first",
    );
  }

  private freshId(seq: number): string {
    const plain = `e${String(seq).padStart(6, "0")}`;
    return this.folded.ledger.get(plain) ? `${plain}:${this.newestHash.slice(0, 8)}` : plain;
  }

  /** Reads what another process has written since; the one who holds the lock knows it all already. */
  private catchUp(): void {
    if (this.lock === undefined || this.entries.length === 0) this.readOn();
  }

  private readOn(): void {
    const query = build.selectFrom("evidence").selectAll().where("seq", ">", this.entries.length).orderBy("seq");
    for (const row of this.engine.all(query)) {
      const entry = entryOf(row);
      this.entries.push(entry);
      this.folded.add(entry);
      this.newestHash = row.sha256;
    }
  }

  /** After a refusal the fold may hold entries that were not written; it is made anew from those that were. */
  private foldAgain(): void {
    if (this.folded.ledger.size !== this.entries.length) this.folded = foldShop(this.entries);
  }

  /** After a fault of the disk only the disk knows what was written. */
  private readAgain(): void {
    this.entries = [];
    this.folded = foldShop([]);
    this.newestHash = chainStart;
    this.readOn();
  }

  private tell(entries: readonly Evidence[]): void {
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
    if (this.lock) return;
    throw new StoreReadOnly(
      `${this.folder}: this store was opened to look, not to write; open it to write, or hand the entry to the running server`,
    );
  }
}

function names(body: Evidence["body"], unit: string): boolean {
  if (body.kind === "reading" || body.kind === "finding") return body.subject.unit === unit;
  if (body.kind === "order") return body.units.includes(unit);
  return "unit" in body && body.unit === unit;
}

/** Of two instants in UTC to the millisecond, whose order is that of their text. */
function latest(instant: string, other: string | undefined): string {
  return other !== undefined && other > instant ? other : instant;
}

function systemClock(): string {
  return new Date().toISOString();
}
