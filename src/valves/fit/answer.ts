import { BadInput } from "../../maths/badInput.ts";
import { catalogueEntry, type SmallSignal, smallSignal, type ValveModel, valveCurrents } from "../model.ts";
import { type FittedCurve, fitCurve } from "./fit.ts";
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
  readonly doubt: {
    readonly model: Readonly<Record<string, number>>;
    /** Of the curve's current as a whole, where the points lie, and of mu: what sets of valves are judged by. */
    readonly current_pct: number;
    readonly mu_pct: number;
  };
  readonly notes: readonly string[];
}

/**
 * What the law's form itself may be off by, 95 %, where the points are dense and good: no formula of this kind follows
 * every valve. It grows towards cut-off as √(1 + (0.2·I_top/I)²), and is trebled outside the points.
 *
 * @remarks A judgement from fits to laws of other forms (fixed soft cut-off, cut-off softening with plate voltage, a
 *          spread of mu along the grid); the tests draw them.
 */
const FORM = { plate_mA: 0.01, screen_mA: 0.03, gm_mS: 0.03, rp_ohm: 0.025, mu: 0.02 } as const;
/** A pentode's plate resistance rests on tiny slopes. */
const PENTODE_FORM = { ...FORM, rp_ohm: 0.1, mu: 0.1 } as const;
const CUT_OFF_mA = 1e-6;

/** Fits a valve's curves and answers the points asked for, every figure with its doubt. */
export function fitAnswer(request: FitRequest): FitAnswer {
  const { kind, points } = request;
  const fit = fitCurve(request);
  const at = (request.at ?? []).map((asked, i) => answerAt(fit, kind, points, screenOf(asked, i, kind, points)));
  return {
    model: fit.model,
    rms_mA: fit.rms_mA,
    worst_mA: fit.worst_mA,
    at,
    doubt: { model: parameterDoubts(fit), ...curveDoubt(fit, points) },
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
  kind: ValveModel["kind"],
  points: readonly CurvePoint[],
  asked: AskedPoint,
): AskedAnswer {
  const { plate_V, grid_V, screen_V } = asked;
  const figures = (model: ValveModel): SmallSignal => smallSignal(model, plate_V, grid_V, screen_V);
  const screen_mA = (model: ValveModel): number => valveCurrents(model, plate_V, grid_V, screen_V).screen_A * 1e3;
  const here = figures(fit.model);
  const top_mA = Math.max(...points.map((p) => p.plate_mA));
  const stretch =
    Math.hypot(1, (0.2 * top_mA) / Math.max(here.plate_mA, 1e-4 * top_mA)) * (isAmong(asked, kind, points) ? 1 : 3);
  const form = kind === "triode" ? FORM : PENTODE_FORM;
  const doubt = (figure: Figure, of: (model: ValveModel) => number): number =>
    Math.hypot(
      fit.doubtOf(of),
      form[figure] * stretch * Math.abs(of(fit.model)),
      figure === "screen_mA" ? 2 * fit.screen_rms_mA : 0,
    );
  const plateDoubt = doubt("plate_mA", (m) => figures(m).plate_mA);
  const screen = kind === "pentode" ? { screen_mA: screen_mA(fit.model) } : {};
  const screenDoubt = kind === "pentode" ? { screen_mA: doubt("screen_mA", screen_mA) } : {};
  const place = { plate_V, grid_V, ...(screen_V === undefined ? {} : { screen_V }) };

  if (here.plate_mA < CUT_OFF_mA || !(here.rp_ohm > 0 && here.rp_ohm < 1e12) || !(here.gm_mS > 0)) {
    return {
      ...place,
      plate_mA: here.plate_mA,
      ...screen,
      gm_mS: here.gm_mS,
      doubt: { plate_mA: plateDoubt, ...screenDoubt },
      state: "undecided",
      reason:
        "the valve carries no current here, or the plate has no hold on it: rp and mu cannot be told; ask at a point with plate current",
    };
  }
  if (plateDoubt > here.plate_mA) {
    return {
      ...place,
      plate_mA: here.plate_mA,
      ...screen,
      gm_mS: here.gm_mS,
      doubt: { plate_mA: plateDoubt, ...screenDoubt, gm_mS: doubt("gm_mS", (m) => figures(m).gm_mS) },
      state: "undecided",
      reason:
        "the points leave the current here open by more than itself, so nothing that follows from it can be told; read points nearer to this one, with plate current",
    };
  }
  return {
    ...place,
    ...here,
    ...screen,
    doubt: {
      plate_mA: plateDoubt,
      ...screenDoubt,
      gm_mS: doubt("gm_mS", (m) => figures(m).gm_mS),
      // Through the logarithm, because rp and mu are ratios that a far belief can throw by decades.
      rp_ohm:
        here.rp_ohm *
        Math.hypot(
          fit.doubtOf((m) => Math.log(figures(m).rp_ohm)),
          form.rp_ohm * stretch,
        ),
      mu:
        here.mu *
        Math.hypot(
          fit.doubtOf((m) => Math.log(figures(m).mu)),
          form.mu * stretch,
        ),
    },
  };
}

/** Within the span of the points in every voltage, a tenth of the span over. */
function isAmong(asked: AskedPoint, kind: ValveModel["kind"], points: readonly CurvePoint[]): boolean {
  const spans = (kind === "triode" ? ["plate_V", "grid_V"] : ["plate_V", "grid_V", "screen_V"]) as (keyof AskedPoint)[];
  return spans.every((volts) => {
    const all = points.map((p) => p[volts] ?? 0);
    const low = Math.min(...all);
    const high = Math.max(...all);
    const over = 0.1 * (high - low) + 1e-9;
    const value = asked[volts] ?? 0;
    return value >= low - over && value <= high + over;
  });
}

function curveDoubt(fit: FittedCurve, points: readonly CurvePoint[]): { current_pct: number; mu_pct: number } {
  const top_mA = Math.max(...points.map((p) => p.plate_mA));
  const telling = points.filter((p) => p.plate_mA >= 0.1 * top_mA);
  const meanLog = (model: ValveModel) =>
    telling.reduce(
      (sum, p) => sum + Math.log(Math.max(valveCurrents(model, p.plate_V, p.grid_V, p.screen_V).plate_A, 1e-15)),
      0,
    ) / telling.length;
  return {
    current_pct: Math.min(100, 100 * Math.hypot(fit.doubtOf(meanLog), FORM.plate_mA)),
    mu_pct: Math.min(
      100,
      100 *
        Math.hypot(
          fit.doubtOf((m) => Math.log(m.mu)),
          FORM.mu,
        ),
    ),
  };
}

function parameterDoubts(fit: FittedCurve): Record<string, number> {
  const doubts: Record<string, number> = {};
  for (const [name, value] of Object.entries(fit.model)) {
    if (typeof value === "number" && name !== "knee_V") {
      doubts[name] = fit.doubtOf((m) => (m as unknown as Record<string, number>)[name]!);
    }
  }
  if (fit.model.kind === "pentode") {
    for (const name of ["far", "knee_V", "kneePerDrive", "power", "tail"] as const) {
      doubts[`screen.${name}`] = fit.doubtOf((m) => (m.kind === "pentode" ? m.screen[name] : 0));
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
  "ln softness_V": "the softness of cut-off",
  "ln softness": "how cut-off softens with voltage",
  "ln plateMu": "the plate's hold (rp)",
  "ln far": "the screen's share",
  "ln knee_V": "the knee",
  kneePerDrive: "how the knee moves with current",
  power: "the knee's sharpness",
  tail: "the knee's tail",
};
const inWords = (name: string): string => WORDS[name] ?? name;
