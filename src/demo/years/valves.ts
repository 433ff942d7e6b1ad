import type { Random } from "../../maths/random.ts";
import { later, on } from "../days.ts";
import { type DemoEntry, entry } from "../entry.ts";
import { plate_mA } from "../physics/triode.ts";
import { type ValveType, valveType } from "../physics/valveTypes.ts";
import { bottle, tired, traySize } from "../shelf.ts";
import { roles } from "../shop.ts";
import { session } from "../tester.ts";
import type { ValveTruth } from "../truth.ts";
import type { WorkingDays } from "./calendar.ts";
import { type Happening, written } from "./happening.ts";
import { drawn, type Numbers } from "./numbers.ts";

/** Who sold valves over the years, and what share of their bottles does not come well through the heat. */
const sellers: readonly (readonly [seller: string, losses_pct: number])[] = [
  ["Harbour radio, lot by lot", 5],
  ["A cinema's projection room", 7],
  ["Telephone exchange, dismantled", 5],
  ["A power station's spares", 3],
  ["Importer of military surplus", 6],
  ["New make, from the importer", 4],
  ["A school laboratory", 3],
  ["Instrument maker, warehouse cleared", 4],
  ["A collector's estate", 11],
  ["Pilot boats, refitted", 8],
];

/** What goes into the models, in bottles a hundred units take. */
const wanted: readonly (readonly [type: string, weight: number])[] = [
  ["6SN7GT", 40],
  ["6AS7G", 40],
  ["6SL7GT", 55],
  ["EL34", 110],
  ["12AU7", 20],
  ["6N6P", 20],
];

/** Share of trays that are read once more a week after their heat run, and of valves whose heater opens on the rack. */
const readAgain = 0.95;
const opens = 0.008;
/** More of a type than this is sold on, the oldest first. */
const mostKept = 600;

interface Kept {
  readonly truth: ValveTruth;
  /** From when on it may be fitted. */
  readonly ready: string;
}

/** Sound valves on the shelf, the oldest first. */
export class Stock {
  private readonly byType = new Map<string, Kept[]>();

  put(type: string, kept: Kept): void {
    const shelf = this.byType.get(type) ?? [];
    this.byType.set(type, shelf);
    shelf.push(kept);
    if (shelf.length > mostKept) shelf.shift();
  }

  /** Those of a type that lie ready by then, so many at most. */
  ready(type: string, by: string, most: number): readonly ValveTruth[] {
    const found = [];
    for (const { ready, truth } of this.byType.get(type) ?? []) {
      if (ready <= by) found.push(truth);
      if (found.length === most) break;
    }
    return found;
  }

  take(type: string, valve: string): void {
    const shelf = this.byType.get(type)!;
    shelf.splice(
      shelf.findIndex(({ truth }) => truth.valve === valve),
      1,
    );
  }
}

/** The one tester takes a tray at a time: one in the morning, one after lunch, one before the evening. */
class TesterBook {
  private readonly taken = new Set<string>();

  constructor(private readonly days: WorkingDays) {}

  next(date: string, clock: string): string | undefined {
    for (let on_ = 0; ; on_++) {
      const day = this.days.onOrAfter(date, on_);
      if (day === undefined) return undefined;
      const slot = on(day, clock);
      if (this.taken.has(slot)) continue;
      this.taken.add(slot);
      return slot;
    }
  }
}

interface ValveShop {
  readonly days: WorkingDays;
  readonly numbers: Numbers;
  /** What the tester reads over what is. */
  readonly misreads: (at: string) => number;
  readonly stock: Stock;
  readonly mostInBatch: number;
}

/** Batches as they came in over the years, each a run of its own, read cold, run in, and read again. */
export class ValveYears {
  private readonly tester: TesterBook;
  private readonly bought = new Map<string, number>();

  constructor(
    private readonly shop: ValveShop,
    private readonly chance: Random,
  ) {
    this.tester = new TesterBook(shop.days);
  }

  /** So many valves of a month, batch by batch. */
  *month(days: readonly string[], count: number): Generator<Happening> {
    let left = count;
    while (left > 0) {
      const draw = this.chance.fork(`batch ${days[0]} ${left}`);
      const least = Math.ceil(this.shop.mostInBatch / 3);
      const size = least + draw.integer(this.shop.mostInBatch - least + 1);
      // No batch of two or three: what would be left over comes with the last.
      const bought = left - size < least ? left : size;
      yield* this.batch(days[draw.integer(days.length)]!, bought, draw);
      left -= bought;
    }
  }

  private *batch(day: string, count: number, draw: Random): Generator<Happening> {
    const type = valveType(this.mostLacking());
    this.bought.set(type.type, (this.bought.get(type.type) ?? 0) + count);
    const [seller, usual_pct] = drawn(
      sellers.map((one) => [one, 1] as const),
      draw.fork("seller"),
    );
    const batch = this.shop.numbers.next("B", day, "-", 2);
    const lot = lotOf(type, draw.fork("lot"));
    const losses_pct = usual_pct * Math.exp(draw.fork("losses").normal(0, 0.4));
    const valves = Array.from({ length: count }, (): ValveTruth => {
      const valve = this.shop.numbers.next("T", day, "-", 4);
      const own = draw.fork(valve);
      return {
        valve,
        type: type.type,
        batch,
        sections: tired({ losses_pct }, bottle(lot, own), own.fork("in the heat run")),
      };
    });
    yield* written([
      entry(on(day, "11:20"), roles.owner, {
        kind: "batch",
        batch,
        type: type.type,
        seller,
        valves: valves.map(({ valve }) => valve),
        sections: [...type.sections],
      }),
    ]);
    for (let from = 0, nth = 1; from < valves.length; from += traySize, nth++) {
      yield* this.tray(`${batch} tray ${nth}`, day, valves.slice(from, from + traySize), draw.fork(`tray ${nth}`));
    }
  }

