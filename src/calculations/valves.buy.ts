import { z } from "zod";
import { BadInput } from "../maths/badInput.ts";
import { randomStream } from "../maths/random.ts";
import { howManyToBuy, MOST_NEEDED } from "../valves/index.ts";
import { calculation } from "./calculation.ts";

const count = z.int().min(0).max(1_000_000);
/** No new batch is drawn after so long. */
const longest_ms = 4000;
const share = z.number().min(0).max(1);

export default calculation({
  name: "valves.buy",
  title: "How many valves to buy for the sets wanted",
  input: z.object({
    past: z
      .array(
        z.object({
          tested: count.min(1).describe("Valves of the batch that were tested."),
          passed: count.describe("How many of them passed."),
          valves: z
            .array(z.object({ features: z.record(z.string(), z.number().min(-1e9).max(1e9)) }))
            .max(2000)
            .optional()
            .describe("Readings of valves that passed, all or some: those that find no partner are then counted too."),
        }),
      )
      .min(1)
      .max(300)
      .describe("Past batches of the type, each on its own: how far they differ counts."),
    perSet: z.int().min(1).max(100).describe("Valves in a set."),
    sets: z.int().min(1).max(2000).describe("Sets wanted."),
    confidence: z.number().min(0.01).max(0.999).describe("Chance wanted of having all sets, such as 0.9."),
    weights: z
      .record(z.string(), z.number().min(0).max(1e9))
      .optional()
      .describe("With readings: cost of a set is the sum over features of weight times (largest less smallest)."),
    limit: z.number().min(0).max(1e12).optional().describe("With readings: sets that cost more are not made."),
  }),
  output: z.object({
    buy: z
      .int()
      .optional()
      .describe("The fewest valves that reach the confidence; left out, with a reason, if none do."),
    expectedSets: z.number().optional().describe("Mean number of whole sets from so many valves."),
    chance: share.optional().describe("Chance of at least the sets wanted."),
    passRate_pct: z.number(),
    batchSd_pct: z.number().describe("Standard deviation of a batch's own pass rate."),
    withoutPartner: z
      .number()
      .optional()
      .describe("With readings: passing valves that are left over when the sets asked can just be made, on the mean."),
    distribution: z
      .array(z.object({ sets: z.int(), chance: share }))
      .optional()
      .describe("Chance of exactly so many whole sets."),
    doubt: z.object({ passRate_pct: z.number(), expectedSets: z.number().optional() }),
    state: z.literal("undecided").optional(),
    reason: z.string().optional(),
    notes: z.array(z.string()),
  }),
  compute(input) {
    const end_ms = performance.now() + longest_ms;
    const need = input.sets * input.perSet;
    if (need > MOST_NEEDED) {
      throw new BadInput(
        "sets",
        `${input.sets} sets of ${input.perSet}`,
        `at most ${MOST_NEEDED} valves in all`,
        "ask for fewer sets at a time",
      );
    }
    const { distribution, notes, doubt, ...figures } = howManyToBuy(input, {
      random: randomStream("valves.buy"),
      hasTime: () => performance.now() < end_ms,
    });
    return {
      ...figures,
      doubt: { ...doubt },
      ...(distribution ? { distribution: distribution.map((d) => ({ ...d })) } : {}),
      notes: [...notes],
    };
  },
  formula: [
    "P(mean, likeness | past) ∝ P(past | mean, likeness) · 1/(1 + likeness/0.02)², mean even over 0 … 1",
    "chance(n) = Σ P(mean, likeness | past) · P(passes of n ≥ sets·perSet)",
  ],
  sources: [
    "J. Skellam, A probability distribution derived from the binomial distribution by regarding the probability of success as variable between the sets of trials, 1948: beta-binomial (from memory)",
    "B. Efron, Bootstrap methods: another look at the jackknife, 1979; B. Silverman, Density Estimation, 1986: drawing again from readings, smoothed (from memory)",
    "Bayes' rule on a grid of pass rates and of likeness within a batch; the belief before any batch is a judgement",
  ],
  validity:
    "The new valves are one batch, drawn like the past ones. That passing valves must also match one another is counted where readings, weights and limit are given, pass rate and spread taken as independent; else not, and notes say so.",
  cautions: [],
  example: {
    past: [
      { tested: 40, passed: 33 },
      { tested: 25, passed: 22 },
      { tested: 50, passed: 35 },
    ],
    perSet: 4,
    sets: 6,
    confidence: 0.9,
  },
});
