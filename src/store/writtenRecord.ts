import type { Evidence } from "../claims/evidence.ts";
import { admit, foldShop, type Shop, type Submitted } from "../claims/index.ts";
import { chainStart } from "./chain.ts";
import { isPlain, namesOneOf } from "./plainEntries.ts";
import { rowOf } from "./rows.ts";
import { bodyOf, filedUnder } from "./submissions.ts";
import type { EvidenceTable } from "./tables.ts";

export interface Admitted {
  readonly entry: Evidence;
  readonly row: EvidenceTable;
}

/** A second shop, for what is drafted: so many written entries are in it, and those of one draft on top. */
interface Ahead {
  readonly shop: Shop;
  upTo: number;
}

/** All evidence in memory, as it stands on disk; what is admitted but not written yet is in its draft alone. */
export class WrittenRecord {
  shop: Shop = foldShop([]);
  head = chainStart;
  private readonly entries: Evidence[] = [];
  private list: readonly Evidence[] | undefined;
  private ahead: Ahead | undefined;

  get size(): number {
    return this.entries.length;
  }

  get newest(): Evidence | undefined {
    return this.entries.at(-1);
  }

  /** Every entry, as a list that does not grow. */
  get evidence(): readonly Evidence[] {
    this.list ??= this.entries.slice();
    return this.list;
  }

  since(seq: number): readonly Evidence[] {
    return seq > 0 ? this.entries.slice(seq) : this.evidence;
  }

  /**
   * Takes in entries that are on disk, in their order; those it has already are passed over.
   *
   * @param head  hash of the last of them
   * @returns the new ones
   */
  take(entries: readonly Evidence[], head: string): readonly Evidence[] {
    const fresh = entries.filter(({ seq }) => seq > this.size);
    if (fresh.length === 0) return fresh;
    for (const entry of fresh) {
      this.entries.push(entry);
      this.shop.add(entry);
      if (this.ahead?.upTo !== entry.seq - 1) continue;
      // Entries are known to the ledger by their id: one that was drafted here is not added twice.
      if (this.ahead.shop.ledger.get(entry.id) === undefined) this.ahead.shop.add(entry);
      this.ahead.upTo = entry.seq;
    }
    this.head = head;
    this.list = undefined;
    return fresh;
  }

  /** Begins to draft on top of what is written; an earlier draft that was not written is given up. */
  draft(): Draft {
    this.giveUpUnwritten();
    const after = { head: this.head, size: this.size, newest: this.newest };
    return new Draft(this.shop, { upToNow: () => this.forDrafts(), spoil: () => this.giveUpUnwritten() }, after);
  }

  /**
   * Folds a stretch of what is written into the shop for drafts, so that a first draft of several entries need not wait
   * for all of it.
   *
   * @returns whether more is left
   */
  prepare(most: number): boolean {
    this.giveUpUnwritten();
    this.ahead ??= { shop: foldShop([]), upTo: 0 };
    const until = Math.min(this.size, this.ahead.upTo + most);
    for (let i = this.ahead.upTo; i < until; i++) this.ahead.shop.add(this.entries[i]!);
    this.ahead.upTo = until;
    this.ahead.shop.settle();
    return until < this.size;
  }

  /** What was drafted and not written can't be taken out of a shop again. */
  private giveUpUnwritten(): void {
    if (this.ahead && this.ahead.shop.ledger.size !== this.ahead.upTo) this.ahead = undefined;
  }

  private forDrafts(): Shop {
    while (this.prepare(Number.POSITIVE_INFINITY));
    return this.ahead!.shop;
  }
}

/** Entries admitted one upon the other, and not on disk yet. */
export class Draft {
  readonly admitted: Admitted[] = [];
  private readonly ids = new Set<string>();
  /** Whether all that was admitted so far only says what was read. */
  private arePlain = true;
  /** With so many of the admitted entries on top of what is written. */
  private ahead: Shop | undefined;
  private inAhead = 0;

  /**
   * @param written    the shop as it is written; nothing is ever added to it here
   * @param second     a shop to draft in, up to what is written, and how to be rid of it once a refused entry is in it
   */
  constructor(
    private readonly written: Shop,
    private readonly second: { upToNow(): Shop; spoil(): void },
    private readonly after: { readonly head: string; readonly size: number; readonly newest: Evidence | undefined },
  ) {}

  /**
   * Admits entries on top of those before them, all or none.
   *
   * @param clock  the instant of writing for each
   * @param check  refuses what evidence alone can't tell
   * @throws BadInput  at `entries[2].unit` and the like
   */
  admit(submitted: readonly Submitted[], clock: () => string, check: (entry: Submitted) => void): readonly Admitted[] {
    const before = this.admitted.length;
    try {
      for (const [i, handedIn] of submitted.entries()) this.admitOne(handedIn, `entries[${i}]`, clock, check);
      return this.admitted.slice(before);
    } catch (fault) {
      for (const { entry } of this.admitted.splice(before)) this.ids.delete(entry.id);
      this.arePlain = this.admitted.every(({ entry }) => isPlain(entry.body));
      if (this.inAhead > before) {
        this.second.spoil();
        this.ahead = undefined;
        this.inAhead = 0;
      }
      throw fault;
    }
  }

  private admitOne(handedIn: Submitted, path: string, clock: () => string, check: (entry: Submitted) => void): void {
    const last = this.admitted.at(-1);
    const shop = this.shopFor(handedIn);
    const prev = last?.row.sha256 ?? this.after.head;
    const recordedAt = latest(clock(), (last?.entry ?? this.after.newest)?.recordedAt);
    const seq = this.after.size + this.admitted.length + 1;
    filedUnder(path, () => {
      admit(handedIn, shop, { now: recordedAt, head: prev });
      check(handedIn);
    });
    const { at, by } = handedIn;
    const isTaken = (id: string) => this.ids.has(id) || shop.ledger.get(id) !== undefined;
    const id = handedIn.id ?? freshId(seq, isTaken, prev);
    const entry: Evidence = { id, seq, at, recordedAt, by, body: bodyOf(handedIn) };
    this.admitted.push({ entry, row: rowOf(entry, prev) });
    this.ids.add(id);
    this.arePlain &&= isPlain(entry.body);
  }

  /** The shop that an entry is held against: with all that was admitted before it, where that can bear on it. */
  private shopFor(handedIn: Submitted): Shop {
    const { admitted, ids } = this;
    const standsAlone = admitted.length === 0 || (this.arePlain && isPlain(handedIn) && !namesOneOf(handedIn, ids));
    if (this.ahead === undefined && standsAlone) return this.written;
    this.ahead ??= this.second.upToNow();
    for (; this.inAhead < admitted.length; this.inAhead++) this.ahead.add(admitted[this.inAhead]!.entry);
    return this.ahead;
  }
}

function freshId(seq: number, isTaken: (id: string) => boolean, head: string): string {
  const plain = `e${String(seq).padStart(6, "0")}`;
  return isTaken(plain) ? `${plain}:${head.slice(0, 8)}` : plain;
}

/** Of two instants in UTC to the millisecond, whose order is that of their text. */
export function latest(instant: string, other: string | undefined): string {
  return other !== undefined && other > instant ? other : instant;
}
