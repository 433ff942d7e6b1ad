import { BadInput, quote } from "../../maths/badInput.ts";
import type { ValveModel } from "../../valves/model.ts";
import { bottlesOf } from "../bottles.ts";
import { isValve, type Netlist } from "../netlist.ts";
import { characterOf } from "../valve.ts";

/** Half-width that holds 99 % of a normal distribution, in its standard deviations. */
const per99 = 2.5758293035489;

/** One factor that differs from unit to unit. */
interface VariedFactor {
  /** What it acts on: a part's own value, a valve's plate current or mu, or all sources that follow the mains. */
  readonly what: "value" | "current" | "mu" | "mains";
  /** Place of the part in the net list; −1 for the mains. */
  readonly part: number;
  /** Standard deviation of the factor about one. */
  readonly sd: number;
}

/** One bottle of the shop's own batch: the curves of its sections. */
type MeasuredBottle = readonly ValveModel[];

/** A position that is filled from a measured batch. */
export interface VariedBottle {
  readonly name: string;
  /** Places of its sections in the net list. */
  readonly parts: readonly number[];
  readonly batch: readonly MeasuredBottle[];
  /** Bottles of one batch in one unit are different ones; the key tells which share a batch. */
  readonly from: string;
}

export interface Varied {
  readonly factors: readonly VariedFactor[];
  readonly bottles: readonly VariedBottle[];
  /** Factors of the mains, as places of parts. */
  readonly onMains: readonly number[];
}

/** Batches by type, by bottle or by part: each a list of bottles, one curve or one a section. */
export type Batches = Readonly<Record<string, readonly (ValveModel | readonly ValveModel[])[]>>;

/**
 * Everything in a net list that differs from unit to unit.
 *
 * @param mains_pct  half-width that holds 99 % of the mains' voltages
 * @throws BadInput  no source follows the mains, or a batch fits no valve
 */
export function variedOf(netlist: Netlist, mains_pct: number, batches: Batches, path = "netlist"): Varied {
  const bottles = measuredBottles(netlist, batches, path);
  const measured = new Set(bottles.flatMap(({ parts }) => parts));
  const factors = netlist.parts.flatMap((part, i): VariedFactor[] => {
    if (isValve(part)) {
      if (measured.has(i)) return [];
      return (["current", "mu"] as const).flatMap((what) => {
        const tolerance = part.tolerance?.[what];
        return tolerance ? [{ what, part: i, sd: tolerance / per99 }] : [];
      });
    }
    if (part.kind === "capacitor" || (part.kind === "voltage" && part.dc_V === 0)) return [];
    return "tolerance" in part && part.tolerance ? [{ what: "value", part: i, sd: part.tolerance / per99 }] : [];
  });
  const onMains = netlist.parts.flatMap((part, i) =>
    (part.kind === "voltage" || part.kind === "current") && part.mains ? [i] : [],
  );
  if (mains_pct > 0) {
    if (onMains.length === 0) {
      throw new BadInput(
        "mains_pct",
        `${mains_pct}, but no source of the net list follows the mains`,
        "a net list with sources that come from the mains",
        'write "mains":true at the sources that come from the mains',
      );
    }
    factors.push({ what: "mains", part: -1, sd: mains_pct / 100 / per99 });
  }
  return { factors, bottles, onMains };
}

function measuredBottles(netlist: Netlist, batches: Batches, path: string): VariedBottle[] {
  const used = new Set<string>();
  const varied = [...bottlesOf(netlist)].flatMap(([name, parts]): VariedBottle[] => {
    const first = netlist.parts[parts[0]!]!;
    const keys = [name, ...parts.map((i) => netlist.parts[i]!.id), isValve(first) ? first.type : undefined];
    const from = keys.find((key) => key !== undefined && batches[key] !== undefined);
    if (from === undefined) return [];
    used.add(from);
    const batch = batches[from]!.map((bottle, b) => {
      const sections: MeasuredBottle = Array.isArray(bottle) ? bottle : [bottle as ValveModel];
      checkBottle(netlist, parts, sections, `batch.${from}[${b}]`, path);
      return sections;
    });
    if (batch.length === 0) {
      throw new BadInput(`batch.${from}`, "an empty list", "at least one bottle", "leave the batch out");
    }
    return [{ name, parts, batch, from }];
  });
  for (const key of Object.keys(batches)) {
    if (used.has(key)) continue;
    throw new BadInput(
      `batch.${key}`,
      quote(key),
      "a type, a bottle or a part that is a valve of the net list",
      "correct the name, or leave the batch out",
    );
  }
  return varied;
}

function checkBottle(
  netlist: Netlist,
  parts: readonly number[],
  sections: MeasuredBottle,
  at: string,
  path: string,
): void {
  if (sections.length === 0 || (sections.length < parts.length && sections.length !== 1)) {
    throw new BadInput(
      at,
      `${sections.length} curves`,
      `one curve for all, or ${parts.length}, one a section`,
      "give each section's curve",
    );
  }
  for (const i of parts) {
    const part = netlist.parts[i]!;
    if (part.kind === "pentode" && sections.some(({ kind }) => kind === "triode")) {
      throw new BadInput(at, `a triode's curve for pentode ${quote(part.id)}`, "a pentode's curve", "give that");
    }
    if (isValve(part) && part.model === undefined && part.type !== undefined) characterOf(part, `${path}.parts[${i}]`);
  }
}
