import type { ValveModel } from "../../valves/model.ts";
import type { Circuit } from "../circuit.ts";
import { type Curve, type Device, deviceCurrents, mostElectrodes } from "../device.ts";
import { isValve, type Part } from "../netlist.ts";
import { characterOf } from "../valve.ts";

/** A part whose current bends, in many drawn units side by side. */
export interface LaneDevice {
  readonly device: Device;
  readonly part: Part;
  /** Electrodes that carry current of their own, and the slopes of it that may differ from nothing. */
  readonly carriers: readonly number[];
  readonly slopes: readonly (readonly [electrode: number, voltage: number])[];
  /** One curve a lane. */
  readonly curves: Curve[];
  /** The model behind it, where a model of a valve is. */
  readonly models: (ValveModel | undefined)[];
  /** Where the factors on its current and its mu stand among the drawn factors; −1 where it has none. */
  readonly current: number;
  readonly mu: number;
  /** Electrode voltages counted from the last electrode, as last solved: electrode·lanes + lane. */
  readonly volts: Float64Array;
  /** Those at which the curve was last looked at. */
  readonly u: Float64Array;
  /** There, currents into the electrodes, and their slopes at (3·electrode + voltage)·lanes + lane. */
  readonly amps: Float64Array;
  readonly slope: Float64Array;
}

export function laneDevice(circuit: Circuit, device: Device, lanes: number, current: number, mu: number): LaneDevice {
  const part = circuit.netlist.parts[device.part]!;
  const carriers = device.nodes.slice(0, -1).flatMap((_, k) => (k === 1 && part.kind === "jfet" ? [] : [k]));
  const valve = isValve(part);
  const character = valve ? characterOf(part, circuit.path) : undefined;
  return {
    device,
    part,
    carriers,
    // A valve's grid current hangs on the grid alone.
    slopes: carriers.flatMap((k) =>
      device.nodes.slice(0, -1).flatMap((_, j) => (valve && k === 1 && j !== 1 ? [] : [[k, j] as const])),
    ),
    curves: new Array<Curve>(lanes).fill(device.evaluate),
    models: new Array<ValveModel | undefined>(lanes).fill(character?.by === "model" ? character.model : undefined),
    current,
    mu,
    volts: new Float64Array(mostElectrodes * lanes),
    u: new Float64Array(mostElectrodes * lanes),
    amps: new Float64Array(mostElectrodes * lanes),
    slope: new Float64Array(mostElectrodes * mostElectrodes * lanes),
  };
}

const u = new Float64Array(mostElectrodes);
const now = deviceCurrents();

/**
 * Currents and slopes at the voltages last solved, for lanes not yet done. The curve is a unit's own; factors on
 * current and mu go on top: of a valve, on plate and screen alone (see `valveCurve`), of all else on every electrode.
 */
export function evaluateLanes(device: LaneDevice, factors: Float64Array, lanes: number, done: Uint8Array): void {
  const { carriers, curves, current, mu, amps, slope } = device;
  const valve = device.part.kind === "triode" || device.part.kind === "pentode";
  const last = device.device.nodes.length - 1;
  for (let l = 0; l < lanes; l++) {
    if (done[l]) continue;
    const more = current < 0 ? 1 : factors[current * lanes + l]!;
    const pull = mu < 0 ? 1 : 1 / factors[mu * lanes + l]!;
    for (let k = 0; k < last; k++) {
      const volts = device.volts[k * lanes + l]!;
      device.u[k * lanes + l] = volts;
      u[k] = k === 1 ? volts : volts * pull;
    }
    curves[l]!(u, now);
    for (const k of carriers) {
      const scale = valve && k === 1 ? 1 : more;
      amps[k * lanes + l] = scale * now.current_A[k]!;
      for (let j = 0; j < last; j++) {
        slope[(3 * k + j) * lanes + l] = scale * (j === 1 ? 1 : pull) * now.slope[3 * k + j]!;
      }
    }
  }
}
