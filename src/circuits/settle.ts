import { factorReal, type RealSystem, realSystem } from "../maths/linear/realLu.ts";
import { factorSparseReal, type SparseRealSolver, solveSparseReal } from "../maths/linear/sparseReal.ts";
import type { Circuit } from "./circuit.ts";
import { type DeviceCurrents, deviceCurrents, mostElectrodes } from "./device.ts";

/** All unknowns at rest, and the slope matrix there. */
export interface Settled {
  readonly state: "solved";
  readonly x: Float64Array;
  /** The slope matrix, row after row, as it stands before elimination. */
  readonly matrix: Float64Array;
  /** The same, factored (when first asked for), ready for adjoint solves. */
  readonly slopes: RealSystem;
  /** A helping leak that had to stay at every node, S; 0 as a rule. */
  readonly leak_S: number;
}

/** No rest was found; `node` is the one that kept moving, or that nothing determines. */
export interface Unsettled {
  readonly state: "undecided";
  readonly node: string;
  readonly reason: string;
  readonly notes: readonly string[];
}

interface Help {
  /** Share of the sources that is on. */
  readonly sources: number;
  /** Conductance from every node to where `anchor` holds it. */
  readonly leak_S: number;
  readonly anchor?: Float64Array;
}

const plain: Help = { sources: 1, leak_S: 0 };
const mostSteps = 80;
/** Newton ends when no node moves by more than this share of its voltage, or of a volt. */
const still = 1e-11;
const nearlyStill = 1e-7;

/**
 * The working point: Newton's method, damped so that each step's successor is shorter, then, where that fails, by
 * helping leaks that are taken away, by sources turned up slowly, and by a march in pretended time.
 *
 * @param start  unknowns of a like circuit, to start from
 * @source damping after Deuflhard, Newton Methods for Nonlinear Problems, Springer 2004 (natural monotonicity test;
 *         remembered); leak and source stepping are common practice
 */
export function settle(circuit: Circuit, start?: Float64Array): Settled | Unsettled {
  const work = workspace(circuit);
  const x = start?.slice() ?? new Float64Array(circuit.size);
  const ways: ((x: Float64Array) => boolean)[] = [
    (x) => newton(circuit, work, x, plain),
    (x) => newton(circuit, work, x.fill(0), plain),
    (x) => byLeaks(circuit, work, x.fill(0)),
    (x) => bySources(circuit, work, x.fill(0)),
    (x) => byMarching(circuit, work, x.fill(0)),
  ];
  for (const way of start === undefined ? ways.slice(1) : ways) {
    if (way(x) && assembleAndFactor(circuit, work, x, plain) < 0) {
      return settled(work, x, 0);
    }
  }
  // A node between two valves that are both cut off is held by nothing but leakage; real insulation does it.
  const leak: Help = { sources: 1, leak_S: 1e-12 };
  if (byLeaks(circuit, work, x.fill(0), leak.leak_S) && assembleAndFactor(circuit, work, x, leak) < 0) {
    return settled(work, x, leak.leak_S);
  }
  return unsettled(circuit, work, x);
}

function settled({ matrix }: Workspace, x: Float64Array, leak_S: number): Settled {
  let factored: RealSystem | undefined;
  return {
    state: "solved",
    x,
    matrix,
    leak_S,
    get slopes() {
      if (factored === undefined) {
        factored = realSystem(x.length);
        factored.matrix.set(matrix);
        factorReal(factored);
      }
      return factored;
    },
  };
}

interface Workspace {
  readonly solver: SparseRealSolver;
  readonly matrix: Float64Array;
  readonly residual: Float64Array;
  readonly step: Float64Array;
  readonly trial: Float64Array;
  readonly successor: Float64Array;
  readonly u: Float64Array;
  readonly currents: DeviceCurrents;
  /** Where the last attempt stood still or broke down. */
  trouble: { unknown: number; singular: boolean };
  /** Factorisations left before the search is given up as too long. */
  left: number;
}

/** Keeps the longest search to a few seconds: a factorisation costs about size³ multiplications at worst. */
function mostFactorisations(size: number): number {
  return Math.min(20_000, Math.max(30, Math.floor(4e9 / size ** 3)));
}

function workspace({ size, solvers }: Circuit): Workspace {
  return {
    solver: solvers.steady,
    matrix: new Float64Array(size * size),
    residual: new Float64Array(size),
    step: new Float64Array(size),
    trial: new Float64Array(size),
    successor: new Float64Array(size),
    u: new Float64Array(mostElectrodes),
    currents: deviceCurrents(),
    trouble: { unknown: 0, singular: false },
    left: mostFactorisations(size),
  };
}

