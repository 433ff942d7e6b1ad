import { randomUUID } from "node:crypto";
import { join } from "node:path";
import type { BodyOf, Evidence } from "../../claims/evidence.ts";
import { instrumentStanding, type Shop } from "../../claims/index.ts";
import type { LinkDescription } from "../../claims/links/description.ts";
import { inWords } from "../../claims/when.ts";
import type { Figure } from "../../instruments/answer.ts";
import { Instrument, type SupplyAnswer } from "../../instruments/instrument.ts";
import { Journal } from "../../instruments/journal.ts";
import { LogRun } from "../../instruments/logRun.ts";
import type { Settings, SupplyBounds } from "../../instruments/supply.ts";
import type { OpenWire } from "../../instruments/wire.ts";
import { BadInput, quote } from "../../maths/badInput.ts";
import { factorInto } from "../../measurement/inUnit.ts";
import { readLinkFile } from "./linkFile.ts";
import type {
  About,
  EndedLogView,
  LinkedView,
  LinksView,
  RunningLogView,
  SupplyView,
  TakenView,
  TrialStanding,
} from "./linkViews.ts";

export interface LinkDeskOptions {
  shop(): Shop;
  now(): string;
  /** Writes entries down, all or none. */
  write(entries: readonly object[]): readonly Evidence[] | Promise<readonly Evidence[]>;
  readonly folder: string;
  readonly open?: OpenWire;
}

const mostRemembered = 1000;
const mostLogs = 20;
const mostEnded = 6;
const stepsShown = 60;
/** Mains may stand so much above its nominal value (common practice). */
const mainsAbove = 1.1;

/** What shall be logged; checked as it is written down. */
export type LogWish = Omit<BodyOf<"log">, "kind" | "conditions"> & {
  readonly conditions?: BodyOf<"log">["conditions"];
};

interface Speaking {
  readonly entry: string;
  readonly instrument: Instrument;
}

/**
 * Instruments on a wire: read now, logged by the clock, a supply set inside its owner's limits.
 *
 * Ports and addresses come from the descriptions in the ledger alone. Whatever is asked under an id of its own is done
 * once, however often the question comes.
 */
export class LinkDesk {
  private readonly options: LinkDeskOptions;
  private readonly speaking = new Map<string, Speaking>();
  private readonly runs = new Map<string, LogRun>();
  private readonly done = new Map<string, Promise<unknown>>();
  private readonly taken = new Map<string, TakenView>();
  private readonly supplies = new Map<string, NonNullable<LinkedView["supply"]>>();
  private readonly listeners = new Set<() => void>();
  private isClosed = false;

  constructor(options: LinkDeskOptions) {
    this.options = options;
  }

