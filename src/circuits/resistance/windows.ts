import { BadInput, quote } from "../../maths/badInput.ts";
import { isValve, type Netlist, type Part } from "../netlist.ts";
import { type DeadSources, deadNetwork } from "./deadNetwork.ts";
import { deadMeter } from "./resistance.ts";

export interface ResistanceWindow {
  readonly between: readonly [string, string];
  /** Nothing joins the points; the figures are left out. */
  readonly open: boolean;
  readonly ohm?: number;
  /** 99 % of good units lie between. */
  readonly low_ohm?: number;
  readonly high_ohm?: number;
  /** With the meter's leads this way round it may drive these parts' junctions, and read as low as `forward_ohm`. */
  readonly junctions?: readonly string[];
  readonly forward_ohm?: number;
  readonly notes: readonly string[];
}

/** More readings than this would not be answered in time. */
export const mostWindows = 400;

/**
 * What an ohmmeter reads between points of good units, unplugged and discharged.
 *
 *     sd(ln R) = √Σ (d ln R/d ln r · tolerance/2.576)²,  window = R·e^(± 2.576·sd)
 *
 * The meter's positive lead is on the first of `between`. The logarithm keeps a window of wide tolerances above zero.
 *
 * @throws BadInput at `between[i][j]` for a point that is not there, or at `between` for too many
 */
export function resistanceWindows(
  netlist: Netlist,
  between: readonly (readonly [string, string])[],
  sources: DeadSources = "as labelled",
): ResistanceWindow[] {
  if (between.length > mostWindows) {
    throw new BadInput("between", `${between.length} pairs`, `at most ${mostWindows}`, "ask for fewer at a time");
  }
  const network = deadNetwork(netlist, sources);
  const meter = deadMeter(network);
  const nodes = new Map(
    (netlist.testPoints ?? []).map((point) =>
      typeof point === "string" ? ([point, point] as const) : ([point.name, point.node] as const),
    ),
  );
  return between.map((pair, i): ResistanceWindow => {
    const [a, b] = pair.map((point, end) => {
      const node = network.nodeOf(nodes.get(point) ?? point);
      if (node !== undefined) return node;
      throw new BadInput(
        `between[${i}][${end}]`,
        quote(point),
        "a test point or a node of the net list",
        "correct the point's name",
      );
    }) as [number, number];
    const { ohm, shares, forward_ohm, junctions } = meter(a, b);
    const notes: string[] = [];
    const ids = junctions.map((part) => netlist.parts[part]!.id);
    const throughJunctions = ids.length === 0 ? {} : { junctions: ids, forward_ohm };
    if (ids.length > 0) {
      notes.push(
        `this way round the meter may open the junctions of ${ids.join(", ")} and read lower; the other way round, or on a range under 0.3 V, they block`,
      );
    }
    if (!Number.isFinite(ohm)) return { between: pair, open: true, ...throughJunctions, notes };
    let variance = 0;
    const shareOf = new Map<number, number>();
    network.ways.forEach(({ part }, w) => {
      shareOf.set(part, (shareOf.get(part) ?? 0) + shares[w]!);
    });
    for (const [part, share] of shareOf) variance += (share * toleranceOf(netlist.parts[part]!)) ** 2;
    const spread = Math.exp(Math.sqrt(variance));
    notes.push(...capacitorNotes(netlist, network.nodeOf, a, b));
    return {
      between: pair,
      open: false,
      ohm,
      low_ohm: ohm / spread,
      high_ohm: ohm * spread,
      ...throughJunctions,
      notes,
    };
  });
}

/** As a half-width that holds 99 %, which the window's is too: the two factors of 2.576 cancel. */
function toleranceOf(part: Part): number {
  if (isValve(part) || !("tolerance" in part)) return 0;
  return part.tolerance ?? 0;
}

function capacitorNotes(
  netlist: Netlist,
  nodeOf: (name: string) => number | undefined,
  a: number,
  b: number,
): string[] {
  const across = netlist.parts.filter(
    (part) =>
      part.kind === "capacitor" &&
      part.uF >= 1 &&
      part.between.every((node) => nodeOf(node) === a || nodeOf(node) === b),
  );
  if (across.length === 0) return [];
  return [
    `wait until ${across.map(({ id }) => id).join(", ")} has charged through the meter: the reading climbs to its value`,
  ];
}
