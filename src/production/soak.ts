import { BadInput, quote } from "../maths/badInput.ts";

export interface Piece {
  /** Until it failed, or until it was last seen good. */
  readonly hours: number;
  readonly failed: boolean;
}

export interface SoakCosts {
  /** One piece soaking for one hour. */
  readonly hour_cents: number;
  /** One fault that gets past the soak. */
  readonly escape_cents: number;
}

export interface SurvivalPoint {
  readonly hours: number;
  readonly atRisk: number;
  readonly failures: number;
  /** Share still good just after these hours. */
  readonly survival: number;
  readonly low: number;
  readonly high: number;
}

export interface Soak {
  readonly curve: readonly SurvivalPoint[];
  /** First hour with survival at or under one half. */
  readonly median_h?: number;
  /** Length of soak that saves most. */
  readonly hoursThatPay?: number;
  /** What a soak of that length saves, a piece. */
  readonly saving_cents?: number;
}

const z975 = 1.959963984540054;

/**
 * Survival of pieces in a soak, whether they failed or were taken out good.
 *
 *     S(t) = ∏ (1 − dᵢ/nᵢ) over failure hours tᵢ ≤ t                          product limit
 *     v(t) = Σ dᵢ/(nᵢ(nᵢ − dᵢ)) / ln²S                                        Greenwood, on the log-log scale
 *     S^exp(±1.96·√v)                                                         95 % interval
 *     saving(t) = escape·(1 − S(t)) − hour·∫₀ᵗ S                              greatest at `hoursThatPay`
 *
 * @returns a point at every hour with a failure; a piece taken out at that hour counts as at risk still
 * @throws BadInput  no pieces, or hours that are negative or not finite
 * @remarks Where the last pieces all fail, S is 0 and has no interval of its own: from 0 to the bound before it.
 * @source  E. L. Kaplan and P. Meier, J. American Statistical Association 53 (1958) 457-481; J. D. Kalbfleisch and
 *   R. L. Prentice, The Statistical Analysis of Failure Time Data, section 1.4 (both from memory)
 */
export function soak(pieces: readonly Piece[], costs?: SoakCosts): Soak {
  if (pieces.length === 0) throw new BadInput("pieces", "no pieces", "at least one", "give the pieces of past soaks");
  pieces.forEach(({ hours }, i) => {
    if (!(hours >= 0 && hours < Number.POSITIVE_INFINITY)) {
      throw new BadInput(`pieces[${i}].hours`, quote(hours), "0 or more", "give the hours soaked");
    }
  });
  const curve = survivalCurve(pieces);
  const median_h = curve.find(({ survival }) => survival <= 0.5)?.hours;
  return {
    curve,
    ...(median_h === undefined ? {} : { median_h }),
    ...(costs ? mostSaved(curve, costs) : {}),
  };
}

function survivalCurve(pieces: readonly Piece[]): SurvivalPoint[] {
  const sorted = [...pieces].sort((a, b) => a.hours - b.hours);
  const curve: SurvivalPoint[] = [];
  let [survival, greenwood, high] = [1, 0, 1];
  for (let i = 0; i < sorted.length; ) {
    const { hours } = sorted[i]!;
    const atRisk = sorted.length - i;
    let failures = 0;
    for (; i < sorted.length && sorted[i]!.hours === hours; i++) if (sorted[i]!.failed) failures++;
    if (failures === 0) continue;
    survival *= (atRisk - failures) / atRisk;
    greenwood += failures / (atRisk * (atRisk - failures));
    const interval = survival > 0 ? logLog(survival, greenwood) : { low: 0, high };
    high = interval.high;
    curve.push({ hours, atRisk, failures, survival, ...interval });
  }
  return curve;
}

function logLog(survival: number, greenwood: number): { low: number; high: number } {
  const reach = (z975 * Math.sqrt(greenwood)) / Math.abs(Math.log(survival));
  return { low: survival ** Math.exp(reach), high: survival ** Math.exp(-reach) };
}

/** Between failures a soak only costs, so it ends best just after one, or never begins. */
function mostSaved(curve: readonly SurvivalPoint[], { hour_cents, escape_cents }: SoakCosts) {
  let best = { hoursThatPay: 0, saving_cents: 0 };
  let [soaked_h, before] = [0, { hours: 0, survival: 1 }];
  for (const point of curve) {
    soaked_h += before.survival * (point.hours - before.hours);
    const saving_cents = escape_cents * (1 - point.survival) - hour_cents * soaked_h;
    if (saving_cents > best.saving_cents) best = { hoursThatPay: point.hours, saving_cents };
    before = point;
  }
  return best;
}
