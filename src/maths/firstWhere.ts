/**
 * The first whole number of `from` … `to` − 1 that is so, where from some number on all are so and none before; `to`
 * where none is. Found by halving: ⌈log₂(to − from + 1)⌉ looks.
 *
 * @param isSo  false up to some number and true from there on; what else it is decides which turn is found
 * @source Knuth, The Art of Computer Programming, vol. 3, § 6.2.1 (from memory)
 */
export function firstWhere(from: number, to: number, isSo: (n: number) => boolean): number {
  let [low, high] = [from, Math.max(from, to)];
  while (low < high) {
    const middle = low + Math.floor((high - low) / 2);
    if (isSo(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
