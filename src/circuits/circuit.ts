import { BadInput, quote } from "../maths/badInput.ts";
import type { ValveModel } from "../valves/model.ts";
import type { Curve, Device } from "./device.ts";
import { diodeCurve, rectifierCurve } from "./junction.ts";
import { type Layout, layoutOf } from "./layout.ts";
import type { Netlist, Part } from "./netlist.ts";
import { scaled, type ValueFactors } from "./scaled.ts";
import { type CircuitSolvers, solversOf } from "./solvers.ts";
import { type StraightEquations, straightEquations } from "./straight.ts";
import { bipolarCurve, jfetCurve } from "./transistor.ts";
import { characterOf, type ValveFactor, valveCurve } from "./valve.ts";

/** What stands in for the net list's own parts in one solution: one unit drawn, one valve tried. */
export interface Fitted {
  /** Curves by part, in place of the part's own. */
  readonly models?: ReadonlyMap<string, ValveModel> | undefined;
  /** On a valve's plate (and screen) current and its mu. */
  readonly factors?: ReadonlyMap<string, ValveFactor> | undefined;
  /** On the values of all other parts; see `ValueFactors`. */
  readonly values?: ValueFactors | undefined;
}

/**
 * A net list turned into equations, by modified nodal analysis.
 *
 * Unknowns are first the node voltages, then the currents of parts that set a voltage (sources, coils, windings,
 * closed switches, very small resistors), and for each transformer the voltage that its flux induces in the first
 * winding. Each node's row says that the currents leaving it add up to nothing.
 *
 * @source Ho, Ruehli and Brennan, IEEE Trans. Circuits Syst. 22, 1975 (remembered)
 */
export interface Circuit extends StraightEquations {
  /** As solved: with the values that were fitted. */
  readonly netlist: Netlist;
  /** As it was written. */
  readonly written: Netlist;
  readonly path: string;
  readonly layout: Layout;
  readonly size: number;
  readonly nodeNames: readonly string[];
  /** Unknown of a node, −1 for ground, undefined for a node that is not in the net list. */
  unknownOf(node: string): number | undefined;
  /** First current unknown of each part, −1 where it has none. */
  readonly currentOf: Int32Array;
  readonly devices: readonly Device[];
  /** Where the matrices may hold something, slopes of the devices included, and the solvers kept for them. */
  readonly solvers: CircuitSolvers;
}

/** @throws BadInput where a part has no law to be solved by, or for a net list too large */
export function buildCircuit(netlist: Netlist, path = "netlist", fitted: Fitted = {}): Circuit {
  const layout = layoutOf(netlist, path);
  const drawn = scaled(netlist, fitted.values);
  const devices = drawn.parts.flatMap((part, i): Device[] => {
    const curve = curveOf(part, `${path}.parts[${i}]`, fitted);
    if (curve === undefined) return [];
    return [{ part: i, nodes: electrodes(part).map((node) => layout.unknowns.get(node)!), evaluate: curve }];
  });
  const straight = straightEquations(drawn, layout);
  return {
    netlist: drawn,
    written: netlist,
    path,
    layout,
    size: layout.size,
    nodeNames: layout.nodeNames,
    unknownOf: (node) => layout.unknowns.get(node),
    currentOf: layout.currentOf,
    ...straight,
    devices,
    solvers: solversOf(layout, straight, devices),
  };
}

/**
 * The same circuit with other valves in some positions, or with other values: nothing is laid out anew.
 *
 * With `values`, parts not named there go back to the net list's own values; without, values stay as they are.
 */
export function refit(circuit: Circuit, fitted: Fitted): Circuit {
  const { values } = fitted;
  const netlist = values === undefined ? circuit.netlist : scaled(circuit.written, values);
  const devices = circuit.devices.map((device): Device => {
    const part = netlist.parts[device.part]!;
    const same = part === circuit.netlist.parts[device.part];
    if (same && !fitted.models?.has(part.id) && !fitted.factors?.has(part.id)) return device;
    return { ...device, evaluate: curveOf(part, `${circuit.path}.parts[${device.part}]`, fitted)! };
  });
  const straight = values === undefined ? undefined : straightEquations(netlist, circuit.layout);
  return { ...circuit, ...straight, netlist, devices };
}

function electrodes(part: Part): readonly string[] {
  switch (part.kind) {
    case "triode":
      return [part.plate, part.grid, part.cathode];
    case "pentode":
      return [part.plate, part.grid, part.screen, part.cathode];
    case "diode":
    case "rectifier":
      return part.between;
    case "jfet":
      return [part.drain, part.gate, part.source];
    case "bipolar":
      return [part.collector, part.base, part.emitter];
    default:
      return [];
  }
}

function curveOf(part: Part, path: string, fitted: Fitted): Curve | undefined {
  switch (part.kind) {
    case "triode":
    case "pentode": {
      const given = fitted.models?.get(part.id);
      const character = given === undefined ? characterOf(part, path) : ({ by: "model", model: given } as const);
      return valveCurve(part.kind, character, fitted.factors?.get(part.id));
    }
    case "diode":
      if (part.law === undefined)
        throw lawMissing(part, path, '{"saturation_A":1e-14,"emission":1,"temperature_C":25}');
      return diodeCurve(part.law);
    case "rectifier":
      if (part.law === undefined) throw lawMissing(part, path, '{"perveance_mA_per_V1p5":1}');
      return rectifierCurve(part.law);
    case "jfet":
      if (part.law === undefined) throw lawMissing(part, path, '{"saturation_mA":10,"pinchOff_V":2.5}');
      return jfetCurve(part.law, part.polarity);
    case "bipolar":
      if (part.law === undefined) throw lawMissing(part, path, '{"saturation_A":1e-14,"gain":100,"temperature_C":25}');
      return bipolarCurve(part.law, part.polarity);
    default:
      return undefined;
  }
}

function lawMissing(part: Part, path: string, example: string): BadInput {
  return new BadInput(
    `${path}.law`,
    `nothing for ${part.kind} ${quote(part.id)}`,
    "the law of this part",
    `give "law", for instance ${example}`,
  );
}
