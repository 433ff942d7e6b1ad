import type { PromiseView } from "../../workshop/views.ts";

/** Invented promises for the preview page and the browser tests. */

export const now = "2026-11-25T08:10:00+00:00";

const at = (days: number, hour = 15): string => {
  const date = new Date(Date.UTC(2026, 10, 25 + Math.floor(days), hour, 30));
  return `${date.toISOString().slice(0, 16)}:00+00:00`;
};

const promise = (
  order: string,
  model: string,
  units: readonly string[],
  days: readonly [number, number, number],
  heldBy: string,
  promised?: number,
): PromiseView => ({
  order,
  model,
  units,
  ...(promised !== undefined && { promised: at(promised, 16) }),
  p50: at(days[0]),
  p80: at(days[1]),
  p95: at(days[2]),
  heldBy,
  words: "",
  late: promised !== undefined && promised < days[1],
});

export const few: readonly PromiseView[] = [
  promise("O-231", "Ebb", ["0231"], [2, 5, 7], "the valve tester", 2),
  promise("O-228", "Flood", ["0409", "0410"], [6, 8, 12], "the heat-run rack", 16),
  promise("O-236", "Neap", ["0422"], [13, 15, 17], "chassis plates, on order", 19),
  promise("O-219", "Bore", ["0388"], [29, 41, 63], "output transformers, on order", 34),
  promise("O-240", "Ebb", ["0431"], [48, 60, 75], "assembly"),
];

export const one: readonly PromiseView[] = few.slice(0, 1);

const models = ["Ebb", "Neap", "Flood", "Bore"];
const holders = [
  "the valve tester",
  "assembly",
  "the spray room",
  "output transformers, on order",
  "the heat-run rack",
];

export const many: readonly PromiseView[] = Array.from({ length: 38 }, (_, i) => {
  const start = 2 + i * 3.4;
  const spread = 1 + ((i * 7) % 11);
  return promise(
    `O-${231 + i}`,
    models[i % 4]!,
    [`0${417 + i}`],
    [start, start + spread, start + 2.2 * spread],
    holders[i % 5]!,
    i % 6 === 5 ? undefined : start + 4,
  );
});
