import { z } from "zod";
import { netlistSchema, noiseInBand, outputNoise } from "../circuits/index.ts";
import { calculation } from "./calculation.ts";

const name = z.string().min(1).max(60);
const notes = z.array(z.string()).readonly();
const density = z.array(z.number()).readonly();

export default calculation({
  name: "circuits.noise",
  title: "Noise at a circuit's output: density against frequency, and A-weighted",
  input: z.object({
    netlist: netlistSchema,
    output: z.union([name, z.tuple([name, name])]).describe("a node, or the first of two nodes against the second"),
    frequencies_Hz: z.array(z.number().positive().max(1e12)).min(1).max(500).optional().describe("1 kHz if left out"),
    temperature_C: z.number().gt(-273.15).max(500).optional().describe("of the resistors, 20 if left out"),
  }),
  output: z.discriminatedUnion("state", [
    z.object({
      state: z.literal("solved"),
      frequencies_Hz: density,
      V_per_rtHz: density.describe("all parts together"),
      parts: z.record(z.string(), density).describe("each part's own, in V/√Hz; they add as squares"),
      noise_Vrms: z.number().describe("20 Hz to 20 kHz"),
      noiseA_Vrms: z.number().describe("20 Hz to 20 kHz, A-weighted"),
      shares: z
        .array(z.object({ part: z.string(), share: z.number() }))
        .readonly()
        .describe("of the A-weighted power, most first"),
      doubt: z.object({ noise_Vrms: z.number(), noiseA_Vrms: z.number() }),
      notes,
    }),
    z.object({ state: z.literal("undecided"), node: name, reason: z.string(), notes }),
  ]),
  compute: ({ netlist, output, frequencies_Hz = [1000], temperature_C = 20 }) => {
    const density = outputNoise(netlist, { output, frequencies_Hz, temperature_C });
    if (density.state !== "solved") return density;
    const band = noiseInBand(netlist, { output, temperature_C });
    return band.state === "solved" ? { ...density, ...band, parts: density.parts } : band;
  },
  formula: ["V² = ∫ S(f)·W(f)² df = ∫ S·W²·f d(ln f), W = 1, or the A curve"],
  sources: [
    "Johnson, Phys. Rev. 32, 1928; Nyquist, Phys. Rev. 32, 1928 (remembered): 4kT·R",
    "Schottky, Ann. Phys. 57, 1918 (remembered): 2q·I",
    "Harris, RCA Review 5, 1941; Spangenberg, Vacuum Tubes, 1948 (read in reference/circuits.json): valves",
    "A-weighting: IEC 61672-1:2013",
  ],
  validity:
    "White noise of resistors, windings, valves, diodes and transistors about the working point, all sources at zero. " +
    "Flicker noise, which rules valves below about a kilohertz, hum and microphony are left out, so a real unit is louder.",
  cautions: [],
  example: {
    netlist: {
      ground: "0",
      parts: [
        { id: "IN", kind: "voltage", between: ["in", "0"], ac_V: 1 },
        { id: "R1", kind: "resistor", between: ["in", "out"], ohm: 10_000 },
        { id: "C1", kind: "capacitor", between: ["out", "0"], uF: 0.001 },
      ],
    },
    output: "out",
    frequencies_Hz: [100, 1000, 10_000],
  },
});
