import { checkNetlist, lonelyNodes } from "./check.ts";
import { buildCircuit, type Circuit, type Fitted } from "./circuit.ts";
import { deviceCurrents, mostElectrodes } from "./device.ts";
import { isValve, type Netlist, type Part, type PartOf } from "./netlist.ts";
import type { PartAtRest } from "./partAtRest.ts";
import { type ExceededRating, exceededRatings, ratingInWords } from "./ratings.ts";
import { electrodeVolts, type Settled, settle, type Unsettled } from "./settle.ts";
import { latches } from "./stability.ts";

export interface RestSolution {
  readonly state: "solved";
  /** Volts to ground, ground among them. */
  readonly nodes: Readonly<Record<string, number>>;
  readonly parts: Readonly<Record<string, PartAtRest>>;
  /** Ratings of the catalogue that are exceeded; the notes say them in words. */
  readonly ratings: readonly ExceededRating[];
  readonly notes: readonly string[];
}

/**
 * Working point of a net list: direct voltages of all nodes, currents and power of all parts.
 *
 * Capacitors are open and coils are their resistance. Valves by the net list's own curves or the catalogue's.
 *
 * @param fitted  other valves in some positions, or factors on their currents and mu
 * @returns "undecided" with the node in question when no rest was found
 * @throws BadInput naming part, node and mend for a net list that can't be answered
 * @example solveRest(readNetlist({ ground: "0", parts: [
 *   { id: "B", kind: "voltage", between: ["ht", "0"], dc_V: 250 },
 *   { id: "R1", kind: "resistor", between: ["ht", "a"], ohm: 100000 },
 *   { id: "R2", kind: "resistor", between: ["a", "0"], ohm: 100000 }] })) // nodes.a = 125
 */
export function solveRest(netlist: Netlist, fitted: Fitted = {}, path = "netlist"): RestSolution | Unsettled {
  checkNetlist(netlist, path, true);
  const circuit = buildCircuit(netlist, path, fitted);
  const settled = settle(circuit);
  return settled.state === "solved" ? describe(circuit, settled) : settled;
}

/** A settled circuit in the words of the bench: volts of nodes, currents and power of parts, ratings exceeded. */
export function describe(circuit: Circuit, settled: Settled): RestSolution {
  const { netlist } = circuit;
  const volts = voltsAt(circuit, settled);
  const notes: string[] = [];
  const parts = partsAtRest(circuit, settled, notes);
  const ratings = exceededRatings(netlist, parts, volts);
  notes.push(...ratings.map((rating) => ratingInWords(netlist, rating)));
  for (const node of lonelyNodes(netlist)) notes.push(`node ${node} has only one end joined to it; check its name`);
  if (latches(circuit, settled)) {
    notes.push("a real circuit would leave this rest and latch to one side; the net list has other rests");
  }
  if (settled.leak_S > 0)
    notes.push("a node between valves that are cut off is held only by leakage, taken as 10^12 ohm");
  const names = [netlist.ground, ...circuit.nodeNames];
  return {
    state: "solved",
    nodes: Object.fromEntries(names.map((node) => [node, volts(node)])),
    parts,
    ratings,
    notes,
  };
}

/** Ratings that a settled unit does not keep. */
export function ratingsExceededAt(circuit: Circuit, settled: Settled): ExceededRating[] {
  return exceededRatings(circuit.netlist, partsAtRest(circuit, settled, []), voltsAt(circuit, settled));
}

function voltsAt(circuit: Circuit, { x }: Settled): (node: string) => number {
  return (node) => {
    const unknown = circuit.unknownOf(node)!;
    return unknown < 0 ? 0 : x[unknown]!;
  };
}

