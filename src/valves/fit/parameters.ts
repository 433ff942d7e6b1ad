import { type CatalogueEntry, valveCurrents } from "../model.ts";
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
  "ln whole softness",
  "logit of its growth",
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
  const { fixed_V, perVolt } = softnessOf(p, scale);
  const law = {
    current_A: Math.exp(p[0]!) / scale.drive_V ** p[2]!,
    mu: Math.exp(p[1]!),
    exponent: p[2]!,
    offset_V: p[3]!,
    bend: p[4]!,
    lowPlate_V: Math.sqrt(Math.max(p[5]!, 0)),
    softness_V: fixed_V,
    softness: perVolt,
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

/**
 * Softness of cut-off as the points see it is one number, so much at their own electrode voltage; how it divides into
 * what is fixed and what grows with voltage they often leave open.
 */
export function softnessOf(p: ArrayLike<number>, { drive_V, electrode_V }: Scale) {
  const whole_V = drive_V * Math.exp(p[6]!);
  const growing = 1 / (1 + Math.exp(-p[7]!));
  return { whole_V, growing, fixed_V: whole_V * (1 - growing), perVolt: (whole_V * growing) / electrode_V };
}

/** The parameters of a model, in the scale given. */
export function toParameters(model: ValveModel, scale: Scale): number[] {
  const fixed_V = Math.max(model.softness_V, 1e-6);
  const growing_V = Math.max(model.softness, 1e-8) * scale.electrode_V;
  const law = [
    Math.log(model.current_A) + model.exponent * Math.log(scale.drive_V),
    Math.log(model.mu),
    model.exponent,
    model.offset_V,
    model.bend,
    model.lowPlate_V ** 2,
    Math.log((fixed_V + growing_V) / scale.drive_V),
    Math.min(Math.max(Math.log(growing_V / fixed_V), -6), 6),
  ];
  if (model.kind === "triode") return law;
  const { far, knee_V, kneePerDrive, power, tail } = model.screen;
  return [...law, Math.log(model.plateMu), Math.log(far), Math.log(knee_V), kneePerDrive, power, tail];
}

/**
 * What is believed of all parameters together: each by itself, and of what they come to. A row r says that r·(p − centre)
 * is normal with deviation one.
 */
export interface Beliefs {
  readonly each: readonly Belief[];
  readonly together: readonly Float64Array[];
}

/** Softness of cut-off over V/mu: what most types of the catalogue come to within a factor of two. */
export const SOFTNESS = 0.1;
/** How far ln(softness/(V/mu)) of a valve may lie from the usual one: 0.8 over the catalogue's types, 0.9 about a type. */
const SOFTNESS_SPREAD = 1.2;

/**
 * What is believed of any valve whose mu and current are roughly known: a judgement from published curves, wide
 * enough that a dozen good points outweigh it: how the catalogue's types differ, and valves of a type about it. Softness is
 * believed by what it is of V/mu, since mu tells cut-off. Contact potential is mostly some tenths of a volt, which at high
 * mu is much of the drive; the plate's hold is some 20 times mu in power valves, 150 times in small-signal pentodes.
 */
export function generalBelief(
  kind: ValveModel["kind"],
  start: { readonly current_A: number; readonly mu: number; readonly scale: Scale },
): Beliefs {
  const { drive_V, electrode_V } = start.scale;
  const rows: [centre: number, sd: number, low: number, high: number][] = [
    [Math.log(start.current_A), 1.2, -40, 5],
    [Math.log(start.mu) + 0.15, 1, Math.log(0.5), Math.log(500)],
    [1.4, 0.12, 1, 2],
    [0.2, 0.35 + 4 / start.mu, -30, 30],
    [0.05, 0.14, -0.4, 0.7],
    kind === "triode" ? [60, 250, 0, 2500] : [0, 1, 0, 0],
    [Math.log((SOFTNESS * electrode_V) / start.mu / drive_V), 3, -9, 3],
    [0, 2, -8, 8],
    [Math.log(start.mu * 45), 1.4, Math.log(start.mu * 1.5), Math.log(1e6)],
    [Math.log(0.08), 1, Math.log(0.002), Math.log(0.6)],
    [Math.log(15), 0.9, Math.log(0.5), Math.log(200)],
    [0.4, 0.6, 0, 8],
    [1.4, 0.4, 1.05, 4],
    [0.6, 0.7, 0, 3],
  ];
  const names = kind === "triode" ? TRIODE_NAMES : PENTODE_NAMES;
  const each = names.map((name, i) => {
    const [centre, sd, low, high] = rows[i]!;
    return { name, centre, sd, low, high };
  });
  const softness = new Float64Array(each.length);
  softness[1] = softness[6] = 1 / SOFTNESS_SPREAD;
  return { each, together: [softness] };
}

/** The scale of a type's own published point, where the spread of its valves is told. */
export function typeScale({ model, published }: Pick<CatalogueEntry, "model" | "published">): Scale {
  const electrode_V = published.screen_V ?? published.plate_V;
  const drive_V = Math.max(electrode_V / model.mu + published.grid_V + model.offset_V, (0.05 * electrode_V) / model.mu);
  return { electrode_V, drive_V };
}

/**
 * Spread of new valves at the point where their makers test them, one deviation of a third of the published limits; mu
 * of triodes alone.
 */
export const TESTED = { current: 0.15, gm: 0.1, mu: 0.08 } as const;

/** Spread of contact potential in V between new valves of a type. */
export const offsetSpread_V = (mu: number): number => 0.05 + 6 / mu;

/**
 * Spread of new valves of a type in each parameter, in the order of `TRIODE_NAMES` and `PENTODE_NAMES`, with what the
 * sheet leaves open: it prints a few points, so that how the curves run between and beyond them (softness and its
 * growth, low plate voltages, the knee) is hardly better known of a type than of any valve.
 */
const typeSpread = (mu: number) => [
  0.14,
  0.08,
  0.12,
  offsetSpread_V(mu),
  0.12,
  200,
  0.9,
  2,
  0.5,
  0.4,
  0.6,
  0.6,
  0.4,
  0.7,
];

/**
 * What is believed of a valve of a known type, in the scale of `typeScale`: its catalogue curves, and the spread of new valves around them. The
 * parameters spread by themselves, and makers pass only what comes to nearly the published current and gm: spreads of
 * mu and of contact potential that would put the current 30 % off do not both reach the shop.
 *
 * @source reference/tubes.json, "spread" of the types that have one: current within some ±35 % and gm within ±25 % of
 *         print, mu within ±20 %, or a shift of ±0.5 V of bias at mu 70, taken as limits of three deviations. How the
 *         spread divides between current, mu, bias and shape is a judgement.
 */
export function typeBelief({ model, published }: Pick<CatalogueEntry, "model" | "published">): Beliefs {
  const scale = typeScale({ model, published });
  const sds = typeSpread(model.mu);
  const limits = generalBelief(model.kind, { current_A: 1, mu: model.mu, scale }).each;
  const each = toParameters(model, scale).map((centre, i) => ({ ...limits[i]!, centre, sd: sds[i]! }));
  const tested = (p: Float64Array): readonly number[] => {
    const { plate_V, grid_V, screen_V } = published;
    const { plate_A, dPlate } = valveCurrents(toModel(model.kind, p, scale), plate_V, grid_V, screen_V);
    const figures = [Math.log(plate_A) / TESTED.current, Math.log(dPlate[1]) / TESTED.gm];
    return model.kind === "triode" ? [...figures, Math.log(dPlate[1] / dPlate[0]) / TESTED.mu] : figures;
  };
  const centre = Float64Array.from(each, (b) => b.centre);
  const rows = tested(centre);
  const slopes = each.map(({ sd, low, high }, k) => {
    if (high <= low) return rows.map(() => 0);
    const [up, down] = [centre.slice(), centre.slice()];
    up[k]! += 1e-4 * sd;
    down[k]! -= 1e-4 * sd;
    const [above, below] = [tested(up), tested(down)];
    return rows.map((_, row) => (above[row]! - below[row]!) / (2e-4 * sd));
  });
  return { each, together: rows.map((_, row) => Float64Array.from(slopes, (s) => s[row]!)) };
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
