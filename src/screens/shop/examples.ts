import type { ShopView } from "../../workshop/orders/views.ts";

const now = "2026-11-25T09:10:00-06:00";

export const empty: ShopView = { now, instruments: [], headphones: [], skills: [], zone: "America/Regina" };

const week = Object.fromEntries(["mon", "tue", "wed", "thu"].map((day) => [day, ["08:00-12:00", "13:00-17:00"]]));

export const usual: ShopView = {
  now,
  zone: "America/Regina",
  skills: ["audio", "wood"],
  shop: {
    title: "Three Lamps",
    timeZone: "America/Regina",
    calendars: { all: { week }, short: { week: { fri: ["08:00-12:00"] }, closed: ["2027-01-01"] } },
    people: [
      { id: "bench technician", skills: ["valves", "voltages", "audio"], calendar: "all" },
      { id: "woodworker", skills: ["wood"], calendar: "short" },
    ],
    places: [
      { id: "wiring bench", kind: "single" },
      { id: "heat-run rack", kind: "batch", capacity: 6, cycle_h: 48 },
    ],
    building_Hz: 60,
    cleanSupply_Hz: [66],
    currency: "CAD",
  },
  instruments: [
    {
      instrument: "meter-1",
      title: "Bench multimeter",
      trial: { reference: "voltage reference", quantity: "level_V", true: 10, limit: 0.02 },
    },
  ],
  headphones: [{ headphone: "closed", impedance_ohm: 250, sensitivity_dB_per_V: 98 }],
};
