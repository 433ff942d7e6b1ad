import type { Evidence } from "../claims/evidence.ts";
import type { Shop } from "../claims/index.ts";
import { key } from "../claims/ledger.ts";
import { firstWhere } from "../maths/firstWhere.ts";
import type { TypeReadings } from "./valveTable.ts";

type Reading = Evidence<"valve-reading">;
type ReferenceReading = Evidence<"reference-reading">;

/**
 * What was read of the valves, tray by tray, so that a shelf of many thousand valves is never gone through for one of
 * its trays.
 */
export class ValveShelf {
  private readonly byClock = new Map<
    string,
    { readonly grownAt: number; readonly read: readonly ReferenceReading[] }
  >();

  constructor(private readonly shop: Shop) {}

  /** The newest reading at the tester, by which its clock can be told. */
  get newest(): Reading | ReferenceReading | undefined {
    return this.shop.newestAtTester;
  }

  get batches(): readonly Evidence<"batch">[] {
    return [...this.shop.batches.values()];
  }

  batch(name: string): Evidence<"batch"> | undefined {
    return this.shop.batch(name);
  }

  /** Readings of a valve that count, as they were written down. */
  readingsOf(valve: string): readonly Reading[] {
    const { ledger } = this.shop;
    return ledger.valveReadings(valve).filter(({ id }) => ledger.supersederOf(id) === undefined);
  }

  /** Readings of a type's reference valve that count, by the tester's clock. */
  referenceOf(type: string): readonly ReferenceReading[] {
    const { ledger } = this.shop;
    const { grownAt } = ledger.cabinet.open(key("reference-reading", type));
    const known = this.byClock.get(type);
    if (known?.grownAt === grownAt) return known.read;
    const read = ledger
      .referenceReadings(type)
      .filter(({ id }) => ledger.supersederOf(id) === undefined)
      .toSorted((a, b) => a.body.time_h - b.body.time_h);
    this.byClock.set(type, { grownAt, read });
    return read;
  }

  /**
   * What was read of one tray. Of the reference valve's readings those that bear on it: from the last before the
   * tray's first reading to the first after its last, as straight lines between them put the tray right.
   */
  readingsOfTray({ type, valves }: Evidence<"batch">["body"]): TypeReadings | undefined {
    return this.readingsOfValves(type, valves);
  }

  /** The same for any valves of one type. */
  readingsOfValves(type: string, valves: readonly string[]): TypeReadings | undefined {
    const limits = this.shop.valveLimits.get(type)?.body;
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
  const from = reference[countUpTo(reference, first) - 1]?.body.time_h ?? reference[0]?.body.time_h ?? first;
  const to = reference[countBefore(reference, last)]?.body.time_h ?? reference.at(-1)?.body.time_h ?? last;
  // Readings of one hour are averaged, so that all of them bear.
  return reference.slice(countBefore(reference, from), countUpTo(reference, to));
}

/** How many readings, sorted by the clock, were taken no later than an hour. */
function countUpTo(reference: readonly ReferenceReading[], hour: number): number {
  return firstThat(reference, (time_h) => time_h > hour);
}

function countBefore(reference: readonly ReferenceReading[], hour: number): number {
  return firstThat(reference, (time_h) => time_h >= hour);
}

/** Where a sorted list begins to be so. */
function firstThat(reference: readonly ReferenceReading[], isSo: (time_h: number) => boolean): number {
  return firstWhere(0, reference.length, (i) => isSo(reference[i]!.body.time_h));
}
