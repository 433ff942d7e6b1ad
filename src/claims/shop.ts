import { withAdoptedLimits } from "./adopted.ts";
import type { BodyOf, Evidence, EvidenceKind, Model } from "./evidence.ts";
import { key, Ledger } from "./ledger.ts";
import { ListeningRoom } from "./listening/room.ts";
import { isReleased } from "./release.ts";
import { Runs } from "./runs/runs.ts";
import { touchOf } from "./timber/touch.ts";
import { Yard } from "./timber/yard.ts";
import { byTaking } from "./when.ts";

export interface UnitState {
  readonly unit: string;
  readonly order: string;
  readonly model: string;
  readonly revision: string;
  readonly tap: string;
  readonly openedAt: string;
  /** Position to the valve standing there now. */
  readonly fitted: Readonly<Record<string, string>>;
  /** Build steps finished. */
  readonly done: ReadonlySet<string>;
}

export interface ValveState {
  readonly valve: string;
  readonly type: string;
  readonly batch: string;
  readonly seller: string;
  readonly sections: readonly string[];
}

type Definition =
  | "model"
  | "version"
  | "instrument"
  | "order"
  | "valve-limits"
  | "promise"
  | "part"
  | "headphone"
  | "shop"
  | "rates"
  | "bill"
  | "safety-limits"
  | "recorder-calibration"
  | "link"
  | "supply-limits"
  | "log"
  | "log-end";

/** The drawer that grows when a unit may have left or come back. */
const standing = key("standing");

/** The shop as all evidence together leaves it: what is defined, what is being built, where each valve stands. */
export class Shop {
  readonly ledger = new Ledger();
  readonly timber = new Yard(this.ledger);
  /** What goes on by itself, and how it ended. */
  readonly runs = new Runs(this.ledger);
  readonly listening = new ListeningRoom(this.ledger);
  private readonly defined = new Map<Definition, Map<string, Evidence>>();
  private readonly unitStates = new Map<string, UnitState>();
  private readonly steps = new Map<string, Set<string>>();
  private readonly valveStates = new Map<string, ValveState>();
  private readonly trays = new Map<string, Evidence<"batch">>();
  /** Valves read before their heat run and not yet after it, with when that was written of them last. */
  private readonly cold = new Map<string, string>();
  private readonly hot = new Set<string>();
  private atTester: Evidence<"valve-reading"> | Evidence<"reference-reading"> | undefined;
  /** Whether each unit has left; worked out again once something was written that bears on it. */
  private readonly gone = new Map<string, boolean>();
  private readonly toldOf = new Map<unknown, Map<string, { readonly at: number; readonly told: unknown }>>();
  private readonly places = new Map<string, { readonly unit: string; readonly position: string }>();
  /** Models with the limits of a destination, kept until either changes. */
  private readonly judgedAs = new Map<string, Model>();
  private readonly orderOfUnit = new Map<string, string>();
  private readonly left = new Map<string, Evidence<"delivery">>();
  private readonly arrived = new Map<string, Evidence<"arrival">>();
  private readonly faultsFound: Evidence<"fault">[] = [];
  private readonly cameBack: Evidence<"return">[] = [];
  private readonly lastBack = new Map<string, Evidence<"return">>();
  private readonly inParcels = new Map<string, readonly Evidence<"packed">[]>();
  private readonly studiesMade: Evidence<"gauge-study">[] = [];

