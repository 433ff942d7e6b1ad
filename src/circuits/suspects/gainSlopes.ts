import type { ComplexVector } from "../../maths/linear/complexLu.ts";
import {
  type SparseComplexSolver,
  solveSparseComplexTransposed,
  sparseComplexSolver,
} from "../../maths/linear/sparseComplex.ts";
import type { SparsePattern } from "../../maths/linear/sparsePlan.ts";
import type { Circuit } from "../circuit.ts";
import { type Device, deviceCurrents, mostElectrodes } from "../device.ts";
import { isValve } from "../netlist.ts";
import { difference, portsOf } from "../response.ts";
import { electrodeVolts } from "../settle.ts";
import { answerTo, answerVector, factorAt, smallSignal } from "../smallSignal.ts";
import { type Pulls, slopesInto } from "./steadyPulls.ts";
import type { ValueAt } from "./tolerances.ts";

export interface GainAt {
  readonly gain_dB: number;
  /** dB per unit of relative change of each value, the shift of the working point included. */
  readonly slopes: Float64Array;
}

const dBPerNeper = 20 / Math.LN10;
/** A gain of nothing at all, dB: no slope there means anything. */
const nothing_dB = -300;

/**
 * Gain from a source to a node and its slopes against many values, by one adjoint solve at the frequency and one at rest.
 *
 *     A·v = d,  h = v_out/v_source,  Aᵀ·w = e_out/v_out − e_source/v_source,  dG = −(20/ln 10)·Re(wᵀ·dA·v)
 *
 * dA is the value's own share of the matrix, and what the valves' slopes change as the value shifts the rest; the
 * latter is gathered into one vector over the unknowns at rest and carried back through the direct-current equations.
 *
 * @param carryBack  solves Jᵀ·into = lean with the slopes at rest
 * @returns nothing where the frequency leaves an unknown undetermined
 * @throws BadInput at `input` for an input that is no source
 */
export function gainSlopes(
  circuit: Circuit,
  x: Float64Array,
  carryBack: (lean: Float64Array, into: Float64Array) => void,
  question: { readonly node: string; readonly input: string; readonly frequency_Hz: number },
  values: readonly ValueAt[],
  pulls: Pulls,
): GainAt | undefined {
  const ports = portsOf(circuit, { input: question.input, output: question.node });
  const signal = { ...smallSignal(circuit, x), solver: solverFor(circuit.solvers.alternating) };
  if (factorAt(signal, question.frequency_Hz) >= 0) return undefined;
  const v = answerTo(signal, ports.drive, answerVector(signal));
  const out = difference(v, ports.plus, ports.minus);
  const { source } = ports;
  const sent = source.kind === "voltage" ? ([1, 0] as const) : difference(v, source.plus, source.minus);
  const gain_dB = dBPerNeper * (Math.log(Math.hypot(...out)) - Math.log(Math.hypot(...sent)));
  const slopes = new Float64Array(values.length);
  if (!(gain_dB > nothing_dB)) return { gain_dB: nothing_dB, slopes };

  const drive: ComplexVector = { re: new Float64Array(circuit.size), im: new Float64Array(circuit.size) };
  addInverse(drive, ports.plus, ports.minus, out, 1);
  if (source.kind === "current") addInverse(drive, source.plus, source.minus, sent, -1);
  const w = answerVector(signal);
  solveSparseComplexTransposed(signal.solver, drive, w);

  const lean = bending(circuit, x, v, w);
  const carried = new Float64Array(circuit.size);
  if (circuit.devices.length > 0) carryBack(lean, carried);
  const omega = 2 * Math.PI * question.frequency_Hz;
  slopesInto(pulls, carried, 1, slopes);
  values.forEach((value, i) => {
    slopes[i]! += ownShare(circuit, x, value, omega, v, w);
  });
  return { gain_dB, slopes };
}

/** Kept with its order of elimination, since finding that costs as much as a hundred units' factors. */
const solvers = new WeakMap<SparsePattern, SparseComplexSolver>();

function solverFor(pattern: SparsePattern): SparseComplexSolver {
  const kept = solvers.get(pattern) ?? sparseComplexSolver(pattern);
  solvers.set(pattern, kept);
  return kept;
}

function addInverse(
  into: ComplexVector,
  plus: number,
  minus: number,
  [re, im]: readonly [number, number],
  sign: number,
): void {
  const size2 = re * re + im * im;
  for (const [node, way] of [
    [plus, sign],
    [minus, -sign],
  ] as const) {
    if (node < 0) continue;
    into.re[node]! += (way * re) / size2;
    into.im[node]! -= (way * im) / size2;
  }
}

type Complex = readonly [re: number, im: number];
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];

