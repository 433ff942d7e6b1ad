import { z } from "zod";
import { type OrderOfPlaying, rankPairs } from "../listening/index.ts";
import { calculation } from "./calculation.ts";

const item = z.string().min(1).max(200);

function orderNote(order: OrderOfPlaying): string {
  if (order.state === "undecided") return `The order of playing is not told apart. ${order.reason}`;
  if (order.low <= 1 && order.high >= 1) return "The order of playing is allowed for; by itself it may do nothing.";
  return `The ${order.odds > 1 ? "first" : "second"} playing is chosen more often by its order alone; strengths are freed of it.`;
}

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
          first: item
            .optional()
            .describe("Which of the two was played first; named throughout, that habit is told apart."),
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
    order: z
      .object({
        state: z.enum(["solved", "undecided"]),
        odds: z
          .number()
          .optional()
          .describe("That the first playing is chosen of two items alike; 1 where it does nothing."),
        low: z.number().optional().describe("95 % interval."),
        high: z.number().optional(),
        reason: z.string().optional(),
      })
      .optional()
      .describe("What playing first does by itself, where every choice says which was."),
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
    const order = answer.state === "solved" ? answer.order : undefined;
    return answer.state === "solved"
      ? {
          ...answer,
          ...(told === undefined ? {} : { listeners: { ...told } }),
          ...(order === undefined ? {} : { order: { ...order } }),
          ranking: [...answer.ranking],
          notes: [
            ...notes,
            ...(order === undefined ? [] : [orderNote(order)]),
            ...((told?.p ?? answer.p) > 0.05
              ? ["Items all alike would give choices as uneven as these: the order may be chance."]
              : []),
          ],
        }
      : { ...answer, unbeaten: [...answer.unbeaten], ranking: [], notes };
  },
  formula: [
    "P(i chosen over j) = πᵢ/(πᵢ + πⱼ), Σπ = 1, maximum likelihood Bradley and Terry",
    "P(i chosen over j, i played first) = ω·πᵢ/(ω·πᵢ + πⱼ) where all choices say so",
    "p = P(χ²(items − 1) ≥ 2·(ℓ − ℓ₀)), ℓ₀ with all items alike against all equal",
    "V = H⁻¹·(L/(L − 1)·Σ gₗgₗᵀ)·H⁻¹, gₗ = wins − expected wins of listener l, t with L − 1 degrees of freedom",
  ],
  sources: [
    "R. A. Bradley and M. E. Terry, Rank analysis of incomplete block designs, Biometrika 39 (1952) 324-345 (from memory)",
    "L. R. Ford, Solution of a ranking problem from binary comparisons, American Mathematical Monthly 64 (1957) 28-33 (from memory)",
    "R. R. Davidson and R. J. Beaver, On extending the Bradley-Terry model to incorporate within-pair order effects, Biometrics 33 (1977) 693-702 (from memory)",
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
