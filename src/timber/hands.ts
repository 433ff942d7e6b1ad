/** Hours at which someone is there, in order and apart. */
export type Hands = readonly { readonly from_h: number; readonly to_h: number }[];

/**
 * The hour itself where someone is there then, else the next at which someone comes.
 *
 * @returns the hour itself, too, where nobody's hours are told, or beyond the last that are
 */
export function whenThere(hour: number, hands?: Hands): number {
  const next = hands?.find(({ to_h }) => to_h > hour);
  return next === undefined ? hour : Math.max(hour, next.from_h);
}
