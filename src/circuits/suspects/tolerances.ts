import { normalQuantile } from "../../maths/statistics/index.ts";
import { isValve, type Netlist } from "../netlist.ts";

/** One value of one part: a part's own (ohm, uF, H with its copper, dc_V, dc_mA), or a valve's factor on current or mu. */
export interface ValueAt {
  /** Place in the net list. */
  readonly part: number;
  readonly of: "value" | "current" | "mu";
}

/** A value that differs from unit to unit: relative, normal about what the net list says. */
export interface ToleratedValue extends ValueAt {
  readonly sd: number;
}

/** A tolerance is the half-width that holds 99 % of good parts. */
const halfWidthsPerSd = normalQuantile(0.995);

/** Every value of a net list that carries a tolerance. */
export function toleratedValues(netlist: Netlist): ToleratedValue[] {
  return netlist.parts.flatMap((part, i): ToleratedValue[] => {
    if (isValve(part)) {
      const { current = 0, mu = 0 } = part.tolerance ?? {};
      return (["current", "mu"] as const)
        .map((of) => ({ part: i, of, sd: (of === "current" ? current : mu) / halfWidthsPerSd }))
        .filter(({ sd }) => sd > 0);
    }
    const tolerance = "tolerance" in part ? (part.tolerance ?? 0) : 0;
    return tolerance > 0 ? [{ part: i, of: "value", sd: tolerance / halfWidthsPerSd }] : [];
  });
}
