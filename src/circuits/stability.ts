import { determinantSign, factorReal, realSystem } from "../maths/linear/realLu.ts";
import type { Circuit } from "./circuit.ts";
import { deviceCurrents, mostElectrodes } from "./device.ts";
import { electrodeVolts, type Settled, stampSlopes } from "./settle.ts";

/**
 * Whether a real circuit would leave this rest: it latches, like two valves each holding the other's grid.
 *
 * Every node has some capacitance, so the rest is left when J·v + s·v = 0 has a root with s > 0. For large s the
 * determinant's sign is that of a circuit that certainly stays; where it differs at s = 0 it passes through nothing an
 * odd number of times in between.
 *
 * @remarks An even number of such roots, or an oscillation, is not seen.
 */
export function latches(circuit: Circuit, settled: Settled): boolean {
  if (circuit.devices.length === 0) return false;
  const held = realSystem(circuit.size);
  held.matrix.set(circuit.steady);
  const u = new Float64Array(mostElectrodes);
  const now = deviceCurrents();
  for (const { nodes, evaluate } of circuit.devices) {
    now.slope.fill(0);
    electrodeVolts(nodes, settled.x, u);
    evaluate(u, now);
    stampSlopes(held.matrix, circuit.size, nodes, now.slope);
  }
  const heavy_S = 1e3 * held.matrix.reduce((top, value) => Math.max(top, Math.abs(value)), 1);
  for (let i = 0; i < circuit.nodeNames.length; i++) {
    held.matrix[i * circuit.size + i] = held.matrix[i * circuit.size + i]! + heavy_S;
  }
  return factorReal(held) < 0 && determinantSign(held) !== determinantSign(settled.slopes);
}
