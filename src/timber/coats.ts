/** Coats of one finish on some faces. */
export interface Coat {
  readonly finish: Finish;
  readonly coats: number;
  /** Both where left out; the second face is a case's inner one. */
  readonly on?: "both" | "first" | "second";
}

export type Finish = "oil" | "wax" | "shellac" | "lacquer" | "varnish";

/**
 * How well one coat lets moisture through, m/s; coats add their resistances.
 *
 * @source  reference/timberFinishes.json: fitted to how much less coated pine gained than bare pine in 1, 7 and 14 days
 *   at 90 % humidity (Wood Handbook, table 16-3, and FPL 462). Oil lies between linseed, 2.5 to 3.5, and tung, 1.1e-7;
 *   varnish between spar, 3.2, and urethane, 1.9e-8. Furniture wax keeps out no more than oil. Good to a factor of
 *   three for a given tin and hand: a fit to weighings doubts it by that.
 */
const oneCoat_m_per_s: Readonly<Record<Finish, number>> = {
  oil: 2e-7,
  wax: 2e-7,
  shellac: 2.5e-8,
  lacquer: 5e-8,
  varnish: 2.2e-8,
};

/** Factor, either way, that holds 95 % of coats about these figures. */
export const coatDoubt = 3;

/** Resistance of all coats on a face; infinite passage where there are none. */
export function coatSurface_m_per_s(coats: readonly Coat[], side: "first" | "second"): number {
  const resistance = coats
    .filter(({ on = "both" }) => on === "both" || on === side)
    .reduce((sum, { finish, coats: count }) => sum + count / oneCoat_m_per_s[finish], 0);
  return resistance === 0 ? Number.POSITIVE_INFINITY : 1 / resistance;
}
