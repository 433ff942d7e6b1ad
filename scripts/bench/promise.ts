import { promise } from "../../src/production/index.ts";
import { median_ms, type Row } from "./row.ts";

const day = ["08:00-12:00", "13:00-17:00"];
const orders = Array.from({ length: 38 }, (_, i) => ({ id: `o${i}`, model: "m", units: 1 }));
const route = Array.from({ length: 12 }, (_, i) => ({
  step: `s${i}`,
  skill: i % 2 ? "a" : "b",
  place: `p${i % 4}`,
  hours: { fast: 1, usual: 2, slow: 4 },
  failOdds: 0.05,
  onFail: { repair_h: 1 },
}));
const shop = {
  now: "2027-03-01T08:00:00+00:00",
  calendars: { c: { week: { mon: day, tue: day, wed: day, thu: day, fri: day } } },
  people: [
    { id: "x", skills: ["a", "b"], calendar: "c" },
    { id: "y", skills: ["a"], calendar: "c" },
    { id: "z", skills: ["b"], calendar: "c" },
  ],
  places: Array.from({ length: 4 }, (_, i) => ({ id: `p${i}`, kind: "single" as const })),
  routes: { m: route },
  orders,
  runs: 2000,
  seed: 1,
};

export function rows(): Row[] {
  return [
    {
      what: "promise: 2,000 runs, 38 orders, 12 steps with rework",
      ours_ms: median_ms(() => void promise(shop), 3),
      reference: "none yet; a discrete-event library on the same model is to follow",
      reference_ms: undefined,
    },
  ];
}
