import type { Edit } from "./edit.ts";
import { factorSymmetric, spreadOf } from "./evidence.ts";
import { type Explanation, editOf } from "./explain.ts";
import type { Fault } from "./fault.ts";
import { type Bench, inspect } from "./inspect.ts";
import { gainsAmong, type Probe, placesOf, type Reading, shownGain } from "./probes.ts";
import { eachGain } from "./signals.ts";
import { type Pattern, type Specimen, specimen } from "./specimen.ts";

/** A fault at one degree, and how far the readings lie from what it would show, by the spread of good units. */
export interface Sketch {
  readonly fault: Fault;
  readonly severity: number;
  /** Squared, in spreads; at least so much where it was left off at `enough`. */
  readonly distance: number;
  /** How far what it shows lies from what a good unit shows. */
  readonly moved: number;
}

/**
 * A good unit's spread as a measure of distance. Kinds of readings stand by what they cost, so that the share of a
 * squared distance by the first of them, which the others can only add to, is known before the others are reckoned.
 */
export interface Yardstick {
  readonly plain: Explanation;
  readonly readings: readonly Reading[];
  /** Places of the readings in the order they are compared in: volts, gains, resistances. */
  readonly order: readonly number[];
  readonly places: Readonly<Record<Probe["kind"], readonly number[]>>;
  /** Cholesky factor of their covariance in that order. */
  readonly factor: Float64Array;
}

/** @param plain  a good unit as the net list has it */
export function yardstickOf(plain: Explanation, readings: readonly Reading[]): Yardstick {
  const probes = readings.map(({ probe }) => probe);
  const places = {
    volts: placesOf(probes, "volts"),
    gain: placesOf(probes, "gain"),
    ohms: placesOf(probes, "ohms"),
  };
  const order = [...places.volts, ...places.gain, ...places.ohms];
  const m = readings.length;
  const cover = spreadOf(plain.seen, plain.variances, readings);
  const factor = new Float64Array(m * m);
  order.forEach((a, i) => {
    order.forEach((b, k) => {
      factor[i * m + k] = cover[a * m + b]!;
    });
  });
  factorSymmetric(factor, m);
  return { plain, readings, order, places, factor };
}

/**
 * A fault at a glance, for large units: solved in full, but compared by the good unit's spread and the meter's load on
 * a good unit, so that no slopes are needed. It only says which faults are worth a real look.
 *
 * @param enough  a distance from which on the fault is of no interest: where the first readings show it, the others are
 *                not reckoned any more, unless the fault can't be told from a good unit without them
 * @returns nothing where the unit finds no rest
 */
export function sketch(
  pattern: Pattern,
  bench: Bench,
  fault: Fault,
  severity: number,
  yardstick: Yardstick,
  enough: { readonly distance: number; readonly moved: number },
): Sketch | undefined {
  const { plain, readings, places } = yardstick;
  const edit = editOf(fault, severity);
  const live = places.volts.length + places.gain.length > 0;
  const unit = live ? specimen(pattern, edit) : undefined;
  if (live && unit === undefined) return undefined;
  const shown = plain.seen.values.slice();
  for (const p of places.volts) shown[p] = voltsOf(unit!, readings[p]!.probe) / (1 + plain.seen.loads[p]!);
  const apart = ruleOf(yardstick, (p) => readings[p]!.value - shown[p]!);
  const moved = ruleOf(yardstick, (p) => plain.seen.values[p]! - shown[p]!);
  let laid = places.volts.length;
  const distances = (): Pick<Sketch, "distance" | "moved"> => ({ distance: apart(laid), moved: moved(laid) });
  const decided = (): boolean => {
    const so = distances();
    return so.distance >= enough.distance && so.moved > enough.moved;
  };
  if (places.gain.length > 0 && !decided()) {
    gainsInto(unit!, yardstick, shown);
    laid += places.gain.length;
  }
  if (places.ohms.length > 0 && !decided()) {
    if (fault.felt.dead) ohmsInto(pattern, bench, edit, yardstick, shown);
    laid += places.ohms.length;
  }
  return { fault, severity, ...distances() };
}

function voltsOf({ circuit, rest }: Specimen, probe: Probe): number {
  const at = probe.kind === "volts" ? (circuit.unknownOf(probe.node) ?? -1) : -1;
  return at < 0 ? 0 : rest.x[at]!;
}

function gainsInto({ circuit, rest }: Specimen, { readings, places, plain }: Yardstick, shown: Float64Array): void {
  const asked = gainsAmong(readings.map(({ probe }) => probe));
  eachGain(circuit, rest.x, asked, (n, heard) => {
    const p = places.gain[n]!;
    // What a net list leaves open tells nothing either way.
    shown[p] = heard === undefined ? plain.seen.values[p]! : shownGain(heard.gain_dB, asked[n]!).value;
  });
}

function ohmsInto(
  pattern: Pattern,
  bench: Bench,
  edit: Edit,
  { readings, places }: Yardstick,
  shown: Float64Array,
): void {
  const probes = places.ohms.map((p) => readings[p]!.probe);
  const { values } = inspect(pattern, bench, edit, probes)!;
  places.ohms.forEach((p, n) => {
    shown[p] = values[n]!;
  });
}

/** |L⁻¹·gap|² by the first so many readings, reckoned as far as it is asked for. */
function ruleOf({ order, factor }: Yardstick, gap: (reading: number) => number): (to: number) => number {
  const m = order.length;
  const z = new Float64Array(m);
  let done = 0;
  let sum = 0;
  return (to) => {
    for (; done < to; done++) {
      let left = gap(order[done]!);
      const row = done * m;
      for (let k = 0; k < done; k++) left -= factor[row + k]! * z[k]!;
      z[done] = left / factor[row + done]!;
      sum += z[done]! ** 2;
    }
    return sum;
  };
}
