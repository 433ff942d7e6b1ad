import { BadInput, quote } from "../maths/badInput.ts";
import type { ValveModel } from "../valves/model.ts";
import type { Curve, Device } from "./device.ts";
import { diodeCurve, rectifierCurve } from "./junction.ts";
import { endsOf, type Netlist, type Part } from "./netlist.ts";
import { bipolarCurve, jfetCurve } from "./transistor.ts";
import { characterOf, type ValveFactor, valveCurve } from "./valve.ts";

/** What stands in for the net list's own valves in one solution. */
export interface Fitted {
  /** Curves by part, in place of the part's own. */
  readonly models?: ReadonlyMap<string, ValveModel>;
  readonly factors?: ReadonlyMap<string, ValveFactor>;
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
export interface Circuit {
  readonly netlist: Netlist;
  readonly path: string;
  readonly size: number;
  readonly nodeNames: readonly string[];
  /** Unknown of a node, −1 for ground, undefined for a node that is not in the net list. */
  unknownOf(node: string): number | undefined;
  /** First current unknown of each part, −1 where it has none. */
  readonly currentOf: Int32Array;
  /** Matrix for direct current, row after row, valves and diodes left out. */
  readonly steady: Float64Array;
  /** Right-hand side of the direct-current sources. */
  readonly drive: Float64Array;
  /** Real part of the matrix for alternating current. */
  readonly alternating: Float64Array;
  /** Entries that jω multiplies. */
  readonly reactive: readonly { readonly at: number; readonly value: number }[];
  readonly devices: readonly Device[];
}

/** Contact resistance of a closed switch: too small to show, large enough that two in parallel share their current. */
const contact_ohm = 1e-6;
/** Under this a resistor's current becomes an unknown: its conductance would drown its neighbours'. */
const smallest_ohm = 1;

const mostUnknowns = 500;

/** @throws BadInput where a part has no law to be solved by, or for a net list too large */
export function buildCircuit(netlist: Netlist, path = "netlist", fitted: Fitted = {}): Circuit {
  const nodeNames = orderedNodes(netlist);
  const unknowns = new Map(nodeNames.map((node, i) => [node, i]));
  unknowns.set(netlist.ground, -1);
  const currentOf = new Int32Array(netlist.parts.length).fill(-1);
  let size = nodeNames.length;
  netlist.parts.forEach((part, i) => {
    const count = currentUnknowns(part);
    if (count === 0) return;
    currentOf[i] = size;
    size += count;
  });
  if (size > mostUnknowns) {
    throw new BadInput(
      `${path}.parts`,
      `a net list with ${size} unknown voltages and currents`,
      `at most ${mostUnknowns}, so that an answer comes in time`,
      "leave out stages that do not matter here",
    );
  }
  const steady = new Float64Array(size * size);
  const drive = new Float64Array(size);
  const reactive: { at: number; value: number }[] = [];
  const flux: { row: number; part: Extract<Part, { kind: "transformer" }>; current: number }[] = [];

  const at = (node: string): number => unknowns.get(node)!;
  const add = (row: number, column: number, value: number): void => {
    if (row >= 0 && column >= 0) steady[row * size + column] = steady[row * size + column]! + value;
  };
  const react = (row: number, column: number, value: number): void => {
    if (row >= 0 && column >= 0 && value !== 0) reactive.push({ at: row * size + column, value });
  };
  const across = (stamp: typeof add, a: number, b: number, value: number): void => {
    stamp(a, a, value);
    stamp(b, b, value);
    stamp(a, b, -value);
    stamp(b, a, -value);
  };
  /** Row `branch`: v_a − v_b − ohm·i = volts, with i leaving a and entering b. */
  const way = (branch: number, a: number, b: number, ohm: number, volts = 0): void => {
    add(a, branch, 1);
    add(b, branch, -1);
    add(branch, a, 1);
    add(branch, b, -1);
    add(branch, branch, -ohm);
    drive[branch] = volts;
  };

  netlist.parts.forEach((part, i) => {
    const branch = currentOf[i]!;
    switch (part.kind) {
      case "resistor": {
        const [a, b] = [at(part.between[0]), at(part.between[1])];
        if (branch >= 0) way(branch, a, b, part.ohm);
        else across(add, a, b, 1 / part.ohm);
        return;
      }
      case "capacitor":
        across(react, at(part.between[0]), at(part.between[1]), part.uF * 1e-6);
        return;
      case "inductor":
        way(branch, at(part.between[0]), at(part.between[1]), part.resistance_ohm ?? 0);
        react(branch, branch, -part.H);
        return;
      case "voltage":
        way(branch, at(part.between[0]), at(part.between[1]), 0, part.dc_V);
        return;
      case "current": {
        const [a, b] = [at(part.between[0]), at(part.between[1])];
        if (a >= 0) drive[a] = drive[a]! - part.dc_mA / 1e3;
        if (b >= 0) drive[b] = drive[b]! + part.dc_mA / 1e3;
        return;
      }
      case "switch":
        if (branch >= 0) way(branch, at(part.between[0]), at(part.between[1]), contact_ohm);
        return;
      case "transformer": {
        const row = branch + part.windings.length;
        part.windings.forEach((winding, w) => {
          way(branch + w, at(winding.between[0]), at(winding.between[1]), winding.resistance_ohm ?? 0);
          add(branch + w, row, -turnsRatio(part, w));
          react(branch + w, branch + w, -leakageOf(part, w));
        });
        add(row, row, -1);
        flux.push({ row, part, current: branch });
        return;
      }
      default:
        return;
    }
  });

  const alternating = steady.slice();
  for (const { row, part, current } of flux) {
    // jω·L·Σ(turns ratio · current) = induced voltage; without an inductance the ampere-turns cancel outright.
    const inductance = part.primaryInductance_H;
    if (inductance === undefined) alternating[row * size + row] = 0;
    part.windings.forEach((_, w) => {
      if (inductance === undefined) alternating[row * size + current + w] = turnsRatio(part, w);
      else reactive.push({ at: row * size + current + w, value: inductance * turnsRatio(part, w) });
    });
  }

  const devices = netlist.parts.flatMap((part, i): Device[] => {
    const curve = curveOf(part, `${path}.parts[${i}]`, fitted);
    return curve === undefined ? [] : [{ part: i, nodes: electrodes(part).map(at), evaluate: curve }];
  });
  return {
    netlist,
    path,
    size,
    nodeNames,
    unknownOf: (node) => unknowns.get(node),
    currentOf,
    steady,
    drive,
    alternating,
    reactive,
    devices,
  };
}

/** The same circuit with other valves in some positions. */
export function refit(circuit: Circuit, fitted: Fitted): Circuit {
  const devices = circuit.devices.map((device): Device => {
    const part = circuit.netlist.parts[device.part]!;
    if (!fitted.models?.has(part.id) && !fitted.factors?.has(part.id)) return device;
    return { ...device, evaluate: curveOf(part, `${circuit.path}.parts[${device.part}]`, fitted)! };
  });
  return { ...circuit, devices };
}

/** Few neighbours first: then most rows of the elimination have nothing to do. */
function orderedNodes(netlist: Netlist): string[] {
  const neighbours = new Map<string, Set<string>>();
  for (const part of netlist.parts) {
    const nodes = endsOf(part).map(([, node]) => node);
    for (const node of nodes) {
      if (node === netlist.ground) continue;
      const set = neighbours.get(node) ?? new Set();
      for (const other of nodes) if (other !== node && other !== netlist.ground) set.add(other);
      neighbours.set(node, set);
    }
  }
  const ordered: string[] = [];
  while (neighbours.size > 0) {
    let next = "";
    let fewest = Number.POSITIVE_INFINITY;
    for (const [node, set] of neighbours) {
      if (set.size < fewest) [next, fewest] = [node, set.size];
    }
    const around = neighbours.get(next)!;
    neighbours.delete(next);
    for (const a of around) {
      const set = neighbours.get(a)!;
      set.delete(next);
      for (const b of around) if (b !== a) set.add(b);
    }
    ordered.push(next);
  }
  return ordered;
}

function currentUnknowns(part: Part): number {
  switch (part.kind) {
    case "resistor":
      return part.ohm < smallest_ohm ? 1 : 0;
    case "voltage":
    case "inductor":
      return 1;
    case "switch":
      return part.closed ? 1 : 0;
    case "transformer":
      return part.windings.length + 1;
    default:
      return 0;
  }
}

type Transformer = Extract<Part, { kind: "transformer" }>;

function turnsRatio(part: Transformer, winding: number): number {
  return part.windings[winding]!.turns / part.windings[0]!.turns;
}

/**
 * Leakage inductance in series with one winding, at its own turns.
 *
 * With two windings all of it stands in series with the first. With more, every winding carries half of it by turns
 * squared, so that the halves of a push-pull primary stay alike and any pair shows the whole.
 */
function leakageOf(part: Transformer, winding: number): number {
  const leakage = part.leakage_H ?? 0;
  if (part.windings.length === 2) return winding === 0 ? leakage : 0;
  return (leakage / 2) * turnsRatio(part, winding) ** 2;
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
