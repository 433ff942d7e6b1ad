import { type Diffusivity, type Face, surfaceOf, throughFace } from "./face.ts";

export type { Diffusivity, Face } from "./face.ts";

export interface Climate {
  readonly diffusivity: Diffusivity;
  readonly faces: readonly [Face, Face];
}

/** Cells through the thickness, fine at both faces; `size_m` and `centre_m` from the first face on. */
export interface Grid {
  readonly size_m: Float64Array;
  readonly centre_m: Float64Array;
  readonly thickness_m: number;
}

/** Odd, so that one cell's centre is mid-thickness. */
export const usualCells = 81;
const crowding = 2.1;

export function grid(thickness_m: number, cells = usualCells): Grid {
  const edge = (i: number) =>
    (thickness_m * (1 + Math.tanh(crowding * ((2 * i) / cells - 1)) / Math.tanh(crowding))) / 2;
  return {
    thickness_m,
    size_m: Float64Array.from({ length: cells }, (_, i) => edge(i + 1) - edge(i)),
    centre_m: Float64Array.from({ length: cells }, (_, i) => (edge(i + 1) + edge(i)) / 2),
  };
}

/** The first half of a slab whose halves are alike; mid-thickness is then a closed face. */
export function halfGrid(thickness_m: number, cells: number): Grid {
  const { size_m, centre_m } = grid(thickness_m, 2 * cells);
  return { thickness_m: thickness_m / 2, size_m: size_m.slice(0, cells), centre_m: centre_m.slice(0, cells) };
}

export function meanOf({ size_m, thickness_m }: Grid, moisture_pct: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < size_m.length; i++) sum += moisture_pct[i]! * size_m[i]!;
  return sum / thickness_m;
}

export function middleOf(moisture_pct: Float64Array): number {
  return moisture_pct[(moisture_pct.length - 1) / 2]!;
}

/** Moisture at a face: what an open face holds, or the level to which a closed one has levelled. */
export function faceValue(
  { size_m, centre_m }: Grid,
  moisture_pct: Float64Array,
  climate: Climate,
  side: 0 | 1,
): number {
  const face = climate.faces[side];
  const last = size_m.length - 1;
  const [near, next] = side === 0 ? [0, 1] : [last, last - 1];
  if (face.open) return surfaceOf(face, moisture_pct[near]!, size_m[near]! / 2, climate.diffusivity);
  const [a, b] = [size_m[near]! / 2, size_m[near]! / 2 + Math.abs(centre_m[next]! - centre_m[near]!)];
  return moisture_pct[near]! + ((moisture_pct[near]! - moisture_pct[next]!) * a * a) / (b * b - a * a);
}

/** A step just taken; between its ends moisture follows the cubic through both ends and their rates. */
export interface Step {
  /** Seconds from the beginning of the stretch to the end of this step. */
  readonly passed_s: number;
  readonly step_s: number;
  /** Mean moisture at the beginning and the end. */
  readonly from_pct: number;
  readonly to_pct: number;
  /** Mean moisture and profile at a share, 0 to 1, of the step. */
  meanAt(share: number): number;
  profileAt(share: number): Float64Array;
  /** Profile at the end, to be read at once: the next step overwrites it. */
  end(): Float64Array;
}

/** Error of one step that is let pass, percent of moisture in any cell. */
const tolerance_pct = 0.003;
/** Steps in one stretch at most: far more than any that makes sense takes. */
const mostSteps = 20_000;

/**
 * Lets time pass in one climate, in steps as long as accuracy allows.
 *
 *     ∂M/∂t = ∂/∂z(D(M)·∂M/∂z),   closed face: no flow,   open face: −D·∂M/∂n = S·(M − EMC)
 *
 * Finite volumes, with the flow between two cells the difference of ∫D·dM (a steady flow is carried exactly); in time a
 * linearly implicit method of order four with six stages that damps stiff parts.
 *
 * @param moisture_pct  changed in place
 * @param afterStep  told each step; says whether to stop there
 * @param first_s  step to try first where the same climate goes on; left out, one short enough for a new one
 * @returns seconds passed (all, or up to where it was stopped), and the step to go on with
 * @source  E. Hairer and G. Wanner, Solving Ordinary Differential Equations II, section IV.7, RODAS (coefficients from
 *   memory; the tests hold the order and the series solutions)
 */
