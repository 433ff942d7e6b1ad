import { eventHeap } from "./eventHeap.ts";

/** Edges of a graph without loops; the same two nodes may be joined twice. Costs are whole numbers from 0 to 2^45. */
export interface PricedEdges {
  readonly from: ArrayLike<number>;
  readonly to: ArrayLike<number>;
  readonly cost: ArrayLike<number>;
}

export interface CheapestMatching {
  /** Partner of each node, or −1. */
  readonly mate: Int32Array;
  readonly pairs: number;
  /** True where the graph has no matching of more pairs. */
  readonly exhausted: boolean;
  /**
   * What an edge that was left out of the graph lacks of being of use, by the matching's own proof: with 0 or more,
   * the matching stays the cheapest of its size with that edge in the graph.
   */
  lacks(a: number, b: number, cost: number): number;
  /** Where `exhausted`: whether an edge between these two could bring a pair more. */
  couldJoin(a: number, b: number): boolean;
}

const FREE = 0;
const EVEN = 1;
const ODD = 2;
/** Change of a node's dual, and of a blossom's, per unit of time, by label. */
const NODE_RATE = [0, -1, 1] as const;
const BLOSSOM_RATE = [0, 1, -1] as const;

/**
 * The cheapest matching of `most` pairs, or of as many as the graph allows.
 *
 *     dual y of a node, z ≥ 0 of a blossom:   slack = 2·cost + y_a + y_b + 2·Σ z of blossoms that hold both ≥ 0
 *     matched edges have slack 0, free nodes the least y of all
 *
 * Edmonds' algorithm in continuous time: all free nodes lower their dual together and grow their trees; what happens
 * next (an edge grows tight, an odd blossom runs out) is found in a heap, where an event overtaken by others is
 * dropped on sight. After an augmentation only the two trees that met are dissolved. The matching is the cheapest of
 * its size after each augmentation, so that it may stop at any number of pairs.
 *
 * @returns the matching with its proof; time about n·m·log n at worst, near m·log n where nodes lie in a plane
 * @source J. Edmonds, Maximum matching and a polyhedron with 0,1-vertices, 1965; Z. Galil, ACM Computing Surveys 18,
 *         1986 (both remembered)
 */
