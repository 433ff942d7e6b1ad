import { type CatalogueEntry, catalogue } from "./catalogue/catalogue.ts";
import { type RectifierEntry, rectifiers } from "./catalogue/rectifiers.ts";
import { pentodeCurrents } from "./pentode.ts";
import { triodeCurrents } from "./triode.ts";
import type { TriodeModel, ValveCurrents, ValveModel } from "./valveModel.ts";

export type { CatalogueEntry, Ratings } from "./catalogue/catalogue.ts";
export type { RectifierEntry } from "./catalogue/rectifiers.ts";
export type * from "./valveModel.ts";

/**
 * Currents of a valve at given voltages, all to the cathode, with analytic derivatives.
 *
 * @param screen_V  needed by a pentode; left out, the screen is taken as tied to the plate (triode connection), and
 *                  the derivatives then still treat the two as separate electrodes
 * @returns finite for finite input; continuous with its first derivatives, except a bare law (`softness_V` and
 *          `softness` 0) whose slope begins at cut-off as the power law has it
 */
export function valveCurrents(model: ValveModel, plate_V: number, grid_V: number, screen_V?: number): ValveCurrents {
  return model.kind === "triode"
    ? triodeCurrents(model, plate_V, grid_V)
    : pentodeCurrents(model, plate_V, grid_V, screen_V ?? plate_V);
}

/** gm = dIa/dVg, rp = 1/(dIa/dVa), mu = gm·rp, always taken from the curves themselves. */
export interface SmallSignal {
  readonly plate_mA: number;
  readonly gm_mS: number;
  /** Infinite where the plate has no influence (cut off). */
  readonly rp_ohm: number;
  /** Not a number where the valve is cut off altogether. */
  readonly mu: number;
}

export function smallSignal(model: ValveModel, plate_V: number, grid_V: number, screen_V?: number): SmallSignal {
  const { plate_A, dPlate } = valveCurrents(model, plate_V, grid_V, screen_V);
  return { plate_mA: plate_A * 1e3, gm_mS: dPlate[1] * 1e3, rp_ohm: 1 / dPlate[0], mu: dPlate[1] / dPlate[0] };
}

/**
 * The bare three-halves law as a model: Ia = perveance·(Vg + Va/mu)^1.5 above zero, no grid current.
 *
 * @source Child 1911, Langmuir 1913 (remembered)
 */
export function lawModel(law: { mu: number; perveance_mA_per_V1p5: number }): TriodeModel {
  return {
    kind: "triode",
    current_A: law.perveance_mA_per_V1p5 / 1e3,
    mu: law.mu,
    exponent: 1.5,
    offset_V: 0,
    bend: 0,
    lowPlate_V: 0,
    softness_V: 0,
    softness: 0,
    knee_V: 0,
  };
}

/** A type's entry by its name or an alias, letter case and spaces aside. */
export function catalogueEntry(type: string): CatalogueEntry | undefined {
  return byName.get(plain(type));
}

export function catalogueModel(type: string): ValveModel | undefined {
  return catalogueEntry(type)?.model;
}

/** The names of all types in the catalogue. */
export function catalogueTypes(): string[] {
  return catalogue.map((entry) => entry.type);
}

/** A rectifier's entry by its name or an alias, as `catalogueEntry` finds amplifying valves. */
export function rectifierEntry(type: string): RectifierEntry | undefined {
  return rectifiers.find((entry) => [entry.type, ...entry.aliases].some((name) => plain(name) === plain(type)));
}

const plain = (type: string): string => type.toUpperCase().replace(/[\s-]/g, "");
const byName = new Map<string, CatalogueEntry>();
for (const entry of catalogue) for (const alias of entry.aliases) byName.set(plain(alias), entry);
for (const entry of catalogue) byName.set(plain(entry.type), entry);
