import { spread } from "../../circuits/index.ts";
import { randomStream } from "../../maths/random.ts";
import { meter_Mohm } from "../physics/meter.ts";
import { readOnce, type Wiring } from "../physics/workingPoint.ts";
import onFile from "./windows.json" with { type: "json" };

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

/**
 * Where good units read at the test points of a stage, through the bench's meter, as they stand on the model's file;
 * `scripts/demoWindows.ts` draws them anew.
 */
export function windowsOfStage(model: keyof typeof onFile, stage: string): readonly Window[] {
  const windows: readonly Window[] = onFile[model];
  return windows.filter((window) => window.stage === stage);
}

/** Between what limits 99 % of so many units read, drawn by the tolerances of all their parts. */
export function drawWindows(netlist: Wiring["netlist"], samples: number, seed: string): readonly Window[] {
  const drawn = spread(readOnce(netlist), { samples, meter_Mohm }, randomStream(seed));
  if (drawn.state !== "solved") throw new Error(`a drawn model finds no rest: ${drawn.reason}`);
  return namedPoints(netlist).map(({ name, stage }) => {
    const { low_V, median_V, high_V } = drawn.points[name]!;
    return {
      point: name,
      ...(stage !== undefined && { stage }),
      low: round(Math.min(low_V, median_V - leastSide_V)),
      high: round(Math.max(high_V, median_V + leastSide_V)),
    };
  });
}

const round = (volts: number) => Number(volts.toFixed(Math.abs(volts) < 10 ? 2 : 1));
