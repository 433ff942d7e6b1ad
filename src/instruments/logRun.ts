import type { BodyOf } from "../claims/evidence.ts";
import { factorInto } from "../measurement/inUnit.ts";
import type { Figure } from "./answer.ts";
import { InstrumentFault } from "./fault.ts";
import { Journal, type Step } from "./journal.ts";

/** What the workshop does for a log; answers may come later. */
export interface LogKeeper {
  /** The workshop's present moment. */
  now(): string;
  /** Reads the figure, or throws what is the matter. */
  read(): Promise<Figure>;
  /** How the instrument's last trial stands. */
  standing(): { readonly words: string; readonly trial?: string };
  /** Whether an entry of that id stands in the ledger. */
  has(id: string): boolean;
  /** Writes entries down, all or none. */
  write(entries: readonly object[]): unknown;
  changed(): void;
}

export interface LogPlan extends BodyOf<"log"> {
  readonly id: string;
  readonly by: string;
}

/** Readings handed to the ledger at a time: each handing lets every page fetch afresh. */
const every_ms = 30_000;
const mostAtOnce = 200;

/**
 * A run of readings at even steps by the machine's clock, from its beginning to its end or until it is stopped.
 *
 * Each step is read once and kept in the journal before it counts; from there it goes into the ledger under the log's
 * id and the step's number, so that a handing-over repeated after a fault or a restart writes nothing twice. A step
 * that can't be read is missed and named, never filled in.
 */
export class LogRun {
  readonly plan: LogPlan;
  private readonly journal: Journal;
  private readonly folder: string;
  private readonly keeper: LogKeeper;
  private timer: NodeJS.Timeout | undefined;
  private handed_ms = Date.now();
  private handing: Promise<void> = Promise.resolve();
  private current: Promise<void> = Promise.resolve();
  private isOver = false;

  constructor(plan: LogPlan, folder: string, keeper: LogKeeper) {
    this.plan = plan;
    this.folder = folder;
    this.keeper = keeper;
    this.journal = Journal.open(folder, plan.id, Date.now());
  }

  /** Goes on where the journal ends: at once at the beginning, at the next even step after a restart. */
  begin(): void {
    this.wait();
  }

  get steps(): readonly Step[] {
    return this.journal.steps;
  }

  get all(): number {
    return stepsOf(this.plan);
  }

  get startedAt_ms(): number {
    return this.journal.started_ms;
  }

  private wait(): void {
    if (this.isOver) return;
    const { every_s } = this.plan;
    const passed_s = (Date.now() - this.journal.started_ms) / 1000;
    let step = Math.max(0, Math.floor(passed_s / every_s));
    if (this.journal.has(step) || passed_s - step * every_s > every_s / 2) step += 1;
    if (step >= this.all) {
      this.current = this.end("its time was up");
      return;
    }
    const due_ms = this.journal.started_ms + step * every_s * 1000 - Date.now();
    this.timer = setTimeout(
      () => {
        this.current = this.take(step).finally(() => this.wait());
        this.current.catch((fault: Error) => process.emitWarning(`a step of log ${this.plan.id}: ${fault.message}`));
      },
      Math.max(0, due_ms),
    );
    this.timer.unref();
  }

  private async take(step: number): Promise<void> {
    const kept = await this.reading(step);
    if (this.isOver) return;
    this.journal.keep(kept);
    this.keeper.changed();
    if (Date.now() - this.handed_ms >= every_ms) await this.hand().catch(() => undefined);
  }

  private async reading(step: number): Promise<Step> {
    try {
      const figure = await this.keeper.read();
      const { as, quantity } = this.plan;
      const factor = as === undefined ? 1 : (factorInto(quantity, as) ?? Number.NaN);
      const [value, doubt] = [figure.value * factor, figure.doubt * factor].map((v) => Number(v.toPrecision(12)));
      const { words, trial } = this.keeper.standing();
      return {
        step,
        at: this.keeper.now(),
        value: value!,
        doubt: doubt!,
        standing: words,
        ...(trial !== undefined && { trial }),
      };
    } catch (fault) {
      const problem = fault instanceof InstrumentFault ? fault.problem : "refused";
      return { step, at: this.keeper.now(), missed: (fault as Error).message.slice(0, 300), problem };
    }
  }

