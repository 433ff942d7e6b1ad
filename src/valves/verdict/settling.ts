import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import type { Traced } from "./traced.ts";

/** A section's plate current in time, put right for the tester. */
export interface TimedCurrent {
  readonly time_h: number;
  readonly plate: Traced;
}

export interface Settling {
  /** `settled`: what is still to come is inside the limit by its doubt; `settling`: outside by its doubt. */
  readonly state: "settled" | "settling" | "undecided";
  /** Plate current expected in the end. */
  readonly final_mA: number;
  /** Change still to come after the last reading, in per cent of it. */
  readonly remaining_pct: number;
  readonly doubt: { readonly final_mA: number; readonly remaining_pct: number };
  /** Time on the readings' clock at which the next reading tells most; left out when settled. */
  readonly readAgain_h?: number;
  readonly reason: string;
}

const FEWEST = 3;
const MOST_FITTED = 40;
const PACES = 40;
/** Paces looked at, in spans of the readings. */
const FASTEST = 0.08;
const SLOWEST = 3;
/** How far valves usually move while they settle: one deviation, as a share of the current. */
const USUAL_MOVE = 0.1;
/** Lines that all together are less likely than this are left out. */
const HARDLY = 1e-3;
/** A tester that scatters less than this is not believed to. */
const LEAST_SCATTER = 1e-5;

/**
 * Where a section's current is going, from three or more readings after the heat run began.
 *
 *     I(t) = I_end + A·e^(−t/τ),   A about 0 ± 10 % of I,   τ from 0.08 to 3 spans of the readings, even in ln τ
 *
 * Every τ is weighed by how well its line meets the readings (Bayes' rule); the interval is that of all lines together,
 * so that readings which have not bent yet leave the end as open as it is. Readings share the tester's correction, and
 * that they do is counted.
 *
 * @param relative   95 % half-width of one reading, as a share of it
 * @param limit_pct  most that may still come for the section to count as settled
 * @returns undefined with fewer than three readings at different times, or without plate current
 * @source the exponential approach is common practice; weighing: Bayes' rule on a grid
 */
export function settlingOf(
  readings: readonly TimedCurrent[],
  relative: number,
  limit_pct: number,
): Settling | undefined {
  const sorted = [...readings].sort((a, b) => a.time_h - b.time_h).slice(-MOST_FITTED);
  const times = new Set(sorted.map((r) => r.time_h));
  const last = sorted.at(-1);
  if (times.size < FEWEST || last === undefined || sorted.some((r) => !(r.plate.value > 0))) return undefined;
  const span = last.time_h - sorted[0]!.time_h;
  const x = sorted.map((r) => (r.time_h - sorted[0]!.time_h) / span);
  const y = sorted.map((r) => r.plate.value);
  const mean = y.reduce((a, b) => a + b, 0) / y.length;
  const whiten = whitening(sorted, Math.max(relative / 1.96, LEAST_SCATTER));
  const [wy, wOne] = [whiten(y), whiten(y.map(() => 1))];
  const lines = Array.from({ length: PACES }, (_, i) => {
    const pace = FASTEST * (SLOWEST / FASTEST) ** (i / (PACES - 1));
    const fall = x.map((t) => Math.exp(-t / pace));
    return line(pace, wy, wOne, whiten(fall), USUAL_MOVE * mean, Math.exp(-1 / pace));
  });
  const best = Math.max(...lines.map((l) => l.log));
  const total = lines.reduce((sum, l) => sum + Math.exp(l.log - best), 0);
  const weighed = lines
    .map((l) => ({ ...l, weight: Math.exp(l.log - best) / total }))
    .filter((l) => l.weight > HARDLY / PACES);
  const end = interval(weighed.map((l) => ({ weight: l.weight, mean: l.end, sd: l.endSd })));
  const now_mA = last.plate.value;
  const rest = interval(
    weighed.map((l) => ({ weight: l.weight, mean: (-100 * l.rest) / now_mA, sd: (100 * l.restSd) / now_mA })),
  );
  const size = Math.abs(rest.middle);
  const state = size + rest.half <= limit_pct ? "settled" : size - rest.half > limit_pct ? "settling" : "undecided";
  const pace_h = span * Math.exp(weighed.reduce((sum, l) => sum + l.weight * Math.log(l.pace), 0));
  // Until half the limit is left, or until the bend has shown; never sooner than a quarter of the span so far.
  const wait_h =
    state === "settling" ? pace_h * Math.log(Math.max((2 * size) / limit_pct, 1.3)) : Math.max(pace_h, span / 2);
  const again_h = Number((last.time_h + Math.min(Math.max(wait_h, span / 4), 3 * span)).toPrecision(4));
  const stated = `${short(end.middle)} ± ${short(end.half)} mA expected in the end, ${signed(rest.middle)} ± ${short(rest.half)} % still to come, limit ${short(limit_pct)} %`;
  const after = short(again_h - last.time_h);
  return {
    state,
    final_mA: end.middle,
    remaining_pct: rest.middle,
    doubt: { final_mA: end.half, remaining_pct: rest.half },
    ...(state === "settled" ? {} : { readAgain_h: again_h }),
    reason:
      state === "settled"
        ? `${stated}: settled.`
        : state === "settling"
          ? `${stated}: not settled yet; read again after ${after} h more.`
          : `${stated}: the readings do not tell yet; read again after ${after} h more.`,
  };
}

