/** What a face sees: nothing passes, or it is drawn to a moisture, at once or through a surface resistance. */
export type Face =
  | { readonly open: false }
  | { readonly open: true; readonly emc_pct: number; readonly surface_m_per_s: number };

/** D = base·exp(slope·M): square metres a second, M in percent. */
export interface Diffusivity {
  readonly base_m2_per_s: number;
  readonly slope_per_pct: number;
}

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
const cells = 121;
const crowding = 1.8;

export function grid(thickness_m: number): Grid {
  const edge = (i: number) =>
    (thickness_m * (1 + Math.tanh(crowding * ((2 * i) / cells - 1)) / Math.tanh(crowding))) / 2;
  return {
    thickness_m,
    size_m: Float64Array.from({ length: cells }, (_, i) => edge(i + 1) - edge(i)),
    centre_m: Float64Array.from({ length: cells }, (_, i) => (edge(i + 1) + edge(i)) / 2),
  };
}

export function meanOf({ size_m, thickness_m }: Grid, moisture_pct: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < cells; i++) sum += moisture_pct[i]! * size_m[i]!;
  return sum / thickness_m;
}

export function middleOf(moisture_pct: Float64Array): number {
  return moisture_pct[(cells - 1) / 2]!;
}

/** Moisture at a face: what an open face holds, or the level to which a closed one has levelled. */
export function faceValue(
  { size_m, centre_m }: Grid,
  moisture_pct: Float64Array,
  climate: Climate,
  side: 0 | 1,
): number {
  const face = climate.faces[side];
  const [near, next] = side === 0 ? [0, 1] : [cells - 1, cells - 2];
  if (face.open) return openFace(face, moisture_pct[near]!, size_m[near]! / 2, climate.diffusivity).surface_pct;
  const [a, b] = [size_m[near]! / 2, size_m[near]! / 2 + Math.abs(centre_m[next]! - centre_m[near]!)];
  return moisture_pct[near]! + ((moisture_pct[near]! - moisture_pct[next]!) * a * a) / (b * b - a * a);
}

function openFace(face: Face & { open: true }, inner_pct: number, distance_m: number, diffusivity: Diffusivity) {
  const { emc_pct, surface_m_per_s: s } = face;
  let surface_pct = emc_pct;
  let inside = meanDiffusivity(diffusivity, inner_pct, emc_pct) / distance_m;
  if (s === Number.POSITIVE_INFINITY) return { surface_pct, conductance: inside };
  for (let i = 0; i < 3; i++) {
    surface_pct = (inside * inner_pct + s * emc_pct) / (inside + s);
    inside = meanDiffusivity(diffusivity, inner_pct, surface_pct) / distance_m;
  }
  return { surface_pct, conductance: s === 0 ? 0 : 1 / (1 / s + 1 / inside) };
}

/** Mean of D over the moistures between two points, which carries a steady flow exactly. */
function meanDiffusivity({ base_m2_per_s, slope_per_pct }: Diffusivity, a_pct: number, b_pct: number): number {
  const x = (slope_per_pct * (a_pct - b_pct)) / 2;
  const bulge = Math.abs(x) < 1e-4 ? 1 + (x * x) / 6 : Math.sinh(x) / x;
  return base_m2_per_s * Math.exp((slope_per_pct * (a_pct + b_pct)) / 2) * bulge;
}

const lower = new Float64Array(cells);
const diagonal = new Float64Array(cells);
const upper = new Float64Array(cells);

