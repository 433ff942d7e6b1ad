import { z } from "zod";
import { guard } from "../measurement/index.ts";
import { calculation } from "./calculation.ts";

export default calculation({
  name: "measurement.guard",
  title: "Judge a reading against its limits, doubt included",
  input: z.object({
    value: z.number().describe("The reading."),
    doubt: z.number().min(0).describe("95 % half-width of the reading, same unit."),
    low: z.number().optional().describe("Least value allowed; leave out where there is none."),
    high: z.number().optional().describe("Greatest value allowed; leave out where there is none."),
  }),
  output: z.object({
    state: z.enum(["proven", "refuted", "undecided"]),
    riskFalseAccept: z.number().min(0).max(1).describe("Chance that the true value lies outside the limits."),
    reason: z.string().describe("The same in words; for undecided, what would decide."),
    notes: z.array(z.string()),
  }),
  compute(reading) {
    return {
      ...guard(reading),
      reason: reasonFor(reading),
      notes: ["The true value is taken as normal about the reading, with a standard deviation of doubt/1.96."],
    };
  },
  formula: [
    "proven low + doubt ≤ value ≤ high − doubt, for the limits given",
    "refuted value ≥ high + doubt or value ≤ low − doubt",
    "risk = Φ((low − value)/sd) + Φ((value − high)/sd), sd = doubt/1.96",
  ],
  sources: [
    "JCGM 106:2012, The role of measurement uncertainty in conformity assessment: guarded acceptance (from memory)",
  ],
  validity:
    "Readings whose doubt is about normal. What was known before the reading is not used: where nearly all pieces are good, the true risk is smaller.",
  cautions: [],
  example: { value: 9.5, doubt: 0.4, high: 10 },
});

function reasonFor(reading: { value: number; doubt: number; low?: number; high?: number }): string {
  const { state } = guard(reading);
  const { value, doubt, low, high } = reading;
  const stated = doubt === 0 ? `${value}` : `${value} ± ${doubt}`;
  const limits = [low === undefined ? "" : `at least ${low}`, high === undefined ? "" : `at most ${high}`]
    .filter((words) => words !== "")
    .join(" and ");
  switch (state) {
    case "proven":
      return `${stated} lies inside ${limits} by one doubt or more.`;
    case "refuted":
      return `${stated} lies outside ${limits} by one doubt or more.`;
    case "undecided":
      return `${stated} lies nearer than one doubt to the limit (${limits}); ${whatWouldDecide(value, low, high)}`;
  }
}

function whatWouldDecide(value: number, low?: number, high?: number): string {
  const nearest = Math.min(
    ...[low, high].filter((limit) => limit !== undefined).map((limit) => Math.abs(value - limit)),
  );
  return nearest > 0
    ? `a reading with a doubt below ${Number(nearest.toPrecision(3))} would decide at this value.`
    : "it stands on the limit, where only a change of the piece or a different reading decides.";
}