export function pass(
  slab: Grid,
  moisture_pct: Float64Array,
  duration_s: number,
  climate: Climate,
  afterStep?: (step: Step) => boolean,
  first_s?: number,
): { readonly passed_s: number; readonly step_s: number } {
  const bench = benchOf(slab.size_m.length);
  const { rate, next, nextRate } = bench;
  const smallest_m = slab.size_m[0]!;
  const { base_m2_per_s, slope_per_pct } = climate.diffusivity;
  const fastest = base_m2_per_s * Math.exp(slope_per_pct * largest(moisture_pct));
  let step_s = first_s ?? smallest_m ** 2 / fastest;
  const shortest_s = (0.01 * smallest_m ** 2) / fastest;
  let passed_s = 0;
  rates(slab, climate, moisture_pct, rate);
  for (let count = 0; passed_s < duration_s && count < mostSteps; count++) {
    const left_s = duration_s - passed_s;
    const taken_s = Math.min(step_s, left_s);
    const error_pct = rosenbrock(slab, climate, moisture_pct, rate, taken_s, next);
    const ease = 0.9 * (tolerance_pct / Math.max(error_pct, 1e-12)) ** 0.25;
    if (error_pct > tolerance_pct && taken_s > shortest_s) {
      step_s = taken_s * Math.max(0.1, Math.min(0.9, ease));
      continue;
    }
    passed_s = taken_s === left_s ? duration_s : passed_s + taken_s;
    rates(slab, climate, next, nextRate);
    const isStopped = afterStep?.(stepBetween(slab, moisture_pct, rate, next, nextRate, taken_s, passed_s)) ?? false;
    moisture_pct.set(next);
    rate.set(nextRate);
    const onward_s = taken_s * Math.min(5, Math.max(0.3, ease));
    step_s = taken_s < step_s ? Math.max(step_s, onward_s) : onward_s;
    if (isStopped) break;
  }
  return { passed_s, step_s };
}

function stepBetween(
  slab: Grid,
  from: Float64Array,
  fromRate: Float64Array,
  to: Float64Array,
  toRate: Float64Array,
  step_s: number,
  passed_s: number,
): Step {
  const [a, b] = [meanOf(slab, from), meanOf(slab, to)];
  let rateMeans: readonly [number, number] | undefined;
  return {
    passed_s,
    step_s,
    from_pct: a,
    to_pct: b,
    meanAt(share) {
      rateMeans ??= [step_s * meanOf(slab, fromRate), step_s * meanOf(slab, toRate)];
      return cubic(share, a, b, rateMeans[0], rateMeans[1]);
    },
    end: () => to,
    profileAt(share) {
      return from.map((value, i) => cubic(share, value, to[i]!, step_s * fromRate[i]!, step_s * toRate[i]!));
    },
  };
}

/** Hermite's cubic through both ends with their slopes. */
function cubic(x: number, a: number, b: number, slopeA: number, slopeB: number): number {
  const y = 1 - x;
  return a * y * y * (1 + 2 * x) + b * x * x * (1 + 2 * y) + x * y * (y * slopeA - x * slopeB);
}

function largest(values: Float64Array): number {
  let most = values[0]!;
  for (let i = 1; i < values.length; i++) if (values[i]! > most) most = values[i]!;
  return most;
}

/** Arrays that a step works in, kept from step to step. */
interface Bench {
  readonly flux: Float64Array;
  readonly rate: Float64Array;
  readonly next: Float64Array;
  readonly nextRate: Float64Array;
  readonly at: Float64Array;
  readonly lower: Float64Array;
  readonly pivot: Float64Array;
  readonly upper: Float64Array;
  readonly k: readonly Float64Array[];
}

const benches = new Map<number, Bench>();

function benchOf(cells: number): Bench {
  const known = benches.get(cells);
  if (known) return known;
  const array = () => new Float64Array(cells);
  const made: Bench = {
    flux: array(),
    rate: array(),
    next: array(),
    nextRate: array(),
    at: array(),
    lower: array(),
    pivot: array(),
    upper: array(),
    k: Array.from({ length: 6 }, array),
  };
  benches.set(cells, made);
  return made;
}

/** dM/dt of every cell. */
function rates({ size_m, centre_m }: Grid, { diffusivity, faces }: Climate, m: Float64Array, to: Float64Array): void {
  const { flux: potential } = benchOf(m.length);
  const last = m.length - 1;
  potentials(diffusivity, m, potential);
  let flow = throughFace(faces[0], m[0]!, potential[0]!, size_m[0]! / 2, diffusivity).flow;
  for (let i = 0; i < last; i++) {
    const onward = (potential[i]! - potential[i + 1]!) / (centre_m[i + 1]! - centre_m[i]!);
    to[i] = (flow - onward) / size_m[i]!;
    flow = onward;
  }
  const inward = throughFace(faces[1], m[last]!, potential[last]!, size_m[last]! / 2, diffusivity).flow;
  to[last] = (flow + inward) / size_m[last]!;
}

