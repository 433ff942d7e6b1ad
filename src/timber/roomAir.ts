import { saturation_Pa } from "./air.ts";
import type { Home, MonthOfAir } from "./caseAsk.ts";

/** Damp that a home airs out before it stays: common practice, no source. */
const dampest_pct = { heated: 65, cooled: 60 } as const;
const gasConstant_J_kgK = 461.5;

/**
 * A room's air from the month outside: warmed without drying, cooled with drying, a little water added.
 *
 *     p = p_outside + gain·R_v·T,     humidity = p/p_sat(room), at most 65 % heated, 60 % cooled
 *
 * @source  vapour pressure of W. Wagner and A. Pruss (1993); the rest is elementary
 */
export function roomAir(outside: MonthOfAir, { heatedTo_C, cooledTo_C, gain_g_m3 = 2 }: Home): MonthOfAir {
  const { month } = outside;
  const warm = outside.temperature_C;
  const isHeated = warm < heatedTo_C;
  const isCooled = cooledTo_C !== undefined && warm > cooledTo_C;
  if (!isHeated && !isCooled) return outside;
  const temperature_C = isHeated ? heatedTo_C : cooledTo_C!;
  const vapour_Pa =
    (outside.humidity_pct / 100) * saturation_Pa(warm) +
    (gain_g_m3 / 1000) * gasConstant_J_kgK * (temperature_C + 273.15);
  const humidity_pct = Math.min(
    isHeated ? dampest_pct.heated : dampest_pct.cooled,
    (100 * vapour_Pa) / saturation_Pa(temperature_C),
  );
  return { month, temperature_C, humidity_pct };
}
