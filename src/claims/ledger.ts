import { Cabinet } from "./drawers.ts";
import type { Evidence, EvidenceKind } from "./evidence.ts";
import { key } from "./key.ts";
import { everybody } from "./people/everybody.ts";
import { piecesOf } from "./timber/pieces.ts";
import { touchOf } from "./timber/touch.ts";
import { changesNoTrust } from "./trust.ts";
import { taken_ms } from "./when.ts";

export { key } from "./key.ts";

export type Figure = Evidence<"reading"> | Evidence<"finding">;

/**
 * Evidence, sorted so that each question about a unit finds its answer without reading the whole chain.
 *
 * It draws no conclusions: adding entries one by one or all at once gives the same ledger, whatever their order.
 */
export class Ledger {
  private readonly entries = new Map<string, Evidence>();
  private readonly superseders = new Map<string, string>();
  private latest_ms = Number.NEGATIVE_INFINITY;
  private lastSeq = 0;
  /** Every look at evidence is told by it, so that an answer can be kept until what it was drawn from grows. */
  readonly cabinet = new Cabinet();

  static of(evidence: Iterable<Evidence>): Ledger {
    const ledger = new Ledger();
    for (const entry of evidence) ledger.add(entry);
    return ledger;
  }

  add(entry: Evidence): void {
    if (this.entries.has(entry.id)) return;
    const { cabinet } = this;
    cabinet.next();
    const at_ms = taken_ms(entry);
    this.entries.set(entry.id, entry);
    this.latest_ms = Math.max(this.latest_ms, at_ms);
    this.lastSeq = Math.max(this.lastSeq, entry.seq);
    cabinet.touch(key("missing", entry.id));
    const { body } = entry;
    const supersedes = "supersedes" in body ? body.supersedes : undefined;
    if (supersedes !== undefined && supersedes !== entry.id) {
      this.superseders.set(supersedes, entry.id);
      const older = this.entries.get(supersedes);
      if (older) drawersOf(older, (name) => cabinet.touch(name));
    }
    const unmoved =
      body.kind === "trial" && changesNoTrust(this, entry as Evidence<"trial">) ? key("trust", body.instrument) : "";
    drawersOf(entry, (name, order) => name !== unmoved && cabinet.put(name, entry, order, at_ms));
    const touch = touchOf(entry);
    if (touch && touch !== entry) cabinet.put(key("rework", touch.body.unit), touch, "by taking", at_ms);
  }

  get(id: string): Evidence | undefined {
    const entry = this.entries.get(id);
    // One of its drawers is enough: all of them grow when it is put right.
    if (this.cabinet.isWatched) this.cabinet.open(entry ? firstDrawerOf(entry) : key("missing", id));
    return entry;
  }

  get size(): number {
    return this.entries.size;
  }

  /** The latest moment on record, and the last place in the chain. */
  get newest(): { readonly taken_ms: number; readonly seq: number } {
    return { taken_ms: this.latest_ms, seq: this.lastSeq };
  }

  /** How many entries were put right by a newer one. */
  get corrections(): number {
    return this.superseders.size;
  }

  /** The entry that put this one right, if any. Its drawers grow by that too, so that none is opened to ask it. */
  supersederOf(id: string): string | undefined {
    return this.superseders.get(id);
  }

  /** Entries of a kind that name a unit, an instrument or a person, in the order they were taken. */
  about<K extends Dated>(kind: K, what: string): readonly Evidence<K>[] {
    return this.cabinet.open(key(kind, what)).entries as unknown as readonly Evidence<K>[];
  }

  /** Readings and findings of one quantity, of a unit or of a valve, in the order they were taken. */
  figures(of: "unit" | "valve", what: string, quantity: string): readonly Figure[] {
    return this.cabinet.open(key(of, what, quantity)).entries as Figure[];
  }

  /** All entries of a kind, as they were written down. */
  ofKind<K extends EvidenceKind>(kind: K): readonly Evidence<K>[] {
    return this.cabinet.open(key("kind", kind)).entries as unknown as readonly Evidence<K>[];
  }

  /** All entries that name a unit, as they were written down. */
  ofUnit(unit: string): readonly Evidence[] {
    return this.cabinet.open(key("folder", unit)).entries;
  }

  /** What was read of a valve on a tester, as it was written down. */
  valveReadings(valve: string): readonly Evidence<"valve-reading">[] {
    return this.cabinet.open(key("valve-reading", valve)).entries as Evidence<"valve-reading">[];
  }

