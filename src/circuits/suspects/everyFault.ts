import type { Netlist } from "../netlist.ts";
import { bottleFaults } from "./bottleFaults.ts";
import type { Fault } from "./fault.ts";
import { partFaults } from "./library.ts";
import { bridges, exchanges } from "./neighbours.ts";

/** Every single fault that a unit of a net list may have. */
export function everyFault(netlist: Netlist): Fault[] {
  const bottles = bottleFaults(netlist);
  // A heater's break is told by what its bottle then does.
  const heaters = new Set(bottles.filter(({ fault }) => fault === "open").map(({ part }) => part));
  const parts = partFaults(netlist).filter(({ part, fault }) => !(fault === "open" && heaters.has(part)));
  return [...parts, ...bottles, ...bridges(netlist), ...exchanges(netlist)];
}

/** Odds before any reading: that a unit is good, that it has one fault of the library, that it is something else. */
export const before = { good: 0.7, fault: 0.29, other: 0.01 };
