import type { Netlist } from "../netlist.ts";
import { restSensitivities } from "../sensitivity.ts";
import { namedPoints } from "./points.ts";
import { positionsOf } from "./positions.ts";

/** A position moves a point when its valves' usual spread shifts it by more than this share of its voltage. */
const leastShare = 0.01;
const least_V = 0.05;
const usualSpread = 0.3;

/**
 * For each test point the valve positions whose valves move it at rest: what a proof of its voltage rests on, besides
 * its own stage.
 *
 * @throws BadInput as `restSensitivities`
 */
export function positionsBehind(netlist: Netlist): ReadonlyMap<string, readonly string[]> {
  const positions = positionsOf(netlist);
  return new Map(
    namedPoints(netlist).map(({ name, node }) => {
      if (node === netlist.ground) return [name, []];
      const slopes = restSensitivities(netlist, node);
      if (slopes.state !== "solved") return [name, []];
      const reach_V = Math.max(least_V, leastShare * Math.abs(slopes.volts));
      const moves = new Set(
        slopes.parts
          .filter(({ value, perShare_V }) => value === "current" && Math.abs(perShare_V) * usualSpread > reach_V)
          .map(({ part }) => part),
      );
      const behind = positions.filter(({ sections }) => Object.values(sections).some((part) => moves.has(part)));
      return [name, behind.map(({ position }) => position)];
    }),
  );
}