  /** Puts what the journal holds into the ledger; what stands there already is left. */
  hand(): Promise<void> {
    this.handing = this.handing.then(
      () => this.handNow(),
      () => this.handNow(),
    );
    return this.handing;
  }

  private async handNow(): Promise<void> {
    this.handed_ms = Date.now();
    const due = this.journal.steps.filter((step) => "value" in step && !this.keeper.has(this.idOf(step)));
    for (let from = 0; from < due.length; from += mostAtOnce) {
      const entries = due.slice(from, from + mostAtOnce).map((step) => this.entryOf(step));
      await this.keeper.write(entries);
    }
  }

  /** Stops it before its time. */
  async stop(by: string): Promise<void> {
    await this.end(`stopped by ${by}`);
  }

  private async end(because: string): Promise<void> {
    if (this.isOver) return;
    this.isOver = true;
    clearTimeout(this.timer);
    const refused = await this.handEach();
    await this.keeper.write([this.endEntry(because, refused)]);
    this.journal.close();
    Journal.remove(this.folder, this.plan.id);
    this.keeper.changed();
  }

  /** Of a handful that the ledger refuses, those that it takes; the others are named in the log's end. */
  private async handEach(): Promise<ReadonlyMap<number, string>> {
    const refused = new Map<number, string>();
    try {
      await this.hand();
      return refused;
    } catch {
      for (const step of this.journal.steps) {
        if (!("value" in step) || this.keeper.has(this.idOf(step))) continue;
        try {
          await this.keeper.write([this.entryOf(step)]);
        } catch (fault) {
          if ((fault as Error).name !== "BadInput") throw fault;
          refused.set(step.step, `refused by the ledger: ${(fault as Error).message}`.slice(0, 300));
        }
      }
      return refused;
    }
  }

  /** Lets go without ending the log, as when the server is stopped: it goes on when that is back. */
  async pause(): Promise<void> {
    if (this.isOver) return;
    this.isOver = true;
    clearTimeout(this.timer);
    await this.hand().catch(() => undefined);
    this.journal.close();
  }

  private idOf({ step }: Step): string {
    return `${this.plan.id}.${step}`;
  }

  private entryOf(step: Step): object {
    if (!("value" in step)) throw new RangeError("a missed step is no reading");
    const { instrument, quantity, as = quantity, about, conditions, by, id: log } = this.plan;
    const { at, value, doubt, standing, trial } = step;
    const { piece, ...subject } = about;
    const common = { id: this.idOf(step), at, by };
    if (piece !== undefined) {
      return { ...common, kind: "weighing", piece, mass_g: value, doubt_g: Math.max(doubt, 1e-9), instrument };
    }
    return {
      ...common,
      kind: "reading",
      subject,
      quantity: as,
      value,
      doubt,
      instrument,
      conditions: { ...conditions, log, step: step.step, standing, ...(trial !== undefined && { trial }) },
    };
  }

  private endEntry(because: string, refused: ReadonlyMap<number, string>): object {
    const missed = new Map<string, number>();
    const count = (why: string, times = 1) => missed.set(why, (missed.get(why) ?? 0) + times);
    let logged = 0;
    for (const step of this.journal.steps) {
      const why = "missed" in step ? step.problem : refused.get(step.step);
      if (why === undefined) logged += 1;
      else count(why);
    }
    const isWhole = because === "its time was up";
    const unseen = isWhole ? this.all - this.journal.steps.length : 0;
    if (unseen > 0) count("the server was not running, or busy with the step before", unseen);
    const sorted = [...missed].sort(([, a], [, b]) => b - a).slice(0, 100);
    return {
      id: `${this.plan.id}.end`,
      at: this.keeper.now(),
      by: this.plan.by,
      kind: "log-end",
      log: this.plan.id,
      because,
      logged,
      missed: sorted.map(([why, times]) => ({ count: times, why })),
    };
  }
}

const stepsOf = ({ every_s, for_s }: Pick<BodyOf<"log">, "every_s" | "for_s">): number =>
  Math.max(1, Math.ceil(for_s / every_s - 1e-9));
