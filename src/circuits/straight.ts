import type { Layout } from "./layout.ts";
import type { Netlist, PartOf } from "./netlist.ts";

/** The equations of the parts that do not bend. */
export interface StraightEquations {
  /** Matrix for direct current, row after row, valves and diodes left out. */
  readonly steady: Float64Array;
  /** Right-hand side of the direct-current sources. */
  readonly drive: Float64Array;
  /** Real part of the matrix for alternating current. */
  readonly alternating: Float64Array;
  /** Entries that jω multiplies. */
  readonly reactive: readonly { readonly at: number; readonly value: number }[];
}

/** Contact resistance of a closed switch: too small to show, large enough that two in parallel share their current. */
const contact_ohm = 1e-6;

export function straightEquations(netlist: Netlist, layout: Layout): StraightEquations {
  const { size, unknowns, currentOf } = layout;
  const steady = new Float64Array(size * size);
  const drive = new Float64Array(size);
  const reactive: { at: number; value: number }[] = [];
  const flux: { row: number; part: Transformer; current: number }[] = [];

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

  return { steady, drive, alternating, reactive };
}

type Transformer = PartOf<"transformer">;

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
