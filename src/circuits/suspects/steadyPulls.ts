import type { Circuit } from "../circuit.ts";
import { type Device, deviceCurrents, mostElectrodes } from "../device.ts";
import { electrodeVolts } from "../settle.ts";
import type { ValueAt } from "./tolerances.ts";

/**
 * What a small relative rise of one value adds to the equations at rest: −∂F/∂(ln value), entry by entry.
 *
 * With an adjoint vector λ (Jᵀ·λ = ∂reading/∂x) the reading's slope is Σ λ[unknown]·amount.
 */
export type Pull = readonly (readonly [unknown: number, amount: number])[];

const nothing: Pull = [];

/** Pulls of many values at one rest. */
export function steadyPulls(circuit: Circuit, x: Float64Array, values: readonly ValueAt[]): Pull[] {
  const devices = new Map(circuit.devices.map((device) => [device.part, device]));
  return values.map(({ part, of }) => {
    if (of === "value") return straightPull(circuit, x, part);
    const device = devices.get(part);
    return device === undefined ? nothing : valvePull(device, x, of);
  });
}

/** A reading's slope against a value. */
export function pulled(pull: Pull, reach: Float64Array): number {
  let sum = 0;
  for (const [unknown, amount] of pull) sum += reach[unknown]! * amount;
  return sum;
}

function straightPull(circuit: Circuit, x: Float64Array, index: number): Pull {
  const part = circuit.netlist.parts[index]!;
  const branch = circuit.currentOf[index] ?? -1;
  const at = (unknown: number): number => (unknown >= 0 ? x[unknown]! : 0);
  switch (part.kind) {
    case "resistor": {
      if (branch >= 0) return [[branch, part.ohm * x[branch]!]];
      const [a, b] = part.between.map((node) => circuit.unknownOf(node)!) as [number, number];
      return through(a, b, (at(a) - at(b)) / part.ohm);
    }
    case "inductor":
      return [[branch, (part.resistance_ohm ?? 0) * x[branch]!]];
    case "voltage":
      return [[branch, part.dc_V]];
    case "current": {
      const [a, b] = part.between.map((node) => circuit.unknownOf(node)!) as [number, number];
      return through(a, b, -part.dc_mA / 1e3);
    }
    default:
      return nothing;
  }
}

/** `amps` less leave a, and less arrive at b. */
function through(a: number, b: number, amps: number): Pull {
  return (
    [
      [a, amps],
      [b, -amps],
    ] as const
  ).filter(([unknown]) => unknown >= 0);
}

/** A factor on current scales plate and screen current; one on mu acts as plate and screen voltage divided by it. */
function valvePull({ nodes, evaluate }: Device, x: Float64Array, of: "current" | "mu"): Pull {
  const u = new Float64Array(mostElectrodes);
  const now = deviceCurrents();
  electrodeVolts(nodes, x, u);
  evaluate(u, now);
  const last = nodes.length - 1;
  const pull: (readonly [number, number])[] = [];
  for (let k = 0; k < last; k++) {
    let amount = 0;
    if (of === "current") amount = k === 1 ? 0 : -now.current_A[k]!;
    else for (let j = 0; j < last; j++) if (j !== 1) amount += now.slope[mostElectrodes * k + j]! * u[j]!;
    if (amount !== 0) pull.push(...through(nodes[k]!, nodes[last]!, amount));
  }
  return pull;
}
