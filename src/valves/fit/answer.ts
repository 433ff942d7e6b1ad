import { BadInput } from "../../maths/badInput.ts";
import { catalogueEntry, type ValveModel, valveCurrents } from "../model.ts";
import { type FittedCurve, fitCurve } from "./fit.ts";
import type { LikelyCurves } from "./likely.ts";
import type { CurvePoint } from "./point.ts";

export interface AskedPoint {
  readonly plate_V: number;
  readonly grid_V: number;
  readonly screen_V?: number | undefined;
}

export interface FitRequest {
  readonly type?: string | undefined;
  readonly kind: ValveModel["kind"];
  readonly points: readonly CurvePoint[];
  readonly at?: readonly AskedPoint[] | undefined;
  /** No doubts are wanted, which take nearly all of the time. */
  readonly curveOnly?: boolean | undefined;
}

type Figure = "plate_mA" | "screen_mA" | "gm_mS" | "rp_ohm" | "mu";

export interface AskedAnswer extends AskedPoint {
  readonly plate_mA: number;
  readonly screen_mA?: number;
  readonly gm_mS: number;
  /** Left out, with a reason, where the valve is cut off. */
  readonly rp_ohm?: number;
  readonly mu?: number;
  readonly doubt: Partial<Record<Figure, number>>;
  readonly state?: "undecided";
  readonly reason?: string;
}

export interface FitAnswer {
  readonly model: ValveModel;
  readonly rms_mA: number;
  readonly worst_mA: number;
  readonly at: readonly AskedAnswer[];
  /** Left out where only the curve was wanted. */
  readonly doubt?: {
    readonly model: Readonly<Record<string, number>>;
    /** Of the curve's current as a whole, where the points lie, and of mu: what sets of valves are judged by. */
    readonly current_pct: number;
    readonly mu_pct: number;
  };
  readonly notes: readonly string[];
}

const CUT_OFF_mA = 1e-6;
/** Fits a valve's curves and answers the points asked for, every figure with its doubt. */
export function fitAnswer(request: FitRequest): FitAnswer {
  const { kind, points, curveOnly } = request;
  const fit = fitCurve(request);
  const likely = curveOnly ? undefined : fit.likely();
  const at = (request.at ?? []).map((asked, i) => answerAt(fit, likely, kind, screenOf(asked, i, kind, points)));
  return {
    model: fit.model,
    rms_mA: fit.rms_mA,
    worst_mA: fit.worst_mA,
    at,
    ...(likely && { doubt: { model: parameterDoubts(fit, likely), ...curveDoubt(fit, likely, points) } }),
    notes: notesFor(request, fit, at),
  };
}

function screenOf(asked: AskedPoint, i: number, kind: ValveModel["kind"], points: readonly CurvePoint[]): AskedPoint {
  if (kind === "triode" || asked.screen_V !== undefined) return asked;
  const only = points[0]!.screen_V;
  if (points.every((p) => p.screen_V === only)) return { ...asked, screen_V: only };
  throw new BadInput(
    `at[${i}].screen_V`,
    "nothing",
    "a screen voltage, since the points were read at several",
    "give the screen voltage at which you ask",
  );
}

function answerAt(
  fit: FittedCurve,
  likely: LikelyCurves | undefined,
  kind: ValveModel["kind"],
  asked: AskedPoint,
): AskedAnswer {
  const { plate_V, grid_V, screen_V } = asked;
  const here = figuresAt(fit.model, asked);
  const doubt: Partial<Figures> = likely ? doubtsAt(likely, asked, here) : {};
  const screen = kind === "pentode" ? { screen_mA: here.screen_mA } : {};
  const place = { plate_V, grid_V, ...(screen_V === undefined ? {} : { screen_V }) };
  const currents = { ...place, plate_mA: here.plate_mA, ...screen, gm_mS: here.gm_mS };
  const doubts = (...of: readonly Figure[]) =>
    Object.fromEntries(of.filter((figure) => Number.isFinite(doubt[figure])).map((figure) => [figure, doubt[figure]]));
  const ofCurrents = ["plate_mA", ...(kind === "pentode" ? ["screen_mA" as const] : [])] as const;

  if (here.plate_mA < CUT_OFF_mA || !(here.rp_ohm > 0 && here.rp_ohm < 1e12) || !(here.gm_mS > 0)) {
    return {
      ...currents,
      doubt: doubts(...ofCurrents),
      state: "undecided",
      reason:
        "the valve carries no current here, or the plate has no hold on it: rp and mu cannot be told; ask at a point with plate current",
    };
  }
  if (doubt.plate_mA !== undefined && doubt.plate_mA > here.plate_mA) {
    return {
      ...currents,
      doubt: doubts(...ofCurrents, "gm_mS"),
      state: "undecided",
      reason:
        "the points leave the current here open by more than itself, so nothing that follows from it can be told; read points nearer to this one, with plate current",
    };
  }
  if (doubt.rp_ohm === Infinity || doubt.mu === Infinity) {
    return {
      ...currents,
      doubt: doubts(...ofCurrents, "gm_mS"),
      state: "undecided",
      reason:
        "the points leave open whether the plate has any hold on the current here: rp and mu could be of any size; read points at other plate voltages near this one",
    };
  }
  return {
    ...currents,
    rp_ohm: here.rp_ohm,
    mu: here.mu,
    doubt: doubts(...ofCurrents, "gm_mS", "rp_ohm", "mu"),
  };
}

