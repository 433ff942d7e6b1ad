import { BadInput } from "../../maths/badInput.ts";
import type { Fault } from "./fault.ts";
import { placesOf, type Reading } from "./probes.ts";
import type { Pattern } from "./specimen.ts";

/** How much work an answer may take, in nanoseconds of one core of a bench machine that has other things to do. */
export interface Effort {
  /** Up to here every fault is looked at in full; beyond, only those whose sketch comes nearest to the readings. */
  readonly full_ns: number;
  /** Beyond this the question is refused. */
  readonly most_ns: number;
}

/** Ten seconds are allowed; estimates are right to about a third. */
export const usualEffort: Effort = { full_ns: 5e9, most_ns: 7.5e9 };

/** What one answer will take, fitted to answers timed on net lists of 44 to 204 parts with up to 40 gains. */
interface Costs {
  /** Every fault looked at in full, each at all the degrees it may begin from. */
  readonly full_ns: number;
  /** Every fault sketched. */
  readonly sketched_ns: number;
  /** One fault looked at in full. */
  readonly look_ns: number;
  /** What comes after the first looks: closer ones, and the next probe. */
  readonly after_ns: number;
}

export function costsOf({ circuit, values }: Pattern, faults: readonly Fault[], readings: readonly Reading[]): Costs {
  const looks = faults.reduce((sum, { starts }) => sum + starts.length, 0);
  const probes = readings.map(({ probe }) => probe);
  const gains = placesOf(probes, "gain").length;
  const frequencies = new Set(probes.flatMap((probe) => (probe.kind === "gain" ? [probe.frequency_Hz] : []))).size;
  const dead = placesOf(probes, "ohms").length;
  const m = readings.length;
  const { size } = circuit;
  const rest_ns = 1e5 + 20 * size ** 2 + 2e4 * circuit.devices.length;
  const signal_ns = frequencies === 0 ? 0 : 2e4 + 2 * size ** 2 + frequencies * 600 * size;
  const dead_ns = dead === 0 ? 0 : 2e5 + size ** 3 / 8 + dead * 2 * size ** 2;
  const sketch_ns = rest_ns + signal_ns + 0.5 * dead_ns + m ** 2;
  const slopes_ns = 85 * size * m + 800 * size * gains + (m * m * values.length) / 2 + 0.5 * dead_ns;
  const look_ns = sketch_ns + slopes_ns;
  return { full_ns: looks * look_ns, sketched_ns: looks * sketch_ns, look_ns, after_ns: 400 * look_ns };
}

/** @throws BadInput for a unit with more parts, or a question with more gains, than can be gone through in time */
export function checkEffort(
  pattern: Pattern,
  faults: readonly Fault[],
  readings: readonly Reading[],
  { most_ns }: Effort,
  path: string,
): void {
  const needed = (asked: readonly Reading[]): number => {
    const { full_ns, sketched_ns, look_ns, after_ns } = costsOf(pattern, faults, asked);
    return Math.min(full_ns, sketched_ns + fewestLooked * degreesLooked * look_ns) + after_ns;
  };
  const whole = needed(readings);
  if (whole <= most_ns) return;
  const count = pattern.netlist.parts.length;
  const others = readings.filter(({ probe }) => probe.kind !== "gain");
  const gains = readings.filter(({ probe }) => probe.kind === "gain");
  if (needed(others) > most_ns) {
    throw new BadInput(
      `${path}.parts`,
      `${count} parts with ${faults.length} possible faults`,
      `about ${Math.floor(count * (most_ns / needed(others)) ** (1 / 3))} parts of such a unit, so that the answer comes in time`,
      "leave out the channel or stages that read as they should",
    );
  }
  let most = gains.length - 1;
  while (most > 0 && needed([...others, ...gains.slice(0, most)]) > most_ns) most--;
  throw new BadInput(
    "gains",
    `${gains.length} gains for ${count} parts with ${faults.length} possible faults`,
    `at most ${most} gains for such a unit, so that the answer comes in time`,
    "give those nearest to the fault, those of one frequency first, or leave out the channel that reads as it should",
  );
}

/** Of a unit too large for full looks at all at least so many faults get one. */
export const fewestLooked = 60;
/** Of a sketched fault so many of its degrees get a full look. */
export const degreesLooked = 2;