  add(entry: Evidence): void {
    this.ledger.add(entry);
    this.timber.add(entry);
    this.runs.add(entry);
    this.listening.add(entry);
    const { body } = entry;
    this.markStanding(entry);
    switch (body.kind) {
      case "model":
        this.judgedAs.clear();
        this.define(body.kind, modelKey(body.model, body.revision), entry);
        break;
      case "version":
        this.define(body.kind, modelKey(body.model, body.version), entry);
        break;
      case "instrument":
      case "recorder-calibration":
      case "link":
      case "supply-limits":
        this.define(body.kind, body.instrument, entry);
        break;
      case "log":
        this.define(body.kind, entry.id, entry);
        break;
      case "log-end":
        this.define(body.kind, body.log, entry);
        break;
      case "order":
        for (const unit of body.units) this.orderOfUnit.set(unit, body.order);
        this.define(body.kind, body.order, entry);
        break;
      case "valve-limits":
        this.define(body.kind, body.type, entry);
        break;
      case "promise":
        this.define(body.kind, body.order, entry);
        break;
      case "part":
        this.define(body.kind, body.part, entry);
        break;
      case "delivery":
        this.left.set(body.order, entry as Evidence<"delivery">);
        break;
      case "arrival":
        this.arrived.set(body.part, entry as Evidence<"arrival">);
        break;
      case "fault":
        this.faultsFound.push(entry as Evidence<"fault">);
        break;
      case "return":
        this.cameBack.push(entry as Evidence<"return">);
        this.lastBack.set(body.unit, entry as Evidence<"return">);
        break;
      case "packed":
        this.inParcels.set(body.unit, [...(this.inParcels.get(body.unit) ?? []), entry as Evidence<"packed">]);
        break;
      case "gauge-study":
        this.studiesMade.push(entry as Evidence<"gauge-study">);
        break;
      case "headphone":
        this.define(body.kind, body.headphone, entry);
        break;
      case "shop":
      case "rates":
        this.define(body.kind, "", entry);
        break;
      case "bill":
        this.define(body.kind, modelKey(body.model, body.revision), entry);
        break;
      case "safety-limits":
        this.judgedAs.clear();
        this.define(body.kind, body.market, entry);
        break;
      case "valve-reading":
        this.takeValveReading(entry as Evidence<"valve-reading">);
        break;
      case "reference-reading":
        this.atTester = later(this.atTester, entry as Evidence<"reference-reading">);
        break;
      case "batch":
        this.trays.set(body.batch, entry as Evidence<"batch">);
        for (const valve of body.valves) this.valveStates.set(valve, valveState(valve, body));
        break;
      case "step":
        this.stepsOf(body.unit).add(body.step);
        break;
      case "unit":
        for (const step of body.built) this.stepsOf(body.unit).add(step);
        this.refit(body.unit);
        break;
      case "rework":
        this.refit(body.unit);
        break;
      default:
        break;
    }
  }

  /** Folds what else waits for the first question about it, so that nobody waits for that. */
  settle(): void {
    this.runs.settle();
  }

