/** Each day another; `STILLGLOW_TURN` makes that of a day again. */
const today = Number(process.env.STILLGLOW_TURN ?? Math.floor(Date.now() / 86_400_000));

/**
 * The share of a long check that is made today, so that the suite ends in time: each `of`-th case, the next ones tomorrow,
 * each one once in `of` days. `STILLGLOW_WHOLE=1` makes all of them.
 *
 * @param check  several checks of the same cases take different ones on a day when they are numbered
 * @throws RangeError  when that leaves none, as such a check would pass whatever came
 */
export function inTurn<T>(cases: readonly T[], of: number, check = 0): readonly T[] {
  if (process.env.STILLGLOW_WHOLE === "1") return cases;
  const chosen = cases.filter((_, i) => (i + today + check) % of === 0);
  if (chosen.length === 0) throw new RangeError(`none of ${cases.length} cases is made in a turn of ${of}`);
  return chosen;
}
