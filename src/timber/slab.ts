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
  /** One over each cell's size, and over the distance of its centre to the next one's. */
  readonly perSize: Float64Array;
  readonly perGap: Float64Array;
}

/** Odd, so that one cell's centre is mid-thickness. */
export const usualCells = 81;
const crowding = 1.5;

export function grid(thickness_m: number, cells = usualCells): Grid {
  const edges = edgesOf(thickness_m, cells);
  return between(edges, cells, thickness_m);
}

/** The first half of a slab whose halves are alike; mid-thickness is then a closed face. */
export function halfGrid(thickness_m: number, cells: number): Grid {
  return between(edgesOf(thickness_m, 2 * cells), cells, thickness_m / 2);
}

function edgesOf(thickness_m: number, cells: number): Float64Array {
  return Float64Array.from(
    { length: cells + 1 },
    (_, i) => (thickness_m * (1 + Math.tanh(crowding * ((2 * i) / cells - 1)) / Math.tanh(crowding))) / 2,
  );
}

function between(edges: Float64Array, cells: number, thickness_m: number): Grid {
  const size_m = Float64Array.from({ length: cells }, (_, i) => edges[i + 1]! - edges[i]!);
  const centre_m = Float64Array.from({ length: cells }, (_, i) => (edges[i + 1]! + edges[i]!) / 2);
  return {
    thickness_m,
    size_m,
    centre_m,
    perSize: size_m.map((size) => 1 / size),
    perGap: centre_m.map((centre, i) => (i + 1 < cells ? 1 / (centre_m[i + 1]! - centre) : 0)),
  };
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
const tolerance_pct = 0.01;
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
  const { diffusivity } = climate;
  potentials(diffusivity, moisture_pct, bench.potential);
  rates(slab, climate, moisture_pct, bench.potential, rate);
  for (let count = 0; passed_s < duration_s && count < mostSteps; count++) {
    const left_s = duration_s - passed_s;
    const taken_s = Math.min(step_s, left_s);
    const error_pct = rosenbrock(slab, climate, moisture_pct, taken_s, next, bench);
    const ease = 0.9 * (tolerance_pct / Math.max(error_pct, 1e-12)) ** 0.25;
    if (error_pct > tolerance_pct && taken_s > shortest_s) {
      step_s = taken_s * Math.max(0.1, Math.min(0.9, ease));
      continue;
    }
    passed_s = taken_s === left_s ? duration_s : passed_s + taken_s;
    potentials(diffusivity, next, bench.nextPotential);
    rates(slab, climate, next, bench.nextPotential, nextRate);
    const isStopped = afterStep?.(stepBetween(slab, moisture_pct, rate, next, nextRate, taken_s, passed_s)) ?? false;
    moisture_pct.set(next);
    rate.set(nextRate);
    bench.potential.set(bench.nextPotential);
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
  readonly rate: Float64Array;
  readonly next: Float64Array;
  readonly nextRate: Float64Array;
  /** Potentials where `rate` was taken, where `nextRate` was, and within a step. */
  readonly potential: Float64Array;
  readonly nextPotential: Float64Array;
  readonly within: Float64Array;
  readonly at: Float64Array;
  readonly lower: Float64Array;
  readonly pivot: Float64Array;
  readonly upper: Float64Array;
  readonly k: readonly [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
}

const benches = new Map<number, Bench>();

function benchOf(cells: number): Bench {
  const known = benches.get(cells);
  if (known) return known;
  const array = () => new Float64Array(cells);
  const made: Bench = {
    rate: array(),
    next: array(),
    nextRate: array(),
    potential: array(),
    nextPotential: array(),
    within: array(),
    at: array(),
    lower: array(),
    pivot: array(),
    upper: array(),
    k: [array(), array(), array(), array(), array(), array()],
  };
  benches.set(cells, made);
  return made;
}

/** ∫D·dM of every cell. */
function potentials({ base_m2_per_s, slope_per_pct }: Diffusivity, m: Float64Array, to: Float64Array): void {
  if (slope_per_pct === 0) for (let i = 0; i < m.length; i++) to[i] = base_m2_per_s * m[i]!;
  else {
    const scale = base_m2_per_s / slope_per_pct;
    for (let i = 0; i < m.length; i++) to[i] = scale * Math.exp(slope_per_pct * m[i]!);
  }
}

/** Powers of e this near to 1 are told by seven terms to 1e-13 of them: a tenth of the time of the whole function. */
const near = 0.06;

/** The same from those of a profile nearby, whose exponentials are known. */
function potentialsNear(
  { base_m2_per_s, slope_per_pct: s }: Diffusivity,
  m: Float64Array,
  known: Float64Array,
  knownPotential: Float64Array,
  to: Float64Array,
): void {
  if (s === 0) {
    for (let i = 0; i < m.length; i++) to[i] = base_m2_per_s * m[i]!;
    return;
  }
  for (let i = 0; i < m.length; i++) {
    const x = s * (m[i]! - known[i]!);
    to[i] =
      x < near && x > -near
        ? knownPotential[i]! * (1 + x * (1 + x * (1 / 2 + x * (1 / 6 + x * (1 / 24 + x * (1 / 120 + x / 720))))))
        : (base_m2_per_s / s) * Math.exp(s * m[i]!);
  }
}

/** dM/dt of every cell from its ∫D·dM. */
function rates(slab: Grid, climate: Climate, m: Float64Array, potential: Float64Array, to: Float64Array): void {
  const { size_m, perSize, perGap } = slab;
  const { diffusivity, faces } = climate;
  const last = m.length - 1;
  let flow = throughFace(faces[0], m[0]!, potential[0]!, size_m[0]! / 2, diffusivity).flow;
  let here = potential[0]!;
  for (let i = 0; i < last; i++) {
    const next = potential[i + 1]!;
    const onward = (here - next) * perGap[i]!;
    to[i] = (flow - onward) * perSize[i]!;
    flow = onward;
    here = next;
  }
  to[last] = (flow + throughFace(faces[1], m[last]!, here, size_m[last]! / 2, diffusivity).flow) * perSize[last]!;
}

const gamma = 0.25;

/**
 * One step: (1/(γh) − J)·kᵢ = F(M + Σ aᵢⱼkⱼ) + Σ cᵢⱼkⱼ/h, i = 1 … 6.
 *
 * @returns the largest difference to the embedded method of order three, percent of moisture
 */
function rosenbrock(slab: Grid, climate: Climate, m: Float64Array, h: number, to: Float64Array, bench: Bench): number {
  const { k, at, rate } = bench;
  const [k1, k2, k3, k4, k5, k6] = k;
  const cells = m.length;
  const ratesAt = (to: Float64Array) => {
    potentialsNear(climate.diffusivity, at, m, bench.potential, bench.within);
    rates(slab, climate, at, bench.within, to);
  };
  factor(slab, climate, m, 1 / (gamma * h), bench);

  k1.set(rate);
  solve(bench, k1);

  for (let i = 0; i < cells; i++) at[i] = m[i]! + 1.544 * k1[i]!;
  ratesAt(k2);
  const c21 = -5.6688 / h;
  for (let i = 0; i < cells; i++) k2[i]! += c21 * k1[i]!;
  solve(bench, k2);

  for (let i = 0; i < cells; i++) at[i] = m[i]! + 0.9466785280815826 * k1[i]! + 0.2557011698983284 * k2[i]!;
  ratesAt(k3);
  const [c31, c32] = [-2.430093356833875 / h, -0.2063599157091915 / h];
  for (let i = 0; i < cells; i++) k3[i]! += c31 * k1[i]! + c32 * k2[i]!;
  solve(bench, k3);

  for (let i = 0; i < cells; i++) {
    at[i] = m[i]! + 3.314825187068521 * k1[i]! + 2.896124015972201 * k2[i]! + 0.9986419139977817 * k3[i]!;
  }
  ratesAt(k4);
  const [c41, c42, c43] = [-0.1073529058151375 / h, -9.594562251023355 / h, -20.47028614809616 / h];
  for (let i = 0; i < cells; i++) k4[i]! += c41 * k1[i]! + c42 * k2[i]! + c43 * k3[i]!;
  solve(bench, k4);

  for (let i = 0; i < cells; i++) {
    at[i] =
      m[i]! +
      1.221224509226641 * k1[i]! +
      6.019134481288629 * k2[i]! +
      12.53708332932087 * k3[i]! -
      0.687886036105895 * k4[i]!;
  }
  ratesAt(k5);
  const [c51, c52, c53, c54] = [
    7.496443313967647 / h,
    -10.24680431464352 / h,
    -33.99990352819905 / h,
    11.7089089320616 / h,
  ];
  for (let i = 0; i < cells; i++) k5[i]! += c51 * k1[i]! + c52 * k2[i]! + c53 * k3[i]! + c54 * k4[i]!;
  solve(bench, k5);

  for (let i = 0; i < cells; i++) at[i]! += k5[i]!;
  ratesAt(k6);
  const [c61, c62, c63, c64, c65] = [
    8.083246795921522 / h,
    -7.981132988064893 / h,
    -31.52159432874371 / h,
    16.31930543123136 / h,
    -6.058818238834054 / h,
  ];
  for (let i = 0; i < cells; i++) {
    k6[i]! += c61 * k1[i]! + c62 * k2[i]! + c63 * k3[i]! + c64 * k4[i]! + c65 * k5[i]!;
  }
  solve(bench, k6);

  let differ = 0;
  for (let i = 0; i < cells; i++) {
    to[i] = at[i]! + k6[i]!;
    const error = Math.abs(k6[i]!);
    if (!(error <= differ)) differ = error;
  }
  return Number.isNaN(differ) ? Number.POSITIVE_INFINITY : differ;
}

/** Splits (shift − J) into its two triangles. */
function factor(slab: Grid, climate: Climate, m: Float64Array, shift: number, bench: Bench): void {
  const { size_m, perSize, perGap } = slab;
  const { potential, lower, pivot, upper } = bench;
  const { diffusivity, faces } = climate;
  const { base_m2_per_s, slope_per_pct } = diffusivity;
  const last = m.length - 1;
  const isConstant = slope_per_pct === 0;
  const diffusionAt = (i: number) => (isConstant ? base_m2_per_s : slope_per_pct * potential[i]!);
  let behind = throughFace(faces[0], m[0]!, potential[0]!, size_m[0]! / 2, diffusivity).slope;
  let here = diffusionAt(0);
  let fromBefore = 0;
  for (let i = 0; i < last; i++) {
    const [gap, size] = [perGap[i]!, perSize[i]!];
    const next = diffusionAt(i + 1);
    const ahead = here * gap;
    let diagonal = shift + (behind + ahead) * size;
    if (i > 0) {
      const share = -fromBefore * size * pivot[i - 1]!;
      lower[i] = share;
      diagonal -= share * upper[i - 1]!;
    }
    upper[i] = -next * gap * size;
    pivot[i] = 1 / diagonal;
    fromBefore = ahead;
    behind = next * gap;
    here = next;
  }
  const end = throughFace(faces[1], m[last]!, potential[last]!, size_m[last]! / 2, diffusivity).slope;
  lower[last] = -fromBefore * perSize[last]! * pivot[last - 1]!;
  pivot[last] = 1 / (shift + (behind + end) * perSize[last]! - lower[last]! * upper[last - 1]!);
}

function solve({ lower, pivot, upper }: Bench, x: Float64Array): void {
  const last = x.length - 1;
  let carried = x[0]!;
  for (let i = 1; i <= last; i++) {
    carried = x[i]! - lower[i]! * carried;
    x[i] = carried;
  }
  carried *= pivot[last]!;
  x[last] = carried;
  for (let i = last - 1; i >= 0; i--) {
    carried = (x[i]! - upper[i]! * carried) * pivot[i]!;
    x[i] = carried;
  }
}
