/** What is left of a window once readings of it are known to scatter. */
export interface WindowShare {
  /** 95 % half-width of one reading by any of these hands: this far inside a limit nothing is proven. */
  readonly guard: number;
  /** Share of the window in which one reading proves nothing, both ends together; left out where it has one end only. */
  readonly eaten_pct?: number;
}

/**
 * How much of a verdict's window the instrument and its hands eat.
 *
 *     guard = 1.96·gauge_sd        eaten_pct = 100·min(1, 2·guard/(high − low))
 *
 * @param gauge_sd  of one reading, repeatability and reproducibility together, 0 or more
 * @example windowShare(0.05, 1, 3) // { guard: 0.098, eaten_pct: 9.8 }
 */
export function windowShare(gauge_sd: number, low: number | undefined, high: number | undefined): WindowShare {
  const guard = 1.96 * gauge_sd;
  if (low === undefined || high === undefined) return { guard };
  return { guard, eaten_pct: high > low ? 100 * Math.min(1, (2 * guard) / (high - low)) : 100 };
}
