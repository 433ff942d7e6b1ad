import {
  type LaneElimination,
  laneElimination,
  restoreMoving,
  settleStill,
  solveMoving,
  solveRest,
} from "../../maths/linear/laneElimination.ts";
import { planElimination, type SparsePlan } from "../../maths/linear/sparsePlan.ts";
import type { Circuit } from "../circuit.ts";
import type { Part } from "../netlist.ts";
import { electrodeVolts, type Settled } from "../settle.ts";
import { evaluateLanes, type LaneDevice, laneDevice } from "./laneDevices.ts";
import { type PartStamps, stampsOf } from "./stamps.ts";
import type { Varied } from "./varied.ts";

/** Many drawn units of one circuit, solved side by side. */
export interface UnitLanes {
  readonly circuit: Circuit;
  readonly varied: Varied;
  readonly lanes: number;
  readonly plan: SparsePlan;
  readonly elimination: LaneElimination;
  readonly devices: readonly LaneDevice[];
  /** Drawn factors, factor·lanes + lane. */
  readonly factors: Float64Array;
  /** 1 where a lane's unit was solved. */
  readonly done: Uint8Array;
  /** The matrix at rest without devices, entry·lanes + lane, and what the sources drive, unknown·lanes + lane. */
  readonly matrix: Float64Array;
  readonly drive: Float64Array;
  readonly assembly: readonly Assembly[];
  readonly fixed: { readonly matrix: Float64Array; readonly drive: Float64Array };
  /** Pivot of each unknown's column and of its row. */
  readonly pivotOfColumn: Int32Array;
  readonly pivotOfRow: Int32Array;
  /** Slots that a device's slopes go to: slope, slot, sign. */
  readonly deviceSlots: readonly (readonly SlotOfSlope[])[];
  /** Currents and slopes of the devices at the nominal rest, before factors. */
  readonly nominal: readonly { readonly u: Float64Array; readonly amps: Float64Array; readonly slope: Float64Array }[];
}

interface SlotOfSlope {
  readonly slope: number;
  readonly slot: number;
  readonly sign: 1 | -1;
}

/** Entries that go with drawn factors: value × product of the factors, or over it. */
interface Assembly {
  readonly factors: readonly number[];
  readonly rising: readonly { readonly entry: number; readonly value: number }[];
  readonly falling: readonly { readonly entry: number; readonly value: number }[];
  readonly drive: readonly { readonly entry: number; readonly value: number }[];
}

/** Newton steps before a lane is left to the slow way. */
const mostSteps = 12;
/** A lane is done when its next step would move no electrode by more than this share of its voltage, or of a volt. */
const still = 1e-9;
/** Share of a voltage within which the curves are as good as parabolas. */
const nearness = 1e-3;

export function unitLanes(circuit: Circuit, rest: Settled, varied: Varied, lanes: number): UnitLanes | undefined {
  const { pattern } = circuit.solvers.steady;
  const bent = new Uint8Array(circuit.size);
  for (const { nodes } of circuit.devices) for (const node of nodes) if (node >= 0) bent[node] = 1;
  const slopes = Float64Array.from(pattern.places, (place) => rest.matrix[place]!);
  const plan = planElimination(pattern, slopes, bent);
  if (plan === undefined) return undefined;
  const n = circuit.size;
  const pivotOfColumn = inverse(plan.columnOf);
  const pivotOfRow = inverse(plan.rowOf);
  const places = [...pattern.places];
  const slotAt = new Map(places.map((place, e) => [place, plan.slotOf[e]!]));
  const entryAt = new Map(places.map((place, e) => [place, e]));

  const factorOf = (what: "value" | "current" | "mu", part: number): number =>
    varied.factors.findIndex((factor) => factor.what === what && factor.part === part);
  const devices = circuit.devices.map((device) => {
    // A transistor's gain goes into its curve, not on top of it.
    const own = circuit.netlist.parts[device.part]!.kind === "bipolar" ? -1 : factorOf("value", device.part);
    return laneDevice(
      circuit,
      device,
      lanes,
      own >= 0 ? own : factorOf("current", device.part),
      factorOf("mu", device.part),
    );
  });
  const deviceSlots = devices.map(({ device: { nodes }, slopes }) =>
    slopes.flatMap(([k, j]): SlotOfSlope[] => {
      const base = nodes[nodes.length - 1]!;
      const [row, column] = [nodes[k]!, nodes[j]!];
      const slope = 3 * k + j;
      return (
        [
          [row, column, 1],
          [row, base, -1],
          [base, column, -1],
          [base, base, 1],
        ] as const
      ).flatMap(([r, c, sign]) => (r >= 0 && c >= 0 ? [{ slope, slot: slotAt.get(r * n + c)!, sign }] : []));
    }),
  );
  const electrodes = devices.flatMap(({ device }) => device.nodes.filter((node) => node >= 0));
  const elimination = laneElimination(
    plan,
    lanes,
    deviceSlots.flat().map(({ slot }) => slot),
    electrodes.map((node) => pivotOfRow[node]!),
    electrodes.map((node) => pivotOfColumn[node]!),
  );
  const stamps = circuit.netlist.parts.map((_, i) => stampsOf(circuit, i));
  const { fixed, assembly } = assemblyOf(varied, stamps, pattern.places.length, n, entryAt);
  const nominal = devices.map(({ device }) => nominalOf(device, rest.x));
  return {
    circuit,
    varied,
    lanes,
    plan,
    elimination,
    devices,
    factors: new Float64Array(varied.factors.length * lanes),
    done: new Uint8Array(lanes),
    matrix: new Float64Array(pattern.places.length * lanes),
    drive: new Float64Array(n * lanes),
    assembly,
    fixed,
    pivotOfColumn,
    pivotOfRow,
    deviceSlots,
    nominal,
  };
}

