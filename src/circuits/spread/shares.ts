import type { Circuit } from "../circuit.ts";
import { deviceCurrents, mostElectrodes } from "../device.ts";
import { isValve } from "../netlist.ts";
import { sensitivitiesAt } from "../sensitivity.ts";
import { electrodeVolts, type Settled } from "../settle.ts";
import { valveCurve } from "../valve.ts";
import type { Varied } from "./varied.ts";

/** How much of a point's spread comes from one part. */
export interface SpreadShare {
  /** Id of the part, name of the bottle, or "mains". */
  readonly part: string;
  /** Of the point's variance, to first order. */
  readonly share: number;
}

/**
 * First look at a point's spread, by one adjoint solve: standard deviation to first order, and whose it is.
 *
 *     variance = Σ over factors of (dV/d ln value · sd)²
 *
 * A measured batch counts by the currents its bottles would carry at the nominal working point.
 */
export function firstLook(
  circuit: Circuit,
  settled: Settled,
  varied: Varied,
  unknown: number,
  meter_S: number,
): { readonly sd_V: number; readonly shares: readonly SpreadShare[] } {
  const { parts, reach } = sensitivitiesAt(circuit, settled, unknown, -1);
  // The meter divides everything at its point alike: 1/(1 + resistance seen there/meter's).
  const divided = 1 / (1 + meter_S * reach[unknown]!);
  const perShare = (part: number, what: "value" | "current" | "mu"): number => {
    const { id } = circuit.netlist.parts[part]!;
    return parts
      .filter((slope) => slope.part === id && (what === "value" || slope.value === what))
      .reduce((sum, slope) => sum + slope.perShare_V, 0);
  };
  const variances = new Map<string, number>();
  const add = (name: string, deviation: number): void => {
    variances.set(name, (variances.get(name) ?? 0) + (deviation * divided) ** 2);
  };
  for (const { what, part, sd } of varied.factors) {
    if (what === "mains") {
      const all = varied.onMains.reduce((sum, source) => sum + perShare(source, "value"), 0);
      add("mains", all * sd);
    } else add(circuit.netlist.parts[part]!.id, perShare(part, what) * sd);
  }
  for (const bottle of varied.bottles) {
    const moves = bottle.batch.map((sections) =>
      bottle.parts.reduce((sum, part, s) => {
        const device = circuit.devices.find((d) => d.part === part)!;
        const valve = circuit.netlist.parts[part]!;
        if (!isValve(valve)) return sum;
        const model = sections[Math.min(s, sections.length - 1)]!;
        const own = valveCurve(valve.kind, { by: "model", model });
        return sum + currentMove(device.nodes, own, settled.x, reach);
      }, 0),
    );
    const mean = moves.reduce((sum, move) => sum + move, 0) / moves.length;
    add(bottle.name, Math.sqrt(moves.reduce((sum, move) => sum + (move - mean) ** 2, 0) / moves.length));
  }
  const whole = [...variances.values()].reduce((sum, variance) => sum + variance, 0);
  const shares = [...variances]
    .map(([part, variance]) => ({ part, share: whole > 0 ? variance / whole : 0 }))
    .filter(({ share }) => share >= 0.001)
    .sort((a, b) => b.share - a.share);
  return { sd_V: Math.sqrt(whole), shares };
}

/** What a curve's currents at the nominal voltages do to the point, up to a constant that all curves share. */
function currentMove(
  nodes: readonly number[],
  curve: ReturnType<typeof valveCurve>,
  x: Float64Array,
  reach: Float64Array,
): number {
  const u = new Float64Array(mostElectrodes);
  const now = deviceCurrents();
  electrodeVolts(nodes, x, u);
  curve(u, now);
  const last = nodes.length - 1;
  const at = (node: number): number => (node >= 0 ? reach[node]! : 0);
  let move = 0;
  for (let k = 0; k < last; k++) move -= (at(nodes[k]!) - at(nodes[last]!)) * now.current_A[k]!;
  return move;
}
