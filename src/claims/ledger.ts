import type { Evidence, EvidenceKind } from "./evidence.ts";
import { everybody } from "./people/everybody.ts";
import { touchOf } from "./timber/touch.ts";
import { byTaking } from "./when.ts";

export type Figure = Evidence<"reading"> | Evidence<"finding">;

/**
 * Evidence, sorted so that each question about a unit finds its answer without reading the whole chain.
 *
 * It draws no conclusions: adding entries one by one or all at once gives the same ledger, whatever their order.
 */
export class Ledger {
  private readonly entries = new Map<string, Evidence>();
  private readonly superseders = new Map<string, string>();
  private readonly lists = new Map<string, Evidence[]>();

  static of(evidence: Iterable<Evidence>): Ledger {
    const ledger = new Ledger();
    for (const entry of evidence) ledger.add(entry);
    return ledger;
  }

  add(entry: Evidence): void {
    if (this.entries.has(entry.id)) return;
    this.entries.set(entry.id, entry);
    const { body } = entry;
    const supersedes = "supersedes" in body ? body.supersedes : undefined;
    if (supersedes !== undefined && supersedes !== entry.id) this.superseders.set(supersedes, entry.id);
    for (const key of placesOf(entry)) insert(this.list(key), entry);
    const touch = touchOf(entry);
    if (touch) insert(this.list(key("rework", touch.body.unit)), touch);
  }

  get(id: string): Evidence | undefined {
    return this.entries.get(id);
  }

  get size(): number {
    return this.entries.size;
  }

  /** The entry that put this one right, if any. */
  supersederOf(id: string): string | undefined {
    return this.superseders.get(id);
  }

  /** Entries of a kind that name a unit, an instrument or a person, in the order they were taken. */
  about<K extends "unit" | "rework" | "concession" | "release" | "recording" | "trial" | "instrument" | "person">(
    kind: K,
    what: string,
  ): readonly Evidence<K>[] {
    return (this.lists.get(key(kind, what)) ?? []) as unknown as readonly Evidence<K>[];
  }

  /** Readings and findings of one quantity, of a unit or of a valve, in the order they were taken. */
  figures(of: "unit" | "valve", what: string, quantity: string): readonly Figure[] {
    return (this.lists.get(key(of, what, quantity)) ?? []) as Figure[];
  }

  /** The valve standing at each position now: as the unit was opened, and as every later rework left it. */
  fitted(unit: string): Readonly<Record<string, string>> {
    const opened = this.about("unit", unit)[0]?.body.fitted;
    return Object.assign({}, opened, ...this.about("rework", unit).map((rework) => rework.body.fitted));
  }

  private list(at: string): Evidence[] {
    const known = this.lists.get(at);
    if (known) return known;
    const fresh: Evidence[] = [];
    this.lists.set(at, fresh);
    return fresh;
  }
}

function placesOf({ body }: Evidence): readonly string[] {
  switch (body.kind) {
    case "unit":
    case "concession":
    case "release":
    case "recording":
      return [key(body.kind, body.unit)];
    case "trial":
    case "instrument":
      return [key(body.kind, body.instrument)];
    case "person":
      return [key(body.kind, body.person), key(body.kind, everybody)];
    case "reading":
    case "finding": {
      const { unit, valve } = body.subject;
      return [
        ...(unit === undefined ? [] : [key("unit", unit, body.quantity)]),
        ...(valve === undefined ? [] : [key("valve", valve, body.quantity)]),
      ];
    }
    default:
      return [];
  }
}

function key(kind: EvidenceKind | "valve", ...names: readonly string[]): string {
  return [kind, ...names].join("\u0000");
}

/** Entries nearly always come in order, so the search begins at the end. */
function insert(list: Evidence[], entry: Evidence): void {
  let place = list.length;
  while (place > 0 && byTaking(list[place - 1]!, entry) > 0) place -= 1;
  list.splice(place, 0, entry);
}
