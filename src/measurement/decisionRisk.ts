import { BadInput, quote } from "../maths/badInput.ts";
import { chiSquaredCdf, normalCdf } from "../maths/statistics/index.ts";

/** Pieces as they are made, and how they are read and judged. */
export interface Inspection {
  /** Of true values over many pieces. */
  readonly mean: number;
  readonly sd: number;
  /** How true values spread: normal if left out; gamma for what can't go below zero, such as a leakage or a runout. */
  readonly shape?: "normal" | "gamma";
  /** 95 % half-width of one reading. */
  readonly doubt: number;
  readonly low?: number;
  readonly high?: number;
  /** How far inside a limit a reading must lie to be accepted; negative accepts beyond it. */
  readonly guard: number;
}

export interface DecisionRisk {
  /** Share of pieces that are outside the limits. */
  readonly outside: number;
  /** Share of all pieces that are outside and accepted: the customer's risk. */
  readonly falseAccept: number;
  /** Share of all pieces that are inside and not accepted: the workshop's risk. */
  readonly falseReject: number;
  readonly accepted: number;
}

/**
 * What a rule of acceptance lets through and turns away, over many pieces.
 *
 *     accepted(x)  = Φ((high − guard − x)/u) − Φ((low + guard − x)/u),   u = doubt/1.96
 *     falseAccept  = ∫ outside p(x)·accepted(x) dx,   falseReject = ∫ inside p(x)·(1 − accepted(x)) dx
 *     p: normal, or gamma with exponent (mean/sd)² and scale sd²/mean
 *
 * @throws BadInput  no limit, limits the wrong way round, no spread of pieces, a gamma whose mean is not above 0
 * @remarks Readings are taken as normal about the true value.
 * @source  JCGM 106:2012, clause 9.5, global risks (from memory; its example 9.5.4 read as worked by a public library)
 */
export function decisionRisk(inspection: Inspection): DecisionRisk {
  requireSensible(inspection);
  const { mean, sd, doubt, guard } = inspection;
  const u = doubt / 1.96;
  const low = inspection.low ?? Number.NEGATIVE_INFINITY;
  const high = inspection.high ?? Number.POSITIVE_INFINITY;
  const [from, to] = [low + guard, high - guard];
  const acceptedAt = (x: number) =>
    from > to ? 0 : u === 0 ? Number(x >= from && x <= to) : normalCdf((to - x) / u) - normalCdf((from - x) / u);
  const pieces = inspection.shape === "gamma" ? gammaPieces(mean, sd) : normalPieces(mean, sd);
  const corners = [low, high, from, to].flatMap((x) => [x - 8 * u, x, x + 8 * u]).concat(pieces.corners);
  const integral = (a: number, b: number, of: (x: number) => number) =>
    integrate(Math.max(a, pieces.from), Math.min(b, pieces.to), corners, (x) => pieces.density(x) * of(x));
  const outside = pieces.below(low) + pieces.above(high);
  const falseAccept =
    integral(Number.NEGATIVE_INFINITY, low, acceptedAt) + integral(high, Number.POSITIVE_INFINITY, acceptedAt);
  const rightlyAccepted = integral(low, high, acceptedAt);
  return {
    outside,
    falseAccept,
    falseReject: Math.max(0, 1 - outside - rightlyAccepted),
    accepted: Math.min(1, falseAccept + rightlyAccepted),
  };
}

/** How true values spread: what lies below and above a limit, and where all but nothing lies. */
interface Pieces {
  readonly density: (x: number) => number;
  readonly below: (limit: number) => number;
  readonly above: (limit: number) => number;
  readonly from: number;
  readonly to: number;
  /** Between which the density bends little. */
  readonly corners: readonly number[];
}

function normalPieces(mean: number, sd: number): Pieces {
  return {
    density: (x) => Math.exp(-(((x - mean) / sd) ** 2) / 2) / (sd * Math.sqrt(2 * Math.PI)),
    below: (limit) => normalCdf((limit - mean) / sd),
    above: (limit) => normalCdf((mean - limit) / sd),
    from: mean - 9 * sd,
    to: mean + 9 * sd,
    corners: [mean],
  };
}

