import { z } from "zod";
import { blindTrials, mostTrials } from "../listening/index.ts";
import { calculation } from "./calculation.ts";

export default calculation({
  name: "listening.blind",
  title: "Whether right answers in blind trials are more than guessing",
  input: z.object({
    trials: z.number().int().min(1).max(mostTrials).describe("Trials made, their number fixed beforehand."),
    right: z.number().int().min(0).max(mostTrials).describe("Right answers among them."),
    chance: z.number().min(0.001).max(0.999).optional().describe("Share right by guessing; 0.5 if left out."),
    heard: z
      .number()
      .max(1)
      .optional()
      .describe("Share right of a listener worth finding; halfway from guessing to certain if left out."),
  }),
  output: z.object({
    p: z.number().min(0).max(1).describe("Chance of as many right answers, or more, by guessing."),
    needed: z.number().optional().describe("Right answers that make p 0.05 or less; left out where none does."),
    power: z.number().min(0).max(1).describe("Chance that a listener worth finding reaches that number."),
    moreTrials: z.number().optional().describe("Further trials until power is 0.8."),
    odds: z
      .number()
      .describe("For hearing against guessing, at even odds beforehand; below 1 they speak for guessing."),
    share: z.object({ value: z.number(), low: z.number(), high: z.number() }).describe("Share right, 95 % interval."),
    notes: z.array(z.string()),
  }),
  compute(trials) {
    const answer = blindTrials(trials);
    const heard = trials.heard ?? (1 + (trials.chance ?? 0.5)) / 2;
    return {
      ...answer,
      notes: [
        `Power and moreTrials are for a listener who is right in ${Number((100 * heard).toPrecision(3))} % of trials, at p of 0.05.`,
        "Fix the number of trials before listening: stopping when the score looks good, or adding trials to a disappointing series, makes p too small.",
        ...(answer.p > 0.05 ? ["Not shown is not the same as not there: see power."] : []),
        ...(answer.needed === undefined ? ["So few trials cannot show anything, whatever the score."] : []),
        ...(answer.moreTrials === undefined
          ? ["A listener so near to guessing needs more than 10,000 trials; they are not counted."]
          : []),
      ],
    };
  },
  formula: [
    "p = Σ C(n, k)·cᵏ·(1 − c)ⁿ⁻ᵏ over k ≥ right exact, one-sided",
    "power = the same sum with the share of a listener who hears, over k ≥ needed",
    "odds = ∫ₚ from c to 1 of pᵏ(1 − p)ⁿ⁻ᵏ dp/(1 − c) / (cᵏ(1 − c)ⁿ⁻ᵏ) any share above guessing alike beforehand",
    "share = right/n, interval after Clopper and Pearson",
  ],
  sources: [
    "Exact binomial sums; method as in D. Clark, High-resolution subjective testing using a double-blind comparator, J. Audio Engineering Society 30 (1982) 330-338 (from memory)",
  ],
  validity:
    "Independent trials, truly blind and in random order, their number fixed beforehand. Several tests at once need p multiplied by their number.",
  cautions: ["Set levels equal to 0.1 dB and keep them moderate: long loud listening harms hearing."],
  example: { trials: 16, right: 12 },
});
