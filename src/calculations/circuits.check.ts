import { z } from "zod";
import { checkText } from "../circuits/versions/index.ts";
import { calculation } from "./calculation.ts";
import { refusal } from "./refusal.ts";

export default calculation({
  name: "circuits.check",
  title: "Read a net list written as text, and name what is wrong with it by line and part",
  input: z.object({
    text: z.string().max(1_000_000).describe("the net list as JSON, best with a part to a line"),
  }),
  output: z.discriminatedUnion("state", [
    z.object({
      state: z.literal("good"),
      parts: z.number(),
      netlist: z.looseObject({}).describe("as written"),
      notes: z.array(z.string()),
    }),
    z.object({
      state: z.literal("faulty"),
      faults: z.array(
        z.object({
          line: z.number().describe("counted from 1"),
          path: z.string().describe("field within the net list, such as parts[3].ohm"),
          part: z.string().optional(),
          message: z.string().describe("what was given; what is allowed; what to do"),
        }),
      ),
      notes: z.array(z.string()),
    }),
  ]),
  compute({ text }) {
    const checked = checkText(text, (issue, value) => refusal(new z.ZodError([issue]), value));
    if (!checked.ok) return { state: "faulty" as const, faults: [...checked.faults], notes: [] };
    return { state: "good" as const, parts: checked.netlist.parts.length, netlist: { ...checked.written }, notes: [] };
  },
  sources: ["JSON: RFC 8259 (remembered); the net list is that of circuits.rest"],
  validity: "A good net list can be solved; whether it is what was meant, nobody but its author knows.",
  cautions: [],
  example: {
    text: '{ "ground": "0",\n  "parts": [\n    { "id": "B", "kind": "voltage", "between": ["ht", "0"], "dc_V": 250 },\n    { "id": "R1", "kind": "resistor", "between": ["ht", "0"], "ohm": "47k" }\n  ] }',
  },
});
