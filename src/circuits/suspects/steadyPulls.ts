import type { Circuit } from "../circuit.ts";
import { type Device, deviceCurrents, mostElectrodes } from "../device.ts";
import { electrodeVolts } from "../settle.ts";
import type { ValueAt } from "./tolerances.ts";

/**
 * What a small relative rise of each value adds to the equations at rest, −∂F/∂(ln value), entry by entry.
 *
 * With an adjoint vector λ (Jᵀ·λ = ∂reading/∂x) the reading's slope is Σ λ[unknown]·amount.
 */
export interface Pulls {
  /** First entry of each value; the last is the count of all. */
  readonly starts: Int32Array;
  readonly unknowns: readonly number[];
  readonly amounts: readonly number[];
}

/** Pulls of many values at one rest. */
export function steadyPulls(circuit: Circuit, x: Float64Array, values: readonly ValueAt[]): Pulls {
  const starts = new Int32Array(values.length + 1);
  const unknowns: number[] = [];
  const amounts: number[] = [];
  /** `amount` arrives at a, and leaves b. */
  const put = (a: number, b: number, amount: number): void => {
    if (a >= 0) {
      unknowns.push(a);
      amounts.push(amount);
    }
    if (b >= 0) {
      unknowns.push(b);
      amounts.push(-amount);
    }
  };
  values.forEach(({ part, of }, i) => {
    starts[i] = unknowns.length;
    if (of === "value") pullStraight(circuit, x, part, put);
    else pullValve(circuit, x, part, of, put);
  });
  starts[values.length] = unknowns.length;
  return { starts, unknowns, amounts };
}

/** A reading's slopes against all values, times `scale`, written into `into`. */
export function slopesInto(
  { starts, unknowns, amounts }: Pulls,
  reach: Float64Array,
  scale: number,
  into: Float64Array,
): void {
  for (let i = 0; i + 1 < starts.length; i++) {
    let sum = 0;
    for (let e = starts[i]!; e < starts[i + 1]!; e++) sum += reach[unknowns[e]!]! * amounts[e]!;
    into[i] = scale * sum;
  }
}

type Put = (a: number, b: number, amount: number) => void;

function pullStraight(circuit: Circuit, x: Float64Array, index: number, put: Put): void {
  const part = circuit.netlist.parts[index]!;
  const branch = circuit.currentOf[index] ?? -1;
  switch (part.kind) {
    case "resistor": {
      if (branch >= 0) {
        put(branch, -1, part.ohm * x[branch]!);
        return;
      }
      const a = circuit.unknownOf(part.between[0])!;
      const b = circuit.unknownOf(part.between[1])!;
      put(a, b, ((a >= 0 ? x[a]! : 0) - (b >= 0 ? x[b]! : 0)) / part.ohm);
      return;
    }
    case "inductor":
      put(branch, -1, (part.resistance_ohm ?? 0) * x[branch]!);
      return;
    case "voltage":
      put(branch, -1, part.dc_V);
      return;
    case "current":
      put(circuit.unknownOf(part.between[0])!, circuit.unknownOf(part.between[1])!, -part.dc_mA / 1e3);
      return;
    default:
      return;
  }
}

/** A factor on current scales plate and screen current; one on mu acts as plate and screen voltage divided by it. */
function pullValve(circuit: Circuit, x: Float64Array, part: number, of: "current" | "mu", put: Put): void {
  const device = circuit.devices.find((own) => own.part === part);
  if (device === undefined) return;
  const { nodes } = device;
  const { u, now } = electrodesAt(device, x);
  const last = nodes.length - 1;
  for (let k = 0; k < last; k++) {
    let amount = 0;
    if (of === "current") amount = k === 1 ? 0 : -now.current_A[k]!;
    else for (let j = 0; j < last; j++) if (j !== 1) amount += now.slope[mostElectrodes * k + j]! * u[j]!;
    if (amount !== 0) put(nodes[k]!, nodes[last]!, amount);
  }
}

const held = { u: new Float64Array(mostElectrodes), now: deviceCurrents() };

function electrodesAt({ nodes, evaluate }: Device, x: Float64Array): typeof held {
  held.now.slope.fill(0);
  electrodeVolts(nodes, x, held.u);
  evaluate(held.u, held.now);
  return held;
}
