import type { Evidence } from "../claims/evidence.ts";
import type { Shop } from "../claims/index.ts";
import type { TypeReadings } from "./valveTable.ts";

type Reading = Evidence<"valve-reading">;
type ReferenceReading = Evidence<"reference-reading">;

/**
 * What was read of the valves, sorted by tray as it is written down, so that a shelf of many thousand valves is never
 * gone through again for one of its trays.
 */
export class ValveShelf {
  private taken = 0;
  private readonly byBatch = new Map<string, Evidence<"batch">>();
  private readonly byValve = new Map<string, Reading[]>();
  private readonly byType = new Map<string, ReferenceReading[]>();
  private readonly superseded = new Set<string>();
  private last: Reading | ReferenceReading | undefined;

  /** The newest reading at the tester, by which its clock can be told. */
  get newest(): Reading | ReferenceReading | undefined {
    return this.last;
  }

  /** How many entries of the ledger were sorted so far. */
  get seen(): number {
    return this.taken;
  }

  take(newer: readonly Evidence[]): void {
    for (const entry of newer) {
      this.taken += 1;
      const { body } = entry;
      if ("supersedes" in body && body.supersedes !== undefined) this.superseded.add(body.supersedes);
      if (body.kind === "batch") this.byBatch.set(body.batch, entry as Evidence<"batch">);
      if (body.kind === "valve-reading") {
        push(this.byValve, body.valve, entry as Reading);
        this.last = later(this.last, entry as Reading);
      }
      if (body.kind === "reference-reading") {
        push(this.byType, body.type, entry as ReferenceReading);
        this.last = later(this.last, entry as ReferenceReading);
      }
    }
  }

  get batches(): readonly Evidence<"batch">[] {
    return [...this.byBatch.values()];
  }

  batch(name: string): Evidence<"batch"> | undefined {
    return this.byBatch.get(name);
  }

  /** Readings of a valve that count, as they were written down. */
  readingsOf(valve: string): readonly Reading[] {
    return (this.byValve.get(valve) ?? []).filter(({ id }) => !this.superseded.has(id));
  }

  /** Readings of a type's reference valve that count, by the tester's clock. */
  referenceOf(type: string): readonly ReferenceReading[] {
    return (this.byType.get(type) ?? [])
      .filter(({ id }) => !this.superseded.has(id))
      .toSorted((a, b) => a.body.time_h - b.body.time_h);
  }

  /**
   * What was read of one tray. Of the reference valve's readings those that bear on it: from the last before the
   * tray's first reading to the first after its last, as straight lines between them put the tray right.
   */
  readingsOfTray(shop: Shop, { type, valves }: Evidence<"batch">["body"]): TypeReadings | undefined {
    return this.readingsOfValves(shop, type, valves);
  }

  /** The same for any valves of one type. */
  readingsOfValves(shop: Shop, type: string, valves: readonly string[]): TypeReadings | undefined {
    const limits = shop.valveLimits.get(type)?.body;
    if (!limits) return undefined;
    const byValve = new Map(
      valves.map((valve) => [valve, this.readingsOf(valve)] as const).filter(([, read]) => read.length > 0),
    );
    const times = [...byValve.values()].flatMap((read) => read.map(({ body }) => body.time_h));
    return { limits, byValve, reference: bearingOn(times, this.referenceOf(type)) };
  }
}

function bearingOn(times: readonly number[], reference: readonly ReferenceReading[]): readonly ReferenceReading[] {
  if (times.length === 0) return reference.slice(-1);
  const first = times.reduce((a, b) => Math.min(a, b));
  const last = times.reduce((a, b) => Math.max(a, b));
  const from = reference.findLastIndex(({ body }) => body.time_h <= first);
  const to = reference.findIndex(({ body }) => body.time_h >= last);
  // Readings of one hour are averaged, so that all of them bear.
  const low = reference[Math.max(0, from)]?.body.time_h ?? first;
  const high = reference[to < 0 ? reference.length - 1 : to]?.body.time_h ?? last;
  return reference.filter(({ body }) => body.time_h >= low && body.time_h <= high);
}

function later<T extends Evidence>(a: T | undefined, b: T): T {
  return a && Date.parse(a.at) > Date.parse(b.at) ? a : b;
}

function push<T>(lists: Map<string, T[]>, key: string, item: T): void {
  const list = lists.get(key);
  if (list) list.push(item);
  else lists.set(key, [item]);
}
