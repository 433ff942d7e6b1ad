import type { BodyOf, Evidence } from "../evidence.ts";
import type { Ledger } from "../ledger.ts";
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
  readonly by: string;
  readonly at: string;
  readonly body: BodyOf<"begun">;
  readonly things: readonly string[];
  readonly endings: ReadonlyMap<string, Ending>;
  readonly running: readonly string[];
  /** When the hours are up. */
  readonly ripe: string;
}

/** Every run that was begun, and how it ended, in the order they were begun. */
export class Runs {
  private readonly begun: Evidence<"begun">[] = [];
  private readonly ended: Evidence<"ended">[] = [];
  private readonly done: Evidence<"step">[] = [];
  private known: ReadonlyMap<string, Run> | undefined;

  constructor(private readonly ledger: Ledger) {}

  add(entry: Evidence): void {
    const { kind } = entry.body;
    if (kind === "begun") this.begun.push(entry as Evidence<"begun">);
    else if (kind === "ended") this.ended.push(entry as Evidence<"ended">);
    else if (kind === "step") this.done.push(entry as Evidence<"step">);
    else return;
    this.known = undefined;
  }

  get all(): ReadonlyMap<string, Run> {
    this.known ??= this.fold();
    return this.known;
  }

  /** Runs in which something still goes on. */
  get open(): readonly Run[] {
    return [...this.all.values()].filter(({ running }) => running.length > 0);
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

  private fold(): ReadonlyMap<string, Run> {
    const stands = ({ id }: Evidence) => this.ledger.supersederOf(id) === undefined;
    const endings = new Map<string, Evidence<"ended">[]>();
    for (const entry of this.ended.filter(stands).sort(byTaking)) {
      endings.set(entry.body.run, [...(endings.get(entry.body.run) ?? []), entry]);
    }
    const steps = new Map<string, string>();
    for (const { at, body } of this.done) {
      const key = `${body.unit}\n${body.step}`;
      const known = steps.get(key);
      if (known === undefined || Date.parse(at) > Date.parse(known)) steps.set(key, at);
    }
    const runs = new Map<string, Run>();
    for (const entry of this.begun.filter(stands).sort(byTaking)) {
      runs.set(entry.body.run, runOf(entry, endings.get(entry.body.run) ?? [], steps));
    }
    return runs;
  }
}

function runOf(
  { id, at, by, body }: Evidence<"begun">,
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
    const finished = steps.get(`${unit}\n${body.step}`);
    if (finished === undefined || endings.has(unit) || since(finished) <= 0) continue;
    endings.set(unit, { at: finished, outcome: "good", hours: since(finished), isImplied: true });
  }
  return {
    id,
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
