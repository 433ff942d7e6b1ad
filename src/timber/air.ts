/**
 * Pressure of water vapour over water.
 *
 *     ln(p/p_c) = (T_c/T)·(a₁x + a₂x^1.5 + a₃x³ + a₄x^3.5 + a₅x⁴ + a₆x^7.5),   x = 1 − T/T_c
 *
 * @source  W. Wagner and A. Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783-787 (coefficients read in public sources)
 */
export function saturation_Pa(temperature_C: number): number {
  const critical_K = 647.096;
  const kelvin = temperature_C + 273.15;
  const x = 1 - kelvin / critical_K;
  const sum =
    -7.85951783 * x +
    1.84408259 * x ** 1.5 -
    11.7866497 * x ** 3 +
    22.6807411 * x ** 3.5 -
    15.9618719 * x ** 4 +
    1.80122502 * x ** 7.5;
  return 22_064_000 * Math.exp((critical_K / kelvin) * sum);
}

/** Relative humidity of a room's air once it is warmed or cooled to a wall; at most 100. */
export function humidityAtWall_pct(room_C: number, humidity_pct: number, wall_C: number): number {
  return Math.min(100, (humidity_pct * saturation_Pa(room_C)) / saturation_Pa(wall_C));
}