function newton(circuit: Circuit, work: Workspace, x: Float64Array, help: Help): boolean {
  const { residual, step, trial, successor, solver } = work;
  let damping = 1;
  for (let n = 0; n < mostSteps && work.left > 0; n++) {
    work.left--;
    const singular = assembleAndFactor(circuit, work, x, help);
    if (singular >= 0) {
      work.trouble = { unknown: singular, singular: true };
      return false;
    }
    solveSparseReal(solver, residual, step);
    const length = lengthOf(circuit, step);
    const moved = moves(circuit, x, step);
    if (!Number.isFinite(length)) return false;
    if (moved.share <= still) {
      subtract(x, step, 1, x);
      return true;
    }
    damping = Math.min(1, damping * 4);
    for (;;) {
      subtract(x, step, damping, trial);
      residualOf(circuit, work, trial, help);
      solveSparseReal(solver, residual, successor);
      const next = lengthOf(circuit, successor);
      if (next <= (1 - damping / 4) * length) break;
      // At the grain of the arithmetic the successor no longer shrinks; the point is as good as it gets.
      if (moved.share <= nearlyStill && next <= 2 * length) {
        subtract(x, step, 1, x);
        return true;
      }
      damping /= 2;
      if (damping < 1e-7) {
        work.trouble = { unknown: moved.unknown, singular: false };
        return false;
      }
    }
    x.set(trial);
    work.trouble = { unknown: moved.unknown, singular: false };
  }
  return false;
}

function byLeaks(circuit: Circuit, work: Workspace, x: Float64Array, end_S = 0): boolean {
  for (let leak_S = 1e-2; leak_S > Math.max(end_S, 1e-13); leak_S /= 10) {
    if (!newton(circuit, work, x, { sources: 1, leak_S })) return false;
  }
  return newton(circuit, work, x, { sources: 1, leak_S: end_S });
}

function bySources(circuit: Circuit, work: Workspace, x: Float64Array): boolean {
  const held = x.slice();
  let sources = 0;
  let stride = 0.1;
  while (sources < 1) {
    const next = Math.min(1, sources + stride);
    if (newton(circuit, work, x, { sources: next, leak_S: 0 })) {
      held.set(x);
      sources = next;
      stride *= 2;
    } else {
      x.set(held);
      stride /= 4;
      if (stride < 1e-4) return false;
    }
  }
  return true;
}

/** Every node is given a capacitance in turn smaller, so that it drifts to where a real one would come to rest. */
function byMarching(circuit: Circuit, work: Workspace, x: Float64Array): boolean {
  const anchor = x.slice();
  let leak_S = 1;
  for (let n = 0; n < 200; n++) {
    anchor.set(x);
    if (newton(circuit, work, x, { sources: 1, leak_S, anchor })) leak_S /= 2;
    else {
      x.set(anchor);
      leak_S *= 8;
      if (leak_S > 1e6) return false;
    }
    if (leak_S < 1e-10) return newton(circuit, work, x, plain);
  }
  return false;
}

function assembleAndFactor(circuit: Circuit, work: Workspace, x: Float64Array, help: Help): number {
  const { matrix, solver } = work;
  for (const place of solver.pattern.places) matrix[place] = circuit.steady[place]!;
  if (help.leak_S > 0) {
    for (let i = 0; i < circuit.nodeNames.length; i++) {
      const at = i * circuit.size + i;
      matrix[at] = matrix[at]! + help.leak_S;
    }
  }
  linearResidual(circuit, work, x, help);
  addDevices(circuit, work, x, matrix);
  return factorSparseReal(solver, matrix);
}

function residualOf(circuit: Circuit, work: Workspace, x: Float64Array, help: Help): void {
  linearResidual(circuit, work, x, help);
  addDevices(circuit, work, x, undefined);
}

function linearResidual(
  { size, steady, drive, nodeNames, solvers }: Circuit,
  { residual }: Workspace,
  x: Float64Array,
  help: Help,
): void {
  for (let i = 0; i < size; i++) residual[i] = -help.sources * drive[i]!;
  for (const place of solvers.steady.pattern.places) {
    const row = Math.floor(place / size);
    residual[row] = residual[row]! + steady[place]! * x[place - row * size]!;
  }
  if (help.leak_S === 0) return;
  for (let i = 0; i < nodeNames.length; i++) {
    residual[i] = residual[i]! + help.leak_S * (x[i]! - (help.anchor?.[i] ?? 0));
  }
}

