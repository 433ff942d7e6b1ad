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

/** All evidence in memory, as it stands on disk; what is admitted but not written yet is not in it. */
export class WrittenRecord {
  shop: Shop = foldShop([]);
  head = chainStart;
  private readonly entries: Evidence[] = [];
  private list: readonly Evidence[] | undefined;
  /** The shop as it will be once what was admitted is written; made anew after a refusal. */
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
      // Entries are known to the ledger by their id: one that was admitted here is not added twice.
      if (this.ahead && this.ahead.ledger.get(entry.id) === undefined) this.ahead.add(entry);
    }
    this.head = rows.at(-1)!.sha256;
    this.list = undefined;
    return fresh;
  }

  /**
   * Admits each entry on top of those before it.
   *
   * @param clock  the instant of writing for each
   * @param check  refuses what evidence alone can't tell
   * @throws BadInput  at `entries[2].unit` and the like
   */
  admitAll(
    submitted: readonly Submitted[],
    clock: () => string,
    check: (entry: Submitted) => void,
  ): readonly Admitted[] {
    this.ahead ??= foldShop(this.entries);
    const { ahead } = this;
    let prev = this.head;
    let recordedAt = latest(clock(), this.newest?.recordedAt);
    const admitted = submitted.map((handedIn, i): Admitted => {
      recordedAt = latest(clock(), recordedAt);
      const seq = this.size + i + 1;
      filedUnder(`entries[${i}]`, () => {
        admit(handedIn, ahead, { now: recordedAt, head: prev });
        check(handedIn);
      });
      const { at, by } = handedIn;
      const id = handedIn.id ?? freshId(seq, ahead, this.head);
      const entry: Evidence = { id, seq, at, recordedAt, by, body: bodyOf(handedIn) };
      const row = rowOf(entry, prev);
      // The last one changes nothing for those admitted here, and waits until it is written.
      if (i < submitted.length - 1) ahead.add(entry);
      prev = row.sha256;
      return { entry, row };
    });
    return admitted;
  }

  /** Forgets what was admitted and not written. */
  forgetAhead(): void {
    if (this.ahead && this.ahead.ledger.size !== this.size) this.ahead = undefined;
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
