import type { Random } from "../maths/random.ts";
import { later, on, paperTypedIn } from "./days.ts";
import { type DemoEntry, entry, writtenAt } from "./entry.ts";
import type { LeftUnit } from "./faultsBefore.ts";
import { batches } from "./shelf.ts";
import { roles } from "./shop.ts";

const rack = "heat-run rack";
const slots = 4;
const heatRun_h = 24;
/** Share of units in which something gives way on the rack, were they left there for ever. */
const weak = 0.09;
/** Weak parts fail early: hours to failure after Weibull with this shape and scale. */
const shape = 0.6;
const scale_h = 5;

const faults: readonly (readonly [fault: string, share: number])[] = [
  ["dry joint", 0.5],
  ["valve drifted", 0.35],
  ["coat soft", 0.15],
];

/** Heat runs of the units of the years before, four on the rack at a time, as the sheet beside it was filled in. */
export function heatRunsBefore(units: readonly LeftUnit[], chance: Random): readonly DemoEntry[] {
  const sorted = units.toSorted((a, b) => Date.parse(a.left) - Date.parse(b.left));
  const loads = Array.from({ length: Math.ceil(sorted.length / slots) }, (_, i) =>
    sorted.slice(i * slots, (i + 1) * slots),
  );
  const close = on(paperTypedIn, "16:00");
  return loads.flatMap((load, i) => {
    const begun = later(load[0]!.left, -60 * 24 * 9 - 60 * 7);
    return writtenAt(later(close, Math.floor(i / 12)), heatRun(`rack ${i + 1}`, load, begun, chance.fork(`rack ${i}`)));
  });
}

function heatRun(run: string, load: readonly LeftUnit[], begun: string, chance: Random): readonly DemoEntry[] {
  const names = load.map(({ unit }) => unit);
  const failed = names.flatMap((unit) => {
    const draw = chance.fork(unit);
    if (draw.uniform() >= weak) return [];
    const hours = scale_h * (-Math.log(1 - draw.uniform())) ** (1 / shape);
    return hours < heatRun_h ? [{ unit, hours: Number(Math.max(0.1, hours).toFixed(1)), fault: faultOf(draw) }] : [];
  });
  const good = names.filter((unit) => !failed.some((one) => one.unit === unit));
  return [
    entry(begun, roles.wiring, {
      kind: "begun",
      run,
      units: names,
      step: "heat run",
      place: rack,
      slot: 1,
      hours: heatRun_h,
    }),
    ...failed.map(({ unit, hours, fault }) =>
      entry(later(begun, 60 * Math.max(hours, 1)), roles.wiring, {
        kind: "ended",
        run,
        things: [unit],
        outcome: "failed",
        hours,
        fault,
      }),
    ),
    ...(good.length > 0
      ? [
          entry(later(begun, 60 * heatRun_h), roles.wiring, {
            kind: "ended",
            run,
            things: good,
            outcome: "good",
            hours: heatRun_h,
          }),
        ]
      : []),
  ];
}

function faultOf(chance: Random): string {
  let left = chance.uniform();
  for (const [fault, share] of faults) {
    left -= share;
    if (left < 0) return fault;
  }
  return faults[0]![0];
}

/** What goes on by itself on the morning that the demo keeps: coats, a case in its soak, and a tray on its heat run. */
export function goingOn(shelf: readonly DemoEntry[]): readonly DemoEntry[] {
  const trays = batches.filter(({ hot }) => hot === undefined);
  return [
    entry(on("2027-03-02", "15:25"), roles.wood, {
      kind: "begun",
      run: "0422 coats",
      units: ["0422"],
      step: "coats",
      place: "finishing room",
      slot: 1,
      hours: 20,
    }),
    entry(on("2027-03-02", "16:40"), roles.bench, {
      kind: "begun",
      run: "0419 case soak",
      units: ["0419"],
      claim: "case-soak",
      place: "soak shelf",
      slot: 1,
      hours: 12,
    }),
    ...trays.flatMap(({ batch }) => {
      const valves = shelf.flatMap((one) => (one.kind === "batch" && one.batch === batch ? one.valves : []));
      const cold = shelf.flatMap((one) =>
        one.kind === "valve-reading" && one.phase === "cold" && valves.includes(one.valve) ? [one.at] : [],
      );
      const last = cold.toSorted().at(-1);
      if (last === undefined) return [];
      return [
        entry(last, roles.bench, {
          kind: "begun",
          run: `${batch} heat run`,
          valves,
          place: "burn-in rack",
          slot: 1,
          hours: 48,
        }),
      ];
    }),
  ];
}