  private *tray(run: string, arrived: string, valves: readonly ValveTruth[], draw: Random): Generator<Happening> {
    const type = valves[0]!.type;
    const coldAt = this.tester.next(later(on(arrived, "12:00"), 24 * 60).slice(0, 10), "09:00");
    const hotAt = coldAt && this.tester.next(later(coldAt, 3 * 24 * 60).slice(0, 10), "13:20");
    if (coldAt === undefined || hotAt === undefined) throw new RangeError(`the years end before ${run} is read`);
    const cold = session(valves, ["cold"], coldAt, draw, this.shop.misreads);
    yield* written(cold);
    const begun = later(cold.at(-1)!.recordedAt, 5);
    const open = valves.filter(({ valve }) => draw.fork(`heater ${valve}`).uniform() < opens);
    const through = valves.filter((one) => !open.includes(one));
    yield* written(heatRun(run, valves, open, { begun, ended: hotAt }, draw));
    const hot = session(through, ["hot", "curve"], later(hotAt, 1), draw.fork("hot"), this.shop.misreads);
    yield* written(hot);
    let last = hot.at(-1)!.recordedAt;
    const againAt =
      draw.fork("again").uniform() < readAgain
        ? this.tester.next(later(hotAt, 7 * 24 * 60).slice(0, 10), "17:20")
        : undefined;
    if (againAt !== undefined) {
      const again = session(through, ["hot"], againAt, draw.fork("again"), this.shop.misreads);
      yield* written(again);
      last = again.at(-1)!.recordedAt;
    }
    yield { kind: "judge", recordedAt: later(last, 1), type, valves: through.map(({ valve }) => valve) };
    for (const truth of through) if (isSound(truth)) this.shop.stock.put(type, { truth, ready: later(last, 2) });
  }

  /** The type of which the least was bought, for what is wanted of it. */
  private mostLacking(): string {
    const had = ([type, weight]: (typeof wanted)[number]) => (this.bought.get(type) ?? 0) / weight;
    return wanted.toSorted((a, b) => had(a) - had(b))[0]![0];
  }
}

/** A lot is as lively, and as even, as its maker was that year. */
function lotOf(type: ValveType, draw: Random): ValveType {
  const { mu, perveance_mA_per_V1p5 } = type.law;
  const uneven = Math.exp(draw.normal(0, 0.2));
  return {
    ...type,
    law: {
      mu: mu * (1 + draw.normal(0, 0.006)),
      perveance_mA_per_V1p5: perveance_mA_per_V1p5 * (1 + draw.normal(0, 0.02)),
    },
    spread: { ...type.spread, current: 0.85 * uneven * type.spread.current },
    leakage_uA: type.leakage_uA * Math.exp(draw.normal(0, 0.3)),
  };
}

function heatRun(
  run: string,
  valves: readonly ValveTruth[],
  open: readonly ValveTruth[],
  { begun, ended }: { readonly begun: string; readonly ended: string },
  draw: Random,
): readonly DemoEntry[] {
  return [
    entry(begun, roles.bench, {
      kind: "begun",
      run,
      valves: valves.map(({ valve }) => valve),
      place: "burn-in rack",
      hours: 48,
    }),
    ...open.map(({ valve }) => {
      const hours = Number((1 + 40 * draw.fork(`opens ${valve}`).uniform() ** 2).toFixed(1));
      return {
        ...entry(ended, roles.bench, {
          kind: "ended",
          run,
          things: [valve],
          outcome: "failed",
          hours,
          fault: "heater open",
        }),
      };
    }),
    ...(open.length < valves.length
      ? [entry(ended, roles.bench, { kind: "ended", run, outcome: "good", hours: 48 })]
      : []),
  ];
}

/** By what it really does: well inside every limit of its type. */
function isSound({ type: name, sections }: ValveTruth): boolean {
  const { limits, plate_V, grid_V } = valveType(name);
  const all = Object.values(sections);
  const currents = all.map(({ law }) => plate_mA(law, plate_V, grid_V));
  const spread_pct =
    (100 * (Math.max(...currents) - Math.min(...currents))) / (currents.reduce((a, b) => a + b) / all.length);
  return (
    spread_pct < 0.75 * limits.sectionSpread_pct &&
    all.every(
      ({ coldOverHot, leakage, gridCurrent_uA }) =>
        100 * Math.abs(coldOverHot - 1) < 0.65 * limits.drift_pct &&
        leakage.atTester_uA < 0.7 * (limits.leakage_uA ?? Number.POSITIVE_INFINITY) &&
        gridCurrent_uA < 0.7 * (limits.gridCurrent_uA ?? Number.POSITIVE_INFINITY),
    )
  );
}
