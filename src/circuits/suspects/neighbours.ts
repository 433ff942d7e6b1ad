import { endsOf, isValve, type Netlist, type Part } from "../netlist.ts";
import type { Fault } from "./fault.ts";

const bridge_ohm = 0.1;
/** Points of the chassis drawing nearer than this may be joined by a splash of solder or a stray strand, mm. */
const near_mm = 16;
/** More pairs than these are not gone through. */
const mostPairs = 300;

/**
 * A bridge between nodes that lie beside each other: the pins of one valve or transistor, and test points that the
 * drawing shows close together. Two ends of one part bridged are that part's `short`.
 */
export function bridges(netlist: Netlist): Fault[] {
  const joined = new Set<string>();
  for (const part of netlist.parts) if ("between" in part) joined.add(pairName(...part.between));
  const found: Fault[] = [];
  const bridge = (part: string, a: string, b: string, prior: number): void => {
    const name = pairName(a, b);
    if (a === b || joined.has(name) || found.length >= mostPairs) return;
    joined.add(name);
    found.push({
      part,
      fault: "bridged",
      detail: `${a} to ${b}`,
      also: { between: [a, b] },
      prior,
      felt: { steady: true, signal: true, dead: true },
      starts: [0],
      edit: () => ({ added: [{ id: "\u0000bridge", kind: "resistor", between: [a, b], ohm: bridge_ohm }] }),
    });
  };
  for (const part of netlist.parts) {
    if (!isValve(part) && part.kind !== "jfet" && part.kind !== "bipolar") continue;
    const nodes = endsOf(part).map(([, node]) => node);
    nodes.forEach((a, i) => {
      for (const b of nodes.slice(i + 1)) bridge(part.id, a, b, 0.7);
    });
  }
  const points = (netlist.testPoints ?? []).flatMap((point) =>
    typeof point === "string" || point.x_mm === undefined || point.y_mm === undefined ? [] : [point],
  );
  points.forEach((p, i) => {
    for (const q of points.slice(i + 1)) {
      if (Math.hypot(p.x_mm! - q.x_mm!, p.y_mm! - q.y_mm!) > near_mm) continue;
      const owner = netlist.parts.find((part) => endsOf(part).some(([, node]) => node === p.node));
      if (owner !== undefined) bridge(owner.id, p.node, q.node, 0.4);
    }
  });
  return found;
}

function pairName(a: string, b: string): string {
  return a < b ? `${a}\u0000${b}` : `${b}\u0000${a}`;
}

/** Two resistors or two capacitors of one stage fitted in each other's place, their values far enough apart to matter. */
export function exchanges(netlist: Netlist): Fault[] {
  const found: Fault[] = [];
  netlist.parts.forEach((first, i) => {
    if (first.kind !== "resistor" && first.kind !== "capacitor") return;
    for (let j = i + 1; j < netlist.parts.length && found.length < mostPairs; j++) {
      const second = netlist.parts[j]!;
      if (second.kind !== first.kind || !beside(first, second)) continue;
      const apart = Math.abs(Math.log(ownValue(second) / ownValue(first)));
      if (apart < 0.15 + (first.tolerance ?? 0) + toleranceOf(second)) continue;
      const resistors = first.kind === "resistor";
      found.push({
        part: first.id,
        fault: "swapped",
        detail: `with ${second.id}`,
        also: { with: second.id },
        prior: 0.25,
        felt: { steady: resistors, signal: true, dead: resistors },
        starts: [0],
        edit: () => ({
          instead: new Map([
            [i, withValue(first, second)],
            [j, withValue(second, first)],
          ]),
        }),
      });
    }
  });
  return found;
}

function beside(a: Part, b: Part): boolean {
  if (a.stage !== undefined && a.stage === b.stage && a.channel === b.channel) return true;
  const nodes = new Set(endsOf(a).map(([, node]) => node));
  return a.stage === undefined && endsOf(b).some(([, node]) => nodes.has(node));
}

function ownValue(part: Part): number {
  if (part.kind === "resistor") return part.ohm;
  return part.kind === "capacitor" ? part.uF : 1;
}

function toleranceOf(part: Part): number {
  return part.kind === "resistor" || part.kind === "capacitor" ? (part.tolerance ?? 0) : 0;
}

function withValue(place: Part, from: Part): Part {
  if (place.kind === "resistor" && from.kind === "resistor") return { ...place, ohm: from.ohm };
  if (place.kind === "capacitor" && from.kind === "capacitor") return { ...place, uF: from.uF };
  return place;
}
