import { z } from "zod";
import { optionCosts } from "../production/index.ts";
import { calculation } from "./calculation.ts";

const name = z.string().min(1).max(120);

export default calculation({
  name: "production.options",
  title: "What each choice of a customer really costs, from what units took",
  input: z.object({
    units: z
      .array(
        z.object({
          unit: name,
          options: z.record(name, name).describe("Option to choice, such as timber to elm."),
          cost_cents: z.number().int().min(-1e12).max(1e12),
        }),
      )
      .min(3)
      .max(20_000),
    currency: z.string().regex(/^[A-Z]{3}$/),
  }),
  output: z.object({
    currency: z.string(),
    choices: z.array(
      z.object({
        option: z.string(),
        choice: z.string(),
        against: z.string().describe("The commonest choice, with which it is compared."),
        units: z.number().int(),
        more_cents: z.number().int(),
        low_cents: z.number().int().describe("95 % interval."),
        high_cents: z.number().int(),
        state: z.enum(["dearer", "cheaper", "undecided"]),
        moreUnits: z.number().int().optional().describe("Further units that would decide, were it as it looks."),
      }),
    ),
    untold: z.array(z.object({ option: z.string(), choice: z.string(), why: z.string() })),
    base_cents: z.number().int(),
    sd_cents: z.number().int().describe("Scatter of units alike."),
    freedom: z.number().int(),
    notes: z.array(z.string()),
  }),
  compute({ units, currency }) {
    const { choices, untold, ...found } = optionCosts(units);
    const undecided = choices.filter(({ state }) => state === "undecided").length;
    return {
      currency,
      choices: [...choices],
      untold: [...untold],
      ...found,
      notes: [
        "What a choice costs besides the others, not what it is sold for.",
        ...(undecided > 0 ? [`Of ${undecided} choices the records do not tell whether they cost more or less.`] : []),
      ],
    };
  },
  formula: ["cost = base + Σ over choices made that are not the commonest more(choice) + scatter"],
  sources: ["Linear least squares with Student's t; checked against NIST StRD Norris (certified)"],
  validity: "Effects that add up, scatter of about the same size whatever was chosen, independent units.",
  cautions: [],
  example: {
    units: Array.from({ length: 18 }, (_, i) => ({
      unit: `0${400 + i}`,
      options: { timber: i % 3 === 0 ? "elm" : "ash", finish: i % 2 === 0 ? "oil" : "shellac" },
      cost_cents: 120000 + (i % 3 === 0 ? 9000 : 0) + ((i * 7919) % 13) * 300,
    })),
    currency: "EUR",
  },
});
