import type { Random } from "../../../maths/random.ts";
import { catalogueEntry } from "../../../valves/model.ts";
import { isValve, type Netlist, type Part } from "../../netlist.ts";
import { deadNetwork } from "../../resistance/deadNetwork.ts";
import { deadMeter } from "../../resistance/resistance.ts";
import { response } from "../../response.ts";
import { solveRest } from "../../rest.ts";
import { scaledPart } from "../../scaled.ts";
import type { ValveFactor } from "../../valve.ts";

/** What was done to a drawn unit. */
export interface TrueFault {
  readonly part: string;
  readonly fault: string;
  /** As it reads in a failed test. */
  readonly how: string;
}

export interface DrawnUnit {
  readonly parts: readonly Part[];
  readonly factors: ReadonlyMap<string, ValveFactor>;
}

const sdOf = (tolerance: number | undefined): number => (tolerance ?? 0) / 2.5758;

/** Factors that a good unit is drawn with: of each part on its own value, of each valve on current and mu. */
export function valuesOf(netlist: Netlist, random: Random): { own: number[]; factors: Map<string, ValveFactor> } {
  const factors = new Map<string, ValveFactor>();
  const own = netlist.parts.map((part): number => {
    if (!isValve(part)) return "tolerance" in part ? random.normal(1, sdOf(part.tolerance)) : 1;
    factors.set(part.id, {
      current: random.normal(1, sdOf(part.tolerance?.current)),
      mu: random.normal(1, sdOf(part.tolerance?.mu)),
    });
    return 1;
  });
  return { own, factors };
}

/** A good unit: every value drawn within its tolerance. */
export function drawUnit(netlist: Netlist, random: Random): DrawnUnit {
  const { own, factors } = valuesOf(netlist, random);
  return { parts: netlist.parts.map((part, i) => scaledPart(part, own[i]!)), factors };
}

const between = (random: Random, low: number, high: number): number => low * (high / low) ** random.uniform();

/**
 * One fault at random in a unit; nothing for a part that has none here.
 *
 * @param heard  whether signals are read too: then capacitors may be open
 */
export function breakUnit(
  unit: DrawnUnit,
  random: Random,
  heard = false,
): { unit: DrawnUnit; fault: TrueFault } | undefined {
  const index = random.integer(unit.parts.length);
  const part = unit.parts[index]!;
  const pick = <T>(...choices: readonly T[]): T => choices[random.integer(choices.length)]!;
  const replaced = (next: Part, ...more: Part[]): DrawnUnit => ({
    ...unit,
    parts: [...unit.parts.map((own, i) => (i === index ? next : own)), ...more],
  });
  const leak = (a: string, b: string, ohm: number): Part => ({ id: "LEAK", kind: "resistor", between: [a, b], ohm });
  const told = (next: DrawnUnit, fault: string, value: number): { unit: DrawnUnit; fault: TrueFault } => ({
    unit: next,
    fault: { part: part.id, fault, how: `${part.id} ${fault} ${value.toPrecision(3)}` },
  });
  switch (part.kind) {
    case "resistor": {
      const fault = pick("open", "short", "high", "low");
      const factor = between(random, 1.4, 20);
      const ohm = {
        open: between(random, 1e8, 1e12),
        short: between(random, 1e-3, 0.5),
        high: part.ohm * factor,
        low: part.ohm / factor,
      }[fault];
      if (fault === "short" && part.ohm < 100 * ohm) return undefined;
      return told(replaced({ ...part, ohm }), fault, ohm);
    }
    case "capacitor": {
      const fault = heard ? pick("short", "leaky", "open") : pick("short", "leaky");
      if (fault === "open") {
        const uF = part.uF * between(random, 1e-7, 1e-5);
        return told(replaced({ ...part, uF }), fault, uF);
      }
      const ohm = fault === "short" ? between(random, 0.01, 1) : between(random, 2e3, 2e6);
      return told(replaced(part, leak(...part.between, ohm)), fault, ohm);
    }
    case "inductor": {
      const fault = pick("open", "short");
      return told(replaced({ ...part, resistance_ohm: fault === "open" ? 1e9 : 0.01 }), fault, 0);
    }
    case "transformer": {
      const w = random.integer(part.windings.length);
      const windings = part.windings.map((own, i) => (i === w ? { ...own, resistance_ohm: 1e9 } : own));
      return told(replaced({ ...part, windings }), "open", w + 1);
    }
    case "voltage": {
      if (part.dc_V === 0) return undefined;
      const fault = pick("dead", "low");
      const dc_V = fault === "dead" ? 0 : part.dc_V * between(random, 0.3, 0.85);
      return told(replaced({ ...part, dc_V }), fault, dc_V);
    }
    case "diode": {
      const fault = pick("open", "short", "reversed");
      if (fault === "reversed") {
        return told(replaced({ ...part, between: [part.between[1], part.between[0]] }), fault, 0);
      }
      return told(replaced({ ...leak(...part.between, fault === "open" ? 1e9 : 0.1), id: part.id }), fault, 0);
    }
    case "triode":
    case "pentode": {
      const fault = pick("dead", "weak", "weak");
      if (fault === "weak") {
        const own = unit.factors.get(part.id)!;
        const current = between(random, 0.1, 0.6);
        const factors = new Map(unit.factors).set(part.id, { ...own, current: own.current * current });
        return told({ ...unit, factors }, fault, current);
      }
      const factors = new Map(unit.factors).set(part.id, { current: 1e-9, mu: 1 });
      return told({ ...replaced(cold(part), leak(part.plate, part.cathode, 1e11)), factors }, fault, 0);
    }
    case "bipolar":
      return told(
        replaced(
          { ...leak(part.collector, part.emitter, 1e10), id: part.id },
          { ...leak(part.base, part.emitter, 1e10), id: "BASE" },
        ),
        "open",
        0,
      );
    case "jfet": {
      const fault = pick("open", "short");
      const ohm = fault === "open" ? 1e10 : 0.1;
      return told(replaced({ ...leak(part.drain, part.source, ohm), id: part.id }), fault, ohm);
    }
    default:
      return undefined;
  }
}

