import { z } from "zod";
import { BadInput, quote } from "../maths/badInput.ts";
import type { PentodeModel, TriodeModel } from "../valves/model.ts";

/**
 * The net list: plain JSON naming parts and the nodes their ends are joined to.
 *
 * A part's current flows through it from the first of `between` to the second (diode: plate, then cathode).
 */

const nodeName = z.string().min(1).max(60).describe("name of a node; the same name is the same wire");
const between = z.tuple([nodeName, nodeName]).describe("the nodes of its two ends");
const positive = z.number().positive().max(1e15);
const volts = z.number().min(-1e6).max(1e6);
const milliamps = z.number().min(-1e7).max(1e7);
const share = z.number().min(0).max(1);

/** What every part carries besides its kind: who it is, and what part of the unit it belongs to. */
const standing = {
  id: z.string().min(1).max(60).describe("name of the part, once in the net list"),
  stage: z.string().min(1).max(60).optional().describe("input, output, supply, heaters, …"),
  channel: z.string().min(1).max(60).optional().describe("left, right, both"),
  label: z.string().max(200).optional(),
};
const tolerance = share.optional().describe("relative half-width that holds 99 % of good parts");
const mains = z
  .boolean()
  .optional()
  .describe("it comes from the mains and moves with it, all such sources together (mains_pct of a spread)");
const bottle = z
  .string()
  .min(1)
  .max(60)
  .optional()
  .describe("sections of one bottle share a name; left out, V1a and V1b are taken as sections of V1");
/** Where a valve's heater stands; without it, a resistor named by the bottle and h (V1h for V1a and V1b) is its heater. */
const heater = z
  .object({ between: between.describe("the nodes of its two ends") })
  .optional()
  .describe("its heater's nodes in the net list, for the heater-to-cathode rating");
const heater_V = z
  .number()
  .min(-1e5)
  .max(1e5)
  .optional()
  .describe("potential of its heater against ground, where the net list does not draw the heaters");
const valveTolerance = z
  .object({ current: share.optional(), mu: share.optional() })
  .optional()
  .describe("factors on plate current and on mu, half-widths that hold 99 % of good valves");

const plateLaw = {
  current_A: z.number().positive(),
  mu: z.number().positive(),
  exponent: z.number().min(0.5).max(4),
  offset_V: z.number(),
  bend: z.number(),
  lowPlate_V: z.number().nonnegative(),
  softness_V: z.number().nonnegative(),
  softness: z.number().nonnegative(),
};
const gridCurrent = z
  .object({
    current_A: z.number().nonnegative(),
    onset_V: z.number(),
    softness_V: z.number().nonnegative(),
    exponent: z.number().positive(),
  })
  .optional();

const triodeModel = z.object({
  kind: z.literal("triode"),
  ...plateLaw,
  knee_V: z.number().nonnegative(),
  gridCurrent,
}) satisfies z.ZodType<TriodeModel>;

const pentodeModel = z.object({
  kind: z.literal("pentode"),
  ...plateLaw,
  plateMu: z.number().positive(),
  screen: z.object({
    far: share,
    knee_V: z.number().positive(),
    kneePerDrive: z.number(),
    power: z.number().positive(),
    tail: z.number().nonnegative(),
  }),
  gridCurrent,
}) satisfies z.ZodType<PentodeModel>;

/** A valve's own curve, as `valves.fit` gives it. */
export const valveModelSchema = z.union([triodeModel, pentodeModel]);

const threeHalves = z
  .object({ mu: z.number().positive().max(1e4), perveance_mA_per_V1p5: z.number().positive().max(1e4) })
  .describe("plate current = perveance · (grid_V + plate_V/mu)^1.5 above zero, no grid current");
const valveType = z.string().min(1).max(40).optional().describe("type in the catalogue, unless model or law is given");

