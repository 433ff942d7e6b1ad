import type { Evidence, EvidenceKind } from "../evidence.ts";
import { key, type Ledger } from "../ledger.ts";
import { byTaking } from "../when.ts";

/** A blind series with the answers that stand, and its end once it has one. */
export interface Series {
  readonly plan: Evidence<"listening-series">;
  /** By listener, then by trial. */
  readonly answers: ReadonlyMap<string, ReadonlyMap<number, Evidence<"listening-answer">>>;
  readonly closed?: Evidence<"listening-close">;
}

/** What was planned, answered and reported of listening. */
export class ListeningRoom {
  private readonly plans = new Map<string, Evidence<"listening-series">>();
  private readonly given: Evidence<"listening-answer">[] = [];
  private readonly ends = new Map<string, Evidence<"listening-close">>();
  private readonly told: Evidence<"listener-note">[] = [];

  private readonly levelsRead: Evidence<"reading">[] = [];

  constructor(private readonly ledger: Ledger) {}

  add(entry: Evidence): void {
    const { body } = entry;
    if (body.kind === "listening-series") this.plans.set(body.series, entry as Evidence<"listening-series">);
    else if (body.kind === "listening-answer") this.given.push(entry as Evidence<"listening-answer">);
    else if (body.kind === "listening-close") this.ends.set(body.series, entry as Evidence<"listening-close">);
    else if (body.kind === "reading" && body.quantity.startsWith("level"))
      this.levelsRead.push(entry as Evidence<"reading">);
    else if (body.kind === "listener-note") this.told.push(entry as Evidence<"listener-note">);
  }

  /** The last planned first. */
  get names(): readonly string[] {
    this.look("listening-series");
    return [...this.plans.values()].toSorted((a, b) => byTaking(b, a)).map(({ body }) => body.series);
  }

  series(name: string): Series | undefined {
    this.look("listening-series", "listening-answer", "listening-close");
    const plan = this.plans.get(name);
    if (!plan) return undefined;
    const answers = new Map<string, Map<number, Evidence<"listening-answer">>>();
    for (const entry of this.given) {
      const { series, listener, trial } = entry.body;
      if (series !== name || this.ledger.supersederOf(entry.id) !== undefined) continue;
      const own = answers.get(listener) ?? new Map<number, Evidence<"listening-answer">>();
      answers.set(listener, own.set(trial, entry));
    }
    const closed = this.ends.get(name);
    return { plan, answers, ...(closed && { closed }) };
  }

  /** Readings of levels, those put right by a newer one left out, as they were written down. */
  get levels(): readonly Evidence<"reading">[] {
    this.look("reading");
    return this.levelsRead.filter(({ id }) => this.ledger.supersederOf(id) === undefined);
  }

  get notes(): readonly Evidence<"listener-note">[] {
    this.look("listener-note");
    return this.told.filter(({ id }) => this.ledger.supersederOf(id) === undefined).toSorted(byTaking);
  }

  private look(...kinds: readonly EvidenceKind[]): void {
    for (const kind of kinds) this.ledger.cabinet.open(key("kind", kind));
  }
}
