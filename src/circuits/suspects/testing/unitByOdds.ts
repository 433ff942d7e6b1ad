import type { Random } from "../../../maths/random.ts";
import type { Netlist } from "../../netlist.ts";
import { scaledPart } from "../../scaled.ts";
import type { ValveFactor } from "../../valve.ts";
import { before, everyFault } from "../everyFault.ts";
import type { Fault } from "../fault.ts";
import { type DrawnUnit, valuesOf } from "./faultyUnit.ts";

/**
 * A unit drawn as often as it is said to be met before any reading: good, or with one fault of the library by its
 * odds, of a degree with even odds over its range.
 *
 * Odds after a reading can come true only for units met like this (simulation-based calibration: Cook, Gelman and
 * Rubin, J. Comput. Graph. Stat. 15, 2006, remembered).
 */
export function drawByOdds(netlist: Netlist, random: Random): { readonly unit: DrawnUnit; readonly fault?: Fault } {
  const { own, factors } = valuesOf(netlist, random);
  if (random.uniform() < before.good / (before.good + before.fault)) {
    return { unit: { parts: netlist.parts.map((part, i) => scaledPart(part, own[i]!)), factors } };
  }
  const fault = byOdds(everyFault(netlist), random);
  const [low, high] = fault.range ?? [fault.starts[0]!, fault.starts[0]!];
  return { unit: withFault(netlist, fault, low + random.uniform() * (high - low), own, factors), fault };
}

function byOdds(faults: readonly Fault[], random: Random): Fault {
  let left = random.uniform() * faults.reduce((sum, { prior }) => sum + prior, 0);
  for (const fault of faults) {
    left -= fault.prior;
    if (left < 0) return fault;
  }
  return faults.at(-1)!;
}

function withFault(
  netlist: Netlist,
  fault: Fault,
  severity: number,
  own: readonly number[],
  good: ReadonlyMap<string, ValveFactor>,
): DrawnUnit {
  const { instead, added = [], silent = [], freed = [], factors: changed } = fault.edit(severity);
  const factors = new Map(good);
  for (const [id, { current, mu }] of changed ?? []) {
    const drawn = factors.get(id)!;
    factors.set(id, { current: drawn.current * current, mu: drawn.mu * mu });
  }
  const parts = netlist.parts.flatMap((part, i) => {
    // What carries nothing is taken out.
    if (silent.includes(i)) return [];
    const put = instead?.get(i) ?? part;
    return [freed.includes(i) ? put : scaledPart(put, own[i]!)];
  });
  return { parts: [...parts, ...added], factors };
}
