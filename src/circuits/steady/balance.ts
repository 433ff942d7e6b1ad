import { gmres } from "../../maths/linear/gmres.ts";
import { moments } from "./moments.ts";
import type { StraightPart } from "./straightPart.ts";
import { toHarmonics, toSamples, type WaveGrid } from "./waves.ts";

/** Work so far and its limit, in multiplications about; a search that would take too long stops by it. */
export interface Work {
  done: number;
  readonly most: number;
}

/**
 * The balance of harmonics: the bends w of all curves, by harmonic, that bring about themselves.
 *
 *     w_k = y_k for all k kept,   y(t) = n(a(t) − R·y(t)),   a_k = amplitude·driven·(k = 1) − (Z_k − R)·w_k
 *
 * R are the impedances Z at the fundamental, real parts: what of the circuit is resistance is met at every moment
 * exactly, however sharp the corners, and only what departs from it goes by harmonics. Harmonics above those kept meet R.
 * Coupling capacitors, however large, are only impedances: no settling has to be waited for.
 *
 * @source K. S. Kundert, J. K. White and A. Sangiovanni-Vincentelli, Steady-State Methods for Simulating Analog and
 *   Microwave Circuits, Kluwer 1990 (remembered); taking the resistances into the moments is our own
 */
export interface Balance {
  /**
   * Newton's method from `w`, which becomes the solution; the inner systems by minimal residuals.
   *
   * @returns false when it did not settle; `w` is then as it was
   */
  settle(w: Float64Array, amplitude_V: number): boolean;
  /** Harmonics of the output, about its rest. */
  output(w: Float64Array, amplitude_V: number): Float64Array;
  /** What the arithmetic's grain may come to at the output. */
  grain_V(amplitude_V: number): number;
  /** Samples of all voltages of bending parts at the last solution, about their rest, one wave after another. */
  readonly volts: Float64Array;
}

const mostNewtonSteps = 40;
const mostInnerSteps = 120;
/** Newton ends when a step moves the bend by no more than this share of it. */
const still = 1e-10;
/** A bend of this share of the currents about it is the grain of the arithmetic. */
const grain = 1e-16;

