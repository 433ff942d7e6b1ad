import { z } from "zod";
import { move } from "../timber/index.ts";
import { calculation } from "./calculation.ts";
import { ownWoodSchema } from "./timberInput.ts";

const moisture = z.number().min(0).max(200);
const coefficient = z.number().min(0).max(0.02).optional();

export default calculation({
  name: "timber.move",
  title: "How far a board shrinks, grows and cups between two moistures",
  input: z.object({
    species: z
      .string()
      .min(1)
      .max(100)
      .optional()
      .describe("English name; may be left out where both coefficients are given."),
    wood: ownWoodSchema,
    width_mm: z.number().positive().max(1e5),
    ringAngle_deg: z.number().min(0).max(90).describe("0 flat-sawn, 90 quarter-sawn."),
    from_pct: moisture.describe("Percent of oven-dry mass."),
    to_pct: moisture,
    tangential_per_pct: coefficient.describe("Share of the width per percent of moisture, along the rings."),
    radial_per_pct: coefficient.describe("The same across the rings."),
    pith_mm: z
      .number()
      .positive()
      .max(1e5)
      .optional()
      .describe("From the pith to the middle of the board's face; for the cup."),
  }),
  output: z.object({
    change_mm: z.number().describe("Positive when wider."),
    changeLow_mm: z.number().describe("95 % range of boards and sources."),
    changeHigh_mm: z.number(),
    cup_mm: z
      .number()
      .optional()
      .describe("Edges over the middle of the face; positive when the bark side goes hollow."),
    cupLow_mm: z.number().optional(),
    cupHigh_mm: z.number().optional(),
    tangential_per_pct: z.number().describe("As used."),
    radial_per_pct: z.number(),
    doubt: z.object({ change_mm: z.number(), cup_mm: z.number().optional() }),
    notes: z.array(z.string()),
  }),
  compute(step) {
    const { change_mm: change, cup_mm: cup, best, notes } = move(step);
    return {
      change_mm: change.value,
      changeLow_mm: change.low,
      changeHigh_mm: change.high,
      ...(cup ? { cup_mm: cup.value, cupLow_mm: cup.low, cupHigh_mm: cup.high } : {}),
      ...best,
      doubt: { change_mm: reach(change), ...(cup ? { cup_mm: reach(cup) } : {}) },
      notes: [...notes],
    };
  },
  formula: [
    "change = width·(C_T·cos²θ + C_R·sin²θ)·(to − from)",
    "a point (r, φ) seen from the pith moves to (r·(1 − e_R), φ·(1 − e_T)/(1 − e_R)), e = C·(from − to)",
    "C = (S/(100·F)) / (1 − (S/100)·(1 − 10/F)) per percent at 10 % moisture, from total shrinkage S in percent",
  ],
  sources: [
    "Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), eq. 13-2, tables 13-5, 4-3, 4-4 (most rows read)",
    "Ring cup: polar geometry as in P. H. Mitchell, BioResources 11(3), 6416-6425 (2016) (abstract read; map derived)",
  ],
  validity:
    "Small clear boards from 6 to 14 % moisture, evenly moist through. Knots, reaction wood, growth stress and unequal faces move boards otherwise.",
  cautions: ["Hardwood dust sensitises and harms lungs: extract it and wear a mask."],
  example: { species: "white ash", width_mm: 300, ringAngle_deg: 0, from_pct: 11, to_pct: 6, pith_mm: 120 },
});

function reach({ value, low, high }: { value: number; low: number; high: number }): number {
  return Math.max(value - low, high - value);
}