/** −(20/ln 10)·Re(wᵀ·dA·v) for the value's own entries of the matrix. */
function ownShare(
  circuit: Circuit,
  x: Float64Array,
  { part: index, of }: ValueAt,
  omega: number,
  v: ComplexVector,
  w: ComplexVector,
): number {
  const part = circuit.netlist.parts[index]!;
  const branch = circuit.currentOf[index] ?? -1;
  if (isValve(part)) {
    const device = circuit.devices.find((d) => d.part === index);
    return device === undefined ? 0 : valveShare(device, of, x, v, w);
  }
  const across = (): Complex => {
    const [a, b] = "between" in part ? part.between.map((node) => circuit.unknownOf(node)!) : [-1, -1];
    return times(difference(w, a!, b!), difference(v, a!, b!));
  };
  const along = (): Complex => times([w.re[branch]!, w.im[branch]!], [v.re[branch]!, v.im[branch]!]);
  switch (part.kind) {
    case "resistor":
      return branch >= 0 ? dBPerNeper * part.ohm * along()[0] : (dBPerNeper / part.ohm) * across()[0];
    case "capacitor":
      return dBPerNeper * omega * part.uF * 1e-6 * across()[1];
    case "inductor": {
      const [re, im] = along();
      return dBPerNeper * ((part.resistance_ohm ?? 0) * re - omega * part.H * im);
    }
    default:
      return 0;
  }
}

const muStep = 1e-4;

function valveShare(device: Device, of: ValueAt["of"], x: Float64Array, v: ComplexVector, w: ComplexVector): number {
  const u = new Float64Array(mostElectrodes);
  electrodeVolts(device.nodes, x, u);
  const levers = leversOf(device.nodes, v, w);
  const now = deviceCurrents();
  device.evaluate(u, now);
  const last = device.nodes.length - 1;
  if (of === "current") {
    return -dBPerNeper * weigh(levers, last, (k, j) => (k === 1 ? 0 : now.slope[mostElectrodes * k + j]!));
  }
  // The curve with mu a little up, whatever factors it carries already: voltages of plate and screen divided.
  const lower = u.map((volts, j) => (j === 1 ? volts : volts / (1 + muStep)));
  const after = deviceCurrents();
  device.evaluate(lower, after);
  return (
    -dBPerNeper *
    weigh(levers, last, (k, j) => {
      const scaledSlope = after.slope[mostElectrodes * k + j]! / (j === 1 ? 1 : 1 + muStep);
      return (scaledSlope - now.slope[mostElectrodes * k + j]!) / muStep;
    })
  );
}

/** d gain / d x, by the valves' and junctions' slopes alone. */
function bending(circuit: Circuit, x: Float64Array, v: ComplexVector, w: ComplexVector): Float64Array {
  const lean = new Float64Array(circuit.size);
  const u = new Float64Array(mostElectrodes);
  const above = deviceCurrents();
  const below = deviceCurrents();
  for (const { nodes, evaluate } of circuit.devices) {
    electrodeVolts(nodes, x, u);
    const levers = leversOf(nodes, v, w);
    const last = nodes.length - 1;
    for (let l = 0; l < last; l++) {
      const held = u[l]!;
      const step_V = 1e-4 * (1 + Math.abs(held)) ** 0.5;
      u[l] = held + step_V;
      evaluate(u, above);
      u[l] = held - step_V;
      evaluate(u, below);
      u[l] = held;
      const lean_dB =
        -dBPerNeper *
        weigh(levers, last, (k, j) => {
          const at = mostElectrodes * k + j;
          return (above.slope[at]! - below.slope[at]!) / (2 * step_V);
        });
      if (nodes[l]! >= 0) lean[nodes[l]!]! += lean_dB;
      if (nodes[last]! >= 0) lean[nodes[last]!]! -= lean_dB;
    }
  }
  return lean;
}

/** Re(w_k·v_j) for every pair of a device's electrodes, both counted from its last. */
function leversOf(nodes: readonly number[], v: ComplexVector, w: ComplexVector): Float64Array {
  const levers = new Float64Array(mostElectrodes * mostElectrodes);
  const base = nodes.at(-1)!;
  for (let k = 0; k < nodes.length - 1; k++) {
    for (let j = 0; j < nodes.length - 1; j++) {
      levers[mostElectrodes * k + j] = times(difference(w, nodes[k]!, base), difference(v, nodes[j]!, base))[0];
    }
  }
  return levers;
}

function weigh(levers: Float64Array, last: number, slope: (k: number, j: number) => number): number {
  let sum = 0;
  for (let k = 0; k < last; k++) for (let j = 0; j < last; j++) sum += levers[mostElectrodes * k + j]! * slope(k, j);
  return sum;
}