type Figures = Readonly<Record<Figure, number>>;

function figuresAt(model: ValveModel, { plate_V, grid_V, screen_V }: AskedPoint): Figures {
  const { plate_A, screen_A, dPlate } = valveCurrents(model, plate_V, grid_V, screen_V);
  return {
    plate_mA: plate_A * 1e3,
    screen_mA: screen_A * 1e3,
    gm_mS: dPlate[1] * 1e3,
    rp_ohm: 1 / dPlate[0],
    mu: dPlate[1] / dPlate[0],
  };
}

/** How far each figure may be off: the distance from it within which 95 % of the likely curves have theirs. */
function doubtsAt(likely: LikelyCurves, asked: AskedPoint, here: Figures): Figures {
  const { plate_V, grid_V, screen_V } = asked;
  const form = likely.formAt(plate_V, grid_V, screen_V);
  const all = likely.curves.map(({ model, plateForm, screenForm }): Figures => {
    const { plate_A, screen_A, dPlate } = valveCurrents(model, plate_V, grid_V, screen_V);
    const more = 1 + sumOfProducts(plateForm, form.value);
    const gm = dPlate[1] * more + plate_A * sumOfProducts(plateForm, form.perGrid);
    const gp = dPlate[0] * more + plate_A * sumOfProducts(plateForm, form.perPlate);
    return {
      plate_mA: plate_A * more * 1e3,
      screen_mA: screen_A * (1 + sumOfProducts(screenForm, form.value)) * 1e3,
      gm_mS: gm * 1e3,
      rp_ohm: 1 / gp,
      mu: gm / gp,
    };
  });
  const doubt = (figure: Figure) =>
    halfWidth(
      all.map((f) => f[figure]),
      here[figure],
    );
  return {
    plate_mA: doubt("plate_mA"),
    screen_mA: doubt("screen_mA"),
    gm_mS: doubt("gm_mS"),
    rp_ohm: doubt("rp_ohm"),
    mu: doubt("mu"),
  };
}

function sumOfProducts(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}

/** The distance from `about` within which 95 % of the values lie; may be infinite. */
function halfWidth(values: readonly number[], about: number): number {
  const distances = values
    .map((v) => Math.abs(v - about))
    .map((d) => (Number.isNaN(d) ? Infinity : d))
    .sort((a, b) => a - b);
  return distances[Math.min(Math.ceil(0.95 * (distances.length + 1)) - 1, distances.length - 1)]!;
}

function curveDoubt(
  fit: FittedCurve,
  likely: LikelyCurves,
  points: readonly CurvePoint[],
): { current_pct: number; mu_pct: number } {
  const top_mA = Math.max(...points.map((p) => p.plate_mA));
  const telling = points.filter((p) => p.plate_mA >= 0.1 * top_mA);
  const meanLog = (model: ValveModel) =>
    telling.reduce(
      (sum, p) => sum + Math.log(Math.max(valveCurrents(model, p.plate_V, p.grid_V, p.screen_V).plate_A, 1e-15)),
      0,
    ) / telling.length;
  const ofLog = (about: number, log: (model: ValveModel) => number) =>
    Math.min(
      100,
      100 *
        halfWidth(
          likely.curves.map((c) => log(c.model)),
          about,
        ),
    );
  return {
    current_pct: ofLog(meanLog(fit.model), meanLog),
    mu_pct: ofLog(Math.log(fit.model.mu), (m) => Math.log(m.mu)),
  };
}

