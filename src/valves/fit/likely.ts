import { randomStream } from "../../maths/random.ts";
import type { ValveModel } from "../model.ts";
import { walk } from "./chain.ts";
import { type FormAt, formSurface } from "./form.ts";
import { type LikelyQuestion, oddsOf, UNKNOWN } from "./odds.ts";
import { toModel } from "./parameters.ts";

/** One of the curves that the readings and the beliefs leave likely. */
export interface LikelyCurve {
  readonly model: ValveModel;
  /** Weights of the form's functions by which the true current differs from the model's, as a share of it. */
  readonly plateForm: Float64Array;
  readonly screenForm: Float64Array;
}

export interface LikelyCurves {
  readonly curves: readonly LikelyCurve[];
  formAt(plate_V: number, grid_V: number, screen_V: number | undefined): FormAt;
}

const KEPT = 300;
/** Readings gone through in all; few readings are walked over longer. */
const WORK = 250_000;
const STEPS = { least: 4000, most: 20_000 } as const;

/**
 * Draws curves as likely as the readings and the beliefs leave them, by walking over parameters, scatter and the form's
 * size together (`odds.ts`, `chain.ts`). The draws are the same for the same question.
 */
export function likelyCurves(question: LikelyQuestion): LikelyCurves {
  const { kind, scale, parameters, beliefs, covariance, readings } = question;
  const count = parameters.length;
  const surface = formSurface(toModel(kind, parameters, scale), scale);
  const odds = oddsOf(question, surface);
  const unknown = [Math.log(question.sigma), UNKNOWN[1].centre, UNKNOWN[2].centre];
  const spread = Array.from({ length: count + UNKNOWN.length }, (_, a) => {
    const row = new Float64Array(count + UNKNOWN.length);
    if (a >= count) row[a] = (UNKNOWN[a - count]!.sd / 2) ** 2;
    else if (beliefs.each[a]!.high > beliefs.each[a]!.low) {
      for (let b = 0; b < count; b++) row[b] = covariance[a]?.[b] ?? (a === b ? beliefs.each[a]!.sd ** 2 : 0);
    }
    return row;
  });
  const random = randomStream("likely curves");
  const steps = Math.min(Math.max(Math.round(WORK / readings.length), STEPS.least), STEPS.most);
  const start = Float64Array.from([...parameters, ...unknown]);
  const places = walk(start, spread, odds.at, { steps, kept: KEPT, random });
  return {
    curves: places.map((x) => ({
      model: toModel(kind, x.subarray(0, count), scale),
      ...odds.surfaceAt(x, () => random.normal()),
    })),
    formAt: surface,
  };
}