/** How much more a step counts at a device: a junction's current grows tenfold in some sixty millivolts. */
export function steepness({ kind }: Part): number {
  return kind === "diode" || kind === "bipolar" ? 50 : 1;
}

function nominalOf(device: UnitLanes["devices"][number]["device"], x: Float64Array): UnitLanes["nominal"][number] {
  const u = new Float64Array(3);
  const now = { current_A: new Float64Array(3), slope: new Float64Array(9) };
  electrodeVolts(device.nodes, x, u);
  device.evaluate(u, now);
  return { u, amps: now.current_A, slope: now.slope };
}

function assemblyOf(
  varied: Varied,
  stamps: readonly PartStamps[],
  entries: number,
  n: number,
  entryAt: ReadonlyMap<number, number>,
): Pick<UnitLanes, "fixed" | "assembly"> {
  const fixed = { matrix: new Float64Array(entries), drive: new Float64Array(n) };
  const mains = varied.factors.findIndex(({ what }) => what === "mains");
  const assembly: Assembly[] = [];
  stamps.forEach((part, i) => {
    const own = varied.factors.findIndex((factor) => factor.what === "value" && factor.part === i);
    const factors = [own, varied.onMains.includes(i) ? mains : -1].filter((index) => index >= 0);
    const inMatrix = (list: PartStamps["fixed"]) => list.map(({ at, value }) => ({ entry: entryAt.get(at)!, value }));
    for (const { entry, value } of inMatrix(part.fixed)) fixed.matrix[entry] = fixed.matrix[entry]! + value;
    const parts = {
      rising: inMatrix(part.rising),
      falling: inMatrix(part.falling),
      drive: part.drive.map(({ at, value }) => ({ entry: at, value })),
    };
    if (factors.length > 0) {
      if (parts.rising.length + parts.falling.length + parts.drive.length > 0) assembly.push({ factors, ...parts });
      return;
    }
    for (const { entry, value } of [...parts.rising, ...parts.falling]) {
      fixed.matrix[entry] = fixed.matrix[entry]! + value;
    }
    for (const { entry, value } of parts.drive) fixed.drive[entry] = fixed.drive[entry]! + value;
  });
  return { fixed, assembly };
}

function inverse(order: Int32Array): Int32Array {
  const back = new Int32Array(order.length);
  order.forEach((original, k) => {
    back[original] = k;
  });
  return back;
}

/** When Newton's steps end. */
export interface NewtonEnd {
  readonly still: number;
  readonly nearness: number;
  readonly mostSteps: number;
}

export const newtonEnd: NewtonEnd = { still, nearness, mostSteps };

/** A conductance from a node to ground that is none of the unit's parts. */
export interface Load {
  readonly unknown: number;
  readonly siemens: number;
}

/**
 * Solves every lane's unit for its rest, from the factors drawn; `done` then says which lanes were solved.
 *
 * @param load  joined to every unit; where the node has no entry of its own in the matrix no lane is solved
 */
