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
