import { factorSparseReal, solveSparseReal, sparseRealSolver } from "../../maths/linear/sparseReal.ts";
import type { Circuit } from "../circuit.ts";
import { deviceCurrents, mostElectrodes } from "../device.ts";
import { electrodeVolts, stampSlopes } from "../settle.ts";

/** What moves a circuit in time: its sources' right-hand side, and how far each bending part conducts yet. */
export interface Course {
  /** Writes the sources' right-hand side at `time_s`. */
  drive(time_s: number, into: Float64Array): void;
  /** Share of its current that a device gives at `time_s`, 0 to 1. */
  warmth(device: number, time_s: number): number;
}

export interface March {
  readonly time_s: number;
  readonly x: Float64Array;
  /**
   * One step, not beyond `until_s`.
   *
   * @returns false when no step however short was found
   */
  advance(until_s: number): boolean;
  /** Linear systems solved so far. */
  readonly solves: number;
}

export interface MarchOptions {
  /** Local error of a step, as a share of the largest value that each unknown has had. */
  readonly tolerance: number;
  readonly longestStep_s: number;
}

const gamma = 2 - Math.SQRT2;
/** Both stages multiply the slopes by the same share of the step. */
const share = gamma / 2;
const fromMiddle = 1 / (gamma * (2 - gamma));
const fromStart = (1 - gamma) ** 2 / (gamma * (2 - gamma));
const errorScale = (-3 * gamma ** 2 + 4 * gamma - 2) / (12 * (2 - gamma));

const mostIterations = 40;
/** Newton ends when nothing moves by more than this share of the largest it has been: microvolts, for the junctions. */
const still = 1e-7;
/** Volts and amperes under which nothing is told apart. */
const smallest = 1e-6;
/** A step of this share of the longest goes by implicit Euler without a look at its error: something snaps. */
const snap = 1e-6;
const shortest = 1e-10;
/** Implicit Euler steps at the start, so that what switching on makes jump has jumped. */
const openingSteps = 3;

/**
 * A circuit from capacitors without charge and coils without current, step by step: C·x' + G·x + i(x) = b(t).
 *
 * The trapezoidal rule over the first γ of a step and backward differences over the rest, γ = 2 − √2; second order,
 * damping what is too quick to follow. The step's length follows its local error.
 *
 * @source R. E. Bank et al., IEEE Trans. Electron Devices 32 (1985) 1992-2007; M. E. Hosea and L. F. Shampine, Applied
 *   Numerical Mathematics 20 (1996) 21-37 (error estimate) (remembered)
 */