/** ∫D·dM up to each moisture. */
function potentials({ base_m2_per_s, slope_per_pct }: Diffusivity, m: Float64Array, to: Float64Array): void {
  if (slope_per_pct === 0) {
    for (let i = 0; i < m.length; i++) to[i] = base_m2_per_s * m[i]!;
    return;
  }
  const scale = base_m2_per_s / slope_per_pct;
  for (let i = 0; i < m.length; i++) to[i] = scale * Math.exp(slope_per_pct * m[i]!);
}

const gamma = 0.25;
const A = [
  [],
  [1.544],
  [0.9466785280815826, 0.2557011698983284],
  [3.314825187068521, 2.896124015972201, 0.9986419139977817],
  [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895],
] as const satisfies readonly (readonly number[])[];
const C = [
  [],
  [-5.6688],
  [-2.430093356833875, -0.2063599157091915],
  [-0.1073529058151375, -9.594562251023355, -20.47028614809616],
  [7.496443313967647, -10.24680431464352, -33.99990352819905, 11.7089089320616],
  [8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054],
] as const satisfies readonly (readonly number[])[];

/**
 * One step: (1/(γh) − J)·kᵢ = F(M + Σ aᵢⱼkⱼ) + Σ cᵢⱼkⱼ/h.
 *
 * @returns the largest difference to the embedded method of order three, percent of moisture
 */
function rosenbrock(
  slab: Grid,
  climate: Climate,
  m: Float64Array,
  rate: Float64Array,
  h: number,
  to: Float64Array,
): number {
  const bench = benchOf(m.length);
  const { k, at } = bench;
  const cells = m.length;
  factor(slab, climate, m, 1 / (gamma * h), bench);
  for (let stage = 0; stage < 6; stage++) {
    const into = k[stage]!;
    if (stage === 0) into.set(rate);
    else {
      if (stage < 5) {
        at.set(m);
        const weights = A[stage]!;
        for (let j = 0; j < stage; j++) {
          const [weight, one] = [weights[j]!, k[j]!];
          for (let i = 0; i < cells; i++) at[i]! += weight * one[i]!;
        }
      } else {
        const one = k[4]!;
        for (let i = 0; i < cells; i++) at[i]! += one[i]!;
      }
      rates(slab, climate, at, into);
      const weights = C[stage]!;
      for (let j = 0; j < stage; j++) {
        const [weight, one] = [weights[j]! / h, k[j]!];
        for (let i = 0; i < cells; i++) into[i]! += weight * one[i]!;
      }
    }
    solve(bench, into);
  }
  const end = k[5]!;
  let differ = 0;
  for (let i = 0; i < cells; i++) {
    to[i] = at[i]! + end[i]!;
    const error = Math.abs(end[i]!);
    if (!(error <= differ)) differ = error;
  }
  return Number.isNaN(differ) ? Number.POSITIVE_INFINITY : differ;
}

/** Splits (shift − J) into its two triangles; D of every cell stands in `flux` meanwhile. */
function factor({ size_m, centre_m }: Grid, climate: Climate, m: Float64Array, shift: number, bench: Bench): void {
  const { flux: D, lower, pivot, upper } = bench;
  const { diffusivity, faces } = climate;
  const { base_m2_per_s, slope_per_pct } = diffusivity;
  const last = m.length - 1;
  for (let i = 0; i <= last; i++)
    D[i] = slope_per_pct === 0 ? base_m2_per_s : base_m2_per_s * Math.exp(slope_per_pct * m[i]!);
  const potential = (i: number) => (slope_per_pct === 0 ? base_m2_per_s * m[i]! : D[i]! / slope_per_pct);
  const first = throughFace(faces[0], m[0]!, potential(0), size_m[0]! / 2, diffusivity);
  const end = throughFace(faces[1], m[last]!, potential(last), size_m[last]! / 2, diffusivity);
  let behind = first.slope;
  for (let i = 0; i <= last; i++) {
    const gap = i < last ? centre_m[i + 1]! - centre_m[i]! : 1;
    const ahead = i < last ? D[i]! / gap : end.slope;
    let diagonal = shift + (behind + ahead) / size_m[i]!;
    upper[i] = i < last ? -D[i + 1]! / gap / size_m[i]! : 0;
    if (i > 0) {
      lower[i] = (-D[i - 1]! / (centre_m[i]! - centre_m[i - 1]!) / size_m[i]!) * pivot[i - 1]!;
      diagonal -= lower[i]! * upper[i - 1]!;
    }
    pivot[i] = 1 / diagonal;
    if (i < last) behind = D[i + 1]! / gap;
  }
}

function solve({ lower, pivot, upper }: Bench, x: Float64Array): void {
  const last = x.length - 1;
  for (let i = 1; i <= last; i++) x[i]! -= lower[i]! * x[i - 1]!;
  x[last]! *= pivot[last]!;
  for (let i = last - 1; i >= 0; i--) x[i] = (x[i]! - upper[i]! * x[i + 1]!) * pivot[i]!;
}
