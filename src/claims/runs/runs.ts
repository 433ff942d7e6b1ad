import type { BodyOf, Evidence } from "../evidence.ts";
import { key, type Ledger } from "../ledger.ts";
import { byTaking } from "../when.ts";

const hour_ms = 3_600_000;

/** What became of one thing in a run. */
export interface Ending {
  readonly at: string;
  readonly outcome: "good" | "failed";
  /** On the run's own clock. */
  readonly hours: number;
  readonly fault?: string;
  /** Nobody wrote the end down; the next step done tells of it. */
  readonly isImplied?: boolean;
}

/** Work that goes on by itself, as it was begun, with what became of each thing in it so far. */
export interface Run {
  readonly id: string;
  readonly seq: number;
  readonly by: string;
  readonly at: string;
  readonly body: BodyOf<"begun">;
  readonly things: readonly string[];
  readonly endings: ReadonlyMap<string, Ending>;
  readonly running: readonly string[];
  /** When the hours are up. */
  readonly ripe: string;
}

/**
 * Every run that was begun, and how it ended, in the order they were begun.
 *
 * Each is folded by itself, and again only after something was written that bears on it: a shop of years has runs by the
 * thousand, and a handful that go on.
 */
export class Runs {
  private readonly begun = new Map<string, Evidence<"begun">[]>();
  private readonly ended = new Map<string, Evidence<"ended">[]>();
  /** By unit and step, when the step was done last. */
  private readonly done = new Map<string, string>();
  /** Names of runs that stand for a unit at a step of its own. */
  private readonly waitingAt = new Map<string, Set<string>>();
  private readonly folded = new Map<string, Run>();
  private readonly running = new Set<string>();
  private readonly stale = new Set<string>();
  private inOrder: ReadonlyMap<string, Run> | undefined;

  constructor(private readonly ledger: Ledger) {}

  add(entry: Evidence): void {
    const { body } = entry;
    if (body.kind === "step") this.addStep(body, entry.at);
    else if (body.kind === "begun" || body.kind === "ended") {
      if (body.kind === "begun") push(this.begun, body.run, entry as Evidence<"begun">);
      else push(this.ended, body.run, entry as Evidence<"ended">);
      this.stale.add(body.run);
      const putRight = body.supersedes === undefined ? undefined : this.ledger.get(body.supersedes)?.body;
      if (putRight?.kind === "begun" || putRight?.kind === "ended") this.stale.add(putRight.run);
      if (body.kind !== "begun" || body.step === undefined) return;
      for (const unit of body.units) {
        const at = waitOf(unit, body.step);
        this.waitingAt.set(at, (this.waitingAt.get(at) ?? new Set()).add(body.run));
      }
    }
  }

  get all(): ReadonlyMap<string, Run> {
    this.refresh();
    this.inOrder ??= new Map([...this.folded.values()].sort(byBeginning).map((run) => [run.body.run, run] as const));
    return this.inOrder;
  }

  /** A run by its name. */
  get(name: string): Run | undefined {
    this.refresh();
    return this.folded.get(name);
  }

  /** A run by its name, as it would stand without an entry that is to be put right. */
  without(entry: string | undefined, name: string): Run | undefined {
    this.refresh();
    return this.fold(name, entry);
  }

  /** Runs in which something still goes on. */
  get open(): readonly Run[] {
    this.refresh();
    return [...this.running].map((name) => this.folded.get(name)!).sort(byBeginning);
  }

  /** The run that a unit, valve or piece is in now. */
  of(thing: string): Run | undefined {
    return this.open.findLast(({ running }) => running.includes(thing));
  }

  /** Slots of a place that are taken, with what stands in each. */
  slotsOf(place: string): readonly { readonly slot?: number; readonly thing: string; readonly run: Run }[] {
    return this.open
      .filter(({ body }) => body.place === place)
      .flatMap((run) =>
        run.running.map((thing) => ({
          ...(run.body.slot !== undefined && { slot: run.body.slot + run.things.indexOf(thing) }),
          thing,
          run,
        })),
      );
  }

  private addStep({ unit, step }: BodyOf<"step">, at: string): void {
    const key = waitOf(unit, step);
    const known = this.done.get(key);
    if (known !== undefined && Date.parse(at) <= Date.parse(known)) return;
    this.done.set(key, at);
    for (const run of this.waitingAt.get(key) ?? []) this.stale.add(run);
  }

  private refresh(): void {
    for (const kind of ["begun", "ended", "step"] as const) this.ledger.cabinet.open(key("kind", kind));
    this.settle();
  }

  /** Folds the runs that something was written of since they were folded last. */
  settle(): void {
    if (this.stale.size === 0) return;
    this.inOrder = undefined;
    for (const name of this.stale) {
      const run = this.fold(name);
      if (run) this.folded.set(name, run);
      else this.folded.delete(name);
      if (run && run.running.length > 0) this.running.add(name);
      else this.running.delete(name);
    }
    this.stale.clear();
  }

  private fold(name: string, leftOut?: string): Run | undefined {
    const stands = ({ id }: Evidence) => id !== leftOut && this.ledger.supersederOf(id) === undefined;
    const begun = (this.begun.get(name) ?? []).filter(stands).sort(byTaking).at(-1);
    const ended = (this.ended.get(name) ?? []).filter(stands).sort(byTaking);
    return begun && runOf(begun, ended, this.done);
  }
}

function push<T>(lists: Map<string, T[]>, name: string, entry: T): void {
  const list = lists.get(name);
  if (list) list.push(entry);
  else lists.set(name, [entry]);
}

const waitOf = (unit: string, step: string) => `${unit}\n${step}`;

function byBeginning(a: Run, b: Run): number {
  return Date.parse(a.at) - Date.parse(b.at) || a.seq - b.seq;
}

function runOf(
  { id, seq, at, by, body }: Evidence<"begun">,
  ended: readonly Evidence<"ended">[],
  steps: ReadonlyMap<string, string>,
): Run {
  const things = thingsOf(body);
  const endings = new Map<string, Ending>();
  const since = (until: string) => (Date.parse(until) - Date.parse(at)) / hour_ms;
  for (const end of ended) {
    const { outcome, fault, hours = since(end.at) } = end.body;
    for (const thing of end.body.things ?? things) {
      if (endings.has(thing) || !things.includes(thing)) continue;
      endings.set(thing, { at: end.at, outcome, hours, ...(fault !== undefined && { fault }) });
    }
  }
  for (const unit of body.step === undefined ? [] : body.units) {
    const finished = steps.get(waitOf(unit, body.step!));
    if (finished === undefined || endings.has(unit) || since(finished) <= 0) continue;
    endings.set(unit, { at: finished, outcome: "good", hours: since(finished), isImplied: true });
  }
  return {
    id,
    seq,
    by,
    at,
    body,
    things,
    endings,
    running: things.filter((thing) => !endings.has(thing)),
    ripe: new Date(Date.parse(at) + body.hours * hour_ms).toISOString(),
  };
}

export function thingsOf({ units, valves, pieces }: Pick<BodyOf<"begun">, "units" | "valves" | "pieces">) {
  return [...units, ...valves, ...pieces];
}
