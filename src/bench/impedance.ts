import { BadInput } from "../maths/badInput.ts";

/** One load and what stood across it, with the 95 % half-width of that. */
export interface Loaded {
  /** Left out: nothing but the recorder. */
  readonly load_ohm: number;
  readonly level_Vrms: number;
  readonly doubt_Vrms: number;
}

export interface SourceImpedance {
  readonly outputImpedance_ohm: number;
  readonly doubt_ohm: number;
  /** Without load; the higher of the two levels where the estimate falls below 0 ohm, which no output has. */
  readonly open_Vrms: number;
  readonly state?: "undecided";
  readonly reason?: string;
}

/**
 * Output resistance from the same drive into two loads.
 *
 *     R = (U_a − U_b)/(U_b/R_b − U_a/R_a)
 *
 * Magnitudes are compared, so a reactive output counts with its resistive part only while it is small beside the loads.
 *
 * @param loadDoubt  relative 95 % half-width of each load's value
 * @throws BadInput  equal loads
 * @source  IEC 60268-3, output source impedance (remembered)
 */
export function sourceImpedance(a: Loaded, b: Loaded, loadDoubt: number): SourceImpedance {
  if (a.load_ohm === b.load_ohm) {
    throw new BadInput(
      "loads[1].load_ohm",
      `${b.load_ohm} ohm twice`,
      "two loads that differ",
      "record the same drive into another load, or into none",
    );
  }
  const of = (ua: number, ub: number, ra: number, rb: number) => (ua - ub) / (ub / rb - ua / ra);
  // Adding 0 keeps equal levels from giving −0.
  const outputImpedance_ohm = of(a.level_Vrms, b.level_Vrms, a.load_ohm, b.load_ohm) + 0;
  const moved = [
    of(a.level_Vrms + a.doubt_Vrms, b.level_Vrms, a.load_ohm, b.load_ohm),
    of(a.level_Vrms, b.level_Vrms + b.doubt_Vrms, a.load_ohm, b.load_ohm),
    of(a.level_Vrms, b.level_Vrms, a.load_ohm * (1 + loadDoubt), b.load_ohm),
    of(a.level_Vrms, b.level_Vrms, a.load_ohm, b.load_ohm * (1 + loadDoubt)),
  ].map((value) => (Number.isFinite(value) ? value - outputImpedance_ohm : 0));
  const doubt_ohm = Math.hypot(...moved);
  const open_Vrms =
    outputImpedance_ohm >= 0
      ? a.level_Vrms * (1 + outputImpedance_ohm / a.load_ohm)
      : Math.max(a.level_Vrms, b.level_Vrms);
  const figures = { outputImpedance_ohm, doubt_ohm, open_Vrms };
  if (outputImpedance_ohm >= 0 && doubt_ohm < Math.max(outputImpedance_ohm, 1e-9)) return figures;
  return {
    ...figures,
    state: "undecided",
    reason: `The two levels differ by ${(100 * Math.abs(1 - b.level_Vrms / a.level_Vrms)).toPrecision(2)} %, too little against their doubt; take loads that lie further apart.`,
  };
}
