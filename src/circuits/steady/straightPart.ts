import { type ComplexVector, complexVector } from "../../maths/linear/complexLu.ts";
import { solveReal } from "../../maths/linear/realLu.ts";
import type { Circuit } from "../circuit.ts";
import { deviceCurrents, mostElectrodes } from "../device.ts";
import { electrodeVolts, nameOfUnknown, type Settled } from "../settle.ts";
import { answerTo, factorAt, type SmallSignalCircuit, smallSignal } from "../smallSignal.ts";

/** A bending part as the balance sees it: where its voltages and its currents stand among all such. */
interface BendingPart {
  readonly device: Circuit["devices"][number];
  /** First of its voltages; one for each electrode but the last. */
  readonly firstVoltage: number;
  /** For each electrode but the last the number of its current, −1 where it never draws any. */
  readonly currents: readonly number[];
  readonly rest_V: Float64Array;
  readonly rest_A: Float64Array;
  readonly rest_S: Float64Array;
}

/**
 * Everything but the bend of the curves: the circuit with every valve as its slopes at rest, seen from the valves.
 *
 *     u_k = driven_k·(k = 1) − Z_k · bend_k,   output_k = drivenOutput·(k = 1) − z_k · bend_k
 *
 * `bend` is what a current departs from its tangent at rest. All voltages count from their values at rest.
 */
export interface StraightPart {
  readonly parts: readonly BendingPart[];
  readonly voltages: number;
  readonly currents: number;
  /** Voltages for 1 V of the source at the fundamental. */
  readonly driven: ComplexVector;
  readonly drivenOutput: readonly [re: number, im: number];
  /** Impedances of harmonic k: voltages by currents, then the output's row; made when first asked for. */
  impedances(k: number): Impedances;
}

interface Impedances {
  /** Ohm, row by voltage (the output's last), column by current. */
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Raised when nothing determines an unknown at some harmonic. */
export class Undetermined extends Error {
  readonly node: string;
  constructor(node: string, frequency_Hz: number) {
    super(`at ${frequency_Hz} Hz nothing in the net list determines ${node}`);
    this.node = node;
  }
}

/**
 * @param drive   right-hand side of the source at one volt
 * @param output  unknowns of the output's ends, −1 for ground
 * @throws Undetermined
 */
export function straightPart(
  circuit: Circuit,
  settled: Settled,
  frequency_Hz: number,
  drive: Float64Array,
  output: readonly [plus: number, minus: number],
): StraightPart {
  const signal = smallSignal(circuit, settled.x);
  const { parts, voltages, currents } = bendingParts(circuit, settled.x);
  const answer = complexVector(circuit.size);
  factorOr(signal, frequency_Hz);
  answerTo(signal, drive, answer);
  const driven = complexVector(voltages);
  for (const { device, firstVoltage } of parts) {
    readVoltages(device.nodes, answer.re, driven.re, firstVoltage);
    readVoltages(device.nodes, answer.im, driven.im, firstVoltage);
  }
  const rows = voltages + 1;
  const made: Impedances[] = [];
  const into = new Float64Array(circuit.size);
  const impedancesAt = (k: number): Impedances => {
    if (k > 0) factorOr(signal, k * frequency_Hz);
    const re = new Float64Array(rows * currents);
    const im = new Float64Array(rows * currents);
    const column = new Float64Array(voltages);
    for (const { device, currents: own } of parts) {
      own.forEach((current, electrode) => {
        if (current < 0) return;
        const from = device.nodes[electrode]!;
        const to = device.nodes.at(-1)!;
        into.fill(0);
        if (from >= 0) into[from] = into[from]! + 1;
        if (to >= 0) into[to] = into[to]! - 1;
        if (k > 0) answerTo(signal, into, answer);
        else {
          solveReal(settled.slopes, into, answer.re);
          answer.im.fill(0);
        }
        for (const [all, side] of [
          [re, answer.re],
          [im, answer.im],
        ] as const) {
          for (const part of parts) readVoltages(part.device.nodes, side, column, part.firstVoltage);
          for (let row = 0; row < voltages; row++) all[row * currents + current] = column[row]!;
          all[voltages * currents + current] = across(side, output);
        }
      });
    }
    return { re, im };
  };
  return {
    parts,
    voltages,
    currents,
    driven,
    drivenOutput: [across(answer.re, output), across(answer.im, output)],
    impedances(k) {
      made[k] ??= impedancesAt(k);
      return made[k];
    },
  };
}

function factorOr(signal: SmallSignalCircuit, frequency_Hz: number): void {
  const singular = factorAt(signal, frequency_Hz);
  if (singular >= 0) throw new Undetermined(nameOfUnknown(signal.circuit, singular), frequency_Hz);
}

function across(side: Float64Array, [plus, minus]: readonly [number, number]): number {
  return (plus >= 0 ? side[plus]! : 0) - (minus >= 0 ? side[minus]! : 0);
}

function readVoltages(nodes: readonly number[], side: Float64Array, into: Float64Array, first: number): void {
  for (let e = 0; e + 1 < nodes.length; e++) into[first + e] = across(side, [nodes[e]!, nodes.at(-1)!]);
}

function bendingParts(circuit: Circuit, x: Float64Array) {
  let voltages = 0;
  let currents = 0;
  const parts = circuit.devices.map((device): BendingPart => {
    const electrodes = device.nodes.length - 1;
    const rest_V = new Float64Array(mostElectrodes);
    const rest = deviceCurrents();
    electrodeVolts(device.nodes, x, rest_V);
    device.evaluate(rest_V, rest);
    const firstVoltage = voltages;
    voltages += electrodes;
    return {
      device,
      firstVoltage,
      currents: Array.from({ length: electrodes }, (_, e) => (everDraws(device, e) ? currents++ : -1)),
      rest_V,
      rest_A: rest.current_A.slice(),
      rest_S: rest.slope.slice(),
    };
  });
  return { parts, voltages, currents };
}

/** Grids of valves without a law of grid current, and gates, draw nothing wherever they stand. */
function everDraws(device: Circuit["devices"][number], electrode: number): boolean {
  const now = deviceCurrents();
  const u = new Float64Array(mostElectrodes);
  for (const volts of [-1000, -10, -1, 0, 1, 10, 100, 1000]) {
    for (const others of [0, 100]) {
      u.fill(others);
      u[electrode] = volts;
      device.evaluate(u, now);
      if (now.current_A[electrode] !== 0) return true;
    }
  }
  return false;
}