const partSchema = z.discriminatedUnion("kind", [
  z.object({ ...standing, kind: z.literal("resistor"), between, ohm: positive, tolerance }),
  z.object({ ...standing, kind: z.literal("capacitor"), between, uF: positive, tolerance }),
  z.object({
    ...standing,
    kind: z.literal("inductor"),
    between,
    H: positive,
    resistance_ohm: z.number().nonnegative().max(1e12).optional(),
    tolerance,
  }),
  z.object({
    ...standing,
    kind: z.literal("transformer"),
    windings: z
      .array(z.object({ between, turns: positive, resistance_ohm: z.number().nonnegative().max(1e12).optional() }))
      .min(2)
      .max(20)
      .describe("the first of each pair of nodes is the dotted end"),
    primaryInductance_H: positive
      .optional()
      .describe("magnetising inductance at the first winding; left out, unlimited"),
    leakage_H: z
      .number()
      .nonnegative()
      .max(1e6)
      .optional()
      .describe("at the first winding, the others short-circuited"),
    tolerance: tolerance.describe("of the windings' resistance"),
  }),
  z.object({
    ...standing,
    kind: z.literal("voltage"),
    between,
    dc_V: volts.default(0),
    ac_V: volts.default(0),
    tolerance,
    mains,
  }),
  z.object({
    ...standing,
    kind: z.literal("current"),
    between,
    dc_mA: milliamps.default(0),
    ac_mA: milliamps.default(0),
    tolerance,
    mains,
  }),
  z.object({
    ...standing,
    kind: z.literal("diode"),
    between: between.describe("plate, cathode"),
    type: valveType,
    law: z
      .object({
        saturation_A: z.number().positive().max(1),
        emission: z.number().min(0.1).max(100).default(1),
        temperature_C: z.number().min(-200).max(500).default(25),
      })
      .optional(),
    tolerance: tolerance.describe("of the saturation current"),
  }),
  z.object({
    ...standing,
    kind: z.literal("rectifier"),
    between: between.describe("plate, cathode of one section"),
    type: valveType,
    law: z.object({ perveance_mA_per_V1p5: z.number().positive().max(1e4) }).optional(),
    tolerance: tolerance.describe("of the perveance"),
  }),
  z.object({
    ...standing,
    kind: z.literal("triode"),
    type: valveType,
    model: triodeModel.optional(),
    law: threeHalves.optional(),
    plate: nodeName,
    grid: nodeName,
    cathode: nodeName,
    tolerance: valveTolerance,
    bottle,
    heater,
    heater_V,
  }),
  z.object({
    ...standing,
    kind: z.literal("pentode"),
    type: valveType,
    model: pentodeModel.optional(),
    plate: nodeName,
    screen: nodeName,
    grid: nodeName,
    cathode: nodeName,
    tolerance: valveTolerance,
    bottle,
    heater,
    heater_V,
  }),
  z.object({
    ...standing,
    kind: z.literal("jfet"),
    type: valveType,
    drain: nodeName,
    gate: nodeName,
    source: nodeName,
    polarity: z.enum(["n", "p"]).default("n"),
    law: z
      .object({
        saturation_mA: z.number().positive().max(1e4).describe("drain current at gate_V 0"),
        pinchOff_V: z.number().positive().max(100).describe("gate voltage that stops the current, without its sign"),
        early_V: z.number().positive().max(1e6).optional(),
      })
      .optional(),
    tolerance: tolerance.describe("of the saturation current"),
  }),
  z.object({
    ...standing,
    kind: z.literal("bipolar"),
    type: valveType,
    collector: nodeName,
    base: nodeName,
    emitter: nodeName,
    polarity: z.enum(["n", "p"]).default("n"),
    law: z
      .object({
        saturation_A: z.number().positive().max(1),
        gain: z.number().min(1).max(1e5).describe("collector over base current"),
        temperature_C: z.number().min(-200).max(500).default(25),
        early_V: z.number().positive().max(1e6).optional(),
      })
      .optional(),
    tolerance: tolerance.describe("of the current gain"),
  }),
  z.object({ ...standing, kind: z.literal("switch"), between, closed: z.boolean() }),
]);

const testPoint = z.union([
  nodeName,
  z.object({
    name: z.string().min(1).max(60),
    node: nodeName,
    channel: z.string().max(60).optional(),
    stage: z.string().max(60).optional(),
    x_mm: z.number().optional(),
    y_mm: z.number().optional(),
    tolerance: z.number().positive().optional(),
  }),
]);

/** More parts than this would not be answered in time. */
const mostParts = 600;

export const netlistSchema = z.object({
  title: z.string().max(200).optional(),
  parts: z.array(partSchema).min(1).max(mostParts),
  ground: nodeName.describe("the node all voltages are counted from"),
  testPoints: z.array(testPoint).max(500).optional(),
});

export type Netlist = z.output<typeof netlistSchema>;
export type Part = Netlist["parts"][number];
type PartKind = Part["kind"];
export type PartOf<K extends PartKind> = Extract<Part, { kind: K }>;
export type ValvePart = PartOf<"triode"> | PartOf<"pentode">;

/** A net list as a person writes it, defaults left out. */
export type NetlistInput = z.input<typeof netlistSchema>;

/**
 * Reads a net list from plain JSON.
 *
 * @throws BadInput at the first field that is not as the schema has it, its path starting with `path`
 */
export function readNetlist(value: unknown, path = "netlist"): Netlist {
  const read = netlistSchema.safeParse(value);
  if (read.success) return read.data;
  const issue = read.error.issues[0]!;
  const at = issue.path.reduce<string>(
    (so, key) => so + (typeof key === "number" ? `[${key}]` : `.${String(key)}`),
    path,
  );
  const given = issue.path.reduce<unknown>((so, key) => (so as Record<PropertyKey, unknown> | undefined)?.[key], value);
  throw new BadInput(at, quote(given), issue.message, "correct this field of the net list");
}

export function isValve(part: Part): part is ValvePart {
  return part.kind === "triode" || part.kind === "pentode";
}

/** Every end of a part: where it is written in the part, and the node it is joined to. */
export function endsOf(part: Part): readonly (readonly [field: string, node: string])[] {
  switch (part.kind) {
    case "transformer":
      return part.windings.flatMap((winding, i) =>
        winding.between.map((node, end) => [`windings[${i}].between[${end}]`, node] as const),
      );
    case "triode":
      return [
        ["plate", part.plate],
        ["grid", part.grid],
        ["cathode", part.cathode],
      ];
    case "pentode":
      return [
        ["plate", part.plate],
        ["screen", part.screen],
        ["grid", part.grid],
        ["cathode", part.cathode],
      ];
    case "jfet":
      return [
        ["drain", part.drain],
        ["gate", part.gate],
        ["source", part.source],
      ];
    case "bipolar":
      return [
        ["collector", part.collector],
        ["base", part.base],
        ["emitter", part.emitter],
      ];
    default:
      return part.between.map((node, end) => [`between[${end}]`, node] as const);
  }
}
