import { BadInput } from "../../maths/badInput.ts";
import type { Random } from "../../maths/random.ts";
import { checkNetlist } from "../check.ts";
import { buildCircuit, type Circuit, type Fitted, refit } from "../circuit.ts";
import type { Netlist } from "../netlist.ts";
import { describe } from "../rest.ts";
import { type Settled, settle, type Unsettled } from "../settle.ts";
import { workBudget } from "./budget.ts";
import { unitDraws } from "./drawUnits.ts";
import { readLanes } from "./meterLanes.ts";
import { firstLook, type SpreadShare } from "./shares.ts";
import { solveLanes, takeSolution, type UnitLanes, unitLanes } from "./unitLanes.ts";
import { type Batches, type Varied, variedOf } from "./varied.ts";
import { fewest, type Window, windowOf } from "./window.ts";
import { type WrittenUnits, writtenUnits } from "./written/writtenUnits.ts";
import { type Limits, unitJudge, type YieldAnswer } from "./yield.ts";

export interface SpreadQuestion {
  readonly samples: number;
  /** Input resistance of one meter, moved from point to point; left out, it loads nothing. */
  readonly meter_Mohm?: number | undefined;
  /** Half-width that holds 99 % of the mains' voltages; it moves every source marked `mains`. */
  readonly mains_pct?: number | undefined;
  /** The shop's own measured valves, by type, bottle or part. */
  readonly batch?: Batches | undefined;
  /** Voltages by point that a unit must keep to be good. */
  readonly limits?: Limits | undefined;
}

interface PointSpread extends Window {
  /** Of a unit whose every part is as the net list has it. */
  readonly nominal_V: number;
  /** Which parts' spread it comes from, most first, to first order. */
  readonly shares: readonly SpreadShare[];
}

export interface Spread extends YieldAnswer {
  readonly state: "solved";
  readonly points: Readonly<Record<string, PointSpread>>;
  readonly samples: number;
  readonly notes: readonly string[];
}

/** Where a reading is taken. */
interface Point {
  readonly name: string;
  readonly unknown: number;
  /** Relative half-width the net list itself allows. */
  readonly tolerance?: number | undefined;
}

/**
 * Windows of test points over units as they are built: parts within their tolerances, valves as they differ, the
 * mains as it comes. Every drawn unit is solved for its own rest, and read through the meter if there is one.
 *
 * Factors are normal, `tolerance` being the half-width that holds 99 %, all independent but sections of one measured
 * bottle and sources on one mains.
 *
 * @throws BadInput as `solveRest`, or at `samples` where the answer would take too long
 */
export function spread(
  netlist: Netlist,
  question: SpreadQuestion,
  random: Random,
  path = "netlist",
): Spread | Unsettled {
  checkNetlist(netlist, path, true);
  const circuit = buildCircuit(netlist, path);
  const varied = variedOf(netlist, question.mains_pct ?? 0, question.batch ?? {}, path);
  const rest = settle(circuit);
  if (rest.state !== "solved") return rest;
  const points = pointsOf(circuit);
  const meter_S = question.meter_Mohm === undefined ? 0 : 1e-6 / question.meter_Mohm;
  const nominal = points.map((point) => slowReading(circuit, {}, rest, point, meter_S) ?? Number.NaN);
  const drawn = drawAll(circuit, rest, varied, points, nominal, meter_S, question, random);

  const notes = [...describe(circuit, rest).notes, ...drawn.notes];
  if (varied.factors.length + varied.bottles.length === 0) {
    notes.push("nothing in the net list has a tolerance, so every unit is alike");
  }
  if (question.samples < fewest) {
    notes.push(
      `under ${fewest} samples hold no half per cent of their own: windows stand 2.576 standard deviations from the median, each side by its own`,
    );
  }
  const answers = points.map((point, p): [string, PointSpread] => {
    const { shares } = firstLook(circuit, rest, varied, point.unknown, meter_S);
    return [point.name, { nominal_V: nominal[p]!, ...windowOf(drawn.readings[p]!), shares }];
  });
  return { state: "solved", points: Object.fromEntries(answers), samples: question.samples, ...drawn.judged, notes };
}

function pointsOf({ netlist, nodeNames, unknownOf }: Circuit): Point[] {
  if (netlist.testPoints === undefined || netlist.testPoints.length === 0) {
    return nodeNames.map((name, unknown) => ({ name, unknown }));
  }
  return netlist.testPoints.map((point) =>
    typeof point === "string"
      ? { name: point, unknown: unknownOf(point)! }
      : { name: point.name, unknown: unknownOf(point.node)!, tolerance: point.tolerance },
  );
}

const lanes = 64;

interface Drawn {
  /** Sorted readings by point. */
  readonly readings: readonly Float64Array[];
  readonly judged: YieldAnswer;
  readonly notes: readonly string[];
}

