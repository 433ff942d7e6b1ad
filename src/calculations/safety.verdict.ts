import { z } from "zod";
import { BadInput } from "../maths/badInput.ts";
import { judgeAll, judgeTest, type RoutineTest, safetyCautions, type TestVerdict } from "../safety/index.ts";
import { calculation } from "./calculation.ts";

const finite = z.number().min(-1e15).max(1e15);
const state = z.enum(["proven", "refuted", "undecided"]);

export default calculation({
  name: "safety.verdict",
  title: "Judge the routine safety tests of a unit, doubt included",
  input: z.object({
    tests: z
      .array(
        z.object({
          name: z.string().min(1).max(200),
          value: finite,
          unit: z.string().max(40),
          doubt: z.number().min(0).max(1e15).describe("95 % half-width of the reading."),
          limit: finite.describe("As adopted by the responsible person, same unit."),
          kind: z.enum(["max", "min"]),
        }),
      )
      .min(1)
      .max(1000),
  }),
  output: z.object({
    state: state.describe("All tests together."),
    tests: z.array(
      z.object({
        name: z.string(),
        value: z.number(),
        unit: z.string(),
        doubt: z.number(),
        limit: z.number(),
        kind: z.enum(["max", "min"]),
        state,
        margin: z.number().describe("How far inside the limit; negative outside."),
        acceptance: z.number().describe("Reading up to (or from) which this test is proven: the guard band's edge."),
        riskFalseAccept: z.number().min(0).max(1).describe("Chance that the true value is outside."),
        reason: z.string(),
      }),
    ),
    notes: z.array(z.string()),
  }),
  compute({ tests }) {
    const judged = tests.map((test, i) => {
      const verdict = judgedAt(test, i);
      return { ...test, ...verdict, reason: reasonFor(test, verdict) };
    });
    return {
      state: judgeAll(judged.map((test) => test.state)),
      tests: judged,
      notes: [...safetyCautions, "Limits are those given; none is built in."],
    };
  },
  formula: ["max: proven at value + doubt ≤ limit, refuted at value − doubt > limit; min: mirrored; undecided else"],
  sources: ["JCGM 106:2012, guarded acceptance (from memory)"],
  validity:
    "Readings with a known doubt, against limits that the responsible person has adopted, with edition and date.",
  cautions: [...safetyCautions],
  example: {
    tests: [
      { name: "earth bond", value: 0.05, unit: "ohm", doubt: 0.01, limit: 0.1, kind: "max" },
      { name: "insulation", value: 150, unit: "Mohm", doubt: 10, limit: 2, kind: "min" },
    ],
  },
});

function judgedAt(test: RoutineTest, i: number): TestVerdict {
  try {
    return judgeTest(test);
  } catch (fault) {
    throw fault instanceof BadInput ? BadInput.at(`tests[${i}].${fault.path}`, fault) : fault;
  }
}

function reasonFor({ value, unit, doubt, limit, kind }: RoutineTest, { state }: TestVerdict): string {
  const reading = `${value} ± ${doubt} ${unit}`.trim();
  const bound = `${kind === "max" ? "at most" : "at least"} ${limit} ${unit}`.trim();
  switch (state) {
    case "proven":
      return `${reading} keeps ${bound} by its doubt.`;
    case "refuted":
      return `${reading} breaks ${bound} by its doubt.`;
    case "undecided":
      return `${reading} lies too near to ${bound} to tell; read again with a smaller doubt.`;
  }
}
