import { factorReal, realSystem, solveReal } from "../../maths/linear/realLu.ts";
import { deviceCurrents, mostElectrodes } from "../device.ts";
import type { StraightPart } from "./straightPart.ts";

/**
 * Every moment of a period on its own: the bend y of all curves where the circuit around them were resistances R.
 *
 *     y = n(a − R·y),   n(u) = i(rest + u) − i(rest) − slopes·u
 *
 * Solved by damped Newton steps, each moment from the one before.
 */
export interface Moments {
  /** Bends by current, a wave after another. */
  readonly bend: Float64Array;
  /** Voltages a − R·y by bending part's electrode, a wave after another. */
  readonly volts: Float64Array;
  /**
   * Bends at the voltages a.
   *
   * @returns false when at some moment none was found
   */
  solve(a: Float64Array): boolean;
  /** How the bends answer to a small change of a; after `solve`. */
  change(da: Float64Array, into: Float64Array): void;
}

const mostSteps = 60;
/** Newton ends when what is left would move no voltage by more than this share of those about it. */
const still = 1e-13;

/** @param samples  moments in a period */
export function moments(straight: StraightPart, resistances: Float64Array, samples: number): Moments {
  const { parts, voltages, currents } = straight;
  const bend = new Float64Array(currents * samples);
  const volts = new Float64Array(voltages * samples);
  /** Change of each bend by each voltage a, moment after moment. */
  const answers = new Float64Array(currents * voltages * samples);
  const system = realSystem(currents);
  const slope = new Float64Array(currents * voltages);
  const column = new Float64Array(currents);
  const a = new Float64Array(voltages);
  const u = new Float64Array(voltages);
  const y = new Float64Array(currents);
  const n = new Float64Array(currents);
  const gap = new Float64Array(currents);
  const step = new Float64Array(currents);
  const trial = new Float64Array(currents);
  /** Voltages a of the bends y found last, at first those of rest. */
  const last = new Float64Array(voltages);
  const from = new Float64Array(voltages);
  const held = new Float64Array(currents);
  const target = new Float64Array(voltages);
  const at = new Float64Array(mostElectrodes);
  const now = deviceCurrents();

  function place(y: Float64Array): void {
    for (let p = 0; p < voltages; p++) {
      let sum = a[p]!;
      for (let c = 0; c < currents; c++) sum -= resistances[p * currents + c]! * y[c]!;
      u[p] = sum;
    }
  }

  /** Bends and their slopes at the voltages u. */
  function evaluate(): void {
    for (const { device, firstVoltage, currents: own, rest_V, rest_A, rest_S } of parts) {
      for (let e = 0; e < own.length; e++) at[e] = rest_V[e]! + u[firstVoltage + e]!;
      device.evaluate(at, now);
      for (let e = 0; e < own.length; e++) {
        const c = own[e]!;
        if (c < 0) continue;
        let departs = now.current_A[e]! - rest_A[e]!;
        for (let f = 0; f < own.length; f++) {
          const s = rest_S[mostElectrodes * e + f]!;
          departs -= s * u[firstVoltage + f]!;
          slope[c * voltages + firstVoltage + f] = now.slope[mostElectrodes * e + f]! - s;
        }
        n[c] = departs;
      }
    }
  }

  /** How far the voltages are from those that the bends would bring about. */
  function distance(y: Float64Array): number {
    for (let c = 0; c < currents; c++) gap[c] = y[c]! - n[c]!;
    let sum = 0;
    for (let p = 0; p < voltages; p++) {
      let moved = 0;
      for (let c = 0; c < currents; c++) moved += resistances[p * currents + c]! * gap[c]!;
      sum += moved * moved;
    }
    return Math.sqrt(sum);
  }

  /** Factors of I + slopes·R; false when singular. */
  function factor(): boolean {
    const { matrix } = system;
    matrix.fill(0);
    for (const { firstVoltage, currents: own } of parts) {
      for (let e = 0; e < own.length; e++) {
        const c = own[e]!;
        if (c < 0) continue;
        for (let f = 0; f < own.length; f++) {
          const s = slope[c * voltages + firstVoltage + f]!;
          if (s === 0) continue;
          const from = (firstVoltage + f) * currents;
          for (let d = 0; d < currents; d++) matrix[c * currents + d]! += s * resistances[from + d]!;
        }
      }
    }
    for (let c = 0; c < currents; c++) matrix[c * currents + c]! += 1;
    return factorReal(system) < 0;
  }

  /** The bends at the voltages a, from a y near by. */
  function newton(): boolean {
    place(y);
    evaluate();
    let left = distance(y);
    let size = 1e-3;
    for (let p = 0; p < voltages; p++) size = Math.max(size, Math.abs(a[p]!), Math.abs(u[p]!));
    for (let k = 0; k < mostSteps; k++) {
      if (!factor() || !Number.isFinite(left)) return false;
      solveReal(system, gap, step);
      if (left <= still * size) {
        // Where R is next to nothing, the voltages stand still long before the bends do; one more step brings both.
        for (let c = 0; c < currents; c++) y[c] = y[c]! - step[c]!;
        return true;
      }
      let share = 1;
      for (; ; share /= 2) {
        for (let c = 0; c < currents; c++) trial[c] = y[c]! - share * step[c]!;
        place(trial);
        evaluate();
        const next = distance(trial);
        if (next < (1 - share / 4) * left) {
          left = next;
          break;
        }
        if (share < 1e-9 || (share < 0.3 && left <= 1e-11 * size)) {
          // At the grain of the arithmetic nothing comes nearer.
          place(y);
          evaluate();
          return distance(y) <= 1e-9 * size && factor();
        }
      }
      y.set(trial);
    }
    return left <= 1e-9 * size && factor();
  }

  /** Goes from the last moment's voltages to the next one's, in smaller strides where a curve turns sharply between. */
  function follow(target: Float64Array): boolean {
    from.set(last);
    held.set(y);
    let done = 0;
    let stride = 1;
    while (done < 1) {
      const share = Math.min(1, done + stride);
      for (let p = 0; p < voltages; p++) a[p] = from[p]! + share * (target[p]! - from[p]!);
      if (newton()) {
        done = share;
        held.set(y);
        stride *= 2;
        continue;
      }
      y.set(held);
      stride /= 4;
      if (stride < 1e-6) return false;
    }
    last.set(target);
    return true;
  }

  return {
    bend,
    volts,
    solve(waves) {
      for (let m = 0; m < samples; m++) {
        for (let p = 0; p < voltages; p++) target[p] = waves[p * samples + m]!;
        if (!follow(target)) {
          // At rest nothing bends: the next attempt starts from there.
          last.fill(0);
          y.fill(0);
          return false;
        }
        for (let c = 0; c < currents; c++) bend[c * samples + m] = y[c]!;
        for (let p = 0; p < voltages; p++) volts[p * samples + m] = u[p]!;
        const base = m * currents * voltages;
        for (let p = 0; p < voltages; p++) {
          for (let c = 0; c < currents; c++) column[c] = slope[c * voltages + p]!;
          solveReal(system, column, column);
          for (let c = 0; c < currents; c++) answers[base + c * voltages + p] = column[c]!;
        }
      }
      return true;
    },
    change(da, into) {
      for (let m = 0; m < samples; m++) {
        let at = m * currents * voltages;
        for (let c = 0; c < currents; c++) {
          let sum = 0;
          for (let p = 0; p < voltages; p++) sum += answers[at++]! * da[p * samples + m]!;
          into[c * samples + m] = sum;
        }
      }
    },
  };
}
