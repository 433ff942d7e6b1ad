/**
 * Puts the value of a given rank where sorting would put it, everything smaller before it; faster than sorting where
 * few ranks are asked. Changes the order in `values` between `from` and `to` (exclusive).
 *
 * @param rank  counted from 0, from … to − 1
 * @source C. A. R. Hoare, "Find", Commun. ACM 4, 1961, with the median of three as pivot (from memory)
 */
export function selectRank(values: Float64Array, rank: number, from = 0, to = values.length): number {
  let left = from;
  let right = to - 1;
  while (left < right) {
    const pivot = medianOfThree(values[left]!, values[(left + right) >> 1]!, values[right]!);
    let i = left;
    let j = right;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const held = values[i]!;
      values[i] = values[j]!;
      values[j] = held;
      i++;
      j--;
    }
    if (rank <= j) right = j;
    else if (rank >= i) left = i;
    else break;
  }
  return values[rank]!;
}

function medianOfThree(a: number, b: number, c: number): number {
  if (a < b) return b < c ? b : Math.max(a, c);
  return a < c ? a : Math.max(b, c);
}
