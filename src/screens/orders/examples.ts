import type { OrdersView, OrderView } from "../../workshop/orders/views.ts";

const now = "2026-11-25T09:10:00-06:00";
const places = [
  { place: "Regina, Canada", nominal_V: 120, frequency_Hz: 60 },
  { place: "Sendai, Japan", nominal_V: 100, frequency_Hz: 50 },
];
const models = [{ model: "Skerry", revision: "B", title: "Headphone amplifier" }];

const line = { customer: "c-12", model: "Skerry", revision: "B", at: now } as const;

export const few: OrdersView = {
  now,
  orders: [
    {
      ...line,
      order: "W-12",
      units: ["0231", "0232"],
      place: "Regina, Canada",
      stage: "built",
      promised: "2026-12-09T17:00:00-06:00",
    },
    { ...line, order: "W-11", units: ["0230"], place: "Sendai, Japan", stage: "back" },
    {
      ...line,
      order: "W-10",
      units: ["0229"],
      place: "Regina, Canada",
      stage: "ready",
      due: "2026-11-30T17:00:00-06:00",
    },
    { ...line, order: "W-9", units: ["0228"], place: "Regina, Canada", stage: "left" },
    { ...line, order: "W-13", units: ["0233"], place: "Sendai, Japan", stage: "taken" },
  ],
  models,
  places,
  customers: ["c-12"],
  building_Hz: 60,
  options: [{ option: "timber", choices: ["white ash"] }],
  nextOrder: "W-14",
  nextUnit: "0234",
};

export const none: OrdersView = {
  now,
  orders: [],
  models: [],
  places: [],
  customers: [],
  options: [],
  nextOrder: "W-1",
  nextUnit: "0001",
};

export const one: OrderView = {
  ...few.orders[0]!,
  now,
  title: "Headphone amplifier",
  destination: places[0]!,
  language: "en",
  options: { timber: "white ash", finish: "oil" },
  climate: true,
  route: [
    {
      step: "wiring",
      skill: "wiring",
      place: "wiring bench",
      hours: { fast: 8, usual: 12, slow: 20 },
      unattended: false,
    },
    { step: "heat run", place: "heat-run rack", hours: { fast: 24, usual: 24, slow: 24 }, unattended: true },
  ],
  claims: [
    { claim: "earth-bond", title: "Every touchable metal part is bonded to earth", safety: true },
    { claim: "balance", title: "Left and right are alike", safety: false },
  ],
  parts: [
    { part: "mains transformer", step: "wiring", lead_days: { fast: 5, usual: 10, slow: 20 }, ordered: now },
    { part: "chassis", step: "wiring", lead_days: { fast: 5, usual: 10, slow: 20 }, ordered: now, arrived: now },
  ],
  folders: [
    { unit: "0231", opened: true, done: 1, missing: 4, released: false, packed: false },
    { unit: "0232", opened: false, done: 0, missing: 0, released: false, packed: false },
  ],
  taps: ["120"],
};
