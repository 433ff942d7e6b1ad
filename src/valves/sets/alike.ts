/** Valves by number, and the weighted features of each; a set costs the sum of the sides of the box it spans. */
type Places = readonly ArrayLike<number>[];

/**
 * Sets of `size` within the limit, as many as a quick way can make: the valve with fewest that could join it is served
 * first, and takes those that widen its set least.
 *
 * With one feature no way makes more: sets along the line, each begun as early as may be. With more features it can
 * fall a little short of the most.
 */
export function alikeSets(places: Places, size: number, limit: number): number[][] {
  const features = places[0]?.length ?? 0;
  const all = [...places.keys()];
  if (size === 1 || features === 0) {
    return Array.from({ length: Math.floor(all.length / size) }, (_, i) => all.slice(i * size, (i + 1) * size));
  }
  const sorted = all.sort((a, b) => places[a]![0]! - places[b]![0]!);
  const inOrder = sorted.map((v) => places[v]!);
  const sets = features === 1 ? alongLine(inOrder, size, limit) : fewestFirst(inOrder, size, limit);
  return sets.map((set) => set.map((i) => sorted[i]!));
}

function alongLine(sorted: Places, size: number, limit: number): number[][] {
  const sets: number[][] = [];
  for (let i = 0; i + size <= sorted.length; ) {
    if (sorted[i + size - 1]![0]! - sorted[i]![0]! <= limit) {
      sets.push(Array.from({ length: size }, (_, k) => i + k));
      i += size;
    } else i++;
  }
  return sets;
}

function fewestFirst(sorted: Places, size: number, limit: number): number[][] {
  const n = sorted.length;
  const features = sorted[0]!.length;
  const isFree = new Uint8Array(n).fill(1);
  const partners = new Int32Array(n);
  const apart = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
    let sum = 0;
    for (let f = 0; f < features; f++) sum += Math.abs(a[f]! - b[f]!);
    return sum;
  };
  /** Free valves that could stand in one set with v; only neighbours along the first feature can. */
  const near = (v: number): number[] => {
    const found: number[] = [];
    const own = sorted[v]!;
    for (let u = v - 1; u >= 0 && own[0]! - sorted[u]![0]! <= limit; u--)
      if (isFree[u] && apart(own, sorted[u]!) <= limit) found.push(u);
    for (let u = v + 1; u < n && sorted[u]![0]! - own[0]! <= limit; u++)
      if (isFree[u] && apart(own, sorted[u]!) <= limit) found.push(u);
    return found;
  };
  // Valves by how many partners they have left; one whose number has changed is filed anew and passed by at its old place.
  const filed: number[][] = [];
  const file = (v: number): void => {
    filed[partners[v]!] ??= [];
    filed[partners[v]!]!.push(v);
  };
  const leave = (v: number): void => {
    isFree[v] = 0;
    for (const u of near(v)) {
      partners[u]!--;
      file(u);
      if (partners[u]! < fewest) fewest = partners[u]!;
    }
  };
  for (let v = 0; v < n; v++) {
    partners[v] = near(v).length;
    file(v);
  }
  let fewest = 0;
  const sets: number[][] = [];
  while (fewest < filed.length) {
    const v = filed[fewest]?.pop();
    if (v === undefined) fewest++;
    else if (isFree[v] && partners[v] === fewest) {
      const set = fewest >= size - 1 ? grown(v, near(v), sorted, partners, size, limit) : undefined;
      if (set !== undefined) sets.push(set);
      for (const u of set ?? [v]) leave(u);
    }
  }
  return sets;
}

/** The set begun with v that widens least at each step; among equals in a pair the partner with fewest others. */
function grown(
  v: number,
  others: readonly number[],
  places: Places,
  partners: Int32Array,
  size: number,
  limit: number,
): number[] | undefined {
  if (size === 2) return [v, others.reduce((a, b) => (partners[b]! < partners[a]! ? b : a))];
  const low = Float64Array.from(places[v]!);
  const high = Float64Array.from(places[v]!);
  const set = [v];
  const left = new Set(others);
  while (set.length < size) {
    let best = -1;
    let least = Number.POSITIVE_INFINITY;
    for (const u of left) {
      let cost = 0;
      for (let f = 0; f < low.length; f++)
        cost += Math.max(high[f]!, places[u]![f]!) - Math.min(low[f]!, places[u]![f]!);
      if (cost > limit) left.delete(u);
      else if (cost < least) {
        least = cost;
        best = u;
      }
    }
    if (best < 0) return undefined;
    left.delete(best);
    set.push(best);
    for (let f = 0; f < low.length; f++) {
      low[f] = Math.min(low[f]!, places[best]![f]!);
      high[f] = Math.max(high[f]!, places[best]![f]!);
    }
  }
  return set;
}
