import { BadInput, quote } from "../maths/badInput.ts";
import { randomStream } from "../maths/random.ts";

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
  /** Hours soaked today, to compare with. */
  readonly today_h?: number;
}

/** A saving a piece, with its 95 % interval from pieces drawn anew; `undecided` where it holds 0. */
export interface Saved {
  readonly hours: number;
  readonly saving_cents: number;
  readonly low_cents: number;
  readonly high_cents: number;
  readonly state: "saves" | "costs" | "undecided";
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
  /** That saving against no soak at all, with its interval. */
  readonly againstNone?: Saved;
  /** And against today's length. */
  readonly againstToday?: Saved;
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
    ...(costs ? mostSaved(pieces, curve, costs) : {}),
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
function mostSaved(pieces: readonly Piece[], curve: readonly SurvivalPoint[], costs: SoakCosts) {
  const { today_h } = costs;
  if (today_h !== undefined && !(today_h >= 0 && today_h < Number.POSITIVE_INFINITY)) {
    throw new BadInput("costs.today_h", quote(today_h), "0 or more", "give the hours soaked today");
  }
  let best = { hoursThatPay: 0, saving_cents: 0 };
  for (const { hours } of curve) {
    const saving_cents = savedBy(curve, hours, costs);
    if (saving_cents > best.saving_cents) best = { hoursThatPay: hours, saving_cents };
  }
  const { hoursThatPay } = best;
  const against = (other_h: number) =>
    resampled(pieces, hoursThatPay, (of) => savedBy(of, hoursThatPay, costs) - savedBy(of, other_h, costs));
  return {
    ...best,
    againstNone: against(0),
    ...(today_h === undefined ? {} : { againstToday: against(today_h) }),
  };
}

/** What a soak of so many hours saves a piece. */
function savedBy(curve: readonly SurvivalPoint[], until_h: number, { hour_cents, escape_cents }: SoakCosts): number {
  let [soaked_h, at_h, survival] = [0, 0, 1];
  for (const point of curve) {
    if (point.hours > until_h) break;
    soaked_h += survival * (point.hours - at_h);
    [at_h, survival] = [point.hours, point.survival];
  }
  soaked_h += survival * (until_h - at_h);
  return escape_cents * (1 - survival) - hour_cents * soaked_h;
}

/** Enough for a 95 % interval, fewer where there are many pieces. */
const mostDraws = 1000;
const mostDrawn = 3_000_000;

/**
 * Pieces drawn anew with replacement, their curve found again each time.
 *
 * @source  B. Efron, Censored data and the bootstrap, J. American Statistical Association 76 (1981) 312-319 (from memory)
 */
function resampled(
  pieces: readonly Piece[],
  hours: number,
  saving: (curve: readonly SurvivalPoint[]) => number,
): Saved {
  const chance = randomStream("soak");
  const draws = Math.max(100, Math.min(mostDraws, Math.floor(mostDrawn / pieces.length)));
  const drawn = Float64Array.from({ length: draws }, () =>
    saving(survivalCurve(pieces.map(() => pieces[chance.integer(pieces.length)]!))),
  ).sort();
  const [low, high] = [drawn[Math.floor(0.025 * draws)]!, drawn[Math.ceil(0.975 * draws) - 1]!];
  return {
    hours,
    saving_cents: Math.round(saving(survivalCurve(pieces))),
    low_cents: Math.round(low),
    high_cents: Math.round(high),
    state: low > 0 ? "saves" : high < 0 ? "costs" : "undecided",
  };
}
