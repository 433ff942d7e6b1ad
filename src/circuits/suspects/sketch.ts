import { solveSymmetric } from "./evidence.ts";
import { type Explanation, editOf } from "./explain.ts";
import type { Fault } from "./fault.ts";
import type { Bench } from "./inspect.ts";
import { inspect } from "./inspect.ts";
import type { Reading } from "./probes.ts";
import { type Pattern, specimen } from "./specimen.ts";

/** A fault at one degree, and how far the readings lie from what it would show, by the spread of good units. */
export interface Sketch {
  readonly fault: Fault;
  readonly severity: number;
  readonly distance: number;
  /** How far what it shows lies from what a good unit shows. */
  readonly moved: number;
}

/**
 * A fault at a glance, for large units: solved in full, but compared by the good unit's spread and the meter's load on
 * a good unit, so that no slopes are needed. It only says which faults are worth a real look.
 *
 * @param cover  the good unit's covariance of the readings, factored
 */
export function sketch(
  pattern: Pattern,
  bench: Bench,
  fault: Fault,
  severity: number,
  readings: readonly Reading[],
  plain: Explanation,
  cover: Float64Array,
): Sketch | undefined {
  const shown = shownRoughly(pattern, bench, fault, severity, readings, plain);
  if (shown === undefined) return undefined;
  const m = readings.length;
  const squared = (gap: Float64Array): number => {
    const weighted = solveSymmetric(cover, m, gap);
    return gap.reduce((sum, value, i) => sum + value * weighted[i]!, 0);
  };
  return {
    fault,
    severity,
    distance: squared(shown.map((value, i) => readings[i]!.value - value)),
    moved: squared(shown.map((value, i) => value - plain.seen.values[i]!)),
  };
}

function shownRoughly(
  pattern: Pattern,
  bench: Bench,
  fault: Fault,
  severity: number,
  readings: readonly Reading[],
  plain: Explanation,
): Float64Array | undefined {
  const edit = editOf(fault, severity);
  if (readings.some(({ probe }) => probe.kind !== "volts")) {
    return inspect(
      pattern,
      bench,
      edit,
      readings.map(({ probe }) => probe),
    )?.values;
  }
  const unit = specimen(pattern, edit);
  if (unit === undefined) return undefined;
  return Float64Array.from(readings, ({ probe }, i) => {
    const at = probe.kind === "volts" ? unit.circuit.unknownOf(probe.node)! : -1;
    return at < 0 ? 0 : unit.rest.x[at]! / (1 + plain.seen.loads[i]!);
  });
}
