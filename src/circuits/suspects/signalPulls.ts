import type { ComplexVector } from "../../maths/linear/complexLu.ts";
import type { Circuit } from "../circuit.ts";
import { type Device, deviceCurrents, mostElectrodes } from "../device.ts";
import { isValve } from "../netlist.ts";
import { electrodeVolts } from "../settle.ts";
import type { ValueAt } from "./tolerances.ts";

/**
 * What small changes add to the equations for signals, −∂A: of each value, and of the unknowns at rest by the bend of
 * valves and junctions. Reckoned once a unit, whatever the frequency, source and point.
 */
export interface SignalPulls {
  /** Per unit of relative change of each value. */
  readonly values: readonly ValuePull[];
  readonly bends: readonly Bend[];
}

/**
 * A share `real − jω·reactive` of the matrix between two unknowns and themselves (a part's own way, or the row of its
 * current, the second then −1), or a device's slopes.
 */
interface ValuePull {
  readonly a: number;
  readonly b: number;
  readonly real: number;
  readonly reactive: number;
  /** Place among the bends, −1 for a part that does not bend. */
  readonly device: number;
  /** d slope / d ln(value), laid out as the device's slopes. */
  readonly slope: Float64Array | undefined;
}

interface Bend {
  readonly nodes: readonly number[];
  /** d slope / d u[l], one table of slopes after the other. */
  readonly bySlope: Float64Array;
}

const slopesOfDevice = mostElectrodes * mostElectrodes;
const still: ValuePull = { a: -1, b: -1, real: 0, reactive: 0, device: -1, slope: undefined };

/** @param x  the unknowns at rest */
export function signalPulls(circuit: Circuit, x: Float64Array, values: readonly ValueAt[]): SignalPulls {
  const deviceOf = new Map(circuit.devices.map(({ part }, d) => [part, d]));
  return {
    values: values.map((value) => valuePull(circuit, x, value, deviceOf)),
    bends: circuit.devices.map((device) => ({ nodes: device.nodes, bySlope: bendOf(device, x) })),
  };
}

function valuePull(
  circuit: Circuit,
  x: Float64Array,
  { part: index, of }: ValueAt,
  deviceOf: ReadonlyMap<number, number>,
): ValuePull {
  const part = circuit.netlist.parts[index]!;
  if (isValve(part)) {
    const device = deviceOf.get(index);
    return device === undefined ? still : { ...still, device, slope: slopeBy(circuit.devices[device]!, of, x) };
  }
  const branch = circuit.currentOf[index] ?? -1;
  switch (part.kind) {
    case "resistor": {
      if (branch >= 0) return { ...still, a: branch, real: part.ohm };
      const [a, b] = part.between.map((node) => circuit.unknownOf(node)!) as [number, number];
      return { ...still, a, b, real: 1 / part.ohm };
    }
    case "capacitor": {
      const [a, b] = part.between.map((node) => circuit.unknownOf(node)!) as [number, number];
      return { ...still, a, b, reactive: part.uF * 1e-6 };
    }
    case "inductor":
      return { ...still, a: branch, real: part.resistance_ohm ?? 0, reactive: -part.H };
    default:
      return still;
  }
}

const muStep = 1e-4;

/** What a device's slopes change by as its current or its mu goes up. */
function slopeBy(device: Device, of: ValueAt["of"], x: Float64Array): Float64Array {
  const u = new Float64Array(mostElectrodes);
  electrodeVolts(device.nodes, x, u);
  const now = deviceCurrents();
  device.evaluate(u, now);
  const by = new Float64Array(slopesOfDevice);
  const last = device.nodes.length - 1;
  if (of === "current") {
    for (let k = 0; k < last; k++) {
      for (let j = 0; j < last; j++) if (k !== 1) by[mostElectrodes * k + j] = now.slope[mostElectrodes * k + j]!;
    }
    return by;
  }
  // The curve with mu a little up, whatever factors it carries already: voltages of plate and screen divided.
  const lower = u.map((volts, j) => (j === 1 ? volts : volts / (1 + muStep)));
  const after = deviceCurrents();
  device.evaluate(lower, after);
  for (let k = 0; k < last; k++) {
    for (let j = 0; j < last; j++) {
      const at = mostElectrodes * k + j;
      by[at] = (after.slope[at]! / (j === 1 ? 1 : 1 + muStep) - now.slope[at]!) / muStep;
    }
  }
  return by;
}

