import type { ValvePart } from "./netlist.ts";
import type { PartAtRest } from "./partAtRest.ts";
import { catalogueOf } from "./valve.ts";

/**
 * What a valve at rest exceeds of its published ratings, in words; nothing for a valve without a type in the catalogue.
 *
 * Plate and screen voltage, plate and screen heat, plate and cathode current. Heater-to-cathode voltage is not judged
 * here: the net list does not say where the heater stands.
 */
export function exceededRatings(part: ValvePart, at: PartAtRest): string[] {
  const max = catalogueOf(part)?.max;
  if (max === undefined) return [];
  const checks: readonly (readonly [
    what: string,
    value: number | undefined,
    unit: string,
    limits: readonly string[],
  ])[] = [
    // In triode connection the screen stands at the plate's voltage and its rating is the lower one.
    ["plate voltage", at.plate_V, "V", part.kind === "triode" ? ["screen_V", "plate_V"] : ["plate_V"]],
    ["screen voltage", at.screen_V, "V", ["screen_V"]],
    ["plate dissipation", at.dissipation_W, "W", ["plateDissipation_W_perSection", "plateDissipation_W"]],
    ["screen dissipation", at.screenDissipation_W, "W", ["screenDissipation_W"]],
    ["plate current", at.plate_mA, "mA", ["plate_mA_perSection", "plate_mA_selfBias", "plate_mA"]],
    ["cathode current", at.cathode_mA, "mA", ["cathode_mA"]],
  ];
  return checks.flatMap(([what, value, unit, limits]) => {
    const limit = limits.map((name) => max[name]).find((published) => typeof published === "number");
    if (value === undefined || limit === undefined || value <= limit) return [];
    return [
      `${part.id} (${part.type}): ${what} ${value.toPrecision(4)} ${unit} exceeds the rating of ${limit} ${unit}`,
    ];
  });
}
