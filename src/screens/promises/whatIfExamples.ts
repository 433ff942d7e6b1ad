import type { KeptView, OrderingView, WhatIfOptionsView, WhatIfView } from "../../workshop/promises/views.ts";

/** Invented answers for the preview page and the browser tests. */

export const options: WhatIfOptionsView = {
  places: [
    { place: "wiring bench", slots: 1 },
    { place: "hot plate", slots: 3, cycle_h: 48 },
  ],
  people: ["bench technician", "woodworker"],
  models: ["Ebb", "Bore"],
  parts: [{ part: "Bore mains transformer", isOrdered: true }],
  units: [{ unit: "0431", order: "O-240", steps: ["wiring", "plate", "case", "hum"] }],
  suggested: [
    {
      title: "hot plate: 24 h instead of 48 h",
      because: "Every crack that it ever showed had shown by 14 h.",
      change: { kind: "place", place: "hot plate", cycle_h: 24 },
    },
  ],
};

export const noOptions: WhatIfOptionsView = { places: [], people: [], models: [], parts: [], units: [], suggested: [] };

const order = (
  id: string,
  model: string,
  [promised, before, after]: readonly [number, number, number],
  [shift_h, low_h, high_h]: readonly [number, number, number],
): WhatIfView["orders"][number] => {
  const at = (days: number) => new Date(Date.UTC(2026, 10, 25 + days, 15)).toISOString();
  return {
    order: id,
    model,
    units: ["0431"],
    promised: at(promised),
    before_p80: at(before),
    after_p80: at(after),
    shift_h,
    low_h,
    high_h,
    moves: shift_h < 0 ? "earlier" : "later",
    lateBefore: before > promised,
    lateAfter: after > promised,
  };
};

export const answer: WhatIfView = {
  changes: ["hot plate: runs of 24 h"],
  orders: [
    order("O-228", "Flood", [16, 17, 15], [-46, -60, -31]),
    order("O-236", "Neap", [19, 18, 17], [-15, -24, -6]),
    order("O-219", "Bore", [34, 41, 39], [-48, -72, -20]),
    order("O-240", "Ebb", [90, 60, 61], [20, 3, 37]),
    {
      order: "rush order",
      model: "Ebb",
      units: [],
      promised: "2026-12-20",
      after_p80: "2026-12-18T15:00:00+00:00",
      moves: "new",
      lateAfter: false,
    },
  ],
  still: 12,
  of: 16,
  overall: { shift_h: -6.1, low_h: -9.4, high_h: -2.8 },
  earlier: ["O-228", "O-236", "O-219"],
  later: ["O-240"],
  saved: ["O-228"],
  lost: [],
  danger: ["O-219"],
  words:
    "3 of 16 dates move in. 1 of 16 dates moves out. Over all orders the mean date comes 0.3 days sooner (0.1 to 0.4). No longer in danger: O-228. In danger then: 1 of 17, O-219.",
  notes: [],
};

export const ordering: OrderingView = {
  parts: [
    { part: "Bore mains transformer for O-219", order: "O-219", by: "2026-11-25T08:10:00+00:00", isNow: true },
    { part: "Ebb jacks", order: "O-240", by: "2026-12-21T10:00:00+00:00", isNow: false },
  ],
  valves: [
    { type: "EL34", model: "Bore", sets: 2, buy: 13, chance: 0.91, by: "2026-12-02T10:00:00+00:00", order: "O-219" },
    { type: "6SL7GT", model: "Bore", sets: 2, reason: "no batch of this type was ever tested" },
  ],
  notes: ["Valves are taken to come within 7 to 35 days; how many passed of each past tray says how many to buy."],
};

const group = (
  name: string,
  [made, kept]: readonly [number, number],
  [low_pct, high_pct]: readonly [number, number],
  state: KeptView["groups"][number]["state"],
  words: string,
): KeptView["groups"][number] => ({
  group: name,
  share_pct: 80,
  made,
  kept,
  kept_pct: (100 * kept) / made,
  low_pct,
  high_pct,
  state,
  shift_days: 6,
  shiftLow_days: 3,
  shiftHigh_days: 9,
  words,
});

const days = [-12, -9, -7, -6, -5, -5, -4, -4, -3, -3, -3, -2, -2, -2, -1, -1, -1, 0, 0, 0, 1, 1, 2, 2, 3, 6, 9, 9, 22];

export const kept: KeptView = {
  groups: [
    group(
      "2026, first half",
      [12, 6],
      [21, 79],
      "too early",
      "6 of 12 dates said to hold 80 times in 100 were kept: fewer than said (21 to 79 in 100). 6 days more would have held.",
    ),
    group(
      "2026, second half",
      [17, 14],
      [57, 96],
      "undecided",
      "14 of 17 dates said to hold 80 times in 100 were kept: undecided (57 to 96 in 100); more promises will tell.",
    ),
    group(
      "all",
      [29, 20],
      [49, 85],
      "undecided",
      "20 of 29 dates said to hold 80 times in 100 were kept: undecided (49 to 85 in 100); more promises will tell.",
    ),
  ],
  orders: days.map((late, i) => ({
    order: `O-${170 + i}`,
    model: ["Ebb", "Neap", "Flood"][i % 3]!,
    given: "2026-06-01T11:00:00Z",
    promised: "2026-09-01T17:00:00Z",
    left: new Date(Date.UTC(2026, 8, 1 + late, 15)).toISOString(),
    days: late,
    kept: late <= 0,
    otherwise: late > 6 ? ["Flood chokes came 9 days later than four in five do"] : [],
  })),
  words: "",
  notes: [
    "The interval takes promises as independent; those of the same weeks share the shop's luck, so that it is rather too narrow.",
  ],
};

export const noneKept: KeptView = { groups: [], orders: [], words: "No promised order has left yet.", notes: [] };
