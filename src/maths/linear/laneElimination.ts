import type { SparsePlan } from "./sparsePlan.ts";

/**
 * Eliminates many matrices of one plan side by side, a lane each, where only some entries change between solutions.
 *
 * What the unchanging entries alone decide is eliminated once a lane (`settleStill`); each further solution then
 * copies the rest and repeats only what the changing entries touch. Slots and right-hand sides stand lane by lane:
 * entry e of lane l at e·lanes + l. A pivot's slot holds its inverse after elimination.
 *
 * @remarks No pivots are exchanged: the caller looks at the remainder, and solves a lane in another way where it is
 *          large. A pivot of nothing shows as results that are not finite.
 */
export interface LaneElimination {
  readonly plan: SparsePlan;
  readonly lanes: number;
  readonly slots: Float64Array;
  /** Right-hand side by pivot; after a solution what it was turned into. */
  readonly sides: Float64Array;
  /** Solution by pivot, not by column. */
  readonly answers: Float64Array;
  readonly still: Int32Array;
  readonly moving: Int32Array;
  readonly movingSlots: Int32Array;
  readonly movingSides: Int32Array;
  readonly keptSlots: Float64Array;
  readonly keptSides: Float64Array;
  /** Pivots that must be solved back for the unknowns asked after every solution, last first. */
  readonly backward: Int32Array;
}

const invert = 0;
const scale = 1;
const take = 2;
const forward = 3;
const instruction = 4;

/**
 * @param changing  slots that change between solutions
 * @param sides     pivots whose right-hand side changes
 * @param asked     pivots whose unknowns are wanted after every solution
 */
export function laneElimination(
  plan: SparsePlan,
  lanes: number,
  changing: Iterable<number>,
  sides: Iterable<number>,
  asked: Iterable<number>,
): LaneElimination {
  const { size: n, slots, upperStart, upperColumn, upperSlot, lowerStart, lowerRow, lowerSlot, targets } = plan;
  const slotMoves = new Uint8Array(slots);
  const sideMoves = new Uint8Array(n);
  for (const slot of changing) slotMoves[slot] = 1;
  for (const pivot of sides) sideMoves[pivot] = 1;
  const still: number[] = [];
  const moving: number[] = [];
  let p = 0;
  for (let k = 0; k < n; k++) {
    (slotMoves[k] ? moving : still).push(invert, k, 0, 0);
    for (let t = lowerStart[k]!; t < lowerStart[k + 1]!; t++) {
      const lower = lowerSlot + t;
      if (slotMoves[k]) slotMoves[lower] = 1;
      (slotMoves[lower] ? moving : still).push(scale, lower, k, 0);
      for (let s = upperStart[k]!; s < upperStart[k + 1]!; s++, p++) {
        const moves = slotMoves[lower]! | slotMoves[upperSlot + s]!;
        if (moves) slotMoves[targets[p]!] = 1;
        (moves ? moving : still).push(take, targets[p]!, lower, upperSlot + s);
      }
      const row = lowerRow[t]!;
      const moves = slotMoves[lower]! | sideMoves[k]!;
      if (moves) sideMoves[row] = 1;
      (moves ? moving : still).push(forward, row, lower, k);
    }
  }
  const needed = new Uint8Array(n);
  for (const pivot of asked) needed[pivot] = 1;
  for (let k = 0; k < n; k++) {
    if (needed[k]) for (let s = upperStart[k]!; s < upperStart[k + 1]!; s++) needed[upperColumn[s]!] = 1;
  }
  const movingSlots = Int32Array.from([...slotMoves.keys()].filter((slot) => slotMoves[slot]));
  const movingSides = Int32Array.from([...sideMoves.keys()].filter((k) => sideMoves[k]));
  return {
    plan,
    lanes,
    slots: new Float64Array(slots * lanes),
    sides: new Float64Array(n * lanes),
    answers: new Float64Array(n * lanes),
    still: Int32Array.from(still),
    moving: Int32Array.from(moving),
    movingSlots,
    movingSides,
    keptSlots: new Float64Array(movingSlots.length * lanes),
    keptSides: new Float64Array(movingSides.length * lanes),
    backward: Int32Array.from([...needed.keys()].filter((k) => needed[k]).reverse()),
  };
}