/** The density beside that of the mean, made whole by the same quadrature; shares by chi-squared of twice the exponent. */
function gammaPieces(mean: number, sd: number): Pieces {
  const exponent = (mean / sd) ** 2;
  const scale = sd ** 2 / mean;
  const share = (x: number) => chiSquaredCdf((2 * x) / scale, 2 * exponent);
  const raw = (x: number) => (exponent - 1) * Math.log(x) - x / scale;
  const unscaled = (x: number) => Math.exp(raw(x) - raw(mean));
  const [from, to] = [Math.max(0, mean - 30 * sd), mean + 30 * sd];
  // Near 0 it rises as a power of x, which no polynomial follows but in short steps.
  const corners = [-4, 0, 4].map((k) => mean + k * sd).concat([1e-6, 1e-5, 1e-4, 1e-3, 0.01, 0.1].map((k) => k * mean));
  const whole = integrate(from, to, corners, unscaled);
  return { density: (x) => unscaled(x) / whole, below: share, above: (limit) => 1 - share(limit), from, to, corners };
}

/**
 * The least guard band that keeps the share of pieces falsely accepted at or under what is wanted.
 *
 * @returns in the unit of the limits, 0 or more; between two limits half their distance at most, where nothing is accepted
 * @throws BadInput  a share that is none, or as `decisionRisk`
 */
export function guardFor(inspection: Omit<Inspection, "guard">, falseAccept: number): number {
  if (!(falseAccept > 0 && falseAccept < 1)) {
    throw new BadInput("falseAccept", quote(falseAccept), "above 0 and below 1", "give a share, 0.001 for 1 in 1000");
  }
  const risk = (guard: number) => decisionRisk({ ...inspection, guard }).falseAccept;
  if (risk(0) <= falseAccept) return 0;
  // So far inside a limit that no reading of a piece beyond it gets there.
  let [small, large] = [0, 12 * inspection.sd + 8 * inspection.doubt];
  for (let i = 0; i < 60; i++) {
    const middle = (small + large) / 2;
    if (risk(middle) <= falseAccept) large = middle;
    else small = middle;
  }
  return large;
}

/** Gauss's rule of seven points on pieces between the corners, each cut finely. */
function integrate(from: number, to: number, corners: readonly number[], f: (x: number) => number): number {
  if (!(to > from)) return 0;
  const inside = corners.filter((x) => x > from && x < to).sort((a, b) => a - b);
  const edges = [from, ...inside, to];
  let sum = 0;
  for (let i = 1; i < edges.length; i++) {
    const step = (edges[i]! - edges[i - 1]!) / pieces;
    for (let k = 0; k < pieces; k++) {
      const middle = edges[i - 1]! + (k + 0.5) * step;
      for (const [node, weight] of rule) {
        const off = (node * step) / 2;
        const both = node === 0 ? f(middle) : f(middle + off) + f(middle - off);
        sum += (step / 2) * weight * both;
      }
    }
  }
  return sum;
}

const pieces = 8;
/** Abscissae and weights of Gauss-Legendre with seven points, the positive half. */
const rule = [
  [0, 0.4179591836734694],
  [0.4058451513773972, 0.3818300505051189],
  [0.7415311855993945, 0.2797053914892766],
  [0.9491079123427585, 0.1294849661688697],
] as const;

function requireSensible({ mean, sd, shape, doubt, low, high, guard }: Inspection): void {
  if (shape === "gamma" && !(mean >= sd)) {
    throw new BadInput("mean", quote(mean), `at least sd, ${quote(sd)}, where values spread as a gamma`, "take normal");
  }
  for (const [name, value] of Object.entries({ mean, guard })) {
    if (!Number.isFinite(value)) throw new BadInput(name, quote(value), "a finite number", `give ${name} as a number`);
  }
  if (!(sd > 0 && sd < Number.POSITIVE_INFINITY)) {
    throw new BadInput("sd", quote(sd), "above 0", "give the spread of true values over many pieces");
  }
  if (!(doubt >= 0 && doubt < Number.POSITIVE_INFINITY)) {
    throw new BadInput("doubt", quote(doubt), "a 95 % half-width of 0 or more", "leave the sign off");
  }
  if (low === undefined && high === undefined) {
    throw new BadInput("high", "neither low nor high", "at least one limit", "give low, high or both");
  }
  if (low !== undefined && high !== undefined && low > high) {
    throw new BadInput("low", quote(low), `a limit at or below high, ${quote(high)}`, "exchange the two limits");
  }
}
