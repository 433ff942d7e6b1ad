import type { Netlist, Part } from "./netlist.ts";

/**
 * Factors on parts' own values, by part: ohm, uF, H together with its copper, a source's direct value, a
 * transformer's copper, the saturation of diodes and field-effect transistors, a rectifier's perveance, a bipolar transistor's gain.
 * Valves have factors of their own (`ValveFactor`) and are left as they are.
 */
export type ValueFactors = ReadonlyMap<string, number>;

/** The net list with some parts' values multiplied; the net list itself where there is nothing to multiply. */
export function scaled(netlist: Netlist, values: ValueFactors | undefined): Netlist {
  if (values === undefined || values.size === 0) return netlist;
  return {
    ...netlist,
    parts: netlist.parts.map((part) => {
      const factor = values.get(part.id);
      return factor === undefined || factor === 1 ? part : scaledPart(part, factor);
    }),
  };
}

export function scaledPart(part: Part, factor: number): Part {
  switch (part.kind) {
    case "resistor":
      return { ...part, ohm: part.ohm * factor };
    case "capacitor":
      return { ...part, uF: part.uF * factor };
    case "inductor":
      return { ...part, H: part.H * factor, resistance_ohm: (part.resistance_ohm ?? 0) * factor };
    case "voltage":
      return { ...part, dc_V: part.dc_V * factor };
    case "current":
      return { ...part, dc_mA: part.dc_mA * factor };
    case "transformer":
      return {
        ...part,
        windings: part.windings.map((w) => ({ ...w, resistance_ohm: (w.resistance_ohm ?? 0) * factor })),
      };
    case "diode":
      return part.law ? { ...part, law: { ...part.law, saturation_A: part.law.saturation_A * factor } } : part;
    case "rectifier":
      return part.law ? { ...part, law: { perveance_mA_per_V1p5: part.law.perveance_mA_per_V1p5 * factor } } : part;
    case "jfet":
      return part.law ? { ...part, law: { ...part.law, saturation_mA: part.law.saturation_mA * factor } } : part;
    case "bipolar":
      return part.law ? { ...part, law: { ...part.law, gain: part.law.gain * factor } } : part;
    default:
      return part;
  }
}
