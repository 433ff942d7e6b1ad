import { BadInput, quote } from "../maths/badInput.ts";
import {
  type CatalogueEntry,
  catalogueEntry,
  catalogueTypes,
  type ValveModel,
  valveCurrents,
} from "../valves/model.ts";
import type { Curve } from "./device.ts";
import type { ValvePart } from "./netlist.ts";
import { triodeCurve } from "./triodeCurve.ts";

/** Factors of one valve against the curve it stands for: plate current, and mu. */
export interface ValveFactor {
  readonly current: number;
  readonly mu: number;
}

interface ThreeHalvesLaw {
  readonly mu: number;
  readonly perveance_mA_per_V1p5: number;
}

/** How a valve's curve is known: its own model or the catalogue's, or the bare three-halves law. */
export type ValveCharacter =
  | { readonly by: "model"; readonly model: ValveModel }
  | { readonly by: "law"; readonly law: ThreeHalvesLaw };

/**
 * The curve a valve of the net list stands for: its own `model`, else its `law`, else the catalogue's for its `type`.
 *
 * @throws BadInput at the part when none can be had, or when a triode is given a pentode's curve
 */
export function characterOf(part: ValvePart, path: string): ValveCharacter {
  if (part.model !== undefined) return { by: "model", model: part.model };
  if (part.kind === "triode" && part.law !== undefined) return { by: "law", law: part.law };
  if (part.type === undefined) {
    throw new BadInput(
      `${path}.type`,
      `nothing for valve ${quote(part.id)}`,
      part.kind === "triode" ? "a type of the catalogue, a model or a law" : "a type of the catalogue or a model",
      "say which valve it is",
    );
  }
  const entry = catalogueEntry(part.type);
  if (entry === undefined) {
    throw new BadInput(
      `${path}.type`,
      `${quote(part.type)} for valve ${quote(part.id)}`,
      `a type of the catalogue (${catalogueTypes().join(", ")})`,
      "correct the type, or give the valve its own model or law",
    );
  }
  if (part.kind === "pentode" && entry.model.kind !== "pentode") {
    throw new BadInput(
      `${path}.type`,
      `${quote(part.type)} as a pentode, valve ${quote(part.id)}`,
      "a pentode or beam tetrode; this type is a triode",
      'write "kind":"triode"',
    );
  }
  return { by: "model", model: entry.model };
}

export function catalogueOf(part: ValvePart): CatalogueEntry | undefined {
  return part.type === undefined ? undefined : catalogueEntry(part.type);
}

/**
 * Currents of a valve by its character, plate, grid and screen to the cathode.
 *
 * A factor on mu acts as plate (and screen) voltage divided by it: for the three-halves law exactly mu·factor.
 * A pentode's curve in a triode's place is triode-connected: its screen current joins the plate's.
 */
export function valveCurve(kind: ValvePart["kind"], character: ValveCharacter, factor?: ValveFactor): Curve {
  const current = factor?.current ?? 1;
  const pull = 1 / (factor?.mu ?? 1);
  if (character.by === "law") return lawCurve(character.law, current, pull);
  const { model } = character;
  if (kind === "triode" && model.kind === "triode") return triodeCurve(model, current, pull);
  if (kind === "triode") {
    return (u, into) => {
      const now = valveCurrents(model, u[0]! * pull, u[1]!);
      into.current_A[0] = current * (now.plate_A + now.screen_A);
      into.current_A[1] = now.grid_A;
      into.slope[0] = current * pull * (now.dPlate[0] + now.dScreen[0] + now.dPlate[2] + now.dScreen[2]);
      into.slope[1] = current * (now.dPlate[1] + now.dScreen[1]);
      into.slope[3] = pull * (now.dGrid[0] + now.dGrid[2]);
      into.slope[4] = now.dGrid[1];
    };
  }
  return (u, into) => {
    const now = valveCurrents(model, u[0]! * pull, u[1]!, u[2]! * pull);
    const rows = [now.dPlate, now.dGrid, now.dScreen];
    const amps = [now.plate_A, now.grid_A, now.screen_A];
    for (let i = 0; i < 3; i++) {
      const scale = i === 1 ? 1 : current;
      into.current_A[i] = scale * amps[i]!;
      into.slope[3 * i] = scale * pull * rows[i]![0];
      into.slope[3 * i + 1] = scale * rows[i]![1];
      into.slope[3 * i + 2] = scale * pull * rows[i]![2];
    }
  };
}

function lawCurve(law: ThreeHalvesLaw, current: number, pull: number): Curve {
  const perveance = (law.perveance_mA_per_V1p5 / 1e3) * current;
  const plateShare = pull / law.mu;
  return (u, into) => {
    const root = Math.sqrt(Math.max(0, u[1]! + u[0]! * plateShare));
    const slope = 1.5 * perveance * root;
    into.current_A[0] = perveance * root * root * root;
    into.current_A[1] = 0;
    into.slope[0] = slope * plateShare;
    into.slope[1] = slope;
    into.slope[3] = 0;
    into.slope[4] = 0;
  };
}
