import { valveType } from "../physics/valveTypes.ts";
import { restingVolts, unitCircuit, type Wiring } from "../physics/workingPoint.ts";
import type { ValveTruth } from "../truth.ts";

interface NamedPoint {
  readonly name: string;
  readonly node: string;
  readonly stage?: string;
}

/** The test points of a net list, each with a name and the node it stands on. */
export function namedPoints(netlist: Wiring["netlist"]): readonly NamedPoint[] {
  const points = (netlist.testPoints ?? []) as readonly (string | NamedPoint)[];
  return points.map((point) => (typeof point === "string" ? { name: point, node: point } : point));
}

/** A valve that is exactly its type's printed curve. */
export function printedValve(type: string): ValveTruth {
  const { law, sections } = valveType(type);
  return {
    valve: `printed ${type}`,
    type,
    batch: "",
    sections: Object.fromEntries(
      sections.map((section) => [
        section,
        {
          law,
          coldOverHot: 1,
          leakageCold_uA: 0,
          leakage: { atTester_uA: 0, bend_V: 100, offCentre: 0 },
          gridCurrent_uA: 0,
        },
      ]),
    ),
  };
}

/** Width of a window to either side, of the voltage itself; the shop's rule of thumb for new valves. */
const side = 0.15;
const leastSide_V = 0.4;

/** A window around what each test point of a stage reads with printed valves and printed values. */
export function windowsOfStage(wiring: Wiring, stage: string): readonly { point: string; low: number; high: number }[] {
  const printed = Object.fromEntries(wiring.positions.map(({ position, type }) => [position, printedValve(type)]));
  const volts = restingVolts(unitCircuit(wiring, {}, printed));
  return namedPoints(wiring.netlist)
    .filter((point) => point.stage === stage)
    .map(({ name, node }) => {
      const middle_V = volts[node]!;
      const reach_V = Math.max(leastSide_V, side * Math.abs(middle_V));
      return { point: name, low: round(middle_V - reach_V), high: round(middle_V + reach_V) };
    });
}

const round = (volts: number) => Number(volts.toPrecision(3));
