import type { GridLaw, PentodeModel, TriodeModel, ValveModel } from "../valveModel.ts";

/**
 * The numbers a fit moves, chosen so that they are nearly independent and of order one: logarithms where a quantity
 * is positive, and the current at the drive where the points lie instead of at one volt.
 */
export interface Scale {
  readonly drive_V: number;
  readonly electrode_V: number;
}

/** A belief about one parameter before any point is seen, and where it may go at all. */
export interface Belief {
  readonly name: string;
  readonly centre: number;
  readonly sd: number;
  readonly low: number;
  readonly high: number;
}

export const TRIODE_NAMES = [
  "ln current",
  "ln mu",
  "exponent",
  "offset_V",
  "bend",
  "lowPlate_V2",
  "ln softness_V",
  "ln softness",
] as const;

export const PENTODE_NAMES = [
  ...TRIODE_NAMES,
  "ln plateMu",
  "ln far",
  "ln knee_V",
  "kneePerDrive",
  "power",
  "tail",
] as const;

/** A knee below which no working point lies, so that no current flows without plate voltage. */
export const TRIODE_KNEE_V = 0.5;

export function toModel(kind: ValveModel["kind"], p: ArrayLike<number>, scale: Scale): ValveModel {
  const law = {
    current_A: Math.exp(p[0]!) / scale.drive_V ** p[2]!,
    mu: Math.exp(p[1]!),
    exponent: p[2]!,
    offset_V: p[3]!,
    bend: p[4]!,
    lowPlate_V: Math.sqrt(Math.max(p[5]!, 0)),
    softness_V: scale.drive_V * Math.exp(p[6]!),
    softness: (scale.drive_V / scale.electrode_V) * Math.exp(p[7]!),
  };
  const gridCurrent = usualGridCurrent(law.current_A);
  if (kind === "triode") return { kind, ...law, knee_V: TRIODE_KNEE_V, gridCurrent } satisfies TriodeModel;
  return {
    kind,
    ...law,
    plateMu: Math.exp(p[8]!),
    screen: { far: Math.exp(p[9]!), knee_V: Math.exp(p[10]!), kneePerDrive: p[11]!, power: p[12]!, tail: p[13]! },
    gridCurrent,
  } satisfies PentodeModel;
}

/** The parameters of a model, in the scale given. */
export function toParameters(model: ValveModel, scale: Scale): number[] {
  const law = [
    Math.log(model.current_A) + model.exponent * Math.log(scale.drive_V),
    Math.log(model.mu),
    model.exponent,
    model.offset_V,
    model.bend,
    model.lowPlate_V ** 2,
    Math.log(Math.max(model.softness_V, 1e-6) / scale.drive_V),
    Math.log((Math.max(model.softness, 1e-8) * scale.electrode_V) / scale.drive_V),
  ];
  if (model.kind === "triode") return law;
  const { far, knee_V, kneePerDrive, power, tail } = model.screen;
  return [...law, Math.log(model.plateMu), Math.log(far), Math.log(knee_V), kneePerDrive, power, tail];
}

/**
 * What is believed of any valve whose mu and current are roughly known: a judgement from published curves, wide
 * enough that a dozen good points outweigh it.
 */
export function generalBelief(
  kind: ValveModel["kind"],
  start: { readonly current_A: number; readonly mu: number },
): Belief[] {
  const rows: [centre: number, sd: number, low: number, high: number][] = [
    [Math.log(start.current_A), 3, -40, 5],
    [Math.log(start.mu), 2, Math.log(0.5), Math.log(500)],
    [1.4, 0.12, 1, 2],
    [0, 0.25 + 4 / start.mu, -30, 30],
    [0.05, 0.12, -0.4, 0.7],
    kind === "triode" ? [60, 250, 0, 2500] : [0, 1, 0, 0],
    [Math.log(0.06), 1.2, -9, 1],
    [Math.log(0.08), 1.2, -9, 1],
    [Math.log(start.mu * 30), 1.2, Math.log(start.mu * 1.5), Math.log(1e6)],
    [Math.log(0.12), 0.8, Math.log(0.002), Math.log(0.6)],
    [Math.log(15), 0.9, Math.log(0.5), Math.log(200)],
    [0.4, 0.6, 0, 8],
    [1.4, 0.4, 1.05, 4],
    [0.4, 0.5, 0, 2],
  ];
  const names = kind === "triode" ? TRIODE_NAMES : PENTODE_NAMES;
  return names.map((name, i) => {
    const [centre, sd, low, high] = rows[i]!;
    return { name, centre, sd, low, high };
  });
}

/**
 * What is believed of a valve of a known type: its catalogue curves, and the spread of new valves around them.
 *
 * @source reference/tubes.json, "spread" of the types that have one: current within some ±35 % and gm within ±25 % of
 *         print, mu within ±20 %, or a shift of ±0.5 V of bias at mu 70, taken as limits of three deviations. How the
 *         spread divides between current, mu, bias and shape is a judgement.
 */
export function typeBelief(model: ValveModel, scale: Scale): Belief[] {
  const sds = [0.14, 0.07, 0.1, 0.05 + 6 / model.mu, 0.1, 150, 1.2, 1.2, 0.4, 0.3, 0.3, 0.3, 0.3, 0.3];
  const limits = generalBelief(model.kind, { current_A: 1, mu: model.mu });
  return toParameters(model, scale).map((centre, i) => ({ ...limits[i]!, centre, sd: sds[i]! }));
}

/**
 * Grid current where none was measured: about a quarter of the plate law's scale, beginning at zero grid volts.
 * An estimate, good to a factor of three.
 *
 * @source proportions of one measured 12AX7 in Dempwolf, Holters and Zölzer, AES 131st Convention, paper 8507, 2011
 *         (figures read in public code)
 */
function usualGridCurrent(current_A: number): GridLaw {
  return { current_A: 0.27 * current_A, onset_V: 0, softness_V: 0.1, exponent: 1.3 };
}