function bendOf({ nodes, evaluate }: Device, x: Float64Array): Float64Array {
  const last = nodes.length - 1;
  const bySlope = new Float64Array(last * slopesOfDevice);
  const u = new Float64Array(mostElectrodes);
  electrodeVolts(nodes, x, u);
  const above = deviceCurrents();
  const below = deviceCurrents();
  for (let l = 0; l < last; l++) {
    const held = u[l]!;
    const step_V = 1e-4 * (1 + Math.abs(held)) ** 0.5;
    u[l] = held + step_V;
    evaluate(u, above);
    u[l] = held - step_V;
    evaluate(u, below);
    u[l] = held;
    for (let at = 0; at < slopesOfDevice; at++) {
      bySlope[l * slopesOfDevice + at] = (above.slope[at]! - below.slope[at]!) / (2 * step_V);
    }
  }
  return bySlope;
}

/**
 * −Re(wᵀ·∂A·v) for every value, its own entries of the matrix alone, written into `into`; and what the shift of the
 * rest adds: −Re(wᵀ·∂A·v) per volt of each unknown at rest, into `lean`.
 */
export function pullsInto(
  { values, bends }: SignalPulls,
  omega: number,
  v: ComplexVector,
  w: ComplexVector,
  into: Float64Array,
  lean: Float64Array,
): void {
  const levers = new Float64Array(bends.length * slopesOfDevice);
  for (let d = 0; d < bends.length; d++) {
    leversInto(bends[d]!.nodes, v, w, levers, d * slopesOfDevice);
    leanInto(bends[d]!, levers, d * slopesOfDevice, lean);
  }
  for (let i = 0; i < values.length; i++) {
    const { a, b, real, reactive, device, slope } = values[i]!;
    if (slope !== undefined) {
      let sum = 0;
      for (let at = 0; at < slopesOfDevice; at++) sum += levers[device * slopesOfDevice + at]! * slope[at]!;
      into[i] = -sum;
      continue;
    }
    const wRe = (a >= 0 ? w.re[a]! : 0) - (b >= 0 ? w.re[b]! : 0);
    const wIm = (a >= 0 ? w.im[a]! : 0) - (b >= 0 ? w.im[b]! : 0);
    const vRe = (a >= 0 ? v.re[a]! : 0) - (b >= 0 ? v.re[b]! : 0);
    const vIm = (a >= 0 ? v.im[a]! : 0) - (b >= 0 ? v.im[b]! : 0);
    into[i] = real * (wRe * vRe - wIm * vIm) + omega * reactive * (wRe * vIm + wIm * vRe);
  }
}

function leanInto({ nodes, bySlope }: Bend, levers: Float64Array, from: number, lean: Float64Array): void {
  const last = nodes.length - 1;
  const base = nodes[last]!;
  for (let l = 0; l < last; l++) {
    let sum = 0;
    for (let at = 0; at < slopesOfDevice; at++) sum -= levers[from + at]! * bySlope[l * slopesOfDevice + at]!;
    if (nodes[l]! >= 0) lean[nodes[l]!]! += sum;
    if (base >= 0) lean[base]! -= sum;
  }
}

/** Re(w_k·v_j) for every pair of a device's electrodes, both counted from its last. */
function leversInto(
  nodes: readonly number[],
  v: ComplexVector,
  w: ComplexVector,
  levers: Float64Array,
  from: number,
): void {
  const last = nodes.length - 1;
  const base = nodes[last]!;
  for (let k = 0; k < last; k++) {
    const row = nodes[k]!;
    const wRe = (row >= 0 ? w.re[row]! : 0) - (base >= 0 ? w.re[base]! : 0);
    const wIm = (row >= 0 ? w.im[row]! : 0) - (base >= 0 ? w.im[base]! : 0);
    for (let j = 0; j < last; j++) {
      const column = nodes[j]!;
      const vRe = (column >= 0 ? v.re[column]! : 0) - (base >= 0 ? v.re[base]! : 0);
      const vIm = (column >= 0 ? v.im[column]! : 0) - (base >= 0 ? v.im[base]! : 0);
      levers[from + mostElectrodes * k + j] = wRe * vRe - wIm * vIm;
    }
  }
}
