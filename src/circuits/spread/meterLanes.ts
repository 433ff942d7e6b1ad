import { solveAgain } from "../../maths/linear/laneElimination.ts";
import { evaluateLanes } from "./laneDevices.ts";
import type { UnitLanes } from "./unitLanes.ts";

const mostSteps = 20;
const still = 1e-10;

/**
 * What a meter of a given conductance reads at one node, lane by lane: the unit's own rest moved by the meter.
 *
 *     (J + g·e·eᵀ)·Δ = −(remainder),  by J's factors:  Δ = z·r/(…),  z = J⁻¹·e
 *
 * The first step is exact where nothing bends; the curves are then looked at again where the meter moved them, and
 * the remainder taken up with the same factors, until nothing moves. Needs `solveLanes` before.
 *
 * @param read   set to the readings of lanes that were solved
 * @returns how many lanes would not come to rest; their readings are not numbers
 */
export function readLanes(units: UnitLanes, unknown: number, meter_S: number, read: Float64Array): number {
  const { lanes, elimination, devices, done, pivotOfColumn, pivotOfRow, plan } = units;
  const { answers } = elimination;
  const at = pivotOfColumn[unknown]! * lanes;
  const reach = new Float64Array(plan.size * lanes);
  for (let l = 0; l < lanes; l++) reach[pivotOfRow[unknown]! * lanes + l] = 1;
  solveAgain(elimination, reach);
  // Whole change against the unloaded unit, and how far the lane has come.
  const moved = new Float64Array(plan.size * lanes);
  const open = done.slice(0, lanes);
  let left = 0;
  for (let l = 0; l < lanes; l++) {
    const share = (meter_S * answers[at + l]!) / (1 + meter_S * reach[at + l]!);
    for (let k = 0; k < plan.size; k++) moved[k * lanes + l] = -share * reach[k * lanes + l]!;
    if (open[l]) left++;
  }
  const held = devices.map(({ volts, u, amps, slope }) => ({
    volts: volts.slice(),
    u: u.slice(),
    amps: amps.slice(),
    slope: slope.slice(),
  }));
  const correction = new Float64Array(plan.size * lanes);
  const closed = new Uint8Array(lanes);
  for (let step = 0; step < mostSteps && left > 0 && devices.length > 0; step++) {
    for (let l = 0; l < lanes; l++) closed[l] = open[l] ? 0 : 1;
    for (const [d, device] of devices.entries()) moveDevice(units, device, held[d]!.volts, moved);
    for (const device of devices) evaluateLanes(device, units.factors, lanes, closed);
    correction.fill(0);
    devices.forEach((device, d) => {
      addBend(units, device, held[d]!, correction);
    });
    solveAgain(elimination, correction);
    for (let l = 0; l < lanes; l++) {
      if (!open[l]) continue;
      // What the bend adds to the first step; the meter divides it as it does the node itself.
      const share = (meter_S * (answers[at + l]! + correction[at + l]!)) / (1 + meter_S * reach[at + l]!);
      let most = 0;
      for (let k = 0; k < plan.size; k++) {
        const to = k * lanes + l;
        const now = correction[to]! - share * reach[to]!;
        const jump = Math.abs(now - moved[to]!) / (1 + Math.abs(answers[to]! + now));
        if (!(jump <= most)) most = jump;
        moved[to] = now;
      }
      if (most <= still) {
        open[l] = 0;
        left--;
      }
    }
  }
  devices.forEach((device, d) => {
    for (const name of ["volts", "u", "amps", "slope"] as const) device[name].set(held[d]![name]);
  });
  let failed = 0;
  for (let l = 0; l < lanes; l++) {
    const solved = done[l] === 1 && (open[l] === 0 || devices.length === 0);
    read[l] = solved ? answers[at + l]! + moved[at + l]! : Number.NaN;
    if (!solved) failed++;
  }
  return failed;
}

type Held = Pick<UnitLanes["devices"][number], "volts" | "u" | "amps" | "slope">;

function moveDevice(
  { lanes, pivotOfColumn }: UnitLanes,
  { device, volts }: UnitLanes["devices"][number],
  from: Float64Array,
  moved: Float64Array,
): void {
  const last = device.nodes.length - 1;
  const base = device.nodes[last]!;
  for (let k = 0; k < last; k++) {
    const node = device.nodes[k]!;
    for (let l = 0; l < lanes; l++) {
      const up = node < 0 ? 0 : moved[pivotOfColumn[node]! * lanes + l]!;
      const down = base < 0 ? 0 : moved[pivotOfColumn[base]! * lanes + l]!;
      volts[k * lanes + l] = from[k * lanes + l]! + up - down;
    }
  }
}

/** What the curve carries more than its tangent at the factors' point says, turned round, to the right-hand side. */
function addBend(
  { lanes, pivotOfRow }: UnitLanes,
  { device, carriers, u, amps }: UnitLanes["devices"][number],
  held: Held,
  side: Float64Array,
): void {
  const last = device.nodes.length - 1;
  const base = device.nodes[last]!;
  for (const k of carriers) {
    const row = device.nodes[k]!;
    for (let l = 0; l < lanes; l++) {
      let bend = amps[k * lanes + l]! - held.amps[k * lanes + l]!;
      for (let j = 0; j < last; j++) {
        bend -= held.slope[(3 * k + j) * lanes + l]! * (u[j * lanes + l]! - held.u[j * lanes + l]!);
      }
      if (row >= 0) side[pivotOfRow[row]! * lanes + l] = side[pivotOfRow[row]! * lanes + l]! - bend;
      if (base >= 0) side[pivotOfRow[base]! * lanes + l] = side[pivotOfRow[base]! * lanes + l]! + bend;
    }
  }
}