/** A valve whose grid draws nothing; with a factor of next to nothing on its current it is cold. */
export function cold(part: Part): Part {
  if (part.kind !== "triode" && part.kind !== "pentode") throw new Error(`${part.id} is no valve`);
  const model = part.model ?? catalogueEntry(part.type!)!.model;
  const { gridCurrent: _, ...bare } = model;
  return { ...part, model: bare } as Part;
}

/**
 * What one meter, moved from point to point, reads on a unit: each by a solution of its own with the meter in the
 * circuit, without the reading's own scatter.
 *
 * @returns nothing where the unit finds no rest
 */
export function readUnit(
  netlist: Netlist,
  { parts, factors }: DrawnUnit,
  meter_Mohm: number,
): Record<string, number> | undefined {
  const read: Record<string, number> = {};
  for (const point of netlist.testPoints ?? []) {
    const [name, node] = typeof point === "string" ? [point, point] : [point.name, point.node];
    const meter: Part = { id: "METER", kind: "resistor", between: [node, netlist.ground], ohm: meter_Mohm * 1e6 };
    const rest = solveRest({ ...netlist, parts: [...parts, meter] }, { factors });
    if (rest.state !== "solved") return undefined;
    read[name] = rest.nodes[node]!;
  }
  return read;
}

/** A gain that a sheet asks for. */
export interface GainAsked {
  readonly point: string;
  readonly node: string;
  readonly input: string;
  readonly frequency_Hz: number;
}

/** Gains as a generator and a level meter that load nothing give them. */
export function hearUnit(
  netlist: Netlist,
  { parts, factors }: DrawnUnit,
  asked: readonly GainAsked[],
): number[] | undefined {
  const gains: number[] = [];
  for (const { node, input, frequency_Hz } of asked) {
    const heard = response(
      { ...netlist, parts: [...parts] },
      { input, output: node, frequencies_Hz: [frequency_Hz] },
      { factors },
    );
    if (heard.state !== "solved") return undefined;
    gains.push(heard.gain_dB[0]!);
  }
  return gains;
}

/** Resistances of the unit unplugged and discharged, from nodes to ground; an ohmmeter shows no more than 1 Gohm. */
export function ohmsOf(netlist: Netlist, { parts }: DrawnUnit, nodes: readonly string[]): number[] {
  const network = deadNetwork({ parts: [...parts], ground: netlist.ground }, "as labelled");
  const meter = deadMeter(network);
  return nodes.map((node) => Math.min(1e9, meter(network.nodeOf(node)!, network.nodeOf(netlist.ground)!).ohm));
}