interface Line {
  readonly pace: number;
  readonly log: number;
  readonly end: number;
  readonly endSd: number;
  /** A·e^(−t/τ) at the last reading. */
  readonly rest: number;
  readonly restSd: number;
}

/** The line of one pace by least squares on whitened readings, with the belief about A as one more reading. */
function line(
  pace: number,
  y: readonly number[],
  one: readonly number[],
  fall: readonly number[],
  usual_mA: number,
  left: number,
): Line {
  const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, v, i) => sum + v * b[i]!, 0);
  const [oo, of, ff] = [dot(one, one), dot(one, fall), dot(fall, fall) + usual_mA ** -2];
  const [oy, fy, yy] = [dot(one, y), dot(fall, y), dot(y, y)];
  const det = oo * ff - of * of;
  const end = (ff * oy - of * fy) / det;
  const move = (oo * fy - of * oy) / det;
  const misfit = yy - end * oy - move * fy;
  return {
    pace,
    log: -0.5 * misfit - 0.5 * Math.log(det) - Math.log(usual_mA),
    end,
    endSd: Math.sqrt(ff / det),
    rest: move * left,
    restSd: left * Math.sqrt(oo / det),
  };
}

/** Turns readings into ones that scatter alike and independently, by the Cholesky factor of their covariance. */
function whitening(readings: readonly TimedCurrent[], sd: number): (values: readonly number[]) => number[] {
  const n = readings.length;
  const covariance = readings.map((a) =>
    readings.map((b) => {
      let sum = 0;
      for (const [name, slope] of a.plate.slopes) sum += slope * (b.plate.slopes.get(name) ?? 0);
      return sum * sd * sd;
    }),
  );
  const factor = Array.from({ length: n }, () => new Float64Array(n));
  for (let i = 0; i < n; i++) {
    for (let k = 0; k <= i; k++) {
      let sum = covariance[i]![k]!;
      for (let j = 0; j < k; j++) sum -= factor[i]![j]! * factor[k]![j]!;
      factor[i]![k] = i === k ? Math.sqrt(Math.max(sum, 1e-12 * covariance[i]![i]!)) : sum / factor[k]![k]!;
    }
  }
  return (values) => {
    const out: number[] = [];
    for (let i = 0; i < n; i++) {
      let sum = values[i]!;
      for (let k = 0; k < i; k++) sum -= factor[i]![k]! * out[k]!;
      out.push(sum / factor[i]![i]!);
    }
    return out;
  };
}

/** Middle and half-width of the central 95 % of a mixture of normals. */
function interval(parts: readonly { readonly weight: number; readonly mean: number; readonly sd: number }[]) {
  const at = (share: number): number => {
    let low = Math.min(...parts.map((p) => p.mean - 9 * p.sd));
    let high = Math.max(...parts.map((p) => p.mean + 9 * p.sd));
    for (let i = 0; i < 36; i++) {
      const middle = (low + high) / 2;
      const below = parts.reduce((sum, p) => sum + p.weight * normalCdf((middle - p.mean) / p.sd, 0, 1), 0);
      if (below < share) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  const [low, high] = [at(0.025), at(0.975)];
  return { middle: (low + high) / 2, half: (high - low) / 2 };
}

const short = (x: number): string => String(Number(x.toPrecision(3)));
const signed = (x: number): string => `${x > 0 ? "+" : ""}${short(x)}`;
