import { BadInput, quote } from "../maths/badInput.ts";
import { firstWhere } from "../maths/firstWhere.ts";
import { type Random, randomStream } from "../maths/random.ts";

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

/** A saving a piece, with its 95 % interval from curves as likely; `undecided` where it holds 0. */
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
  const hours = Float64Array.of(0, ...curve.map((point) => point.hours));
  const savings = savedAt(curve, hours, costs);
  const most = savings.indexOf(savings.reduce((a, b) => Math.max(a, b)));
  const best = { hoursThatPay: hours[most]!, saving_cents: savings[most]! };
  const drawn = drawnCurves(pieces, coarsely(curve));
  const step = Math.ceil(hours.length / mostChoices);
  const choices = hours.filter((_, i) => i % step === most % step);
  const against = (other_h: number) => {
    const over = (of: Course) => {
      const other = savedAt(of, Float64Array.of(other_h), costs)[0]!;
      return savedAt(of, choices, costs).map((saving) => saving - other);
    };
    return savedOver(choices, choices.indexOf(best.hoursThatPay), over(curve), drawn.map(over));
  };
  return {
    ...best,
    againstNone: against(0),
    ...(today_h === undefined ? {} : { againstToday: against(today_h) }),
  };
}

type Course = readonly Pick<SurvivalPoint, "hours" | "survival">[];

/** What a soak of so many hours saves a piece, for each of several rising lengths. */
function savedAt(curve: Course, lengths_h: Float64Array, { hour_cents, escape_cents }: SoakCosts): Float64Array {
  let [soaked_h, at_h, survival, next] = [0, 0, 1, 0];
  return lengths_h.map((until_h) => {
    for (let point = curve[next]; point && point.hours <= until_h; point = curve[++next]) {
      soaked_h += survival * (point.hours - at_h);
      [at_h, survival] = [point.hours, point.survival];
    }
    return escape_cents * (1 - survival) - hour_cents * (soaked_h + survival * (until_h - at_h));
  });
}

/** Of more failure hours, neighbours are drawn as one: their doubts together are what counts. */
const mostDrawnHours = 2000;

function coarsely(curve: readonly SurvivalPoint[]): readonly SurvivalPoint[] {
  const size = Math.ceil(curve.length / mostDrawnHours);
  return curve.flatMap((first, i) => {
    if (i % size > 0) return [];
    const group = curve.slice(i, i + size);
    return [{ ...first, hours: group.at(-1)!.hours, failures: group.reduce((sum, { failures }) => sum + failures, 0) }];
  });
}

/** Hours that might have been chosen; of more, neighbours save as good as the same. */
const mostChoices = 500;
/** Enough for a 95 % interval, fewer where there are many failures. */
const mostDraws = 1000;
const mostDrawn = 2_000_000;
/** Failures guessed for each doubling of the hours, so that a stretch in which nothing failed yet is not taken for safe. */
const guessed = 0.35;
/** Doublings before the last hour watched that a guess is made for. */
const doublings = 7;

/**
 * Curves as likely as the pieces leave them: at each hour with failures the share that fails is drawn anew, and between
 * them a failure that was not seen may lie.
 *
 *     at a failure hour  Beta(dᵢ, nᵢ − dᵢ)
 *     in between         Gamma(guessed·log₂ of the stretch)/n, at an hour drawn even in the logarithm
 *
 * @source  beta process with a fixed base: N. L. Hjort, Annals of Statistics 18 (1990) 1259-1294 (from memory); the base
 *   of a third of a failure for each doubling is ours, held against fresh pieces in soak.test.ts
 */
function drawnCurves(pieces: readonly Piece[], curve: readonly SurvivalPoint[]): readonly Course[] {
  const chance = randomStream("soak");
  const hours = Float64Array.from(pieces, (piece) => piece.hours).sort();
  const last = hours.at(-1)!;
  const first = last / 2 ** doublings;
  const edges = [first, ...curve.map((point) => point.hours).filter((h) => h > first && h < last), last];
  const stretches = edges.slice(1).flatMap((to, i) => {
    const from = edges[i]!;
    return to > from ? [{ from, to, shape: guessed * Math.log2(to / from) }] : [];
  });
  const draws = Math.max(200, Math.min(mostDraws, Math.floor(mostDrawn / (curve.length + 10))));
  return Array.from({ length: draws }, () => {
    const jumps = curve.map(({ hours: at, atRisk, failures }) => {
      const lost = gamma(failures, chance);
      const kept = failures < atRisk ? gamma(atRisk - failures, chance) : 0;
      return { hours: at, share: lost / (lost + kept) };
    });
    for (const { from, to, shape } of stretches) {
      const at = from * (to / from) ** chance.uniform();
      jumps.push({ hours: at, share: Math.min(1, gamma(shape, chance) / atRiskAt(hours, at)) });
    }
    let survival = 1;
    return jumps
      .sort((one, other) => one.hours - other.hours)
      .map(({ hours: at, share }) => {
        survival *= 1 - share;
        return { hours: at, survival };
      });
  });
}

function atRiskAt(sorted: Float64Array, at: number): number {
  return Math.max(1, sorted.length - firstWhere(0, sorted.length, (i) => sorted[i]! >= at));
}

/**
 * A draw of the gamma distribution of scale 1.
 *
 * @source  G. Marsaglia and W. W. Tsang, ACM Transactions on Mathematical Software 26 (2000) 363-372 (from memory)
 */
function gamma(shape: number, chance: Random): number {
  if (shape < 1) return gamma(shape + 1, chance) * chance.uniform() ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = chance.normal(0, 1);
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(1 - chance.uniform()) < x ** 2 / 2 + d - d * v + d * Math.log(v)) return d * v;
  }
}

/**
 * The saving at the chosen hours with its interval.
 *
 * The hours were chosen because these pieces made them look best, so they look better than they are, and never worse: the
 * lower end must hold for whichever hours had been chosen. It lies so deep that in 97.5 % of the draws no choice's saving
 * lies deeper among its own.
 *
 * @param hours  to choose from
 * @param chosen  place of the chosen ones among them
 * @param drawn  a row for each likely curve, with the saving at each of `hours`
 * @source  the step of simultaneous bands by ranks: A. C. Davison and D. V. Hinkley, Bootstrap Methods and their
 *   Application (1997) section 4.2.4 (from memory); that only the lower end needs it was counted in docs/accuracy.md
 */
function savedOver(hours: Float64Array, chosen: number, value: Float64Array, drawn: readonly Float64Array[]): Saved {
  const n = drawn.length;
  const deepest = new Float64Array(n).fill(n);
  for (let k = 0; k < hours.length; k++) {
    const rising = drawn.map((_, i) => i).sort((a, b) => drawn[a]![k]! - drawn[b]![k]!);
    for (const [place, i] of rising.entries()) deepest[i] = Math.min(deepest[i]!, place);
  }
  const depth = deepest.sort()[Math.floor(0.025 * n)]!;
  const sorted = Float64Array.from(drawn, (row) => row[chosen]!).sort();
  const [low, high] = [sorted[depth]!, sorted[Math.ceil(0.975 * n) - 1]!];
  return {
    hours: hours[chosen]!,
    saving_cents: Math.round(value[chosen]!),
    low_cents: Math.round(low),
    high_cents: Math.round(high),
    state: low > 0 ? "saves" : high < 0 ? "costs" : "undecided",
  };
}