  /** Called whenever a state, a reading or a log changes. @returns stops it */
  subscribe(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  view(): LinksView {
    const shop = this.options.shop();
    const linked = [...shop.links.values()].flatMap(({ body: { instrument, description } }): LinkedView[] =>
      description ? [this.viewOf(instrument, description, shop)] : [],
    );
    const ended = [...shop.logEnds.values()]
      .toSorted((a, b) => b.seq - a.seq)
      .flatMap((end): EndedLogView[] => {
        const log = shop.logs.get(end.body.log);
        if (!log) return [];
        const { because, logged, missed } = end.body;
        return [
          {
            ...logWords(log),
            ended: end.at,
            because,
            logged,
            missed: missed.map(({ count, why }) => ({ count, problem: why })),
          },
        ];
      })
      .slice(0, mostEnded);
    return { now: this.options.now(), linked, ended };
  }

  /**
   * Takes a description into use, and the instrument's own entry where it is not on record yet.
   *
   * @throws BadInput  naming the field of the file at fault
   */
  async link(file: unknown, by: string): Promise<string> {
    const { instrument, description, fresh } = readLinkFile(file, this.options.shop());
    const at = this.options.now();
    await this.write([...(fresh ? [{ at, by, ...fresh }] : []), { at, by, kind: "link", instrument, description }]);
    this.tell();
    return instrument;
  }

  /** Reads a figure now; asked again under the same id it tells the same one. */
  read(instrument: string, quantity: unknown, id: string = `m-${randomUUID()}`): Promise<TakenView> {
    return this.once(id, async () => {
      const description = this.described(instrument);
      const name = requireQuantity(description, quantity, instrument);
      const figure = await this.spokenTo(instrument).read(name, this.options.now());
      const { value, doubt, raw } = figure;
      const view: TakenView = {
        id,
        instrument,
        quantity: name,
        value,
        doubt,
        at: this.options.now(),
        raw,
        conditions: description.quantities.find((one) => one.quantity === name)!.conditions,
        standing: this.standing(instrument),
      };
      remember(this.taken, id, view);
      this.tell();
      return view;
    });
  }

  /**
   * Writes a figure that was read down, under its own id: once, however often it is asked for.
   *
   * @param as  the quantity's name in the record, where it has another of the same unit
   */
  async keep(id: string, by: string, about: About, as?: string): Promise<Evidence> {
    const known = this.options.shop().ledger.get(id);
    if (known) return known;
    return this.once(`keep ${id}`, async () => {
      const view = this.taken.get(id);
      if (!view) {
        throw new BadInput("measurement", quote(id), "a figure that was read since the server began", "read it again");
      }
      const { instrument, quantity, at, conditions, standing } = view;
      const factor = as === undefined ? 1 : factorInto(quantity, as);
      if (factor === undefined) {
        throw new BadInput(
          "as",
          quote(as),
          `a quantity of the unit of ${quantity}`,
          "leave it out, or name such a one",
        );
      }
      const [value, doubt] = [view.value * factor, view.doubt * factor].map((v) => Number(v.toPrecision(12)));
      const { piece, ...subject } = about;
      const trial = { standing: standing.words.slice(0, 400), ...(standing.trial && { trial: standing.trial }) };
      const body =
        piece === undefined
          ? {
              kind: "reading",
              subject,
              quantity: as ?? quantity,
              value,
              doubt,
              instrument,
              conditions: { ...conditions, ...trial },
            }
          : { kind: "weighing", piece, mass_g: value, doubt_g: doubt, instrument };
      return (await this.write([{ id, at, by, ...body }]))[0]!;
    });
  }

  /** Begins a log; asked again under the same id it tells of the one that runs. */
  async startLog(given: LogWish, by: string, id: string = `log-${randomUUID()}`): Promise<string> {
    const shop = this.options.shop();
    if (shop.logs.has(id)) return id;
    if (!/^[A-Za-z0-9._:-]{1,70}$/.test(id)) {
      throw new BadInput("id", quote(id), "up to 70 letters, digits and . _ : -", "choose another, or leave it out");
    }
    return this.once(`log ${id}`, async () => {
      this.described(given.instrument);
      if (this.runs.size >= mostLogs) {
        throw new BadInput(
          "instrument",
          quote(given.instrument),
          `at most ${mostLogs} logs at a time`,
          "stop one first",
        );
      }
      const [entry] = await this.write([{ id, at: this.options.now(), by, kind: "log", ...given }]);
      this.begin(entry as Evidence<"log">);
      return id;
    });
  }

  /** Ends a log before its time. */
  async stopLog(log: string, by: string): Promise<void> {
    const run = this.runs.get(log);
    if (run) return run.stop(by);
    const { logs, logEnds } = this.options.shop();
    if (logEnds.has(log)) return;
    if (!logs.has(log)) throw new BadInput("log", quote(log), "a log of this workshop", "check its id");
    await this.write([
      {
        id: `${log}.end`,
        at: this.options.now(),
        by,
        kind: "log-end",
        log,
        because: `stopped by ${by}`,
        logged: this.loggedOf(log),
        missed: [],
      },
    ]);
  }

  /** Goes on with the logs that ran when the server was last stopped; one whose time is up is ended. */
  async resume(): Promise<void> {
    const { logs, logEnds } = this.options.shop();
    for (const log of Journal.all(this.journals)) {
      const entry = logs.get(log);
      if (!entry || logEnds.has(log)) Journal.remove(this.journals, log);
      else if (!this.runs.has(log)) this.begin(entry);
    }
  }

  /** What a supply is set to now. */
  async supplyNow(instrument: string): Promise<SupplyView> {
    this.described(instrument);
    const { settings, isOn } = await this.spokenTo(instrument).supplyNow();
    return this.supplied(instrument, settings, isOn);
  }

  /**
   * Sets a supply inside its owner's limits, upward only in frequency, and writes down what it confirmed.
   *
   * @throws BadInput  beyond a limit, before anything is sent
   */
  set(
    instrument: string,
    wanted: Settings,
    by: string,
    { unit, id = `set-${randomUUID()}` }: { readonly unit?: string; readonly id?: string } = {},
  ): Promise<SupplyView> {
    return this.once(`set ${id}`, async () => {
      const before = this.setBefore(id);
      if (before) return before;
      const { settings } = this.described(instrument);
      for (const [setting, value] of Object.entries(wanted)) {
        if (!settings.some((one) => one.setting === setting)) {
          const known = settings.map((one) => one.setting).join(", ") || "nothing";
          throw new BadInput(setting, quote(value), `${instrument} can be set in ${known}`, "leave it out");
        }
        if (typeof value === "number" && Number.isFinite(value) && value >= 0) continue;
        throw new BadInput(setting, quote(value), "a number, 0 or more", "give it in the unit of its name");
      }
      if (Object.keys(wanted).length === 0) {
        throw new BadInput("output_Vrms", "nothing", "at least one setting", "say what it is to be set to");
      }
      const answer = await this.spokenTo(instrument).set(wanted, this.bounds(instrument, unit));
      return this.written(instrument, answer, by, { id, ...(unit !== undefined && { unit }) });
    });
  }

  /** Switches a supply's output; off always, on only where what it is set to lies inside its owner's limits. */
  switchOutput(
    instrument: string,
    on: boolean,
    by: string,
    { unit, id = `set-${randomUUID()}` }: { readonly unit?: string; readonly id?: string } = {},
  ): Promise<SupplyView> {
    return this.once(`set ${id}`, async () => {
      const before = this.setBefore(id);
      if (before) return before;
      if (!this.described(instrument).output) {
        throw new BadInput("on", quote(on), `${instrument} has no output that is switched here`, "switch it by hand");
      }
      const answer = await this.spokenTo(instrument).switchOutput(on, this.bounds(instrument, unit));
      return this.written(instrument, answer, by, { id, ...(unit !== undefined && { unit }) });
    });
  }

  /** Lets logs rest where they are and closes every port. */
  async close(): Promise<void> {
    this.isClosed = true;
    this.listeners.clear();
    await Promise.all([...this.runs.values()].map((run) => run.pause()));
    for (const { instrument } of this.speaking.values()) instrument.close();
  }

  /** Writes down; a fault is named by its field, as whoever asked did not hand in a list. */
  private async write(entries: readonly object[]): Promise<readonly Evidence[]> {
    try {
      return await this.options.write(entries);
    } catch (fault) {
      if (fault instanceof BadInput) throw BadInput.at(fault.path.replace(/^entries\[\d+\]\.?/, ""), fault);
      throw fault;
    }
  }

  private get journals(): string {
    return join(this.options.folder, "logs");
  }

  private begin(entry: Evidence<"log">): void {
    const { id, by, body } = entry;
    const { quantities = [] } = this.options.shop().links.get(body.instrument)?.body.description ?? {};
    const known = quantities.find(({ quantity }) => quantity === body.quantity)?.conditions;
    const conditions = { ...known, ...body.conditions };
    const run = new LogRun({ ...body, conditions, id, by }, this.journals, {
      now: () => this.options.now(),
      read: () => this.logRead(body.instrument, body.quantity),
      standing: () => this.standing(body.instrument),
      has: (one) => this.options.shop().ledger.get(one) !== undefined,
      write: (entries) => this.write(entries),
      changed: () => {
        if (this.options.shop().logEnds.has(id)) this.runs.delete(id);
        this.tell();
      },
    });
    this.runs.set(id, run);
    run.begin();
    this.tell();
  }

  private async logRead(instrument: string, quantity: string): Promise<Figure> {
    this.described(instrument);
    return this.spokenTo(instrument).read(quantity, this.options.now());
  }

  /** What was done under that id before the server was started anew. */
  private setBefore(id: string): SupplyView | undefined {
    const body = this.options.shop().ledger.get(id)?.body;
    if (body?.kind !== "supply-set") return undefined;
    const { instrument, readBack, isOn } = body;
    return { instrument, settings: readBack, ...(isOn !== undefined && { isOn }) };
  }

  private async written(
    instrument: string,
    answer: SupplyAnswer,
    by: string,
    more: { readonly id: string; readonly unit?: string },
  ): Promise<SupplyView> {
    if (!answer.ok) throw new BadInput(answer.path, quote(answer.given), answer.allowed, answer.mend);
    const { set, readBack, isOn } = answer;
    await this.write([
      {
        ...more,
        at: this.options.now(),
        by,
        kind: "supply-set",
        instrument,
        set,
        readBack,
        ...(isOn !== undefined && { isOn }),
      },
    ]);
    return this.supplied(instrument, readBack, isOn);
  }

  private supplied(instrument: string, settings: Settings, isOn: boolean | undefined): SupplyView {
    const more = isOn === undefined ? {} : { isOn };
    this.supplies.set(instrument, { at: this.options.now(), settings, ...more });
    this.tell();
    return { instrument, settings, ...more };
  }

  /** What a supply may be set to: its owner's word, the flux of what it feeds, and that one's own mains. */
  private bounds(instrument: string, unit: string | undefined): SupplyBounds | undefined {
    const shop = this.options.shop();
    const entry = shop.supplyLimits.get(instrument);
    const destination = unit === undefined ? undefined : destinationOf(shop, unit);
    if (!entry) return undefined;
    const { by, at, body } = entry;
    if (destination) {
      const { nominal_V, frequency_Hz, place } = destination;
      return {
        limits: body.limits,
        by,
        at,
        least_Hz: frequency_Hz,
        leastWhy: `which unit ${unit}, bound for ${place}, is built for`,
        most_Vrms: Number((nominal_V * mainsAbove).toFixed(1)),
        mostWhy: `a tenth above the ${nominal_V} V that unit ${unit} is built for`,
      };
    }
    const least_Hz = shop.shop?.building_Hz ?? 50;
    return { limits: body.limits, by, at, least_Hz, leastWhy: "the building's own frequency" };
  }

  private viewOf(instrument: string, description: LinkDescription, shop: Shop): LinkedView {
    const state = this.speaking.get(instrument)?.instrument.state ?? { state: "unused" as const };
    const limits = shop.supplyLimits.get(instrument);
    const supply = this.supplies.get(instrument);
    return {
      instrument,
      title: shop.instruments.get(instrument)?.body.title ?? instrument,
      where: whereWords(description.wire),
      state: state.state,
      ...(state.state === "lost" && { why: state.why }),
      standing: this.standing(instrument),
      quantities: description.quantities.map(({ quantity, send }) => ({
        quantity,
        speaksByItself: send === undefined,
      })),
      settings: description.settings.map(({ setting, decimals }) => ({
        setting,
        decimals,
        ...limits?.body.limits[setting],
      })),
      ...(limits && { limitsBy: limits.by, limitsAt: limits.at }),
      least_Hz: shop.shop?.building_Hz ?? 50,
      hasOutput: description.output !== undefined,
      ...(supply && { supply }),
      logs: [...this.runs.values()].flatMap((run) => (run.plan.instrument === instrument ? [this.runView(run)] : [])),
    };
  }

  private runView(run: LogRun): RunningLogView {
    const { steps, all } = run;
    const last = steps.at(-1)?.step ?? -1;
    const logged = steps.filter((step) => "value" in step).length;
    return {
      ...logWords({
        id: run.plan.id,
        by: run.plan.by,
        body: run.plan,
        at: this.options.shop().logs.get(run.plan.id)?.at ?? "",
      }),
      passed: last + 1,
      all,
      logged,
      missed: last + 1 - logged,
      steps: steps.slice(-stepsShown).map((step) => {
        const { step: number, at } = step;
        return "value" in step
          ? { step: number, at, value: step.value, doubt: step.doubt }
          : { step: number, at, why: step.missed, problem: step.problem };
      }),
    };
  }

  private loggedOf(log: string): number {
    const { ledger } = this.options.shop();
    let count = 0;
    for (let step = 0; step < 20_000; step += 1) if (ledger.get(`${log}.${step}`)) count += 1;
    return count;
  }

  private standing(instrument: string): TrialStanding {
    const shop = this.options.shop();
    const standing = instrumentStanding(shop.ledger, instrument);
    const trial = shop.ledger
      .about("trial", instrument)
      .findLast(({ id }) => shop.ledger.supersederOf(id) === undefined)?.id;
    const told = { ...standing, ...(trial !== undefined && { trial }) };
    const every_h = shop.links.get(instrument)?.body.description?.triedEvery_h ?? 24;
    const { state, at } = standing;
    if (state !== "good" || at === undefined) return told;
    if (Date.parse(this.options.now()) - Date.parse(at) <= every_h * 3_600_000) return told;
    return { ...told, state: "expired", words: `its last trial, of ${inWords(at)}, is more than ${every_h} h ago` };
  }

  private described(instrument: string): LinkDescription {
    const { links } = this.options.shop();
    const description = links.get(instrument)?.body.description;
    if (description) return description;
    const known = [...links.values()].flatMap(({ body }) => (body.description ? [body.instrument] : []));
    throw new BadInput(
      "instrument",
      quote(instrument),
      known.length === 0 ? "no instrument is linked yet" : `linked are ${known.join(", ")}`,
      "check the name, or let the owner enter its description",
    );
  }

  /** The instrument as the ledger describes it now; one described anew is spoken to anew. */
  private spokenTo(instrument: string): Instrument {
    if (this.isClosed) throw new BadInput("instrument", quote(instrument), "an open workshop", "open it again");
    const entry = this.options.shop().links.get(instrument)!;
    const known = this.speaking.get(instrument);
    if (known?.entry === entry.id) return known.instrument;
    known?.instrument.close();
    const fresh = new Instrument(instrument, entry.body.description!, {
      ...(this.options.open && { open: this.options.open }),
      onState: () => this.tell(),
    });
    this.speaking.set(instrument, { entry: entry.id, instrument: fresh });
    return fresh;
  }

  private once<T>(id: string, work: () => Promise<T>): Promise<T> {
    const known = this.done.get(id);
    if (known) return known as Promise<T>;
    const fresh = work();
    // What failed may be tried again under the same id; what was done stays done.
    fresh.catch(() => this.done.delete(id));
    remember(this.done, id, fresh);
    return fresh;
  }

  private tell(): void {
    for (const listener of this.listeners) listener();
  }
}

function remember<T>(among: Map<string, T>, id: string, what: T): void {
  among.set(id, what);
  if (among.size > mostRemembered) among.delete(among.keys().next().value!);
}

function requireQuantity({ quantities }: LinkDescription, quantity: unknown, instrument: string): string {
  if (typeof quantity === "string" && quantities.some((one) => one.quantity === quantity)) return quantity;
  const known = quantities.map((one) => one.quantity).join(", ") || "nothing";
  throw new BadInput("quantity", quote(quantity), `${instrument} reads ${known}`, "name one of these");
}

function destinationOf(shop: Shop, unit: string) {
  const order = shop.units.get(unit)?.order ?? shop.orderNaming(unit);
  const destination = order === undefined ? undefined : shop.orders.get(order)?.body.destination;
  if (destination) return destination;
  throw new BadInput("unit", quote(unit), "a unit of this workshop", "check the serial number");
}

function whereWords(wire: LinkDescription["wire"]): string {
  if (wire.kind === "tcp") return `TCP ${wire.host}, port ${wire.port}`;
  const parity = { none: "N", even: "E", odd: "O" }[wire.parity];
  return `${wire.path}, ${wire.baud} baud ${wire.dataBits}${parity}${wire.stopBits}`;
}

function logWords({ id, by, at, body }: Pick<Evidence<"log">, "id" | "by" | "at" | "body">) {
  const { instrument, quantity, as, about, every_s, for_s } = body;
  return { log: id, instrument, quantity: as ?? quantity, about, every_s, for_s, by, begun: at };
}