function addDevices(circuit: Circuit, work: Workspace, x: Float64Array, matrix: Float64Array | undefined): void {
  const { residual, u, currents } = work;
  for (const device of circuit.devices) {
    const { nodes } = device;
    const last = nodes.length - 1;
    const base = nodes[last]!;
    const base_V = base >= 0 ? x[base]! : 0;
    for (let k = 0; k < last; k++) u[k] = (nodes[k]! >= 0 ? x[nodes[k]!]! : 0) - base_V;
    device.evaluate(u, currents);
    for (let k = 0; k < last; k++) {
      const amps = currents.current_A[k]!;
      const row = nodes[k]!;
      if (row >= 0) residual[row] = residual[row]! + amps;
      if (base >= 0) residual[base] = residual[base]! - amps;
    }
    if (matrix !== undefined) stampSlopes(matrix, circuit.size, nodes, currents.slope);
  }
}

/** Adds a device's slopes to a matrix: its electrodes' currents against the voltages counted from the last of them. */
export function stampSlopes(matrix: Float64Array, size: number, nodes: readonly number[], slope: Float64Array): void {
  const last = nodes.length - 1;
  const base = nodes[last]!;
  for (let k = 0; k < last; k++) {
    const row = nodes[k]!;
    for (let j = 0; j < last; j++) {
      const value = slope[mostElectrodes * k + j]!;
      if (value === 0) continue;
      const column = nodes[j]!;
      if (row >= 0 && column >= 0) matrix[row * size + column] = matrix[row * size + column]! + value;
      if (row >= 0 && base >= 0) matrix[row * size + base] = matrix[row * size + base]! - value;
      if (base >= 0 && column >= 0) matrix[base * size + column] = matrix[base * size + column]! - value;
      if (base >= 0) matrix[base * size + base] = matrix[base * size + base]! + value;
    }
  }
}

/** Voltages of a device's electrodes, counted from the last, at a solution. */
export function electrodeVolts(nodes: readonly number[], x: Float64Array, into: Float64Array): void {
  const last = nodes.length - 1;
  const base = nodes[last]!;
  for (let k = 0; k < last; k++) into[k] = (nodes[k]! >= 0 ? x[nodes[k]!]! : 0) - (base >= 0 ? x[base]! : 0);
}

function subtract(x: Float64Array, step: Float64Array, share: number, into: Float64Array): void {
  for (let i = 0; i < x.length; i++) into[i] = x[i]! - share * step[i]!;
}

/** Length in volts: the currents among the unknowns follow the voltages. */
function lengthOf({ nodeNames }: Circuit, step: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < nodeNames.length; i++) sum += step[i]! * step[i]!;
  return Math.sqrt(sum);
}

function moves({ nodeNames }: Circuit, x: Float64Array, step: Float64Array): { share: number; unknown: number } {
  let share = 0;
  let unknown = 0;
  for (let i = 0; i < nodeNames.length; i++) {
    const moved = Math.abs(step[i]!) / (1 + Math.abs(x[i]!));
    if (moved > share) {
      share = moved;
      unknown = i;
    }
  }
  return { share, unknown };
}

function unsettled(circuit: Circuit, work: Workspace, x: Float64Array): Unsettled {
  const { unknown, singular } = work.trouble;
  const node = nameOfUnknown(circuit, unknown);
  const steep = steepest(circuit, work, x);
  if (steep !== undefined) {
    return {
      state: "undecided",
      node,
      reason: `${steep} would have to carry an endless current; put a resistor in series with it`,
      notes: [],
    };
  }
  return {
    state: "undecided",
    node,
    reason: singular
      ? `nothing in the net list determines ${node}; give it a path for direct current, or a coil beside it its resistance_ohm`
      : `${node} would not settle; look for a loop that latches or oscillates there, or a value far from the usual`,
    notes: [],
  };
}

/** Conductance that no real junction or valve reaches. */
const endless_S = 1e6;

/** A device driven so hard that its slope drowns everything beside it: a junction straight across a supply. */
function steepest(circuit: Circuit, { u, currents }: Workspace, x: Float64Array): string | undefined {
  const steep = circuit.devices.find((device) => {
    currents.slope.fill(0);
    electrodeVolts(device.nodes, x, u);
    device.evaluate(u, currents);
    return currents.slope.some((slope) => Math.abs(slope) > endless_S);
  });
  return steep && circuit.netlist.parts[steep.part]!.id;
}

/** An unknown in words: `node a1`, or `the current of T1`. */
export function nameOfUnknown(circuit: Circuit, unknown: number): string {
  const node = circuit.nodeNames[unknown];
  if (node !== undefined) return `node ${node}`;
  let owner = "";
  circuit.currentOf.forEach((first, i) => {
    if (first >= 0 && first <= unknown) owner = circuit.netlist.parts[i]!.id;
  });
  return `the current of ${owner}`;
}
