import { setImmediate as breathe } from "node:timers/promises";
import type { ClaimSpec, Evidence } from "../claims/evidence.ts";
import type { Shop } from "../claims/index.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { catalogueEntry, catalogueTypes } from "../valves/index.ts";
import type { Calculate } from "./calculate.ts";
import { type Finding, missingFindings } from "./findings.ts";
import type { Shelf } from "./keptAnswers.ts";
import { fromValves } from "./settle.ts";
import { placesFor } from "./valvePlaces.ts";
import { valveSets } from "./valveSets.ts";
import { ValveShelf } from "./valveShelf.ts";
import { type TypeReadings, type ValveVerdict, verdictsOf } from "./valveTable.ts";
import { testerClock, trayCard, valveTray } from "./valveTray.ts";
import type { TrayCardView, TraysView, TrayView, ValveSetsView } from "./views.ts";

export interface ValveDeskOptions {
  readonly shop: Shop;
  /** The clock of whoever asks. */
  readonly now: () => string;
  /** Where the clock stands, for answers that are kept until something they were drawn from grows. */
  readonly stands: () => string;
  readonly calculate: Calculate;
  /** What is never let go while it holds, and what is let go when it was not asked for the longest. */
  readonly facts: Shelf;
  readonly answers: Shelf;
}

/** A list of trays without a search holds so many of the newest. */
const mostTrays = 120;
/** Work over the whole shelf lets others have their turn this often. */
const turn_ms = 20;

/** Valves as they come, are judged tray by tray, and are chosen for sets. */
export class ValveDesk {
  readonly shelf: ValveShelf;
  /** What claims ask of valves, each by a number that stands for it in questions. */
  private readonly asked = new Map<string, number>();
  private readonly judged = new Map<string, { key: string; verdicts: Promise<readonly ValveVerdict[]> }>();

  constructor(private readonly options: ValveDeskOptions) {
    this.shelf = new ValveShelf(options.shop);
  }

  /** Trays of valves, the newest first, of those that a text is found in. */
  async trays(find: unknown = "", most = mostTrays): Promise<TraysView> {
    if (typeof find !== "string")
      throw new BadInput("find", quote(find), "part of a tray's name, type or seller", "write what you seek");
    const sought = find.trim().toLowerCase();
    const view = await this.options.answers.keep(`trays ${most} ${sought}`, async () => {
      const { shelf } = this;
      const { shop, stands } = this.options;
      const found = shelf.batches.filter(({ body: { batch, type, seller } }) =>
        `${batch} ${type} ${seller}`.toLowerCase().includes(sought),
      );
      const newest = found.toSorted((a, b) => Date.parse(b.at) - Date.parse(a.at) || b.seq - a.seq);
      return {
        now: stands(),
        trays: await Promise.all(newest.slice(0, most).map(({ body }) => this.card(body.batch))),
        traysInAll: shelf.batches.length,
        types: [...shop.valveLimits.values()].map(({ body: { type, plate_V, grid_V } }) => ({ type, plate_V, grid_V })),
        catalogue: catalogueTypes().map((type) => ({ type, sections: catalogueEntry(type)?.sections ?? 1 })),
      };
    });
    return { ...view, now: this.options.now() };
  }

  /** A tray with all that was read of its valves, and what follows from it. */
  async tray(name: string): Promise<TrayView> {
    const { shelf } = this;
    const { shop, stands, calculate, answers } = this.options;
    const view = await answers.keep(`tray ${name}`, async () => {
      const batch = this.batchNamed(name);
      const readings = shelf.readingsOfTray(batch.body);
      const verdicts = await answers.keep(`advised ${name}`, async () => {
        const read = shelf.readingsOfTray(this.batchNamed(name).body);
        const places = await placesFor(shop, batch.body.type, calculate);
        return read ? verdictsOf(read, calculate, places) : [];
      });
      return valveTray({ shop, shelf, batch, readings, verdicts, now: stands() });
    });
    const now = this.options.now();
    return { ...view, now, clock_h: testerClock(shelf, now) };
  }

  /** Sets for the open orders from one tray, or from the whole shelf of its type. */
  async sets(name: string, from: unknown = "tray"): Promise<ValveSetsView> {
    const { batch, type } = this.batchNamed(name).body;
    if (from !== "tray" && from !== "shelf")
      throw new BadInput("from", quote(from), "tray or shelf", "say which valves are to be chosen from");
    return this.options.answers.keep(`sets ${name} ${from}`, async () => {
      const { shelf } = this;
      const { shop, calculate } = this.options;
      const trays =
        from === "tray"
          ? [batch]
          : shelf.batches.filter(({ body }) => body.type === type).map(({ body }) => body.batch);
      const judged = (await Promise.all(trays.map((tray) => this.trayVerdicts(tray)))).flat();
      const verdicts = judged.filter(({ id, verdict }) => verdict === "use" && !shop.fittedIn.has(id));
      const free = verdicts.map(({ id }) => id);
      const readings = shelf.readingsOfValves(type, free);
      return valveSets({ shop, batch, type, from, readings, verdicts }, calculate);
    });
  }