function drawAll(
  circuit: Circuit,
  rest: Settled,
  varied: Varied,
  points: readonly Point[],
  nominal: readonly number[],
  meter_S: number,
  { samples, limits }: SpreadQuestion,
  random: Random,
): Drawn {
  const units = unitLanes(circuit, rest, varied, lanes);
  if (units === undefined) {
    throw new BadInput(
      circuit.path,
      "equations without firm pivots",
      "a circuit that can be solved",
      "check the parts",
    );
  }
  const budget = workBudget(units, points.length, meter_S > 0, samples);
  const draws = unitDraws(units, random);
  const isMetered = meter_S > 0;
  const written = writtenUnits(units, isMetered ? points.map(({ unknown }) => unknown) : []);
  const keep = isMetered && !(written && points.every(({ unknown }) => unknown < 0 || written.canRead(unknown)));
  const judge = unitJudge(units, points, nominal, limits);
  const readings = points.map(() => new Float64Array(samples));
  const read = points.map(() => new Float64Array(lanes));
  const found = new Uint8Array(lanes).fill(1);
  let lost = 0;
  let kept = 0;
  for (let from = 0; from < samples; from += lanes) {
    const here = Math.min(lanes, samples - from);
    draws.draw();
    if (written) written.solve(keep);
    else solveLanes(units);
    const { slow, again } = readAll(units, written, points, meter_S, read, here);
    budget.again(again, from + here);
    budget.slow(slow, from + here);
    if (slow > 0) {
      for (let l = 0; l < here; l++) {
        if (!isOpen(read, units, l)) continue;
        found[l] = solveSlowly(circuit, draws.fitted(l), rest, points, meter_S, read, l, units) ? 1 : 0;
        if (!found[l]) lost++;
      }
    }
    judge.take(here, read, found);
    kept = keepReadings(read, found, here, readings, kept);
    if (slow > 0) found.fill(1);
  }
  if (kept === 0) {
    throw new BadInput(circuit.path, "no drawn unit came to rest", "tolerances that leave a circuit", "check them");
  }
  const notes =
    lost > 0 ? [`${lost} of ${samples} drawn units found no rest; they count as bad and stand in no window`] : [];
  return { readings: readings.map((all) => all.subarray(0, kept)), judged: judge.answer(samples), notes };
}

/** @returns how many lanes must be solved the slow way, and how many were solved anew with the meter joined */
function readAll(
  units: UnitLanes,
  written: WrittenUnits | undefined,
  points: readonly Point[],
  meter_S: number,
  read: readonly Float64Array[],
  here: number,
): { readonly slow: number; readonly again: number } {
  const { elimination, pivotOfColumn, done } = units;
  const bent: number[] = [];
  points.forEach(({ unknown }, p) => {
    const at = pivotOfColumn[unknown]! * lanes;
    if (unknown < 0) read[p]!.fill(0);
    else if (meter_S > 0) {
      if (written?.canRead(unknown)) written.read(unknown, meter_S, read[p]!);
      else if (readLanes(units, unknown, meter_S, read[p]!) > 0) bent.push(p);
    } else for (let l = 0; l < lanes; l++) read[p]![l] = done[l] ? elimination.answers[at + l]! : Number.NaN;
  });
  if (bent.length > 0) readLoaded(units, points, meter_S, read, bent);
  let slow = 0;
  for (let l = 0; l < here; l++) if (isOpen(read, units, l)) slow++;
  return { slow, again: bent.length === 0 ? 0 : (bent.length + 1) * lanes };
}

/** Where a meter bends a curve too far to follow it from the unit's rest: each unit solved with the meter for a part. */
function readLoaded(
  units: UnitLanes,
  points: readonly Point[],
  meter_S: number,
  read: readonly Float64Array[],
  bent: readonly number[],
): void {
  const { elimination, pivotOfColumn, done } = units;
  const before = done.slice();
  for (const p of bent) {
    const { unknown } = points[p]!;
    solveLanes(units, { unknown, siemens: meter_S });
    const at = pivotOfColumn[unknown]! * lanes;
    for (let l = 0; l < lanes; l++) {
      if (before[l] && done[l] && Number.isNaN(read[p]![l]!)) read[p]![l] = elimination.answers[at + l]!;
    }
  }
  solveLanes(units);
}

/** Puts the readings of units that were found behind those kept before; returns how many there are now. */
function keepReadings(
  read: readonly Float64Array[],
  found: Uint8Array,
  here: number,
  readings: readonly Float64Array[],
  kept: number,
): number {
  let to = kept;
  for (let p = 0; p < read.length; p++) {
    const [from, into] = [read[p]!, readings[p]!];
    to = kept;
    for (let l = 0; l < here; l++) {
      into[to] = from[l]!;
      to += found[l]!;
    }
  }
  return to;
}

function isOpen(read: readonly Float64Array[], { done }: UnitLanes, lane: number): boolean {
  if (done[lane] === 0) return true;
  for (let p = 0; p < read.length; p++) if (Number.isNaN(read[p]![lane]!)) return true;
  return false;
}

function solveSlowly(
  circuit: Circuit,
  fitted: Fitted,
  rest: Settled,
  points: readonly Point[],
  meter_S: number,
  read: readonly Float64Array[],
  lane: number,
  units: UnitLanes,
): boolean {
  const drawn = refit(circuit, fitted);
  const own = settle(drawn, rest.x);
  if (own.state !== "solved") return false;
  takeSolution(units, lane, own.x);
  for (const [p, point] of points.entries()) {
    const reading = slowReading(drawn, {}, own, point, meter_S);
    if (reading === undefined) return false;
    read[p]![lane] = reading;
  }
  return true;
}

/** What the meter reads at a point, by solving the circuit with the meter in it. */
function slowReading(
  circuit: Circuit,
  fitted: Fitted,
  own: Settled,
  { unknown }: Point,
  meter_S: number,
): number | undefined {
  if (unknown < 0) return 0;
  if (meter_S === 0) return own.x[unknown]!;
  const loaded = refit(circuit, fitted);
  const steady = loaded.steady.slice();
  const at = unknown * circuit.size + unknown;
  steady[at] = steady[at]! + meter_S;
  const settled = settle({ ...loaded, steady }, own.x);
  return settled.state === "solved" ? settled.x[unknown]! : undefined;
}