/** One backward step of finite volumes, diffusivity as at its beginning. */
function backward(slab: Grid, from: Float64Array, to: Float64Array, step_s: number, climate: Climate): void {
  const { size_m, centre_m } = slab;
  const { diffusivity, faces } = climate;
  for (let i = 0; i < cells; i++) {
    diagonal[i] = size_m[i]! / step_s;
    to[i] = diagonal[i]! * from[i]!;
    lower[i] = upper[i] = 0;
  }
  for (let i = 0; i + 1 < cells; i++) {
    const flow = meanDiffusivity(diffusivity, from[i]!, from[i + 1]!) / (centre_m[i + 1]! - centre_m[i]!);
    upper[i] = -flow;
    lower[i + 1] = -flow;
    diagonal[i]! += flow;
    diagonal[i + 1]! += flow;
  }
  for (const side of [0, 1] as const) {
    const face = faces[side];
    if (!face.open) continue;
    const i = side === 0 ? 0 : cells - 1;
    const { conductance } = openFace(face, from[i]!, size_m[i]! / 2, diffusivity);
    diagonal[i]! += conductance;
    to[i]! += conductance * face.emc_pct;
  }
  for (let i = 1; i < cells; i++) {
    const share = lower[i]! / diagonal[i - 1]!;
    diagonal[i]! -= share * upper[i - 1]!;
    to[i]! -= share * to[i - 1]!;
  }
  to[cells - 1]! /= diagonal[cells - 1]!;
  for (let i = cells - 2; i >= 0; i--) to[i] = (to[i]! - upper[i]! * to[i + 1]!) / diagonal[i]!;
}

const whole = new Float64Array(cells);
const half = new Float64Array(cells);

/**
 * One step of second order: two half steps, extrapolated with the whole one.
 *
 * @returns how far the two differ at most, percent of moisture; `to` holds the result
 */
export function stepOnce(slab: Grid, from: Float64Array, to: Float64Array, step_s: number, climate: Climate): number {
  backward(slab, from, whole, step_s, climate);
  backward(slab, from, half, step_s / 2, climate);
  backward(slab, half, to, step_s / 2, climate);
  let differ = 0;
  for (let i = 0; i < cells; i++) {
    differ = Math.max(differ, Math.abs(to[i]! - whole[i]!));
    to[i] = 2 * to[i]! - whole[i]!;
  }
  return differ;
}

/** Largest difference between half and whole steps that is let pass, percent of moisture. */
const tolerance_pct = 0.002;
/** Steps in one stretch at most: far more than any that makes sense takes. */
const mostSteps = 20_000;

/**
 * Lets time pass in one climate, in steps as long as accuracy allows.
 *
 *     ∂M/∂t = ∂/∂z(D(M)·∂M/∂z),   closed face: no flow,   open face: −D·∂M/∂n = S·(M − EMC)
 *
 * @param moisture_pct  changed in place
 * @param afterStep  told the seconds passed; says whether to stop there
 * @param first_s  step to try first where the same climate goes on; left out, one short enough for a new one
 * @returns seconds passed (all, or up to where it was stopped), and the step to go on with
 */
export function pass(
  slab: Grid,
  moisture_pct: Float64Array,
  duration_s: number,
  climate: Climate,
  afterStep?: (passed_s: number, before: Float64Array, step_s: number) => boolean,
  first_s?: number,
): { readonly passed_s: number; readonly step_s: number } {
  const next = new Float64Array(cells);
  const fastest =
    climate.diffusivity.base_m2_per_s * Math.exp(climate.diffusivity.slope_per_pct * Math.max(...moisture_pct));
  let step_s = first_s ?? (0.2 * slab.size_m[0]! ** 2) / fastest;
  let passed_s = 0;
  for (let count = 0; passed_s < duration_s && count < mostSteps; count++) {
    const left_s = duration_s - passed_s;
    const taken_s = Math.min(step_s, left_s);
    const differ = stepOnce(slab, moisture_pct, next, taken_s, climate);
    const ease = Math.sqrt(tolerance_pct / Math.max(differ, 1e-12));
    if (differ > 4 * tolerance_pct && taken_s > (0.05 * slab.size_m[0]! ** 2) / fastest) {
      step_s = taken_s * Math.max(0.2, 0.8 * ease);
      continue;
    }
    passed_s = taken_s === left_s ? duration_s : passed_s + taken_s;
    whole.set(moisture_pct);
    moisture_pct.set(next);
    if (afterStep?.(passed_s, whole, taken_s)) break;
    step_s = taken_s < step_s ? step_s : taken_s * Math.min(2, Math.max(0.3, 0.85 * ease));
  }
  return { passed_s, step_s };
}
