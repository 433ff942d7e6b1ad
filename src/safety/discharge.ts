import { BadInput, quote } from "../maths/badInput.ts";

export interface Store {
  readonly capacitance_uF: number;
  readonly bleeder_ohm: number;
  readonly start_V: number;
  readonly limit_V: number;
  /** 95 % half-widths; 0 if left out. */
  readonly doubt?: { readonly capacitance_uF?: number; readonly bleeder_ohm?: number; readonly start_V?: number };
}

export interface Discharge {
  readonly time_s: number;
  readonly doubt: { readonly time_s: number };
  readonly energy_J: number;
  /** In the bleeder, at the start. */
  readonly bleeder_W: number;
}

/**
 * Time until a capacitor has fallen to a voltage that may be touched.
 *
 *     t = R·C·ln(V₀/V),   E = C·V₀²/2,   P = V₀²/R
 *
 * @returns 0 s when it starts at or below the limit; doubt by root sum square of the parts' own
 * @throws BadInput  a part, voltage or doubt out of range
 * @source  exponential discharge; the formula read in an engineering note on residual voltage
 * @example discharge({ capacitance_uF: 100, bleeder_ohm: 220e3, start_V: 450, limit_V: 60 }).time_s // 44.33
 */
export function discharge({ capacitance_uF, bleeder_ohm, start_V, limit_V, doubt = {} }: Store): Discharge {
  requireAbove0({ capacitance_uF, bleeder_ohm, limit_V });
  if (!(start_V >= 0 && start_V < Number.POSITIVE_INFINITY)) {
    throw new BadInput("start_V", quote(start_V), "0 or more", "give the highest unloaded voltage");
  }
  const farad = capacitance_uF * 1e-6;
  const constant_s = bleeder_ohm * farad;
  const constants = start_V > limit_V ? Math.log(start_V / limit_V) : 0;
  const relative = Math.hypot((doubt.capacitance_uF ?? 0) / capacitance_uF, (doubt.bleeder_ohm ?? 0) / bleeder_ohm);
  const startPart =
    start_V > limit_V ? (doubt.start_V ?? 0) / start_V : Math.max(0, (start_V + (doubt.start_V ?? 0)) / limit_V - 1);
  return {
    time_s: constant_s * constants,
    doubt: { time_s: constant_s * Math.hypot(constants * relative, startPart) },
    energy_J: (farad * start_V ** 2) / 2,
    bleeder_W: start_V ** 2 / bleeder_ohm,
  };
}

function requireAbove0(values: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(values)) {
    if (value > 0 && value < Number.POSITIVE_INFINITY) continue;
    throw new BadInput(name, quote(value), "above 0", `give ${name} as a positive number`);
  }
}
