import type { Netlist } from "../../circuits/index.ts";

/** One thing wrong in a unit, in the words a bench would use. */
export interface Fault {
  readonly part: string;
  readonly kind: "open" | "short" | "high" | "low" | "leaky" | "weak" | "dead";
  /** Factor on the value of a resistor that is high or low, and on the current of a weak valve; ohms of a leak. */
  readonly size?: number;
}

const open_ohm = 1e10;
const open_uF = 1e-7;
const short_ohm = 0.01;
const dead = 1e-9;

/** A circuit with one part gone wrong. */
export function withFault(circuit: Netlist, { part: id, kind, size = 1 }: Fault): Netlist {
  const part = circuit.parts.find((p) => p.id === id);
  if (!part) throw new RangeError(`the circuit has no ${id} to go wrong`);
  const instead = (changed: object): Netlist => ({
    ...circuit,
    parts: circuit.parts.map((p) => (p === part ? ({ ...p, ...changed } as typeof p) : p)),
  });
  switch (part.kind) {
    case "resistor":
      return instead({ ohm: kind === "open" ? open_ohm : kind === "short" ? short_ohm : part.ohm * size });
    case "capacitor": {
      if (kind === "open") return instead({ uF: open_uF });
      const ohm = kind === "short" ? short_ohm : size;
      const leak = { id: `leak of ${id}`, kind: "resistor", between: part.between, ohm } as const;
      return { ...circuit, parts: [...circuit.parts, leak] };
    }
    case "triode": {
      const { law } = part;
      if (!law) throw new RangeError(`${id} has no law that could go weak`);
      const share = kind === "dead" ? dead : size;
      return instead({ law: { ...law, perveance_mA_per_V1p5: law.perveance_mA_per_V1p5 * share } });
    }
    default:
      throw new RangeError(`the demo breaks no ${part.kind}`);
  }
}