export function solveLanes(units: UnitLanes, load?: Load): void {
  const { lanes, elimination, devices, done, factors } = units;
  assemble(units);
  scatter(units);
  if (load && !join(units, load)) {
    done.fill(0);
    return;
  }
  settleStill(elimination);
  done.fill(0);
  predict(units);
  const before = new Float64Array(lanes).fill(Number.POSITIVE_INFINITY);
  let open = lanes;
  for (let step = 0; step < mostSteps && open > 0; step++) {
    if (step > 0) for (const device of devices) evaluateLanes(device, factors, lanes, done);
    restoreMoving(elimination);
    for (let d = 0; d < devices.length; d++) addDevice(units, devices[d]!, units.deviceSlots[d]!);
    solveMoving(elimination);
    open = takeVoltages(units, before, step);
  }
  solveRest(elimination);
}

function assemble({ lanes, factors, matrix, drive, assembly, fixed }: UnitLanes): void {
  for (let e = 0; e < fixed.matrix.length; e++) matrix.fill(fixed.matrix[e]!, e * lanes, (e + 1) * lanes);
  for (let i = 0; i < fixed.drive.length; i++) drive.fill(fixed.drive[i]!, i * lanes, (i + 1) * lanes);
  for (const part of assembly) {
    for (let l = 0; l < lanes; l++) scratch[l] = factors[part.factors[0]! * lanes + l]!;
    for (let f = 1; f < part.factors.length; f++) {
      const from = part.factors[f]! * lanes;
      for (let l = 0; l < lanes; l++) scratch[l] = scratch[l]! * factors[from + l]!;
    }
    addScaled(part.rising, matrix, lanes);
    addScaled(part.drive, drive, lanes);
    if (part.falling.length === 0) continue;
    for (let l = 0; l < lanes; l++) scratch[l] = 1 / scratch[l]!;
    addScaled(part.falling, matrix, lanes);
  }
}

const scratch = new Float64Array(256);

function addScaled(list: Assembly["rising"], into: Float64Array, lanes: number): void {
  for (const { entry, value } of list) {
    const to = entry * lanes;
    for (let l = 0; l < lanes; l++) into[to + l] = into[to + l]! + value * scratch[l]!;
  }
}

function scatter({ lanes, plan, elimination, matrix, drive, pivotOfRow }: UnitLanes): void {
  const { slots, sides } = elimination;
  slots.fill(0);
  for (let e = 0; e < plan.slotOf.length; e++) {
    const to = plan.slotOf[e]! * lanes;
    for (let l = 0; l < lanes; l++) slots[to + l] = matrix[e * lanes + l]!;
  }
  for (let i = 0; i < plan.size; i++) {
    const to = pivotOfRow[i]! * lanes;
    for (let l = 0; l < lanes; l++) sides[to + l] = drive[i * lanes + l]!;
  }
}

function join({ circuit, lanes, plan, elimination }: UnitLanes, { unknown, siemens }: Load): boolean {
  const entry = circuit.solvers.steady.pattern.places.indexOf(unknown * circuit.size + unknown);
  if (entry < 0) return false;
  const to = plan.slotOf[entry]! * lanes;
  for (let l = 0; l < lanes; l++) elimination.slots[to + l] = elimination.slots[to + l]! + siemens;
  return true;
}

/**
 * First look at the devices: at the nominal rest, moved by their own factors alone. The step from it is the
 * first-order prediction, and costs no curve.
 */
function predict({ devices, nominal, lanes, factors }: UnitLanes): void {
  devices.forEach((device, d) => {
    const { u, amps, slope } = nominal[d]!;
    const last = device.device.nodes.length - 1;
    const valve = device.part.kind === "triode" || device.part.kind === "pentode";
    for (let k = 0; k < last; k++) {
      device.u.fill(u[k]!, k * lanes, (k + 1) * lanes);
      device.volts.fill(u[k]!, k * lanes, (k + 1) * lanes);
    }
    for (const k of device.carriers) {
      for (let l = 0; l < lanes; l++) {
        const more = device.current < 0 || (valve && k === 1) ? 1 : factors[device.current * lanes + l]!;
        const pull = device.mu < 0 ? 1 : 1 / factors[device.mu * lanes + l]!;
        let moved = amps[k]!;
        for (let j = 0; j < last; j++) {
          const reach = j === 1 ? 1 : pull;
          moved += slope[3 * k + j]! * u[j]! * (reach - 1);
          device.slope[(3 * k + j) * lanes + l] = more * reach * slope[3 * k + j]!;
        }
        device.amps[k * lanes + l] = more * moved;
      }
    }
  });
}

