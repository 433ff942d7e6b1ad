import { BadInput, quote } from "../maths/badInput.ts";

export interface StoreDesign {
  /** At the top of its tolerance. */
  readonly capacitance_uF: number;
  /** Highest unloaded voltage: high mains, valves cold or out. */
  readonly start_V: number;
  readonly limit_V: number;
  readonly time_s: number;
}

export interface Bleeder {
  /** The greatest resistance that still discharges in time. */
  readonly most_ohm: number;
  /** In a resistor of that size, steadily; its rating must be twice this. */
  readonly dissipation_W: number;
  readonly rating_W: number;
  readonly energy_J: number;
  readonly charge_mC: number;
}

/**
 * The bleeder that a store needs.
 *
 *     R ≤ t/(C·ln(V₀/V)),   P = V₀²/R,   E = C·V₀²/2,   Q = C·V₀
 *
 * @throws BadInput  a value not above 0, or a start at or below the limit, which needs none
 * @source  exponential discharge; examples in reference/safety.json (own arithmetic there)
 */
export function bleederFor({ capacitance_uF, start_V, limit_V, time_s }: StoreDesign): Bleeder {
  for (const [name, value] of Object.entries({ capacitance_uF, start_V, limit_V, time_s })) {
    if (!(value > 0 && value < Number.POSITIVE_INFINITY))
      throw new BadInput(name, quote(value), "above 0", `give ${name}`);
  }
  if (start_V <= limit_V) {
    throw new BadInput(
      "start_V",
      quote(start_V),
      `above the limit, ${limit_V}`,
      "a store that starts below needs no bleeder",
    );
  }
  const farad = capacitance_uF * 1e-6;
  const most_ohm = time_s / (farad * Math.log(start_V / limit_V));
  const dissipation_W = start_V ** 2 / most_ohm;
  return {
    most_ohm,
    dissipation_W,
    rating_W: 2 * dissipation_W,
    energy_J: (farad * start_V ** 2) / 2,
    charge_mC: 1000 * farad * start_V,
  };
}

/** Capacitance in farad to the greatest voltage, peak, that counts as class 1 and class 2. */
const charged = [
  [3e-7, 60, 120],
  [1.7e-7, 75, 150],
  [9.1e-8, 100, 200],
  [6.1e-8, 125, 250],
  [4.1e-8, 150, 300],
  [2.8e-8, 200, 400],
  [1.8e-8, 250, 500],
  [1.2e-8, 350, 700],
  [8e-9, 500, 1000],
  [4e-9, 1000, 2000],
  [1.6e-9, 2500, 5000],
  [8e-10, 5000, 10000],
  [4e-10, 10000, 20000],
  [2e-10, 20000, 40000],
  [1.33e-10, 25000, 50000],
] as const;

/**
 * Greatest voltage on a charged capacitor of an energy source of class 1 or 2, linear between the table's rows.
 *
 * @source  IEC 62368-1:2018 (ed. 3), table 5, read in a national translation of its tables; a guide, not a limit
 *   adopted by anybody
 */
export function chargedLimit_V(capacitance_uF: number, energyClass: 1 | 2): number {
  if (!(capacitance_uF > 0))
    throw new BadInput("capacitance_uF", quote(capacitance_uF), "above 0", "nominal plus tolerance");
  const farad = capacitance_uF * 1e-6;
  const after = charged.findIndex(([c]) => c <= farad);
  if (after === 0) return charged[0][energyClass];
  if (after < 0) return charged.at(-1)![energyClass];
  const [above, below] = [charged[after - 1]!, charged[after]!];
  const share = (farad - below[0]) / (above[0] - below[0]);
  return below[energyClass] + share * (above[energyClass] - below[energyClass]);
}
