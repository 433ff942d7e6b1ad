import type { ChecksView, ProposalView } from "../../workshop/production/views.ts";

/** Invented look-backs for the preview page and the browser tests. */

const proposal = (
  what: ProposalView["what"],
  title: string,
  saving: number,
  low: number,
  high: number,
  more: Partial<ProposalView> = {},
): ProposalView => ({
  what,
  check: title,
  title,
  saving_cents: saving,
  low_cents: low,
  high_cents: high,
  units: 12,
  state: low > 0 ? "saves" : high < 0 ? "costs" : "undecided",
  ...more,
});

export const usual: ChecksView = {
  currency: "EUR",
  units: 160,
  faults: 86,
  today_cents: 20_900,
  saves: [proposal("add", "look for: cracked panel", 1_230, 480, 3_500, { to: "plate" })],
  dear: [
    proposal("drop", "The ends of the band are where the model puts them", 1_160, 600, 1_390, {
      from: "response",
      units: 2,
    }),
  ],
  silent: [
    proposal("add", "look for: dry joint", 270, -150, 2_890, { to: "wiring", units: 11 }),
    proposal("drop", "Left and right are alike, at the gain of the model", 790, -1_010, 1_030, { units: 8 }),
  ],
  soaks: [
    {
      what: "hot plate",
      kind: "shorten",
      from_h: 48,
      to_h: 24,
      saving_cents: 1_645,
      low_cents: 1_393,
      high_cents: 1_645,
      state: "saves",
      pieces: 116,
      failures: 22,
      missed: 0,
    },
    {
      what: "heat run of units",
      kind: "shorten",
      from_h: 24,
      to_h: 8.2,
      saving_cents: 628,
      low_cents: -523,
      high_cents: 1_031,
      state: "undecided",
      pieces: 160,
      failures: 16,
    },
  ],
  orders: [
    {
      model: "Ebb",
      revision: "C",
      now: [],
      best: [
        "Every touchable metal part is bonded to earth",
        "Mains is insulated from the chassis",
        "Input stage: its test points lie in their windows",
      ],
      now_min: 182,
      best_min: 172,
      optimal: true,
    },
  ],
  sorts: [
    {
      fault: "cracked panel",
      count: 25,
      possible: "plate",
      found: [
        { stage: "case", count: 10, mean_cents: 11_100 },
        { stage: "customer", count: 10, mean_cents: 51_000 },
        { stage: "plate", count: 3, mean_cents: 8_700 },
      ],
    },
    {
      fault: "dry joint",
      count: 16,
      possible: "wiring",
      found: [
        { stage: "wiring", count: 5, mean_cents: 2_300 },
        { stage: "customer", count: 5, mean_cents: 35_600 },
      ],
    },
  ],
};

export const few: ChecksView = { ...usual, units: 12, faults: 3, saves: [], dear: [], soaks: [] };
export const none: ChecksView = {
  units: 0,
  faults: 0,
  today_cents: 0,
  saves: [],
  dear: [],
  silent: [],
  orders: [],
  sorts: [],
};
