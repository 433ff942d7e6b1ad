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
 * @remarks Worked back from how far coated pine took up moisture in 7 days at 90 % humidity against bare pine: 64, 43
 *   and 10 % less under three, two and one coats of polyurethane varnish, 37 % under three of lacquer, 2 to 6 % under
 *   three of oil (Wood Handbook, finishing chapter, from memory). Lump of 8 mm, so S = (4 mm)/(time constant). Good to
 *   a factor of three: a fit to weighings doubts it by that.
 */
const oneCoat_m_per_s: Readonly<Record<Finish, number>> = {
  oil: 1e-7,
  wax: 1e-7,
  shellac: 1e-8,
  lacquer: 2e-8,
  varnish: 1e-8,
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