function parameterDoubts(fit: FittedCurve, likely: LikelyCurves): Record<string, number> {
  const doubtOf = (of: (model: ValveModel) => number) =>
    halfWidth(
      likely.curves.map((c) => of(c.model)),
      of(fit.model),
    );
  const doubts: Record<string, number> = {};
  for (const [name, value] of Object.entries(fit.model)) {
    if (typeof value === "number" && name !== "knee_V") {
      doubts[name] = doubtOf((m) => (m as unknown as Record<string, number>)[name]!);
    }
  }
  if (fit.model.kind === "pentode") {
    for (const name of ["far", "knee_V", "kneePerDrive", "power", "tail"] as const) {
      doubts[`screen.${name}`] = doubtOf((m) => (m.kind === "pentode" ? m.screen[name] : 0));
    }
  }
  return doubts;
}

function notesFor({ type, kind, points }: FitRequest, fit: FittedCurve, at: readonly AskedAnswer[]): string[] {
  const notes: string[] = [];
  const entry = type === undefined ? undefined : catalogueEntry(type);
  if (type === undefined) {
    notes.push(
      "No type given: beside the points only what holds for any valve was used. A type lets few points go further.",
    );
  } else if (entry === undefined) {
    notes.push(`Type ${type} is not in the catalogue: fitted as a valve of unknown type.`);
  } else if (entry.kind !== kind) {
    notes.push(`${entry.type} is a ${entry.kind}; fitted as a ${kind} of unknown type.`);
  } else if (fit.belief === "set aside") {
    notes.push(
      `These points lie far outside the usual spread of the ${entry.type}; its catalogue curve was not leaned on. Check type, voltages and meter.`,
    );
  } else {
    notes.push(
      `Leans on the catalogue curve of the ${entry.type} and the usual spread of new valves, as far as the points leave room.`,
    );
  }
  if (fit.untold.length > 0) {
    notes.push(
      `The points say little about ${fit.untold.map(inWords).join(", ")}; ${fit.belief === "type" ? "the type's usual value stands there" : "a usual value stands there, with its doubt"}.`,
    );
  }
  for (const volts of ["grid_V", "plate_V"] as const) {
    if (points.every((p) => p[volts] === points[0]![volts])) {
      const what = volts === "grid_V" ? "gm and mu rest" : "rp and mu rest";
      notes.push(
        `All points stand at one ${volts} (${points[0]![volts]}): ${what} on belief, not on the points. Read some at another ${volts}.`,
      );
    }
  }
  if (kind === "pentode") {
    if (points.every((p) => p.screen_V === points[0]!.screen_V)) {
      notes.push(
        `All points stand at one screen_V (${points[0]!.screen_V}): the screen's influence rests on cut-off and belief.`,
      );
    }
    if (points.every((p) => p.screen_mA === undefined)) {
      notes.push("No screen current was read: its share of the cathode current is the usual one.");
    }
    const topScreen_mA = Math.max(0, ...points.map((p) => p.screen_mA ?? 0));
    if (fit.screen_rms_mA > 0.1 * topScreen_mA) {
      notes.push(
        `Plate and screen readings do not add up to one cathode current that both share: the plate's were followed, the screen's are missed by ${fit.screen_rms_mA.toPrecision(2)} mA (rms).`,
      );
    }
  } else if (points.some((p) => p.screen_V !== undefined)) {
    notes.push("Screen voltages were left out of account: kind triode takes the screen as tied to the plate.");
  }
  if (fit.worstSigmas > 4.5 && points.length >= 8) {
    notes.push(
      `points[${fit.worstIndex}] lies ${fit.worstSigmas.toFixed(0)} times the usual scatter off the curve and was given less weight: read it again.`,
    );
  }
  if (at.some((a) => a.state === undefined && (a.doubt.gm_mS ?? 0) > 0.3 * a.gm_mS)) {
    notes.push("At one asked point or more the points leave gm open by over 30 %: see doubt.");
  }
  notes.push("Grid current was not fitted; the model carries a usual one, good to a factor of three, from 0 V up.");
  return notes;
}

const WORDS: Readonly<Record<string, string>> = {
  "ln current": "the size of the current",
  "ln mu": "mu",
  exponent: "the exponent",
  offset_V: "the contact potential",
  bend: "the loss of mu towards cut-off",
  lowPlate_V2: "low plate voltages",
  "ln whole softness": "the softness of cut-off",
  "logit of its growth": "how cut-off softens with voltage",
  "ln plateMu": "the plate's hold (rp)",
  "ln far": "the screen's share",
  "ln knee_V": "the knee",
  kneePerDrive: "how the knee moves with current",
  power: "the knee's sharpness",
  tail: "the knee's tail",
};
const inWords = (name: string): string => WORDS[name] ?? name;