function partsAtRest(circuit: Circuit, settled: Settled, notes: string[]): Readonly<Record<string, PartAtRest>> {
  const { x } = settled;
  const volts = voltsAt(circuit, settled);
  const device = new Map(circuit.devices.map((d) => [d.part, d]));
  return Object.fromEntries(
    circuit.netlist.parts.map((part, i): [string, PartAtRest] => {
      const curve = device.get(i);
      if (curve === undefined) return [part.id, straightAtRest(part, x, circuit.currentOf[i]!, volts)];
      const u = new Float64Array(mostElectrodes);
      const at = deviceCurrents();
      electrodeVolts(curve.nodes, x, u);
      curve.evaluate(u, at);
      return [
        part.id,
        isValve(part) ? valveAtRest(part, u, at.current_A, at.slope, notes) : bentAtRest(part, u, at.current_A),
      ];
    }),
  );
}

function straightAtRest(part: Part, x: Float64Array, current: number, volts: (node: string) => number): PartAtRest {
  switch (part.kind) {
    case "transformer": {
      const windings = part.windings.map(({ between: [a, b] }, w) => flow(x[current + w]!, volts(a) - volts(b)));
      const power_mW = windings.reduce((sum, winding) => sum + winding.power_mW, 0);
      return { ...windings[0]!, power_mW, windings };
    }
    case "resistor":
    case "capacitor":
    case "inductor":
    case "voltage":
    case "current":
    case "switch": {
      const voltage_V = volts(part.between[0]) - volts(part.between[1]);
      return flow(current >= 0 ? x[current]! : currentBy(part, voltage_V), voltage_V);
    }
    default:
      throw new Error(`${part.kind} has no straight law`);
  }
}

function currentBy(
  part: PartOf<"resistor" | "capacitor" | "inductor" | "voltage" | "current" | "switch">,
  voltage_V: number,
): number {
  if (part.kind === "resistor") return voltage_V / part.ohm;
  return part.kind === "current" ? part.dc_mA / 1e3 : 0;
}

function bentAtRest(part: Part, u: Float64Array, current_A: Float64Array): PartAtRest {
  if (part.kind === "diode" || part.kind === "rectifier") return flow(current_A[0]!, u[0]!);
  const main = flow(current_A[0]!, u[0]!);
  return { ...main, power_mW: main.power_mW + current_A[1]! * u[1]! * 1e3 };
}

function valveAtRest(
  part: PartOf<"triode" | "pentode">,
  u: Float64Array,
  current_A: Float64Array,
  slope: Float64Array,
  notes: string[],
): PartAtRest {
  const pentode = part.kind === "pentode";
  const screen_A = pentode ? current_A[2]! : 0;
  const main = flow(current_A[0]!, u[0]!);
  const screen_W = screen_A * (pentode ? u[2]! : 0);
  const grid_W = current_A[1]! * u[1]!;
  const working = slope[0]! > smallestPlateSlope_S;
  if (!working) notes.push(`${part.id} is cut off: its plate has no slope, so rp_ohm and mu are left out`);
  return {
    ...main,
    power_mW: main.power_mW + (screen_W + grid_W) * 1e3,
    plate_V: u[0]!,
    grid_V: u[1]!,
    ...(pentode ? { screen_V: u[2]! } : {}),
    plate_mA: main.current_mA,
    grid_mA: current_A[1]! * 1e3,
    ...(pentode ? { screen_mA: screen_A * 1e3 } : {}),
    cathode_mA: (current_A[0]! + current_A[1]! + screen_A) * 1e3,
    gm_mS: slope[1]! * 1e3,
    ...(working ? { rp_ohm: 1 / slope[0]!, mu: slope[1]! / slope[0]! } : {}),
    dissipation_W: main.power_mW / 1e3,
    ...(pentode ? { screenDissipation_W: screen_W } : {}),
  };
}

const smallestPlateSlope_S = 1e-15;

function flow(current_A: number, voltage_V: number): { current_mA: number; voltage_V: number; power_mW: number } {
  const power_mW = current_A * voltage_V * 1e3;
  // A plain 0 reads better than −0.
  return { current_mA: current_A * 1e3 + 0, voltage_V: voltage_V + 0, power_mW: power_mW + 0 };
}