/** After `slots` and `sides` are filled with what does not change: eliminates that, and keeps it. */
export function settleStill(e: LaneElimination): void {
  run(e, e.still);
  copyOut(e.slots, e.movingSlots, e.keptSlots, e.lanes);
  copyOut(e.sides, e.movingSides, e.keptSides, e.lanes);
}

/** Back to what `settleStill` kept: the changing entries can be added again. */
export function restoreMoving(e: LaneElimination): void {
  copyIn(e.keptSlots, e.movingSlots, e.slots, e.lanes);
  copyIn(e.keptSides, e.movingSides, e.sides, e.lanes);
}

/** After the changing entries were added: eliminates the rest and solves for the unknowns asked. */
export function solveMoving(e: LaneElimination): void {
  run(e, e.moving);
  for (const k of e.backward) solveBack(e, k);
}

/** Solves for all unknowns, after `solveMoving`. */
export function solveRest(e: LaneElimination): void {
  for (let k = e.plan.size - 1; k >= 0; k--) solveBack(e, k);
}

/** Another right-hand side, given by pivot, against the factors as they stand; written over by its solution. */
export function solveAgain({ plan, lanes, slots: a }: LaneElimination, y: Float64Array): void {
  const { size: n, upperStart, upperColumn, upperSlot, lowerStart, lowerRow, lowerSlot } = plan;
  for (let k = 0; k < n; k++) {
    const from = k * lanes;
    for (let t = lowerStart[k]!; t < lowerStart[k + 1]!; t++) {
      const to = lowerRow[t]! * lanes;
      const factor = (lowerSlot + t) * lanes;
      for (let l = 0; l < lanes; l++) y[to + l] = y[to + l]! - a[factor + l]! * y[from + l]!;
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    const to = k * lanes;
    for (let s = upperStart[k]!; s < upperStart[k + 1]!; s++) {
      const from = upperColumn[s]! * lanes;
      const factor = (upperSlot + s) * lanes;
      for (let l = 0; l < lanes; l++) y[to + l] = y[to + l]! - a[factor + l]! * y[from + l]!;
    }
    for (let l = 0; l < lanes; l++) y[to + l] = y[to + l]! * a[to + l]!;
  }
}

function run({ lanes, slots: a, sides: y }: LaneElimination, program: Int32Array): void {
  for (let at = 0; at < program.length; at += instruction) {
    const to = program[at + 1]! * lanes;
    const p = program[at + 2]! * lanes;
    const q = program[at + 3]! * lanes;
    switch (program[at]!) {
      case take:
        for (let l = 0; l < lanes; l++) a[to + l] = a[to + l]! - a[p + l]! * a[q + l]!;
        break;
      case forward:
        for (let l = 0; l < lanes; l++) y[to + l] = y[to + l]! - a[p + l]! * y[q + l]!;
        break;
      case scale:
        for (let l = 0; l < lanes; l++) a[to + l] = a[to + l]! * a[p + l]!;
        break;
      default:
        for (let l = 0; l < lanes; l++) a[to + l] = 1 / a[to + l]!;
    }
  }
}

function solveBack({ plan, lanes, slots: a, sides: y, answers: x }: LaneElimination, k: number): void {
  const { upperStart, upperColumn, upperSlot } = plan;
  const to = k * lanes;
  for (let l = 0; l < lanes; l++) x[to + l] = y[to + l]!;
  for (let s = upperStart[k]!; s < upperStart[k + 1]!; s++) {
    const from = upperColumn[s]! * lanes;
    const factor = (upperSlot + s) * lanes;
    for (let l = 0; l < lanes; l++) x[to + l] = x[to + l]! - a[factor + l]! * x[from + l]!;
  }
  for (let l = 0; l < lanes; l++) x[to + l] = x[to + l]! * a[to + l]!;
}

function copyOut(from: Float64Array, which: Int32Array, to: Float64Array, lanes: number): void {
  for (let w = 0; w < which.length; w++) {
    const at = which[w]! * lanes;
    for (let l = 0; l < lanes; l++) to[w * lanes + l] = from[at + l]!;
  }
}

function copyIn(from: Float64Array, which: Int32Array, to: Float64Array, lanes: number): void {
  for (let w = 0; w < which.length; w++) {
    const at = which[w]! * lanes;
    for (let l = 0; l < lanes; l++) to[at + l] = from[w * lanes + l]!;
  }
}