  /** Verdicts of every valve of a type around its heat run. */
  verdicts(type: string): Promise<readonly ValveVerdict[]> {
    return this.options.facts.keep(`verdicts ${type}`, async () => {
      const all: ValveVerdict[] = [];
      for await (const name of this.traysOf(type)) all.push(...(await this.trayVerdicts(name)));
      return all;
    });
  }

  /** Verdicts of every valve of some types, or of every type that has limits. */
  async verdictsOfTypes(types: Iterable<string> = this.options.shop.valveLimits.keys()) {
    return (await Promise.all([...types].map((type) => this.verdicts(type)))).flat();
  }

  /** Verdicts of the valves that stand in a unit. */
  async verdictsIn(fitted: Readonly<Record<string, string>>): Promise<ReadonlyMap<string, ValveVerdict>> {
    const valves = new Set(Object.values(fitted));
    const trays = new Set([...valves].flatMap((valve) => this.options.shop.valve(valve)?.batch ?? []));
    const judged = await Promise.all([...trays].map((name) => this.trayVerdicts(name)));
    return new Map(judged.flat().flatMap((verdict) => (valves.has(verdict.id) ? [[verdict.id, verdict]] : [])));
  }

  /** Findings of the valves of a type that the claims ask for and that are not on record yet. */
  async missingOfType(type: string, claims: readonly ClaimSpec[]): Promise<readonly Finding[]> {
    const { facts, shop } = this.options;
    const asked = JSON.stringify(claims.map(({ requires }) => requires.filter(({ of }) => of === "valve")));
    const number = this.asked.get(asked) ?? this.asked.size;
    this.asked.set(asked, number);
    return facts.keep(`missing of type ${type} ${number}`, async () => {
      const missing: Finding[] = [];
      for await (const name of this.traysOf(type)) {
        const ofTray = await facts.keep(`missing ${name} ${number}`, async () => {
          const readings = this.shelf.readingsOfTray(this.batchNamed(name).body);
          const found = readings ? fromValves(readings, await this.trayVerdicts(name)) : [];
          return missingFindings(shop, claims, found);
        });
        missing.push(...ofTray);
      }
      return missing;
    });
  }

  /** Draws the cards of all trays, the newest first, until it is told that nobody will ask for them. */
  async drawCards(isClosing: () => boolean): Promise<void> {
    const newestFirst = this.shelf.batches.toReversed().map(({ body }) => body.batch);
    for await (const name of inTurns(newestFirst)) {
      if (isClosing()) return;
      await this.card(name);
    }
  }

  private card(name: string): Promise<TrayCardView> {
    return this.options.facts.keep(`card ${name}`, async () =>
      trayCard(this.batchNamed(name), this.shelf, this.options.shop, await this.trayVerdicts(name)),
    );
  }

  /** Verdicts of one tray; judged anew only when something was read that bears on it. */
  private trayVerdicts(name: string): Promise<readonly ValveVerdict[]> {
    const { facts, shop, calculate } = this.options;
    return facts.keep(`tray ${name}`, () => {
      const { body } = this.batchNamed(name);
      const readings = this.shelf.readingsOfTray(body);
      if (!readings) return Promise.resolve([]);
      // A reading of the reference valve bears on the trays about it alone.
      const key = [shop.valveLimits.get(body.type)?.id, ...idsOf(readings)].join(" ");
      const known = this.judged.get(name);
      if (known?.key === key) return known.verdicts;
      const verdicts = verdictsOf(readings, calculate);
      this.judged.set(name, { key, verdicts });
      verdicts.catch(() => this.judged.delete(name));
      return verdicts;
    });
  }

  /** Names of the trays of a type, with room for others to be answered in between. */
  private traysOf(type: string): AsyncGenerator<string> {
    return inTurns(this.shelf.batches.filter(({ body }) => body.type === type).map(({ body }) => body.batch));
  }

  private batchNamed(name: string): Evidence<"batch"> {
    const batch = this.shelf.batch(name);
    if (batch) return batch;
    const known = this.shelf.batches.map(({ body }) => body.batch);
    throw new BadInput(
      "batch",
      quote(name),
      known.length === 0
        ? "this workshop has no valves yet"
        : `known batches are ${known.slice(-20).join(", ")}${known.length > 20 ? ", …" : ""}`,
      "check the batch's name on its tray",
    );
  }
}

async function* inTurns(names: readonly string[]): AsyncGenerator<string> {
  let until_ms = Date.now() + turn_ms;
  for (const name of names) {
    yield name;
    if (Date.now() < until_ms) continue;
    await breathe();
    until_ms = Date.now() + turn_ms;
  }
}

function idsOf({ byValve, reference }: TypeReadings): readonly string[] {
  return [...reference, ...[...byValve.values()].flat()].map(({ id }) => id);
}
