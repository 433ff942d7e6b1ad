import type { ComplexVector } from "../../maths/linear/complexLu.ts";
import { solveSparseComplexTransposed } from "../../maths/linear/sparseComplex.ts";
import type { Circuit } from "../circuit.ts";
import { answerVector } from "../smallSignal.ts";
import type { GainProbe } from "./probes.ts";
import { pullsInto, signalPulls } from "./signalPulls.ts";
import { type Complex, dBPerNeper, eachGain, type Heard, nothing_dB } from "./signals.ts";
import { type Pulls, slopesInto } from "./steadyPulls.ts";
import type { ValueAt } from "./tolerances.ts";

export interface GainAt {
  readonly gain_dB: number;
  /** dB per unit of relative change of each value, the shift of the working point included. */
  readonly slopes: Float64Array;
}

/**
 * Gains from sources to nodes and their slopes against many values, by one adjoint solve at the frequency and one at
 * rest each.
 *
 *     A·v = d,  h = v_out/v_source,  Aᵀ·w = e_out/v_out − e_source/v_source,  dG = −(20/ln 10)·Re(wᵀ·dA·v)
 *
 * dA is the value's own share of the matrix, and what the valves' slopes change as the value shifts the rest; the
 * latter is gathered into one vector over the unknowns at rest and carried back through the direct-current equations.
 *
 * @param carryBack  solves Jᵀ·into = lean with the slopes at rest
 * @returns in the order asked, nothing where the frequency leaves an unknown undetermined
 * @throws BadInput at `input` for an input that is no source
 */
export function gainSlopes(
  circuit: Circuit,
  x: Float64Array,
  carryBack: (lean: Float64Array, into: Float64Array) => void,
  probes: readonly GainProbe[],
  values: readonly ValueAt[],
  pulls: Pulls,
): (GainAt | undefined)[] {
  const bySignal = signalPulls(circuit, x, values);
  const carried = new Float64Array(circuit.size);
  const own = new Float64Array(values.length);
  const found = new Array<GainAt | undefined>(probes.length);
  eachGain(circuit, x, probes, (index, heard) => {
    if (heard === undefined) return;
    const slopes = new Float64Array(values.length);
    found[index] = { gain_dB: heard.gain_dB, slopes };
    if (!(heard.gain_dB > nothing_dB)) return;
    const lean = new Float64Array(circuit.size);
    pullsInto(bySignal, heard.omega, heard.answer, reachOf(heard), own, lean);
    if (circuit.devices.length > 0) {
      carryBack(lean, carried);
      slopesInto(pulls, carried, 1, slopes);
    }
    for (let i = 0; i < values.length; i++) slopes[i] = dBPerNeper * (slopes[i]! + own[i]!);
  });
  return found;
}

/** The adjoint w of one gain. */
function reachOf(heard: Heard): ComplexVector {
  const { point, sender, out, sent } = heard;
  return solveBack(heard, (drive) => {
    addInverse(drive, point, -1, out, 1);
    if (sender !== undefined) addInverse(drive, sender.plus, sender.minus, sent, -1);
  });
}

/** w of Aᵀ·w = drive, while the equations stand factored. */
export function solveBack({ signal }: Heard, fill: (drive: ComplexVector) => void): ComplexVector {
  const drive = answerVector(signal);
  fill(drive);
  const w = answerVector(signal);
  solveSparseComplexTransposed(signal.solver, drive, w);
  return w;
}

/** Adds ±1/z at one unknown, and takes it from the other. */
export function addInverse(into: ComplexVector, plus: number, minus: number, [re, im]: Complex, sign: number): void {
  const size2 = re * re + im * im;
  if (plus >= 0) {
    into.re[plus]! += (sign * re) / size2;
    into.im[plus]! -= (sign * im) / size2;
  }
  if (minus >= 0) {
    into.re[minus]! -= (sign * re) / size2;
    into.im[minus]! += (sign * im) / size2;
  }
}
