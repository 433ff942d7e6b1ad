import { type Netlist, restSensitivities, solveRest } from "../../circuits/index.ts";
import { meterReads, ownResistance_ohm } from "../physics/meter.ts";
import { readOnce, type Wiring } from "../physics/workingPoint.ts";

interface NamedPoint {
  readonly name: string;
  readonly node: string;
  readonly stage?: string;
}

export interface Window {
  readonly point: string;
  readonly stage?: string;
  readonly low: number;
  readonly high: number;
}

/** The test points of a net list, each with a name and the node it stands on. */
export function namedPoints(netlist: Wiring["netlist"]): readonly NamedPoint[] {
  const points = (netlist.testPoints ?? []) as readonly (string | NamedPoint)[];
  return points.map((point) => (typeof point === "string" ? { name: point, node: point } : point));
}

/** A window is never narrower than what the bench's meter can tell apart with ease. */
const leastSide_V = 0.4;
const worked = new WeakMap<object, readonly Window[]>();

/**
 * Where good units read at the test points of a stage, through the bench's meter, by the tolerances of all parts.
 *
 * Each part's tolerance holds 99 % of good parts; together they add as squares, each by what it moves the point.
 */
export function windowsOfStage(wiring: Wiring, stage: string): readonly Window[] {
  const known = worked.get(wiring.netlist) ?? windowsOf(wiring);
  worked.set(wiring.netlist, known);
  return known.filter((window) => window.stage === stage);
}

function windowsOf({ netlist }: Wiring): readonly Window[] {
  const drawn = readOnce(netlist);
  const rest = solveRest(drawn);
  if (rest.state !== "solved") throw new Error(`a drawn model finds no rest: ${rest.reason}`);
  return namedPoints(netlist).map(({ name, node, stage }) => {
    const middle_V = meterReads(drawn, rest.nodes, node, ownResistance_ohm(drawn, node));
    const side_V = Math.max(leastSide_V, spreadOf(drawn, node));
    return {
      point: name,
      ...(stage !== undefined && { stage }),
      low: round(middle_V - side_V),
      high: round(middle_V + side_V),
    };
  });
}

function spreadOf(drawn: Netlist, node: string): number {
  const answer = restSensitivities(drawn, node);
  if (answer.state !== "solved") throw new Error(`a drawn model finds no rest: ${answer.reason}`);
  const toleranceOf = new Map(
    drawn.parts.map((part) => [part.id, "tolerance" in part ? (part.tolerance ?? 0) : 0] as const),
  );
  const moves_V = answer.parts.map(({ part, value, perShare_V }) => {
    const tolerance = toleranceOf.get(part)!;
    const share = typeof tolerance === "number" ? tolerance : (tolerance[value as "current" | "mu"] ?? 0);
    return share * perShare_V;
  });
  return Math.hypot(...moves_V);
}

const round = (volts: number) => Number(volts.toFixed(Math.abs(volts) < 10 ? 2 : 1));
