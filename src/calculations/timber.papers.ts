import { z } from "zod";
import { papersFor } from "../timber/index.ts";
import { calculation } from "./calculation.ts";

export default calculation({
  name: "timber.papers",
  title: "Which woods of a case may need trade papers, and what to ask for",
  input: z.object({
    woods: z.array(z.string().min(1).max(100)).min(1).max(50).describe("English or Latin names."),
  }),
  output: z.object({
    woods: z.array(
      z.object({
        wood: z.string(),
        state: z.enum(["asked", "none known", "not known"]),
        appendix: z.string().optional(),
        of: z.string().optional(),
        covers: z.string().optional(),
        seen: z.string().optional().describe("Where the entry was read, or that it is from memory."),
        ask: z.array(z.string()),
      }),
    ),
    notes: z.array(z.string()),
  }),
  compute: ({ woods }) => ({
    woods: woods.map((wood) => {
      const { ask, ...papers } = papersFor(wood);
      return { wood, ...papers, ask: [...ask] };
    }),
    notes: [
      "The list is partly from memory and lists change at each conference: the current appendices and both countries' authorities decide.",
      "A finished case may fall under other rules than sawn wood; ask before it is promised.",
    ],
  }),
  sources: [
    "Convention on International Trade in Endangered Species, appendices (from memory, but for one entry read in a trade body's notice of 2022)",
  ],
  validity: "Genera and species of the usual trade; silence about a wood is no permission.",
  cautions: [
    "Shipping listed wood without papers is an offence and costs the case; local rules and the authority decide.",
  ],
  example: { woods: ["doussié", "white ash"] },
});
