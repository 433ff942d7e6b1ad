import { dayBook } from "../../src/production/dayBook.ts";
import { promise } from "../../src/production/index.ts";
import type { PromiseInput } from "../../src/production/shop.ts";
import { workingHours } from "../../src/production/workingHours.ts";
import { median_ms, pythonAnswer, type Row } from "./row.ts";

const day = ["08:00-12:00", "13:00-17:00"];
const week = { mon: day, tue: day, wed: day, thu: day, fri: day };
const now = "2027-03-01T08:00:00+00:00";

/** Hands, single places, a rack that is filled, rework that goes back over the rack. */
function shop(orders: number, runs: number): PromiseInput {
  const route = Array.from({ length: 12 }, (_, i) =>
    i === 6
      ? { step: "heat run", place: "rack", hours: { fast: 24, usual: 24, slow: 24 } }
      : {
          step: `s${i}`,
          skill: i % 2 ? "a" : "b",
          place: `p${i % 4}`,
          hours: { fast: 1, usual: 2, slow: 4 },
          failOdds: 0.05,
          onFail: { repair_h: 1, ...(i === 9 && { back: "heat run" }) },
        },
  );
  return {
    now,
    calendars: { c: { week } },
    people: [
      { id: "x", skills: ["a", "b"], calendar: "c" },
      { id: "y", skills: ["a"], calendar: "c" },
      { id: "z", skills: ["b"], calendar: "c" },
    ],
    places: [
      ...Array.from({ length: 4 }, (_, i) => ({ id: `p${i}`, kind: "single" as const })),
      { id: "rack", kind: "batch", capacity: 4, cycle_h: 24 },
    ],
    routes: { m: route },
    orders: Array.from({ length: orders }, (_, i) => ({ id: `o${i}`, model: "m", units: 1 })),
    runs,
    seed: 1,
  };
}

const runs = 2000;
/** The library is given a tenth of the runs, and its time is taken ten times. */
const share = 0.1;

export function rows(): Row[] {
  const asked = shop(38, runs);
  const ours_ms = median_ms(() => void promise(asked), 3);
  const hours = workingHours({ week }, "c", dayBook("UTC", Date.parse(now)));
  for (let i = 0; i < 8; i++) hours.extend();
  const reference = pythonAnswer<{ ms: number; hours: readonly [number, number, number][] }>("promise.py", {
    shop: asked,
    runs: runs * share,
    starts_ms: hours.starts,
    ends_ms: hours.ends,
  });
  return [
    {
      what: `promise: ${runs} runs, 38 orders, 12 steps with hands, a rack and rework`,
      ours_ms,
      reference: `SimPy on the same model (${runs * share} runs, taken ${1 / share} times)`,
      reference_ms: reference && reference.ms / share,
      ...(reference && { seen: apart(asked, reference.hours) }),
    },
    linearity(),
  ];
}

function apart(asked: PromiseInput, theirs: readonly (readonly [number, number, number])[]): string {
  const { orders } = promise(asked);
  const differences = orders.flatMap((order, i) =>
    (["p50", "p80", "p95"] as const).map((date, k) => {
      const ours_h = (Date.parse(order[date]) - Date.parse(now)) / 3_600_000;
      // Theirs has a tenth of the runs, and so √10 of the doubt.
      const allowed_h = order.doubt_h[date] * Math.hypot(1, 1 / Math.sqrt(share));
      return Math.abs(ours_h - theirs[i]![k]!) <= allowed_h + 1 / 60;
    }),
  );
  return `${differences.filter(Boolean).length} of ${differences.length} dates agree within both doubts`;
}

function linearity(): Row {
  const sizes = [50, 100, 200, 400];
  const taken = sizes.map((orders) => median_ms(() => void promise(shop(orders, 200)), 3));
  return {
    what: "promise: 200 runs, 400 orders",
    ours_ms: taken.at(-1)!,
    reference: `per order, from ${sizes.join(", ")} orders: ${taken.map((ms, i) => `${(ms / sizes[i]!).toFixed(2)} ms`).join(", ")}`,
    reference_ms: undefined,
  };
}
