import { z } from "zod";
import { netlistSchema, response } from "../circuits/index.ts";
import { calculation } from "./calculation.ts";

const name = z.string().min(1).max(60);
const perFrequency = z.array(z.number()).readonly();
const notes = z.array(z.string()).readonly();

export default calculation({
  name: "circuits.response",
  title: "Gain, phase, input and output impedance of a circuit against frequency",
  input: z.object({
    netlist: netlistSchema,
    input: name.describe("id of the source that drives the signal; all others stand at zero"),
    output: z.union([name, z.tuple([name, name])]).describe("a node, or the first of two nodes against the second"),
    frequencies_Hz: z.array(z.number().positive().max(1e12)).min(1).max(5000),
  }),
  output: z.discriminatedUnion("state", [
    z.object({
      state: z.literal("solved"),
      frequencies_Hz: perFrequency,
      gain_dB: perFrequency.describe("output against the input source's own voltage"),
      phase_deg: perFrequency.describe("above −180 up to 180"),
      inputImpedance_ohm: perFrequency.describe("magnitude, as the input source sees it"),
      outputImpedance_ohm: perFrequency.describe("magnitude, the input source at zero, the net list's loads in place"),
      notes,
    }),
    z.object({ state: z.literal("undecided"), node: name, reason: z.string(), notes }),
  ]),
  compute: ({ netlist, ...question }) => response(netlist, question),
  formula: [
    "gain = 20·lg|V(output)/V(input source)|, Z_in = |V/I| of the input source,",
    "Z_out = |V(output)| for 1 A sent into the output with the input source at zero",
  ],
  sources: [
    "Modified nodal analysis: Ho, Ruehli, Brennan, IEEE Trans. Circuits Syst. 22, 1975 (remembered)",
    "Curves of catalogue types: reference/tubes.json, each with its source",
  ],
  validity:
    "Small signals about the working point of circuits.rest. Valves carry no capacitances of their own: where they matter " +
    "(above some kilohertz at high resistances) they are given in the net list as capacitors. Coils are linear.",
  cautions: [],
  example: {
    netlist: {
      ground: "0",
      parts: [
        { id: "IN", kind: "voltage", between: ["in", "0"], ac_V: 1 },
        { id: "R1", kind: "resistor", between: ["in", "out"], ohm: 10_000 },
        { id: "C1", kind: "capacitor", between: ["out", "0"], uF: 0.01 },
      ],
    },
    input: "IN",
    output: "out",
    frequencies_Hz: [100, 1591.549430918953, 10_000],
  },
});