function addDevice(
  { lanes, elimination, pivotOfRow }: UnitLanes,
  device: LaneDevice,
  at: readonly SlotOfSlope[],
): void {
  const { slots, sides } = elimination;
  const { nodes } = device.device;
  const last = nodes.length - 1;
  const base = nodes[last]!;
  for (const { slope, slot, sign } of at) {
    const to = slot * lanes;
    const from = slope * lanes;
    if (sign > 0) for (let l = 0; l < lanes; l++) slots[to + l] = slots[to + l]! + device.slope[from + l]!;
    else for (let l = 0; l < lanes; l++) slots[to + l] = slots[to + l]! - device.slope[from + l]!;
  }
  for (const k of device.carriers) {
    for (let l = 0; l < lanes; l++) scratch[l] = device.amps[k * lanes + l]!;
    for (let j = 0; j < last; j++) {
      const from = (3 * k + j) * lanes;
      for (let l = 0; l < lanes; l++) scratch[l] = scratch[l]! - device.slope[from + l]! * device.u[j * lanes + l]!;
    }
    const row = nodes[k]! < 0 ? -1 : pivotOfRow[nodes[k]!]! * lanes;
    const sink = base < 0 ? -1 : pivotOfRow[base]! * lanes;
    if (row >= 0) for (let l = 0; l < lanes; l++) sides[row + l] = sides[row + l]! - scratch[l]!;
    if (sink >= 0) for (let l = 0; l < lanes; l++) sides[sink + l] = sides[sink + l]! + scratch[l]!;
  }
}

/**
 * Moves every open lane's electrodes to the solution. A lane is done when the step after this one, extrapolated from
 * the last two by Newton's doubling of digits, would be too small to matter.
 *
 * @returns how many lanes are open still
 */
function takeVoltages(units: UnitLanes, before: Float64Array, step: number): number {
  const { lanes, devices, done, elimination, pivotOfColumn } = units;
  const { answers } = elimination;
  const moved = moves.fill(0, 0, lanes);
  for (const { device, part, volts: held } of devices) {
    const weight = steepness(part);
    const last = device.nodes.length - 1;
    const base = device.nodes[last]! < 0 ? -1 : pivotOfColumn[device.nodes[last]!]! * lanes;
    for (let k = 0; k < last; k++) {
      const at = device.nodes[k]! < 0 ? -1 : pivotOfColumn[device.nodes[k]!]! * lanes;
      for (let l = 0; l < lanes; l++) {
        if (done[l]) continue;
        const volts = (at < 0 ? 0 : answers[at + l]!) - (base < 0 ? 0 : answers[base + l]!);
        const share = (weight * Math.abs(volts - held[k * lanes + l]!)) / (1 + Math.abs(volts));
        // A share that is not a number must not pass for a small one.
        if (!(share <= moved[l]!)) moved[l] = share;
        held[k * lanes + l] = volts;
      }
    }
  }
  let open = 0;
  for (let l = 0; l < lanes; l++) {
    if (done[l]) continue;
    const now = moved[l]!;
    const ratio = now / before[l]!;
    // Newton doubles its digits: the next step is this one times the square of the last ratio, a hundred times over.
    const next = 100 * now * ratio * ratio;
    if (devices.length === 0 || now <= still || (step > 0 && now <= nearness && next <= still)) done[l] = 1;
    else open++;
    before[l] = now;
  }
  return open;
}

const moves = new Float64Array(256);

/** Puts a unit that was solved in another way into its lane. */
export function takeSolution(units: UnitLanes, lane: number, x: Float64Array): void {
  const { lanes, devices, elimination, pivotOfColumn, done, factors } = units;
  for (let i = 0; i < x.length; i++) elimination.answers[pivotOfColumn[i]! * lanes + lane] = x[i]!;
  const others = new Uint8Array(lanes).fill(1);
  others[lane] = 0;
  const u = new Float64Array(3);
  for (const device of devices) {
    electrodeVolts(device.device.nodes, x, u);
    for (let k = 0; k < device.device.nodes.length - 1; k++) device.volts[k * lanes + lane] = u[k]!;
    evaluateLanes(device, factors, lanes, others);
  }
  done[lane] = 1;
}
