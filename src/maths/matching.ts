/** Pairs of a graph's nodes: `mate[v]` is the partner of v, or −1. */
export interface Pairings {
  /** Matchings of 0, 1, 2, … edges, each of the greatest weight that so many edges can have. */
  readonly bySize: readonly Int32Array[];
  /** Their weights. */
  readonly weights: readonly number[];
}

/**
 * Matchings of greatest weight for every number of edges up to `most`, in a graph without loops.
 *
 * Edmonds' algorithm with duals, all free nodes starting from one dual value. Free nodes lose dual value together and
 * never have more than any other node, which proves the matching after each augmentation the best of its size.
 *
 * @param weight  whole numbers below 2^50 in size for exact work; NaN or undefined where there is no edge
 * @returns one matching per size, ending where no larger one exists; time grows as n³, memory as n²
 * @source J. Edmonds, Maximum matching and a polyhedron with 0,1-vertices, 1965; Z. Galil, ACM Computing Surveys 18,
 *         1986 (both remembered)
 */
export function bestPairings(
  count: number,
  weight: (a: number, b: number) => number | undefined,
  most = Number.POSITIVE_INFINITY,
): Pairings {
  // Nodes are 1 … n and blossoms n + 1 … 2n, so that 0 can stand for none.
  const n = count;
  const size = n + (n >> 1) + 2;
  const w = new Float64Array((n + 1) * (n + 1)).fill(Number.NaN);
  let greatest = 0;
  for (let a = 1; a <= n; a++) {
    for (let b = a + 1; b <= n; b++) {
      const value = weight(a - 1, b - 1);
      if (value === undefined || Number.isNaN(value)) continue;
      w[a * (n + 1) + b] = value;
      w[b * (n + 1) + a] = value;
      greatest = Math.max(greatest, value);
    }
  }
  /** The tightest original edge from one node or blossom to another; tail 0 where there is none. */
  const tail = new Int32Array(size * size);
  const head = new Int32Array(size * size);
  for (let a = 1; a <= n; a++) {
    for (let b = 1; b <= n; b++) {
      if (Number.isNaN(w[a * (n + 1) + b]!)) continue;
      tail[a * size + b] = a;
      head[a * size + b] = b;
    }
  }
  const inFlower = new Int32Array(size * (n + 1));
  for (let a = 1; a <= n; a++) inFlower[a * (n + 1) + a] = a;
  const dual = new Float64Array(size).fill(greatest, 1, n + 1);
  const match = new Int32Array(size);
  const slackFrom = new Int32Array(size);
  const top = new Int32Array(size);
  for (let a = 1; a <= n; a++) top[a] = a;
  const parent = new Int32Array(size);
  const label = new Int8Array(size);
  const seen = new Int32Array(size);
  const petals: number[][] = Array.from({ length: size }, () => []);
  let last = n;
  let mark = 0;
  let queue: number[] = [];

  const slack = (e: number): number => {
    const [a, b] = [tail[e]!, head[e]!];
    return dual[a]! + dual[b]! - 2 * w[a * (n + 1) + b]!;
  };
  const noteSlack = (from: number, x: number): void => {
    if (slackFrom[x] === 0 || slack(from * size + x) < slack(slackFrom[x]! * size + x)) slackFrom[x] = from;
  };
  const findSlack = (x: number): void => {
    slackFrom[x] = 0;
    for (let a = 1; a <= n; a++) {
      if (tail[a * size + x] !== 0 && top[a] !== x && label[top[a]!] === EVEN) noteSlack(a, x);
    }
  };
  const enqueue = (x: number): void => {
    if (x <= n) queue.push(x);
    else for (const petal of petals[x]!) enqueue(petal);
  };
  const setTop = (x: number, b: number): void => {
    top[x] = b;
    if (x > n) for (const petal of petals[x]!) setTop(petal, b);
  };
  /** Position of a petal counted the even way round, turning the flower where needed. */
  const evenPlace = (b: number, petal: number): number => {
    const flower = petals[b]!;
    const place = flower.indexOf(petal);
    if (place % 2 === 0) return place;
    petals[b] = [flower[0]!, ...flower.slice(1).reverse()];
    return flower.length - place;
  };
  const setMatch = (x: number, y: number): void => {
    const e = x * size + y;
    match[x] = head[e]!;
    if (x <= n) return;
    const petal = inFlower[x * (n + 1) + tail[e]!]!;
    const place = evenPlace(x, petal);
    for (let i = 0; i < place; i++) setMatch(petals[x]![i]!, petals[x]![i ^ 1]!);
    setMatch(petal, y);
    petals[x] = [...petals[x]!.slice(place), ...petals[x]!.slice(0, place)];
  };
  const augment = (from: number, to: number): void => {
    let [x, y] = [from, to];
    for (;;) {
      const next = top[match[x]!]!;
      setMatch(x, y);
      if (next === 0) return;
      const up = top[parent[next]!]!;
      setMatch(next, up);
      [x, y] = [up, next];
    }
  };
  const meeting = (a: number, b: number): number => {
    mark++;
    let [x, y] = [a, b];
    while (x !== 0 || y !== 0) {
      if (x !== 0) {
        if (seen[x] === mark) return x;
        seen[x] = mark;
        x = top[match[x]!]!;
        if (x !== 0) x = top[parent[x]!]!;
      }
      [x, y] = [y, x];
    }
    return 0;
  };
  const addBlossom = (x: number, base: number, y: number): void => {
    let b = n + 1;
    while (b <= last && top[b] !== 0) b++;
    last = Math.max(last, b);
    dual[b] = 0;
    label[b] = EVEN;
    match[b] = match[base]!;
    const side = (from: number): number[] => {
      const path: number[] = [];
      for (let at = from; at !== base; ) {
        const other = top[match[at]!]!;
        path.push(at, other);
        enqueue(other);
        at = top[parent[other]!]!;
      }
      return path;
    };
    petals[b] = [base, ...side(x).reverse(), ...side(y)];
    setTop(b, b);
    for (let z = 1; z <= last; z++) {
      tail[b * size + z] = 0;
      tail[z * size + b] = 0;
    }
    inFlower.fill(0, b * (n + 1), (b + 1) * (n + 1));
    for (const petal of petals[b]!) {
      for (let z = 1; z <= last; z++) {
        const e = petal * size + z;
        if (tail[e] === 0) continue;
        const own = b * size + z;
        if (tail[own] === 0 || slack(e) < slack(own)) {
          tail[own] = tail[e]!;
          head[own] = head[e]!;
          tail[z * size + b] = tail[z * size + petal]!;
          head[z * size + b] = head[z * size + petal]!;
        }
      }
      for (let z = 1; z <= n; z++) if (inFlower[petal * (n + 1) + z] !== 0) inFlower[b * (n + 1) + z] = petal;
    }
    findSlack(b);
  };
  const expand = (b: number): void => {
    for (const petal of petals[b]!) setTop(petal, petal);
    const entry = inFlower[b * (n + 1) + tail[b * size + parent[b]!]!]!;
    const place = evenPlace(b, entry);
    const flower = petals[b]!;
    for (let i = 0; i < place; i += 2) {
      const [odd, even] = [flower[i]!, flower[i + 1]!];
      parent[odd] = tail[even * size + odd]!;
      label[odd] = ODD;
      label[even] = EVEN;
      slackFrom[odd] = 0;
      findSlack(even);
      enqueue(even);
    }
    label[entry] = ODD;
    parent[entry] = parent[b]!;
    for (let i = place + 1; i < flower.length; i++) {
      label[flower[i]!] = FREE;
      findSlack(flower[i]!);
    }
    top[b] = 0;
  };
  /** Takes a tight edge into the forest; true when it completed an augmenting path. */
  const takeEdge = (e: number): boolean => {
    const x = top[tail[e]!]!;
    const y = top[head[e]!]!;
    if (label[y] === FREE) {
      parent[y] = tail[e]!;
      label[y] = ODD;
      const next = top[match[y]!]!;
      slackFrom[y] = 0;
      slackFrom[next] = 0;
      label[next] = EVEN;
      enqueue(next);
    } else if (label[y] === EVEN) {
      const base = meeting(x, y);
      if (base === 0) {
        augment(x, y);
        augment(y, x);
        return true;
      }
      addBlossom(x, base, y);
    }
    return false;
  };
  const stage = (): boolean => {
    label.fill(FREE);
    slackFrom.fill(0);
    queue = [];
    for (let x = 1; x <= last; x++) {
      if (top[x] !== x || match[x] !== 0) continue;
      parent[x] = 0;
      label[x] = EVEN;
      enqueue(x);
    }
    for (;;) {
      for (let at = 0; at < queue.length; at++) {
        const a = queue[at]!;
        if (label[top[a]!] === ODD) continue;
        for (let b = 1; b <= n; b++) {
          const e = a * size + b;
          if (tail[e] === 0 || top[a] === top[b]) continue;
          if (slack(e) <= 0) {
            if (takeEdge(e)) return true;
          } else noteSlack(a, top[b]!);
        }
      }
      queue = [];
      let step = Number.POSITIVE_INFINITY;
      for (let b = n + 1; b <= last; b++) if (top[b] === b && label[b] === ODD) step = Math.min(step, dual[b]! / 2);
      for (let x = 1; x <= last; x++) {
        if (top[x] !== x || slackFrom[x] === 0) continue;
        const s = slack(slackFrom[x]! * size + x);
        if (label[x] === FREE) step = Math.min(step, s);
        else if (label[x] === EVEN) step = Math.min(step, s / 2);
      }
      if (step === Number.POSITIVE_INFINITY) return false;
      for (let a = 1; a <= n; a++) {
        if (label[top[a]!] === EVEN) dual[a]! -= step;
        else if (label[top[a]!] === ODD) dual[a]! += step;
      }
      for (let b = n + 1; b <= last; b++) {
        if (top[b] !== b) continue;
        if (label[b] === EVEN) dual[b]! += 2 * step;
        else if (label[b] === ODD) dual[b]! -= 2 * step;
      }
      for (let x = 1; x <= last; x++) {
        const from = slackFrom[x]!;
        if (top[x] !== x || from === 0 || top[from] === x || slack(from * size + x) > 0) continue;
        if (takeEdge(from * size + x)) return true;
      }
      for (let b = n + 1; b <= last; b++) if (top[b] === b && label[b] === ODD && dual[b] === 0) expand(b);
    }
  };

  const bySize = [new Int32Array(n).fill(-1)];
  const weights = [0];
  while (bySize.length <= most && 2 * bySize.length <= n && stage()) {
    const mate = new Int32Array(n);
    let total = 0;
    for (let a = 1; a <= n; a++) {
      mate[a - 1] = match[a]! - 1;
      if (match[a]! > a) total += w[a * (n + 1) + match[a]!]!;
    }
    bySize.push(mate);
    weights.push(total);
  }
  return { bySize, weights };
}

const FREE = -1;
const EVEN = 0;
const ODD = 1;