export function balance(straight: StraightPart, grid: WaveGrid, work: Work): Balance {
  const { parts, voltages, currents, driven } = straight;
  const { width, samples, harmonics } = grid;
  const size = currents * width;
  const resistances = straight.impedances(1).re;
  const perMoment = moments(straight, resistances, samples);
  const spectra = new Float64Array(voltages * width);
  const a = new Float64Array(voltages * samples);
  const bend = new Float64Array(currents * samples);
  const mapWork =
    (voltages + currents) * 12 * samples * Math.log2(samples) +
    4 * voltages * currents * harmonics +
    2 * voltages * currents * samples;
  const momentWork = 3 * samples * (150 * parts.length + currents ** 3 + 4 * voltages * currents) + mapWork;

  /** −(Z_k − R)·w_k. */
  function departing(w: Float64Array, into: Float64Array): void {
    for (let k = 0; k <= harmonics; k++) {
      const { re, im } = straight.impedances(k);
      const low = Math.max(0, 2 * k - 1);
      for (let row = 0; row < voltages; row++) {
        let sumRe = 0;
        let sumIm = 0;
        for (let c = 0, z = row * currents; c < currents; c++, z++) {
          const at = c * width + low;
          const r = re[z]! - resistances[z]!;
          const wRe = w[at]!;
          const wIm = k === 0 ? 0 : w[at + 1]!;
          sumRe += r * wRe - im[z]! * wIm;
          sumIm += r * wIm + im[z]! * wRe;
        }
        into[row * width + low] = -sumRe;
        if (k > 0) into[row * width + low + 1] = -sumIm;
      }
    }
  }

  function residual(w: Float64Array, amplitude_V: number, into: Float64Array): boolean {
    work.done += momentWork;
    departing(w, spectra);
    for (let row = 0; row < voltages; row++) {
      spectra[row * width + 1]! += amplitude_V * driven.re[row]!;
      spectra[row * width + 2]! += amplitude_V * driven.im[row]!;
    }
    toSamples(grid, spectra, voltages, a);
    if (!perMoment.solve(a)) return false;
    toHarmonics(grid, perMoment.bend, currents, into);
    for (let i = 0; i < size; i++) into[i] = w[i]! - into[i]!;
    return true;
  }

  function slopeMap(v: Float64Array, into: Float64Array): void {
    work.done += mapWork;
    departing(v, spectra);
    toSamples(grid, spectra, voltages, a);
    perMoment.change(a, bend);
    toHarmonics(grid, bend, currents, into);
    for (let i = 0; i < size; i++) into[i] = v[i]! - into[i]!;
  }

  /** Currents that the arithmetic has to hold beside the bends. */
  function standing_A(amplitude_V: number): number {
    let most = 0;
    for (const { firstVoltage, currents: own, rest_A, rest_S } of parts) {
      for (let e = 0; e < own.length; e++) {
        most = Math.max(most, Math.abs(rest_A[e]!));
        for (let f = 0; f < own.length; f++) {
          const swing_V = amplitude_V * Math.hypot(driven.re[firstVoltage + f]!, driven.im[firstVoltage + f]!);
          most = Math.max(most, Math.abs(rest_S[3 * e + f]!) * swing_V);
        }
      }
    }
    return most;
  }

  return {
    volts: perMoment.volts,
    settle(w, amplitude_V) {
      const now = w.slice();
      const F = new Float64Array(size);
      const trial = new Float64Array(size);
      const smallest = grain * standing_A(amplitude_V) * Math.sqrt(currents);
      if (!residual(now, amplitude_V, F)) return false;
      for (let n = 0; n < mostNewtonSteps && work.done < work.most; n++) {
        const { x: step, steps } = gmres(slopeMap, copy, F, { tolerance: 1e-6, mostSteps: mostInnerSteps });
        work.done += 4 * steps * steps * size;
        const moved = lengthOf(step);
        if (!Number.isFinite(moved)) return false;
        if (moved <= still * lengthOf(now) || moved <= smallest) {
          for (let i = 0; i < size; i++) w[i] = now[i]! - step[i]!;
          return true;
        }
        const before = lengthOf(F);
        for (let share = 1; ; share /= 2) {
          for (let i = 0; i < size; i++) trial[i] = now[i]! - share * step[i]!;
          if (residual(trial, amplitude_V, F) && lengthOf(F) <= (1 - share / 4) * before) break;
          if (share > 1e-3 && work.done < work.most && moved > 1e3 * smallest) continue;
          // At the grain of the arithmetic no step shortens the residual any more.
          if (moved > 1e-7 * lengthOf(now) && moved > 1e3 * smallest) return false;
          w.set(now);
          return true;
        }
        now.set(trial);
      }
      return false;
    },
    grain_V(amplitude_V) {
      const { re, im } = straight.impedances(1);
      let ohm = 0;
      for (let z = voltages * currents; z < re.length; z++) ohm += Math.hypot(re[z]!, im[z]!);
      return 10 * grain * standing_A(amplitude_V) * ohm;
    },
    output(w, amplitude_V) {
      const out = new Float64Array(width);
      for (let k = 0; k <= harmonics; k++) {
        const { re, im } = straight.impedances(k);
        const to = Math.max(0, 2 * k - 1);
        for (let c = 0, z = voltages * currents; c < currents; c++, z++) {
          const wRe = w[c * width + to]!;
          const wIm = k === 0 ? 0 : w[c * width + to + 1]!;
          out[to]! -= re[z]! * wRe - im[z]! * wIm;
          if (k > 0) out[to + 1]! -= re[z]! * wIm + im[z]! * wRe;
        }
      }
      out[1]! += amplitude_V * straight.drivenOutput[0];
      out[2]! += amplitude_V * straight.drivenOutput[1];
      return out;
    },
  };
}

function copy(from: Float64Array, into: Float64Array): void {
  into.set(from);
}

function lengthOf(v: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < v.length; i++) sum += v[i]! * v[i]!;
  return Math.sqrt(sum);
}
