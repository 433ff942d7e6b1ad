import type { InstrumentsView, InstrumentView } from "../../workshop/instruments/views.ts";

/** Invented instruments for the preview page and the browser tests. */

const days = (count: number) =>
  Array.from({ length: count }, (_, i) => new Date(Date.UTC(2026, 9, 1 + i, 8)).toISOString().replace(".000Z", "Z"));

function trials(truth: number, limit: number, at: (i: number) => number, count = 42): InstrumentView["trials"] {
  return days(count).map((day, i) => {
    const value = truth + limit * (at(i) + 0.13 * Math.sin(i * 2.7) + 0.07 * Math.sin(i * 5.1));
    const off = Math.abs(value - truth);
    const doubt = 0.15 * limit;
    return {
      at: day,
      value,
      doubt,
      state: off + doubt <= limit ? "proven" : off - doubt >= limit ? "refuted" : "undecided",
    };
  });
}

const chart = (truth: number, limit: number, drifts: boolean): NonNullable<InstrumentView["chart"]> => ({
  centre: truth,
  low: truth - 0.4 * limit,
  high: truth + 0.4 * limit,
  baseline: 30,
  signals: drifts
    ? [
        { index: 38, rule: "run" },
        { index: 39, rule: "run" },
      ]
    : [],
  weighted: Array.from(
    { length: 42 },
    (_, i) => truth + (drifts ? -0.12 * limit * Math.max(0, i - 35) : 0.03 * limit * Math.sin(i / 3)),
  ),
  weightedLow: truth - 0.15 * limit,
  weightedHigh: truth + 0.15 * limit,
  drifts,
});

const tester: InstrumentView = {
  instrument: "valve-tester",
  title: "Valve tester",
  trial: { reference: "reference valve", quantity: "plate_mA", true: 9.2, limit: 0.2 },
  standing: {
    state: "failed",
    words: "read 8.92 ± 0.03 on 2026-11-11 07:45; it must pass again",
    at: "2026-11-11T07:45:00Z",
  },
  trials: trials(9.2, 0.2, (i) => (i < 36 ? 0 : -0.28 * (i - 35))),
  chart: chart(9.2, 0.2, true),
  restsOnIt: 0,
  reopened: [
    { unit: "0231", claim: "valves", title: "Every valve is steady through the heat run", why: "" },
    { unit: "0409", claim: "balance", title: "Left and right equally loud", why: "" },
  ],
};

const meter: InstrumentView = {
  instrument: "meter-A",
  title: "Bench multimeter",
  trial: { reference: "voltage reference", quantity: "level_V", true: 10, limit: 0.02 },
  standing: { state: "good", words: "read 9.998 ± 0.003 on 2026-11-11 07:50", at: "2026-11-11T07:50:00Z" },
  trials: trials(10, 0.02, () => -0.1),
  chart: chart(10, 0.02, false),
  restsOnIt: 23,
  reopened: [],
};

const scale: InstrumentView = {
  instrument: "balance",
  title: "Weighing balance",
  trial: { reference: "check weight", quantity: "mass_g", true: 500, limit: 0.3 },
  standing: {
    state: "undecided",
    words: "read 500.2 ± 0.3 on 2026-11-11 08:00, which decides nothing: weigh it three times",
    at: "2026-11-11T08:00:00Z",
  },
  trials: trials(500, 0.3, () => 0.6, 5),
  restsOnIt: 4,
  reopened: [],
};

const lens: InstrumentView = {
  instrument: "lens",
  title: "Lens",
  trial: { reference: "card of hairlines", quantity: "lines", true: 12, limit: 0.9 },
  standing: { state: "untried", words: "never tried: read it on the card of hairlines" },
  trials: [],
  restsOnIt: 0,
  reopened: [],
};

export const usual: InstrumentsView = { now: "2026-11-11T08:10:00Z", instruments: [meter, tester, scale, lens] };
export const none: InstrumentsView = { now: "2026-11-11T08:10:00Z", instruments: [] };
export const many: InstrumentsView = {
  now: "2026-11-11T08:10:00Z",
  instruments: Array.from({ length: 14 }, (_, i) => ({
    ...meter,
    instrument: `meter-${i}`,
    title: `Bench multimeter of the ${i + 1}th place, with a rather long name`,
  })),
};
