import type { ListeningIndexView, SeriesView, SwitchingView } from "../../workshop/listening/views.ts";

/** Answers for the preview page and the browser tests, as the calculations give them. */
export const answered = {
  design: {
    trials: 23,
    needed: 16,
    falseAlarm: 0.0466,
    power: 0.8037,
    others: [
      { trials: 12, needed: 10, power: 0.391 },
      { trials: 16, needed: 12, power: 0.63 },
      { trials: 20, needed: 15, power: 0.617 },
      { trials: 32, needed: 22, power: 0.862 },
    ],
  },
  level: {
    state: "undecided",
    pairs: [{ difference_dB: 0.07, doubt_dB: 0.042 }],
    trim_dB: -0.07,
    wouldDecide_dB: 0.021,
  },
  score: { p: 0.038, odds: 4.9, moreTrials: 7, share: { value: 0.75, low: 0.476, high: 0.927 } },
} as const;

export const listed: ListeningIndexView = {
  now: "2026-11-25T16:30:00+00:00",
  series: [
    {
      series: "Ebb C or E",
      model: "Ebb",
      versions: ["C", "E"],
      asked: "preference",
      at: "2026-11-24T14:00:00+00:00",
      by: "owner",
      listeners: 12,
      answered: 96,
      of: 96,
      state: "closed",
    },
    {
      series: "Neap A or C",
      model: "Neap",
      versions: ["A", "C"],
      asked: "difference",
      at: "2026-11-25T14:00:00+00:00",
      by: "owner",
      listeners: 3,
      answered: 32,
      of: 69,
      state: "open",
    },
  ],
  models: [
    { model: "Ebb", versions: ["A", "B", "C", "E"] },
    { model: "Neap", versions: ["A", "C"] },
  ],
  headphones: ["Fulmar open", "Great auk"],
  levels: [],
};

export const sits: SeriesView = {
  ...listed.series[1]!,
  now: listed.now,
  through: "Fulmar open",
  source: "a quiet string quartet",
  trials: 23,
  design: { heard: 0.75, falseAlarm: 0.05, power: 0.8 },
  progress: [
    { listener: "listener 2", answered: 9 },
    { listener: "listener 3", answered: 23 },
    { listener: "listener 8, who came late from the other end of the harbour", answered: 0 },
  ],
  notes: [],
};

export const shown: SeriesView = {
  ...listed.series[0]!,
  now: listed.now,
  through: "Fulmar open",
  trials: 8,
  level: { state: "proven", difference_dB: 0.03, doubt_dB: 0.042, within_dB: 0.1, from: [] },
  progress: Array.from({ length: 12 }, (_, i) => ({ listener: `listener ${i + 1}`, answered: 8 })),
  closed: { at: "2026-11-24T15:10:00+00:00", by: "owner", why: "" },
  preferred: {
    trials: 96,
    listeners: 12,
    ranking: [
      { item: "C", strength: 0.57, low: 0.44, high: 0.69 },
      { item: "E", strength: 0.43, low: 0.31, high: 0.56 },
    ],
    p: 0.28,
    order: { state: "solved", odds: 1.68, low: 1.06, high: 2.68 },
    ordered: 96,
  },
  notes: ["It was stopped at 96 of 120 answers: the reason stands beside it."],
};

export const switched: SwitchingView = {
  series: sits.series,
  listener: "listener 2",
  asked: "difference",
  trials: Array.from({ length: 23 }, (_, i) => ({
    trial: i + 1,
    plays: ["A", "C", i % 3 === 0 ? "A" : "C"],
    isAnswered: i < 9,
  })),
};