  /** Newest definition of each model revision, under `modelKey`. */
  get models(): ReadonlyMap<string, Evidence<"model">> {
    return this.all("model");
  }
  /** Newest entry of each version of a model under design, under `modelKey`. */
  get versions(): ReadonlyMap<string, Evidence<"version">> {
    return this.all("version");
  }
  get instruments(): ReadonlyMap<string, Evidence<"instrument">> {
    return this.all("instrument");
  }
  get orders(): ReadonlyMap<string, Evidence<"order">> {
    return this.all("order");
  }
  /** By valve type. */
  get valveLimits(): ReadonlyMap<string, Evidence<"valve-limits">> {
    return this.all("valve-limits");
  }
  /** The newest promise of each order. */
  get promises(): ReadonlyMap<string, Evidence<"promise">> {
    return this.all("promise");
  }
  get parts(): ReadonlyMap<string, Evidence<"part">> {
    return this.all("part");
  }
  /** By part, when it came. */
  get arrivals(): ReadonlyMap<string, Evidence<"arrival">> {
    this.look("arrival");
    return this.arrived;
  }
  /** Faults as they were written down, those put right by a newer entry left out. */
  get faults(): readonly Evidence<"fault">[] {
    this.look("fault");
    return this.faultsFound.filter(({ id }) => this.ledger.supersederOf(id) === undefined);
  }
  get returns(): readonly Evidence<"return">[] {
    this.look("return");
    return this.cameBack;
  }
  /** Gauge studies, those put right by a newer entry left out. */
  get gaugeStudies(): readonly Evidence<"gauge-study">[] {
    this.look("gauge-study");
    return this.studiesMade.filter(({ id }) => this.ledger.supersederOf(id) === undefined);
  }
  get headphones(): ReadonlyMap<string, Evidence<"headphone">> {
    return this.all("headphone");
  }
  /** The newest calibration of each recorder. */
  get recorderCalibrations(): ReadonlyMap<string, Evidence<"recorder-calibration">> {
    return this.all("recorder-calibration");
  }
  /** How each instrument is spoken to, by the newest word of it. */
  get links(): ReadonlyMap<string, Evidence<"link">> {
    return this.all("link");
  }
  /** What its owner lets each supply be set to. */
  get supplyLimits(): ReadonlyMap<string, Evidence<"supply-limits">> {
    return this.all("supply-limits");
  }
  /** Runs of readings, by the id of their entry. */
  get logs(): ReadonlyMap<string, Evidence<"log">> {
    return this.all("log");
  }
  /** By log, how it ended. */
  get logEnds(): ReadonlyMap<string, Evidence<"log-end">> {
    return this.all("log-end");
  }
  /** Bought parts and price of each model revision, under `modelKey`. */
  get bills(): ReadonlyMap<string, Evidence<"bill">> {
    return this.all("bill");
  }
  /** What hours cost, once it was written down. */
  get rates(): BodyOf<"rates"> | undefined {
    return this.all("rates").get("")?.body;
  }
  /** Safety limits as they were last adopted for each market. */
  get safetyLimits(): ReadonlyMap<string, Evidence<"safety-limits">> {
    return this.all("safety-limits");
  }
  /** People, places and hours, once they were written down. */
  get shop(): BodyOf<"shop"> | undefined {
    return this.all("shop").get("")?.body;
  }
  get units(): ReadonlyMap<string, UnitState> {
    this.look("unit", "step", "rework");
    return this.unitStates;
  }
  get valves(): ReadonlyMap<string, ValveState> {
    this.look("batch");
    return this.valveStates;
  }
  /** A valve that was received here, by its number. */
  valve(name: string): ValveState | undefined {
    this.ledger.cabinet.open(key("received", name));
    return this.valveStates.get(name);
  }
  /** Where each valve stands that stands in a unit. */
  get fittedIn(): ReadonlyMap<string, { readonly unit: string; readonly position: string }> {
    this.look("unit", "rework");
    return this.places;
  }
  /** Trays of valves, by their name, in the order they came in. */
  get batches(): ReadonlyMap<string, Evidence<"batch">> {
    this.look("batch");
    return this.trays;
  }
  /** A tray of valves, by its name. */
  batch(name: string): Evidence<"batch"> | undefined {
    this.ledger.cabinet.open(key("batch", name));
    return this.trays.get(name);
  }
  /** Valves read before their heat run and not yet after it, with the day of their last reading. */
  get awaitingHot(): ReadonlyMap<string, string> {
    this.look("valve-reading");
    return this.cold;
  }
  /** Whether a valve was read after a heat run. */
  wasReadHot(valve: string): boolean {
    this.look("valve-reading");
    return this.hot.has(valve);
  }
  /** The newest reading at the tester, by which its clock can be told. */
  get newestAtTester(): Evidence<"valve-reading"> | Evidence<"reference-reading"> | undefined {
    this.look("valve-reading", "reference-reading");
    return this.atTester;
  }
  /** A unit that is here or left, by its number. */
  unit(name: string): UnitState | undefined {
    for (const kind of ["unit", "step", "rework"] as const) this.ledger.about(kind, name);
    return this.unitStates.get(name);
  }
  /** Build steps done on a unit, as they were written down, with when and by whom. */
  stepsDone(unit: string): readonly Evidence<"step">[] {
    return this.ledger.about("step", unit);
  }
  /** Units opened here that have not left, in the order they were opened. */
  get openUnits(): readonly UnitState[] {
    return [...this.units.values()].filter(({ unit }) => !this.isReleased(unit));
  }
  /**
   * What is told of each unit opened here by its model and the entries that name it; worked out again for those alone
   * that something was written of since.
   */
  eachUnit<T>(tell: (shop: Shop, unit: UnitState) => T): readonly T[] {
    const { cabinet } = this.ledger;
    const told = (this.toldOf.get(tell) ?? new Map()) as Map<string, { readonly at: number; readonly told: T }>;
    this.toldOf.set(tell, told);
    this.look("model", "reading", "finding", "release");
    const models = cabinet.grownAt(key("kind", "model"));
    return [...this.units.values()].map((state) => {
      const known = told.get(state.unit);
      if (known && known.at >= models && known.at >= cabinet.grownAt(key("folder", state.unit))) return known.told;
      const fresh = { at: cabinet.grown, told: cabinet.unwatched(() => tell(this, state)) };
      told.set(state.unit, fresh);
      return fresh.told;
    });
  }
  /** The order that named a unit first or last, opened or not. */
  orderNaming(unit: string): string | undefined {
    this.ledger.cabinet.open(key("ordered", unit));
    return this.orderOfUnit.get(unit);
  }

