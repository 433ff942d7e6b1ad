import { z } from "zod";
import { designTrials } from "../listening/index.ts";
import { calculation } from "./calculation.ts";

const share = z.number().min(0).max(1);

export default calculation({
  name: "listening.design",
  title: "How many blind trials find a listener who hears, fixed beforehand",
  input: z.object({
    heard: share.describe("Share right of a listener worth finding, such as 0.75."),
    chance: z.number().min(0.001).max(0.999).optional().describe("Share right by guessing; 0.5 if left out."),
    falseAlarm: z.number().min(1e-6).max(0.5).optional().describe("Chance that guessing passes; 0.05 if left out."),
    power: z.number().min(0.5).max(0.999).optional().describe("Chance that such a listener passes; 0.8 if left out."),
    listeners: z.number().int().min(1).max(1000).optional().describe("Who will each be tried; 1 if left out."),
  }),
  output: z.object({
    trials: z.number().int(),
    needed: z.number().int().describe("Right answers that pass."),
    falseAlarm: share.describe("What whole numbers really keep."),
    power: share,
    others: z.array(z.object({ trials: z.number().int(), needed: z.number().int(), power: share })),
    notes: z.array(z.string()),
  }),
  compute(input) {
    const { others, ...found } = designTrials(input);
    return {
      ...found,
      others: [...others],
      notes: [
        "Fix this number before anybody listens, and make all of it, whatever the score on the way.",
        "Set levels equal first (listening.level): a quarter of a decibel is heard as better, not as louder.",
        ...((input.listeners ?? 1) > 1
          ? ["The limit is divided among the listeners, so that luck of the best does not pass."]
          : []),
      ],
    };
  },
  formula: [
    "needed(n) = fewest k with P(k or more by guessing) ≤ falseAlarm/listeners, power(n) = P(needed or more, heard)",
    "trials = fewest n with power(n) ≥ power",
  ],
  sources: ["Exact binomial sums; several listeners after Bonferroni (from memory)"],
  validity: "Independent trials in random order, each as hard as the next.",
  cautions: ["Keep levels moderate and listeners rested: long loud listening harms hearing."],
  example: { heard: 0.75 },
});
