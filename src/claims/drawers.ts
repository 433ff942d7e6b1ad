import type { Evidence } from "./evidence.ts";
import { taken_ms } from "./when.ts";

/** Entries that are asked for together. */
export class Drawer {
  readonly entries: Evidence[] = [];
  /** On the cabinet's count: when an entry last came in here, or one in here was put right. */
  grownAt = 0;
  private last_ms = Number.NEGATIVE_INFINITY;

  /** Puts an entry in by when it was taken; nearly always it is the newest, so that the search begins at the end. */
  putByTaking(entry: Evidence, at_ms: number): void {
    const { entries } = this;
    const last = entries.at(-1);
    if (!last || at_ms > this.last_ms || (at_ms === this.last_ms && entry.seq > last.seq)) entries.push(entry);
    else {
      let place = entries.length;
      while (place > 0 && (at_ms - taken_ms(entries[place - 1]!) || entry.seq - entries[place - 1]!.seq) < 0)
        place -= 1;
      entries.splice(place, 0, entry);
    }
    this.last_ms = Math.max(this.last_ms, at_ms);
  }

  /** Puts an entry in by its place in the chain. */
  putByWriting(entry: Evidence): void {
    let place = this.entries.length;
    while (place > 0 && this.entries[place - 1]!.seq > entry.seq) place -= 1;
    if (place === this.entries.length) this.entries.push(entry);
    else this.entries.splice(place, 0, entry);
  }
}

/**
 * Where evidence lies, each entry in every drawer that a question may look for it in.
 *
 * Whoever keeps an answer keeps with it the drawers that were looked into for it: the answer holds for as long as none
 * of them grew, however much was written down elsewhere. So every look at evidence opens a drawer, also where what was
 * folded from it (where a valve stands, what became of a run) is kept elsewhere.
 */
export class Cabinet {
  private readonly drawers = new Map<string, Drawer>();
  private readonly everything = new Drawer();
  private count = 0;
  private looked: ((drawer: Drawer) => void) | undefined;

  /** Tells every look to one who keeps answers. */
  watch(looked: (drawer: Drawer) => void): void {
    this.looked = looked;
  }

  /** Looks within are told to nobody, as what they are for is told by a drawer of its own. */
  unwatched<T>(look: () => T): T {
    const { looked } = this;
    this.looked = undefined;
    try {
      return look();
    } finally {
      this.looked = looked;
    }
  }

  get isWatched(): boolean {
    return this.looked !== undefined;
  }

  /** How many entries came in so far; what an answer was begun at. */
  get grown(): number {
    return this.count;
  }

  open(name: string): Drawer {
    const drawer = this.at(name);
    this.looked?.(drawer);
    return drawer;
  }

  /** When a drawer last grew, told to nobody. */
  grownAt(name: string): number {
    return this.drawers.get(name)?.grownAt ?? 0;
  }

  /** A look at all that is on record, or at what moves on with every entry, such as the store's clock. */
  openAll(): void {
    this.looked?.(this.everything);
  }

  /** Begins with the next entry: what grows from here on has grown with it. */
  next(): void {
    this.count += 1;
    this.everything.grownAt = this.count;
  }

  /** Puts an entry into a drawer, or has the drawer grow by what only bears on it. */
  put(name: string, entry: Evidence, order: "by taking" | "by writing" | "bearing", at_ms: number): void {
    if (order === "bearing") {
      this.touch(name);
      return;
    }
    const drawer = this.at(name);
    if (order === "by taking") drawer.putByTaking(entry, at_ms);
    else drawer.putByWriting(entry);
    drawer.grownAt = this.count;
  }

  /** Says that what a drawer tells of has changed; one that nobody opened needs no telling. */
  touch(name: string): void {
    const drawer = this.drawers.get(name);
    if (drawer) drawer.grownAt = this.count;
  }

  private at(name: string): Drawer {
    const known = this.drawers.get(name);
    if (known) return known;
    const fresh = new Drawer();
    this.drawers.set(name, fresh);
    return fresh;
  }
}