  /** The unit's model, with the safety limits that were adopted for where the unit goes. */
  modelOf(unit: string): Model | undefined {
    this.ledger.about("unit", unit);
    const state = this.unitStates.get(unit);
    if (!state) return undefined;
    const name = modelKey(state.model, state.revision);
    const model = this.models.get(name)?.body;
    const place = model && this.order(state.order)?.body.destination.place;
    if (place === undefined || this.safetyLimits.size === 0) return model;
    const judged = `${name}\u0000${place}`;
    const known = this.judgedAs.get(judged) ?? withAdoptedLimits(model!, this.safetyLimits.values(), place);
    this.judgedAs.set(judged, known);
    return known;
  }

  /** The model of a unit, opened here or only ordered. */
  orderedAs(unit: string): Model | undefined {
    const opened = this.modelOf(unit);
    if (opened) return opened;
    const order = this.order(this.orderNaming(unit) ?? "")?.body;
    return order && this.models.get(modelKey(order.model, order.revision))?.body;
  }

  /** An order by its number. */
  order(name: string): Evidence<"order"> | undefined {
    this.ledger.cabinet.open(key("order", name));
    return this.known("order").get(name);
  }

  /** Whether an order went to its customer: as a whole, or with its last unit's release. */
  isDelivered(order: string): boolean {
    this.look("delivery");
    const units = this.order(order)?.body.units;
    return this.left.has(order) || (units?.every((unit) => this.isReleased(unit)) ?? false);
  }

  /** When an order went to its customer, if it did. */
  deliveredAt(order: string): string | undefined {
    this.look("delivery");
    const left = this.left.get(order);
    if (left) return left.at;
    if (!this.isDelivered(order)) return undefined;
    return this.order(order)!
      .body.units.flatMap((unit) => this.ledger.about("release", unit))
      .toSorted(byTaking)
      .at(-1)?.at;
  }

  /** Whether a unit has left: by its release or, had it no folder here, with an order of before. */
  isReleased(unit: string): boolean {
    const { cabinet } = this.ledger;
    cabinet.open(standing);
    const known = this.gone.get(unit) ?? cabinet.unwatched(() => this.hasLeft(unit));
    this.gone.set(unit, known);
    return known;
  }

  private hasLeft(unit: string): boolean {
    const model = this.modelOf(unit);
    if (model === undefined) return this.left.has(this.orderNaming(unit) ?? "");
    return isReleased(model, this.ledger, unit);
  }

