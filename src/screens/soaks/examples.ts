import type { SoaksView } from "../../workshop/production/soakViews.ts";

/** Invented soaks for the preview page and the browser tests. */
const now = "2026-11-25T08:30:00+00:00";
const saved = (
  hours: number,
  saving_cents: number,
  low_cents: number,
  high_cents: number,
  state: "saves" | "undecided",
) => ({
  ...{ hours, saving_cents, low_cents, high_cents, state },
});

export const usual: SoaksView = {
  now,
  currency: "EUR",
  running: [
    {
      run: "0419 case soak",
      what: "The closed case stands the heat",
      at: "2026-11-24T17:05:00+00:00",
      by: "bench technician",
      ripe: "2026-11-25T05:05:00+00:00",
      hours: 12,
      place: "soak shelf",
      danger: "hot",
      things: [{ thing: "0419", slot: 1 }],
      ended: 0,
    },
    {
      run: "rack 61",
      what: "heat run",
      at: "2026-11-24T16:00:00+00:00",
      by: "wiring",
      ripe: "2026-11-25T16:00:00+00:00",
      hours: 24,
      place: "heat-run rack",
      danger: "hot",
      things: ["0422", "0423", "0424"].map((thing, i) => ({ thing, slot: i + 1 })),
      ended: 1,
    },
  ],
  sorts: [
    {
      what: "heat run of units",
      pieces: 160,
      failures: 16,
      soaked_h: 3519.2,
      today_h: 24,
      curve: [
        [0.1, 160, 5],
        [0.2, 155, 2],
        [0.4, 153, 1],
        [0.8, 152, 1],
        [1.7, 151, 1],
        [2.9, 150, 1],
        [4, 149, 1],
        [6.2, 148, 2],
        [12.5, 146, 1],
        [19.4, 145, 1],
      ].map(([hours, atRisk, failures], i) => ({
        hours: hours!,
        atRisk: atRisk!,
        failures: failures!,
        survival: (atRisk! - failures!) / 160,
        low: (atRisk! - failures!) / 160 - 0.03 - 0.002 * i,
        high: Math.min(1, (atRisk! - failures!) / 160 + 0.02 + 0.001 * i),
      })),
      costs: { hour_cents: 150, escape_cents: 41_500, returns: 11 },
      hoursThatPay: 6.2,
      saving_cents: 2480,
      againstNone: saved(6.2, 2480, 880, 4340, "saves"),
      againstToday: saved(6.2, 1630, 700, 2300, "saves"),
      change: { kind: "shorten", to_h: 6.2, saving_cents: 1630, low_cents: 700, high_cents: 2300, state: "saves" },
      faults: [
        { fault: "dry joint", count: 9, hours: [0.1, 0.1, 0.2, 0.4, 0.8, 1.7, 2.9, 4, 6.2] },
        { fault: "valve drifted", count: 4, hours: [0.1, 0.2, 12.5, 19.4] },
      ],
      notes: [],
    },
    {
      what: "heat run of 6SN7GT",
      pieces: 84,
      failures: 0,
      soaked_h: 4032,
      today_h: 48,
      curve: [],
      atMost: 0.035,
      faults: [],
      notes: [],
    },
    {
      what: "case soak",
      pieces: 3,
      failures: 0,
      soaked_h: 36,
      today_h: 12,
      curve: [],
      atMost: 0.63,
      faults: [],
      notes: [],
    },
  ],
  units: [{ unit: "0590", waits: [{ step: "plate", title: "plate", hours: 48, place: "hot plate" }] }],
  trays: [{ batch: "B-36", type: "6SN7GT", valves: ["T-1", "T-2"], heatRun_h: 48 }],
  places: [
    { place: "heat-run rack", capacity: 4, free: 1, slot: 4 },
    { place: "soak shelf", capacity: 4, free: 3, slot: 2 },
    { place: "hot plate", capacity: 3, free: 3, slot: 1 },
  ],
};

export const none: SoaksView = { now, running: [], sorts: [], units: [], trays: [], places: [] };