  /** What was read of a type's reference valve, as it was written down. */
  referenceReadings(type: string): readonly Evidence<"reference-reading">[] {
    return this.cabinet.open(key("reference-reading", type)).entries as Evidence<"reference-reading">[];
  }

  /** Every coat, in the order they were put on. */
  get coats(): readonly Evidence<"coat">[] {
    return this.cabinet.open(key("coat", "")).entries as Evidence<"coat">[];
  }

  /** The same record with one entry more, which nobody wrote. */
  supposing(entry: Evidence<"rework">): Ledger {
    return new SupposedLedger(this, entry);
  }

  /** The valve standing at each position now: as the unit was opened, and as every later rework left it. */
  fitted(unit: string): Readonly<Record<string, string>> {
    const opened = this.about("unit", unit)[0]?.body.fitted;
    return Object.assign({}, opened, ...this.about("rework", unit).map((rework) => rework.body.fitted));
  }
}

/** A ledger with a rework that was only thought of. */
class SupposedLedger extends Ledger {
  constructor(
    private readonly real: Ledger,
    private readonly supposed: Evidence<"rework">,
  ) {
    super();
  }
  override get(id: string): Evidence | undefined {
    return id === this.supposed.id ? this.supposed : this.real.get(id);
  }
  override get corrections(): number {
    return this.real.corrections;
  }
  override supersederOf(id: string): string | undefined {
    return this.real.supersederOf(id);
  }
  override about<K extends Dated>(kind: K, what: string): readonly Evidence<K>[] {
    const known = this.real.about(kind, what);
    const isSupposed = kind === "rework" && what === this.supposed.body.unit;
    return isSupposed ? [...known, this.supposed as unknown as Evidence<K>] : known;
  }
  override figures(of: "unit" | "valve", what: string, quantity: string): readonly Figure[] {
    return this.real.figures(of, what, quantity);
  }
}

/** Kinds whose entries are asked for by what they name, in the order they were taken. */
type Dated = "unit" | "step" | "rework" | "concession" | "release" | "recording" | "trial" | "instrument" | "person";

/** How an entry lies in a drawer: by when it was taken, by its place in the chain, or not itself, only bearing on it. */
type Order = Parameters<Cabinet["put"]>[2];

/** Every drawer that an entry lies in or bears on, one of its own before those it shares with many. */
function drawersOf(entry: Evidence, tell: (name: string, order: Order) => void): void {
  const { body } = entry;
  switch (body.kind) {
    case "unit":
    case "step":
    case "concession":
    case "release":
    case "recording":
    case "rework":
      tell(key(body.kind, body.unit), "by taking");
      break;
    case "trial":
    case "instrument":
      tell(key(body.kind, body.instrument), "by taking");
      tell(key("trust", body.instrument), "bearing");
      break;
    case "person":
      tell(key(body.kind, body.person), "by taking");
      tell(key(body.kind, everybody), "by taking");
      break;
    case "reading":
    case "finding": {
      const { unit, valve } = body.subject;
      if (unit !== undefined) tell(key("unit", unit, body.quantity), "by taking");
      if (valve !== undefined) tell(key("valve", valve, body.quantity), "by taking");
      break;
    }
    case "valve-reading":
      tell(key(body.kind, body.valve), "by writing");
      break;
    case "reference-reading":
      tell(key(body.kind, body.type), "by writing");
      break;
    case "batch":
      tell(key("batch", body.batch), "bearing");
      for (const valve of body.valves) tell(key("received", valve), "bearing");
      break;
    case "order":
      tell(key("order", body.order), "bearing");
      for (const unit of body.units) tell(key("ordered", unit), "bearing");
      break;
    case "coat":
    case "machined":
      for (const piece of piecesOf(entry)) tell(key("piece", piece), "bearing");
      if (body.unit !== undefined) tell(key("rework", body.unit), "bearing");
      if (body.kind === "coat") tell(key("coat", ""), "by taking");
      break;
    default:
      for (const piece of piecesOf(entry)) tell(key("piece", piece), "bearing");
  }
  const unit = "unit" in body ? body.unit : "subject" in body ? body.subject.unit : undefined;
  if (unit !== undefined) tell(key("folder", unit), "by writing");
  tell(key("kind", body.kind), "by writing");
}

function firstDrawerOf(entry: Evidence): string {
  let first: string | undefined;
  drawersOf(entry, (name) => {
    first ??= name;
  });
  return first!;
}