export function march(circuit: Circuit, course: Course, { tolerance, longestStep_s }: MarchOptions): March {
  const { size } = circuit;
  const solver = sparseRealSolver(circuit.solvers.alternating);
  const { places } = solver.pattern;
  const matrix = new Float64Array(size * size);
  const straight = Array.from(places, (at) => ({ row: Math.floor(at / size), column: at % size, at })).filter(
    ({ at }) => circuit.alternating[at] !== 0,
  );
  const stores = circuit.reactive.map(({ at, value }) => ({
    row: Math.floor(at / size),
    column: at % size,
    at,
    value,
  }));
  const currents = deviceCurrents();
  const u = new Float64Array(mostElectrodes);

  const x = new Float64Array(size);
  const f = new Float64Array(size);
  const middle = new Float64Array(size);
  const fMiddle = new Float64Array(size);
  const end = new Float64Array(size);
  const fEnd = new Float64Array(size);
  const known = new Float64Array(size);
  const residual = new Float64Array(size);
  const step = new Float64Array(size);
  const trial = new Float64Array(size);
  const stray = new Float64Array(size);
  const held = new Float64Array(size);
  const b = new Float64Array(size);
  const largest = new Float64Array(size);

  let time_s = 0;
  let length_s = longestStep_s * 1e-6;
  let opening = openingSteps;
  let solves = 0;

  /** f = G·x + i(x) − b at a time; its slopes too, with the stores times `rate`, where they are asked for. */
  function forces(at: Float64Array, now_s: number, into: Float64Array, rate: number | undefined): void {
    for (let i = 0; i < size; i++) into[i] = -b[i]!;
    for (const { row, column, at: place } of straight)
      into[row] = into[row]! + circuit.alternating[place]! * at[column]!;
    if (rate !== undefined) {
      for (const place of places) matrix[place] = circuit.alternating[place]!;
      for (const { at: place, value } of stores) matrix[place] = matrix[place]! + rate * value;
    }
    circuit.devices.forEach((device, d) => {
      const { nodes } = device;
      const last = nodes.length - 1;
      const warmth = course.warmth(d, now_s);
      if (warmth === 0) return;
      electrodeVolts(nodes, at, u);
      device.evaluate(u, currents);
      const base = nodes[last]!;
      for (let k = 0; k < last; k++) {
        const amps = warmth * currents.current_A[k]!;
        const row = nodes[k]!;
        if (row >= 0) into[row] = into[row]! + amps;
        if (base >= 0) into[base] = into[base]! - amps;
      }
      if (rate === undefined) return;
      if (warmth !== 1) for (let k = 0; k < currents.slope.length; k++) currents.slope[k]! *= warmth;
      stampSlopes(matrix, size, nodes, currents.slope);
    });
  }

  function addStored(weights: readonly (readonly [number, Float64Array])[], into: Float64Array): void {
    for (const { row, column, value } of stores) {
      let sum = 0;
      for (const [weight, vector] of weights) sum += weight * vector[column]!;
      into[row] = into[row]! + value * sum;
    }
  }

  /** Solves rate·C·y + f(y) + known = 0 from a guess in `y`; its own f is left in `fOf`. */
  function solveStage(y: Float64Array, now_s: number, rate: number, fOf: Float64Array): boolean {
    course.drive(now_s, b);
    const residualAt = (point: Float64Array, withSlopes: boolean): number => {
      forces(point, now_s, fOf, withSlopes ? rate : undefined);
      for (let i = 0; i < size; i++) residual[i] = fOf[i]! + known[i]!;
      addStored([[rate, point]], residual);
      return lengthOf(residual);
    };
    for (let n = 0; n < mostIterations; n++) {
      const before = residualAt(y, true);
      solves++;
      if (!Number.isFinite(before) || factorSparseReal(solver, matrix) >= 0) return false;
      solveSparseReal(solver, residual, step);
      let shareOfStep = 1;
      let moved = 0;
      for (let i = 0; i < size; i++) moved = Math.max(moved, Math.abs(step[i]!) / (smallest + largest[i]!));
      for (let i = 0; i < size; i++) trial[i] = y[i]! - step[i]!;
      // A junction overshot into multiplies the residual; half the way is tried then, and half of that.
      while (moved > 1e-3 && shareOfStep > 1e-3 && !(residualAt(trial, false) <= 2 * before + 1e-6)) {
        shareOfStep /= 2;
        for (let i = 0; i < size; i++) trial[i] = y[i]! - shareOfStep * step[i]!;
      }
      y.set(trial);
      if (circuit.devices.length === 0 || (shareOfStep === 1 && moved < still)) {
        forces(y, now_s, fOf, undefined);
        return true;
      }
    }
    return false;
  }

  /** Implicit Euler. */
  function openingStep(h: number): boolean {
    known.fill(0);
    addStored([[-1 / h, x]], known);
    end.set(x);
    return solveStage(end, time_s + h, 1 / h, fEnd);
  }

  /** @returns local error over the allowed one, infinite when a stage did not settle */
  function fullStep(h: number): number {
    const rate = 1 / (share * h);
    // Trapezoidal: C·(m − x)/(γh/2) + f(m) + f(x) = 0
    known.set(f);
    addStored([[-rate, x]], known);
    for (let i = 0; i < size; i++) middle[i] = x[i]!;
    if (!solveStage(middle, time_s + gamma * h, rate, fMiddle)) return Number.POSITIVE_INFINITY;
    known.fill(0);
    addStored(
      [
        [-rate * fromMiddle, middle],
        [rate * fromStart, x],
      ],
      known,
    );
    for (let i = 0; i < size; i++) end[i] = middle[i]! + ((1 - gamma) / gamma) * (middle[i]! - x[i]!);
    if (!solveStage(end, time_s + h, rate, fEnd)) return Number.POSITIVE_INFINITY;
    for (let i = 0; i < size; i++) {
      residual[i] =
        (2 * errorScale * h * (f[i]! / gamma - fMiddle[i]! / (gamma * (1 - gamma)) + fEnd[i]! / (1 - gamma))) /
        (share * h);
    }
    solveSparseReal(solver, residual, step);
    // Judged in what is stored: charges and fluxes can't jump, but the voltage of a coil that is cut off does.
    stray.fill(0);
    held.fill(0);
    for (const { row, column, value } of stores) {
      stray[row] = stray[row]! + value * step[column]!;
      held[row] = held[row]! + Math.abs(value) * Math.max(largest[column]!, Math.abs(end[column]!), smallest);
    }
    let worst = 0;
    for (let i = 0; i < size; i++)
      if (held[i]! > 0) worst = Math.max(worst, Math.abs(stray[i]!) / (tolerance * held[i]!));
    return worst;
  }

  function accept(h: number): void {
    time_s += h;
    x.set(end);
    f.set(fEnd);
    for (let i = 0; i < size; i++) largest[i] = Math.max(largest[i]!, Math.abs(x[i]!));
  }

  return {
    get time_s() {
      return time_s;
    },
    x,
    get solves() {
      return solves;
    },
    advance(until_s) {
      for (let n = 0; n < 60; n++) {
        const left_s = until_s - time_s;
        const h = length_s >= left_s * 0.999 ? left_s : Math.min(length_s, left_s / 2);
        if (opening > 0) {
          if (openingStep(h)) {
            opening--;
            accept(h);
            return true;
          }
          length_s = h / 10;
          if (length_s < shortest * longestStep_s) return false;
          continue;
        }
        const error = fullStep(h);
        if (error <= 1) {
          accept(h);
          const next_s = h * Math.min(3, Math.max(0.3, 0.9 / Math.cbrt(Math.max(error, 1e-9))));
          length_s = Math.min(longestStep_s, h < length_s ? Math.max(length_s, next_s) : next_s);
          return true;
        }
        length_s = Number.isFinite(error) ? h * Math.max(0.1, 0.8 / Math.cbrt(error)) : h / 8;
        if (length_s < snap * longestStep_s) {
          if (length_s < shortest * longestStep_s) return false;
          opening = 1;
        }
      }
      return false;
    },
  };
}

function lengthOf(v: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < v.length; i++) sum += v[i]! * v[i]!;
  return Math.sqrt(sum);
}