  /** Forgets whether units have left that an entry may let leave or call back. */
  private markStanding(entry: Evidence): void {
    const { body } = entry;
    const touched = touchOf(entry)?.body.unit;
    if (body.kind === "model") this.gone.clear();
    else if (body.kind === "order") for (const unit of body.units) this.gone.delete(unit);
    else if (body.kind === "delivery") {
      for (const unit of this.gone.keys()) if (this.orderOfUnit.get(unit) === body.order) this.gone.delete(unit);
    } else if (body.kind === "unit" || body.kind === "release") this.gone.delete(body.unit);
    else if (touched !== undefined) this.gone.delete(touched);
    else return;
    this.ledger.cabinet.touch(standing);
  }

  /** The newest word of a unit's coming back, where it was not released again since. */
  cameBackAfter(unit: string): Evidence<"return"> | undefined {
    this.look("return");
    const back = this.lastBack.get(unit);
    const left = this.ledger.about("release", unit).at(-1);
    return back && (left === undefined || back.seq > left.seq) ? back : undefined;
  }

  /** How a unit was packed after its newest release; nothing once it came back or its release fell. */
  packed(unit: string): Evidence<"packed"> | undefined {
    this.look("packed");
    const left = this.ledger.about("release", unit).at(-1);
    if (left === undefined || !this.isReleased(unit) || this.cameBackAfter(unit)) return undefined;
    return this.inParcels
      .get(unit)
      ?.findLast(({ id, seq }) => seq > left.seq && this.ledger.supersederOf(id) === undefined);
  }

  private define(kind: Definition, name: string, entry: Evidence): void {
    const known = this.known(kind) as Map<string, Evidence>;
    const older = known.get(name);
    if (!older || byTaking(older, entry) < 0) known.set(name, entry);
  }

  private all<K extends Definition>(kind: K): ReadonlyMap<string, Evidence<K>> {
    this.look(kind);
    return this.known(kind);
  }

  private look(...kinds: readonly EvidenceKind[]): void {
    for (const kind of kinds) this.ledger.cabinet.open(key("kind", kind));
  }

  private known<K extends Definition>(kind: K): ReadonlyMap<string, Evidence<K>> {
    const known = this.defined.get(kind) ?? new Map<string, Evidence>();
    this.defined.set(kind, known);
    return known as unknown as ReadonlyMap<string, Evidence<K>>;
  }

  private takeValveReading(entry: Evidence<"valve-reading">): void {
    const { valve, phase } = entry.body;
    this.atTester = later(this.atTester, entry);
    if (phase === "hot") {
      this.hot.add(valve);
      this.cold.delete(valve);
    } else if (phase === "cold" && !this.hot.has(valve)) this.cold.set(valve, entry.at);
  }

  private stepsOf(unit: string): Set<string> {
    const known = this.steps.get(unit) ?? new Set<string>();
    this.steps.set(unit, known);
    return known;
  }

  private refit(unit: string): void {
    const opened = this.ledger.about("unit", unit)[0];
    if (!opened) return;
    for (const valve of Object.values(this.unitStates.get(unit)?.fitted ?? {})) {
      if (this.places.get(valve)?.unit === unit) this.places.delete(valve);
    }
    const fitted = this.ledger.fitted(unit);
    for (const [position, valve] of Object.entries(fitted)) this.places.set(valve, { unit, position });
    const { order, model, revision, tap } = opened.body;
    const done = this.stepsOf(unit);
    this.unitStates.set(unit, { unit, order, model, revision, tap, openedAt: opened.at, fitted, done });
  }
}

/** Folds all evidence, in any order, into the shop as it stands. */
export function foldShop(evidence: Iterable<Evidence>): Shop {
  const shop = new Shop();
  for (const entry of evidence) shop.add(entry);
  return shop;
}

/** Under what a revision of a model is filed; names may hold spaces, so that one between them would not keep two apart. */
export function modelKey(model: string, revision: string): string {
  return `${model}\u0000${revision}`;
}

function later<T extends Evidence>(a: T | undefined, b: T): T {
  return a && Date.parse(a.at) > Date.parse(b.at) ? a : b;
}

function valveState(valve: string, { batch, type, seller, sections }: BodyOf<"batch">): ValveState {
  return { valve, type, batch, seller, sections };
}
