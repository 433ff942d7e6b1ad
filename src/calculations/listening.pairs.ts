import { z } from "zod";
import { rankPairs } from "../listening/index.ts";
import { calculation } from "./calculation.ts";

const item = z.string().min(1).max(200);

export default calculation({
  name: "listening.pairs",
  title: "Rank prototypes that were compared in pairs",
  input: z.object({
    choices: z
      .array(
        z.object({
          winner: item,
          loser: item,
          listener: item.optional().describe("Named throughout, intervals are those of listeners, not of choices."),
          times: z.number().int().min(1).max(1e9).optional().describe("How often; once if left out."),
        }),
      )
      .min(1)
      .max(100_000),
  }),
  output: z.object({
    state: z.enum(["solved", "undecided"]),
    reason: z.string().optional().describe("Why there is no ranking, and what would decide."),
    ranking: z
      .array(
        z.object({
          item: z.string(),
          strength: z
            .number()
            .min(0)
            .max(1)
            .describe("All sum to one; strength to strength is the odds of being chosen."),
          low: z.number().min(0).max(1).describe("95 % interval."),
          high: z.number().min(0).max(1),
        }),
      )
      .describe("Best first."),
    p: z.number().min(0).max(1).optional().describe("Chance of choices as uneven, were all items alike."),
    listeners: z
      .object({
        count: z.number().int(),
        spread: z
          .number()
          .describe("Variance between listeners over that of independent choices; about 1 if of one mind."),
        p: z.number().min(0).max(1).optional().describe("As p, with listeners as the independent ones."),
      })
      .optional(),
    unbeaten: z.array(z.string()).optional().describe("Items that never lost to the others, where undecided."),
    notes: z.array(z.string()),
  }),
  compute({ choices }) {
    const answer = rankPairs(choices);
    const told = answer.state === "solved" ? answer.listeners : undefined;
    const notes = told
      ? [
          `Intervals are those of ${told.count} listeners: who chooses often counts no more than one pair of ears.`,
          ...(told.spread > 2
            ? ["Listeners differ in taste: more listeners, not more trials, would narrow this."]
            : []),
        ]
      : [
          "Each comparison counts alike and on its own; a listener who repeats himself counts as often as he chose. Name the listener of every choice, three or more of them, to tell them apart.",
        ];
    return answer.state === "solved"
      ? {
          ...answer,
          ...(told === undefined ? {} : { listeners: { ...told } }),
          ranking: [...answer.ranking],
          notes: [
            ...notes,
            ...((told?.p ?? answer.p) > 0.05
              ? ["Items all alike would give choices as uneven as these: the order may be chance."]
              : []),
          ],
        }
      : { ...answer, unbeaten: [...answer.unbeaten], ranking: [], notes };
  },
  formula: [
    "P(i chosen over j) = πᵢ/(πᵢ + πⱼ), Σπ = 1, maximum likelihood Bradley and Terry",
    "p = P(χ²(items − 1) ≥ 2·(ℓ − N·ln ½)) against all equal",
  ],
  sources: [
    "R. A. Bradley and M. E. Terry, Rank analysis of incomplete block designs, Biometrika 39 (1952) 324-345 (from memory)",
    "L. R. Ford, Solution of a ranking problem from binary comparisons, American Mathematical Monthly 64 (1957) 28-33 (from memory)",
  ],
  validity:
    "Choices without ties; listeners independent of each other, or without their names of one mind; intervals and p are good from some ten comparisons a pair.",
  cautions: [],
  example: {
    choices: [
      { winner: "Ebb 3", loser: "Ebb 2", times: 8 },
      { winner: "Ebb 2", loser: "Ebb 3", times: 4 },
      { winner: "Ebb 2", loser: "Ebb 1", times: 7 },
      { winner: "Ebb 1", loser: "Ebb 2", times: 5 },
    ],
  },
});
