import type { Shape } from "./supply.ts";

/** A full-wave rectifier with its reservoir, seen from the HT winding. */
export interface Reservoir {
  /** Peak of the unloaded winding on an unbent supply of nominal voltage. */
  readonly winding_Vpk: number;
  /** Winding and rectifier together. */
  readonly source_ohm: number;
  readonly reservoir_uF: number;
  readonly load_mA: number;
}

export interface Ripple {
  readonly order: number;
  readonly value_rms: number;
  /** Of a cosine, against the supply's own. */
  readonly phase_cycles: number;
}

export interface Charging {
  readonly ht_V: number;
  /** The reservoir's ripple, in volts, even orders of the supply. */
  readonly ripple: readonly Ripple[];
  /** The pulses that charge it, in amperes, even orders of the supply. */
  readonly pulses: readonly Ripple[];
  /** What is left of the supply's shape, which a source of limited current gives up while a pulse flows. */
  readonly shape: Shape;
}

const steps = 1024;
/** Cycles until the reservoir stands still; its charge through winding and rectifier takes a few milliseconds. */
const settling_cycles = 40;
const highestOrder = 16;

/**
 * One cycle of a reservoir in its steady state:
 *
 *     C·du/dt = i − I(load),   i = min(max(0, (|v| − u)/R), most)
 *
 * A source that gives no more than `most_mA` holds its terminals at u + R·i while it is at its limit: its peaks are
 * cut, the pulse grows broad, and the reservoir stands lower.
 *
 * @param shape    the supply's open shape, order by order over the nominal fundamental
 * @param most_mA  what the source can give, as seen from the HT winding
 */
export function chargeReservoir(
  { winding_Vpk, source_ohm, reservoir_uF, load_mA }: Reservoir,
  shape: Shape,
  frequency_Hz: number,
  most_mA = Number.POSITIVE_INFINITY,
): Charging {
  const open_V = Float64Array.from({ length: steps }, (_, k) => {
    let v = 0;
    for (const [order, { ratio, phase_cycles }] of shape) {
      v += winding_Vpk * ratio * Math.cos(2 * Math.PI * ((order * k) / steps + phase_cycles));
    }
    return v;
  });
  const [step_s, reservoir_F] = [1 / (frequency_Hz * steps), reservoir_uF * 1e-6];
  const [load_A, most_A] = [load_mA / 1000, most_mA / 1000];
  const reservoir_V = new Float64Array(steps);
  const pulse_A = new Float64Array(steps);
  const socket_V = new Float64Array(steps);
  let held_V = 0.9 * winding_Vpk;
  for (let n = 0; n < settling_cycles * steps; n++) {
    const k = n % steps;
    const drawn_A = Math.max(0, (Math.abs(open_V[k]!) - held_V) / source_ohm);
    const charging_A = drawn_A / (1 + (drawn_A / most_A) ** 2) ** 0.5;
    reservoir_V[k] = held_V;
    pulse_A[k] = charging_A;
    socket_V[k] = Math.sign(open_V[k]!) * (Math.abs(open_V[k]!) - source_ohm * (drawn_A - charging_A));
    held_V += ((charging_A - load_A) * step_s) / reservoir_F;
  }
  const even = Array.from({ length: highestOrder / 2 }, (_, i) => 2 * (i + 1));
  const odd = Array.from({ length: highestOrder / 2 }, (_, i) => 2 * i + 1);
  return {
    ht_V: reservoir_V.reduce((sum, v) => sum + v, 0) / steps,
    ripple: even.map((order) => orderOf(reservoir_V, order)),
    pulses: even.map((order) => orderOf(pulse_A, order)),
    shape: new Map(
      odd.map((order) => {
        const { value_rms, phase_cycles } = orderOf(socket_V, order);
        return [order, { ratio: (Math.SQRT2 * value_rms) / winding_Vpk, phase_cycles }];
      }),
    ),
  };
}

function orderOf(cycle: Float64Array, order: number): Ripple {
  let re = 0;
  let im = 0;
  for (let k = 0; k < steps; k++) {
    const angle = (2 * Math.PI * order * k) / steps;
    re += cycle[k]! * Math.cos(angle);
    im -= cycle[k]! * Math.sin(angle);
  }
  return {
    order,
    value_rms: (Math.SQRT2 * Math.hypot(re, im)) / steps,
    phase_cycles: Math.atan2(im, re) / (2 * Math.PI),
  };
}
