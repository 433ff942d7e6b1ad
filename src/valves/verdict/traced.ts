/**
 * A figure together with its slope against each raw reading it was made from (relative: per unit change of the
 * reading's logarithm). Readings scatter independently, so that a reading which enters two figures cancels or adds as
 * it should when the two are combined.
 */
export interface Traced {
  readonly value: number;
  readonly slopes: ReadonlyMap<string, number>;
}

/** A raw reading, known by a name of its own. */
export function reading(name: string, value: number): Traced {
  return { value, slopes: new Map([[name, value]]) };
}

/** value = f(figures), given the slope of f against each figure. */
export function combined(value: number, parts: readonly (readonly [figure: Traced, slope: number])[]): Traced {
  const slopes = new Map<string, number>();
  for (const [figure, slope] of parts) {
    for (const [name, own] of figure.slopes) slopes.set(name, (slopes.get(name) ?? 0) + slope * own);
  }
  return { value, slopes };
}

/** Half-width of a figure when every reading has the relative half-width given: they add as squares. */
export function halfWidth(figure: Traced, relative: number): number {
  let sum = 0;
  for (const slope of figure.slopes.values()) sum += slope * slope;
  return relative * Math.sqrt(sum);
}
