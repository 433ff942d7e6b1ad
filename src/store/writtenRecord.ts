import type { Evidence } from "../claims/evidence.ts";
import { admit, foldShop, type Shop, type Submitted } from "../claims/index.ts";
import { chainStart } from "./chain.ts";
import { entryOf, rowOf } from "./rows.ts";
import { bodyOf, filedUnder } from "./submissions.ts";
import type { EvidenceTable } from "./tables.ts";

export interface Admitted {
  readonly entry: Evidence;
  readonly row: EvidenceTable;
}

/** All evidence in memory, as it stands on disk; what is admitted but not written yet is in its draft alone. */
export class WrittenRecord {
  shop: Shop = foldShop([]);
  head = chainStart;
  private readonly entries: Evidence[] = [];
  private list: readonly Evidence[] | undefined;
  /** The shop with what was drafted, made anew after a draft was given up. */
  private ahead: Shop | undefined;

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

  /** Takes in rows that are on disk, in their order; those it has already are passed over. @returns the new ones */
  take(rows: readonly EvidenceTable[], entries: readonly Evidence[] = rows.map(entryOf)): readonly Evidence[] {
    const fresh = entries.filter(({ seq }) => seq > this.size);
    if (fresh.length === 0) return fresh;
    for (const entry of fresh) {
      this.entries.push(entry);
      this.shop.add(entry);
      // Entries are known to the ledger by their id: one that was drafted here is not added twice.
      if (this.ahead && this.ahead.ledger.get(entry.id) === undefined) this.ahead.add(entry);
    }
    this.head = rows.at(-1)!.sha256;
    this.list = undefined;
    return fresh;
  }

  /** Begins to draft on top of what is written; an earlier draft that was not written is given up. */
  draft(): Draft {
    if (this.ahead && this.ahead.ledger.size !== this.size) this.ahead = undefined;
    this.ahead ??= foldShop(this.entries);
    return new Draft(this.ahead, { head: this.head, size: this.size, newest: this.newest }, (drafted) => {
      this.ahead = foldShop([...this.entries, ...drafted.map(({ entry }) => entry)]);
      return this.ahead;
    });
  }
}

/** Entries admitted one upon the other, and not on disk yet. */
export class Draft {
  readonly admitted: Admitted[] = [];

  constructor(
    private shop: Shop,
    private readonly after: { readonly head: string; readonly size: number; readonly newest: Evidence | undefined },
    private readonly foldAgain: (drafted: readonly Admitted[]) => Shop,
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
      const refused = this.admitted.splice(before);
      // Only what came before its last entry is in the shop by now.
      if (refused.length > 0) this.shop = this.foldAgain(this.admitted);
      throw fault;
    }
  }

  private admitOne(handedIn: Submitted, path: string, clock: () => string, check: (entry: Submitted) => void): void {
    const last = this.admitted.at(-1);
    // The newest changes nothing for itself: most drafts are of one entry, and leave the shop as it is until it is written.
    if (last && this.shop.ledger.get(last.entry.id) === undefined) this.shop.add(last.entry);
    const prev = last?.row.sha256 ?? this.after.head;
    const recordedAt = latest(clock(), (last?.entry ?? this.after.newest)?.recordedAt);
    const seq = this.after.size + this.admitted.length + 1;
    filedUnder(path, () => {
      admit(handedIn, this.shop, { now: recordedAt, head: prev });
      check(handedIn);
    });
    const { at, by } = handedIn;
    const id = handedIn.id ?? freshId(seq, this.shop, prev);
    const entry: Evidence = { id, seq, at, recordedAt, by, body: bodyOf(handedIn) };
    this.admitted.push({ entry, row: rowOf(entry, prev) });
  }
}

function freshId(seq: number, shop: Shop, head: string): string {
  const plain = `e${String(seq).padStart(6, "0")}`;
  return shop.ledger.get(plain) ? `${plain}:${head.slice(0, 8)}` : plain;
}

/** Of two instants in UTC to the millisecond, whose order is that of their text. */
export function latest(instant: string, other: string | undefined): string {
  return other !== undefined && other > instant ? other : instant;
}
