import { endsOf, type Netlist, type Part } from "../netlist.ts";

/** A way through the switched-off unit that obeys Ohm's law. */
interface DeadWay {
  readonly a: number;
  readonly b: number;
  readonly ohm: number;
  /** Place of the part in the net list. */
  readonly part: number;
}

/** A way that conducts from `plus` to `minus` once the meter's volts overcome it, and not back. */
interface DeadJunction {
  readonly plus: number;
  readonly minus: number;
  readonly part: number;
}

/**
 * The unit unplugged and discharged, as an ohmmeter meets it.
 *
 * Capacitors are open once charged, coils and windings their copper, valves and thermionic rectifiers cold and
 * without conduction, field-effect channels open to the current of a floating gate, diodes and transistors junctions.
 */
export interface DeadNetwork {
  readonly size: number;
  nodeOf(name: string): number | undefined;
  readonly ways: readonly DeadWay[];
  readonly junctions: readonly DeadJunction[];
}

/**
 * What a source is once the unit is off. A rectified supply blocks (`open`); a battery taken out and its clips joined,
 * or a winding, conducts (`short`). `as labelled`: those of a stage called heaters conduct, all others block.
 */
export const deadSourceRules = ["as labelled", "open", "short"] as const;
export type DeadSources = (typeof deadSourceRules)[number];

/** Copper without a resistance of its own, a closed contact, a source that conducts: too small to read. */
const contact_ohm = 1e-3;

export function deadNetwork(netlist: Pick<Netlist, "parts" | "ground">, sources: DeadSources): DeadNetwork {
  const names = new Map<string, number>([[netlist.ground, 0]]);
  const at = (name: string): number => {
    const known = names.get(name);
    if (known !== undefined) return known;
    names.set(name, names.size);
    return names.size - 1;
  };
  const ways: DeadWay[] = [];
  const junctions: DeadJunction[] = [];
  let i = 0;
  const way = (a: string, b: string, ohm: number): void => {
    ways.push({ a: at(a), b: at(b), ohm: Math.max(ohm, contact_ohm), part: i });
  };
  const junction = (plus: string, minus: string): void => {
    junctions.push({ plus: at(plus), minus: at(minus), part: i });
  };
  netlist.parts.forEach((part, place) => {
    i = place;
    for (const [, node] of endsOf(part)) at(node);
    switch (part.kind) {
      case "resistor":
        way(...part.between, part.ohm);
        return;
      case "inductor":
        way(...part.between, part.resistance_ohm ?? 0);
        return;
      case "transformer":
        for (const winding of part.windings) way(...winding.between, winding.resistance_ohm ?? 0);
        return;
      case "switch":
        if (part.closed) way(...part.between, contact_ohm);
        return;
      case "voltage":
        if (conductsDead(part, sources)) way(...part.between, contact_ohm);
        return;
      case "diode":
        junction(...part.between);
        return;
      case "jfet": {
        const { law } = part;
        if (law !== undefined) way(part.drain, part.source, (law.pinchOff_V * 1e3) / (2 * law.saturation_mA));
        for (const end of [part.drain, part.source]) {
          if (part.polarity === "n") junction(part.gate, end);
          else junction(end, part.gate);
        }
        return;
      }
      case "bipolar":
        for (const end of [part.collector, part.emitter]) {
          if (part.polarity === "n") junction(part.base, end);
          else junction(end, part.base);
        }
        return;
      default:
        return;
    }
  });
  return { size: names.size, nodeOf: (name) => names.get(name), ways, junctions };
}

function conductsDead(part: Part, sources: DeadSources): boolean {
  if (sources !== "as labelled") return sources === "short";
  return /heater|filament/i.test(part.stage ?? "");
}