export function cheapestMatching(
  count: number,
  { from, to, cost }: PricedEdges,
  most = Number.POSITIVE_INFINITY,
): CheapestMatching {
  const n = count;
  const m = from.length;
  const { start, incident } = incidence(n, from, to);
  /** An end 2e or 2e + 1 names an edge and the node it leads to. */
  const nodeAt = (end: number): number => (end & 1 ? to[end >> 1]! : from[end >> 1]!);

  let now = 0;
  const dualAt0 = new Float64Array(n);
  const nodeLabel = new Uint8Array(n).fill(EVEN);
  const top = Int32Array.from({ length: n }, (_, v) => v);
  const mate = new Int32Array(n).fill(-1);

  // Nodes are 0 … n − 1 and blossoms from n on.
  const label = new Uint8Array(2 * n).fill(EVEN, 0, n);
  /** The end through which a labelled node or blossom was reached, leading back to its parent; −1 for a root. */
  const reached = new Int32Array(2 * n).fill(-1);
  const root = Int32Array.from({ length: 2 * n }, (_, v) => (v < n ? v : -1));
  const parent = new Int32Array(2 * n).fill(-1);
  const base = Int32Array.from({ length: 2 * n }, (_, v) => (v < n ? v : -1));
  const petals: number[][] = Array.from({ length: 2 * n }, () => []);
  /** Ends that join a petal to the next, leading to the next. */
  const joints: number[][] = Array.from({ length: 2 * n }, () => []);
  const blossomAt0 = new Float64Array(2 * n);
  const unused = Array.from({ length: n }, (_, i) => 2 * n - 1 - i);
  const trees: number[][] = Array.from({ length: n }, (_, v) => [v]);
  const seen = new Int32Array(2 * n);
  let mark = 0;

  const queue = eventHeap(Math.max(1024, 2 * m));
  const dual = (v: number): number => dualAt0[v]! + NODE_RATE[nodeLabel[v] as 0 | 1 | 2] * now;
  const slackOf = (edge: number): number => 2 * cost[edge]! + dual(from[edge]!) + dual(to[edge]!);

  const leavesOf = (b: number): number[] => {
    if (b < n) return [b];
    const leaves: number[] = [];
    const stack = [b];
    while (stack.length > 0) {
      for (const petal of petals[stack.pop()!]!) {
        if (petal < n) leaves.push(petal);
        else stack.push(petal);
      }
    }
    return leaves;
  };
  const blossomDual = (b: number): number =>
    blossomAt0[b]! + (parent[b] === -1 ? BLOSSOM_RATE[label[b] as 0 | 1 | 2] * now : 0);
  const setBlossomDual = (b: number, value: number, rate: number): void => {
    blossomAt0[b] = value - rate * now;
  };
  const relabel = (b: number, as: 0 | 1 | 2, leaves: readonly number[]): void => {
    for (const v of leaves) {
      const y = dual(v);
      nodeLabel[v] = as;
      dualAt0[v] = y - NODE_RATE[as] * now;
    }
    if (b >= n) setBlossomDual(b, blossomDual(b), BLOSSOM_RATE[as]);
    label[b] = as;
  };
  /** Looks ahead to what the new label of these nodes brings. */
  const expect = (b: number, leaves: readonly number[]): void => {
    const as = label[b];
    if (as === ODD) {
      if (b >= n) queue.push(now + blossomDual(b), -b - 1);
      return;
    }
    for (const v of leaves) {
      for (let i = start[v]!; i < start[v + 1]!; i++) {
        const edge = incident[i]!;
        const other = from[edge]! === v ? to[edge]! : from[edge]!;
        if (top[other] === b) continue;
        const its = nodeLabel[other];
        if (as === EVEN && its === EVEN) queue.push(now + slackOf(edge) / 2, edge);
        else if (as === EVEN ? its === FREE : its === EVEN) queue.push(now + slackOf(edge), edge);
      }
    }
  };
  const take = (b: number, as: 1 | 2, end: number, tree: number): void => {
    const leaves = leavesOf(b);
    relabel(b, as, leaves);
    reached[b] = end;
    root[b] = tree;
    trees[tree]!.push(b);
    expect(b, leaves);
  };

  const grow = (edge: number, v: number, w: number): void => {
    const tree = root[top[v]!]!;
    const next = top[w]!;
    take(next, ODD, from[edge] === v ? 2 * edge : 2 * edge + 1, tree);
    const end = mate[base[next]!]!;
    take(top[nodeAt(end)]!, EVEN, end ^ 1, tree);
  };

  const shrink = (edge: number, v: number, w: number): void => {
    mark++;
    let [x, y] = [top[v]!, top[w]!];
    let meet = -1;
    while (meet < 0) {
      if (x >= 0) {
        if (seen[x] === mark) meet = x;
        seen[x] = mark;
        x = reached[x] === -1 ? -1 : top[nodeAt(reached[x]!)]!;
      }
      [x, y] = [y, x];
    }
    const b = unused.pop()!;
    const around: number[] = [];
    const ends: number[] = [];
    for (let at = top[v]!; at !== meet; at = top[nodeAt(reached[at]!)]!) {
      around.push(at);
      ends.push(reached[at]! ^ 1);
    }
    around.push(meet);
    around.reverse();
    ends.reverse();
    ends.push(from[edge] === v ? 2 * edge + 1 : 2 * edge);
    for (let at = top[w]!; at !== meet; at = top[nodeAt(reached[at]!)]!) {
      around.push(at);
      ends.push(reached[at]!);
    }
    const turned: number[] = [];
    for (const petal of around) {
      const leaves = leavesOf(petal);
      if (petal >= n) setBlossomDual(petal, blossomDual(petal), 0);
      if (label[petal] === ODD) {
        for (const leaf of leaves) {
          const at = dual(leaf);
          nodeLabel[leaf] = EVEN;
          dualAt0[leaf] = at + now;
          turned.push(leaf);
        }
      }
      for (const leaf of leaves) top[leaf] = b;
    }
    for (const petal of around) parent[petal] = b;
    petals[b] = around;
    joints[b] = ends;
    parent[b] = -1;
    base[b] = base[meet]!;
    label[b] = EVEN;
    reached[b] = reached[meet]!;
    root[b] = root[meet]!;
    setBlossomDual(b, 0, BLOSSOM_RATE[EVEN]);
    trees[root[b]!]!.push(b);
    expect(b, turned);
  };

  const expand = (b: number): void => {
    const around = petals[b]!;
    const ends = joints[b]!;
    const size = around.length;
    const tree = root[b]!;
    for (const petal of around) {
      parent[petal] = -1;
      label[petal] = FREE;
      for (const leaf of leavesOf(petal)) top[leaf] = petal;
    }
    const way = reached[b]!;
    const entry = around.indexOf(top[nodeAt(way ^ 1)]!);
    // The even way from the entry to the base joins the tree; the rest go free in pairs.
    const forward = entry % 2 === 1;
    const inTree = new Set<number>();
    let end = way;
    let as: 1 | 2 = ODD;
    for (let at = entry; ; ) {
      const petal = around[at]!;
      inTree.add(petal);
      take(petal, as, end, tree);
      if (at === 0) break;
      end = forward ? ends[at]! ^ 1 : ends[at - 1]!;
      at = forward ? (at + 1) % size : at - 1;
      as = as === ODD ? EVEN : ODD;
    }
    for (const petal of around) {
      if (inTree.has(petal)) continue;
      const leaves = leavesOf(petal);
      relabel(petal, FREE, leaves);
      root[petal] = -1;
      expect(petal, leaves);
    }
    release(b);
  };
  const release = (b: number): void => {
    label[b] = FREE;
    root[b] = -1;
    petals[b] = [];
    joints[b] = [];
    unused.push(b);
  };

  /** Turns the matching within a blossom so that v becomes its base. */
  const rebase = (b: number, v: number): void => {
    let child = v;
    while (parent[child] !== b) child = parent[child]!;
    if (child >= n) rebase(child, v);
    const around = petals[b]!;
    const ends = joints[b]!;
    const size = around.length;
    const place = around.indexOf(child);
    const forward = place % 2 === 1;
    for (let at = place; at !== 0; ) {
      at = forward ? (at + 1) % size : at - 1;
      const next = forward ? (at + 1) % size : at - 1;
      const end = forward ? ends[at]! : ends[next]! ^ 1;
      // `end` leads from the petal at `at` to the one at `next`: these two become partners.
      const [here, there] = [around[at]!, around[next]!];
      if (here >= n) rebase(here, nodeAt(end ^ 1));
      if (there >= n) rebase(there, nodeAt(end));
      mate[nodeAt(end ^ 1)] = end;
      mate[nodeAt(end)] = end ^ 1;
      at = next;
    }
    petals[b] = [...around.slice(place), ...around.slice(0, place)];
    joints[b] = [...ends.slice(place), ...ends.slice(0, place)];
    base[b] = v;
  };
  const augment = (edge: number): void => {
    for (const first of [2 * edge, 2 * edge + 1]) {
      let [v, end] = [nodeAt(first), first ^ 1];
      for (;;) {
        const even = top[v]!;
        if (even >= n) rebase(even, v);
        mate[v] = end;
        if (reached[even] === -1) break;
        const odd = top[nodeAt(reached[even]!)]!;
        const up = reached[odd]!;
        const below = nodeAt(up ^ 1);
        if (odd >= n) rebase(odd, below);
        mate[below] = up;
        v = nodeAt(up);
        end = up ^ 1;
      }
    }
  };
  const dissolve = (trees2: readonly number[]): void => {
    const freed: { b: number; leaves: number[] }[] = [];
    for (const tree of trees2) {
      for (const b of trees[tree]!) {
        if (parent[b] !== -1 || root[b] !== tree) continue;
        const leaves = leavesOf(b);
        relabel(b, FREE, leaves);
        root[b] = -1;
        freed.push({ b, leaves });
      }
      trees[tree] = [];
    }
    for (const { b, leaves } of freed) expect(b, leaves);
  };

  for (let edge = 0; edge < m; edge++) queue.push(cost[edge]!, edge);
  let pairs = 0;
  while (pairs < most && queue.size > 0) {
    const time = queue.time;
    const event = queue.pop();
    now = Math.max(now, time);
    if (event < 0) {
      const b = -event - 1;
      if (parent[b] === -1 && label[b] === ODD && blossomDual(b) <= 0) expand(b);
      continue;
    }
    const [v, w] = [from[event]!, to[event]!];
    if (top[v] === top[w] || slackOf(event) > 0) continue;
    const [lv, lw] = [nodeLabel[v]!, nodeLabel[w]!];
    if (lv === EVEN && lw === FREE) grow(event, v, w);
    else if (lv === FREE && lw === EVEN) grow(event, w, v);
    else if (lv === EVEN && lw === EVEN) {
      const [one, other] = [root[top[v]!]!, root[top[w]!]!];
      if (one === other) shrink(event, v, w);
      else {
        augment(event);
        dissolve([one, other]);
        pairs++;
      }
    }
  }

  const partner = mate.map((end) => (end === -1 ? -1 : nodeAt(end)));
  return {
    mate: partner,
    pairs,
    exhausted: pairs < most && 2 * pairs < n - 1,
    lacks(a, b, price) {
      let lacking = 2 * price + dual(a) + dual(b);
      if (lacking >= 0 || top[a] !== top[b]) return lacking;
      mark++;
      for (let x = parent[a]!; x !== -1; x = parent[x]!) seen[x] = mark;
      for (let x = parent[b]!; x !== -1; x = parent[x]!) if (seen[x] === mark) lacking += 2 * blossomDual(x);
      return lacking;
    },
    couldJoin(a, b) {
      if (top[a] === top[b]) return false;
      return nodeLabel[a] === EVEN ? nodeLabel[b] !== ODD : nodeLabel[b] === EVEN && nodeLabel[a] === FREE;
    },
  };
}

function incidence(n: number, from: ArrayLike<number>, to: ArrayLike<number>) {
  const start = new Int32Array(n + 1);
  for (let e = 0; e < from.length; e++) {
    start[from[e]! + 1]!++;
    start[to[e]! + 1]!++;
  }
  for (let v = 0; v < n; v++) start[v + 1]! += start[v]!;
  const fill = start.slice(0, n);
  const incident = new Int32Array(2 * from.length);
  for (let e = 0; e < from.length; e++) {
    incident[fill[from[e]!]!++] = e;
    incident[fill[to[e]!]!++] = e;
  }
  return { start, incident };
}
