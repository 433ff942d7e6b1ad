import type { DeadNetwork } from "./deadNetwork.ts";

export interface DeadReading {
  /** Infinity where nothing joins the two points. */
  readonly ohm: number;
  /** d ln(ohm) / d ln(the way's ohm), one a way of the network: how much of the reading each is. */
  readonly shares: Float64Array;
  /** With the junctions that the meter drives forward conducting as well; equal to `ohm` where none is. */
  readonly forward_ohm: number;
  /** Places in the net list of the parts whose junctions could conduct. */
  readonly junctions: readonly number[];
}

/** A silicon junction under an ohmmeter that overcomes it: about 0.6 V at 1 mA (common practice). */
const junction_ohm = 600;

/**
 * Resistances between any two points of a switched-off unit, parallel paths included.
 *
 *     G·v = e_a − e_b,  R = v_a − v_b,  d ln R / d ln r = (v across r)² / (r·R)
 *
 * The meter's positive lead is on the first point.
 *
 * @source conductance matrix and its derivative: common network theory (Tellegen 1952, remembered)
 */
export function deadMeter(network: DeadNetwork): (a: number, b: number) => DeadReading {
  const plain = solver(network, []);
  return (a, b) => {
    const shares = new Float64Array(network.ways.length);
    if (a === b) return { ohm: 0, shares, forward_ohm: 0, junctions: [] };
    const v = plain(a, b);
    const ohm = v === undefined ? Number.POSITIVE_INFINITY : v[a]! - v[b]!;
    if (v !== undefined) {
      network.ways.forEach((way, w) => {
        const across = v[way.a]! - v[way.b]!;
        shares[w] = (across * across) / (way.ohm * ohm);
      });
    }
    const forward = network.junctions.length === 0 ? { ohm, junctions: [] } : throughJunctions(network, a, b, ohm);
    return { ohm, shares, forward_ohm: forward.ohm, junctions: forward.junctions };
  };
}

/** All junctions are let conduct at first; those found to carry current backward are taken out again. */
function throughJunctions(
  network: DeadNetwork,
  a: number,
  b: number,
  ohm: number,
): { ohm: number; junctions: number[] } {
  let open = network.junctions.map((_, i) => i);
  for (let n = 0; n <= network.junctions.length && open.length > 0; n++) {
    const v = solver(network, open)(a, b);
    if (v === undefined) break;
    const forward = open.filter((i) => v[network.junctions[i]!.plus]! > v[network.junctions[i]!.minus]! + 1e-9);
    if (forward.length === open.length) {
      const through = v[a]! - v[b]!;
      if (!(through < ohm * (1 - 1e-3))) break;
      return { ohm: through, junctions: [...new Set(forward.map((i) => network.junctions[i]!.part))] };
    }
    open = forward;
  }
  return { ohm, junctions: [] };
}

/** Node voltages for one ampere sent into the first node and taken from the second, nothing where they do not hang together. */
function solver(
  network: DeadNetwork,
  conducting: readonly number[],
): (a: number, b: number) => Float64Array | undefined {
  const { size } = network;
  const ways = [
    ...network.ways,
    ...conducting.map((i) => ({ a: network.junctions[i]!.plus, b: network.junctions[i]!.minus, ohm: junction_ohm })),
  ];
  const island = islands(size, ways);
  const g = new Float64Array(size * size);
  for (const { a, b, ohm } of ways) {
    if (a === b) continue;
    const s = 1 / ohm;
    g[a * size + a]! += s;
    g[b * size + b]! += s;
    g[a * size + b]! -= s;
    g[b * size + a]! -= s;
  }
  // The first node of each island is its zero.
  for (let i = 0; i < size; i++) {
    if (island[i] !== i) continue;
    for (let j = 0; j < size; j++) {
      g[i * size + j] = 0;
      g[j * size + i] = 0;
    }
    g[i * size + i] = 1;
  }
  eliminate(g, size);
  return (a, b) => {
    if (island[a] !== island[b]) return undefined;
    const v = new Float64Array(size);
    if (island[a] !== a) v[a]! += 1;
    if (island[b] !== b) v[b]! -= 1;
    backSolve(g, size, v);
    return v;
  };
}

/** Symmetric factors L·D·Lᵀ in place: pivots of a conductance matrix need no search. */
function eliminate(g: Float64Array, n: number): void {
  for (let k = 0; k < n; k++) {
    const pivot = g[k * n + k]!;
    for (let i = k + 1; i < n; i++) {
      const factor = g[i * n + k]! / pivot;
      if (factor === 0) continue;
      for (let j = k + 1; j < n; j++) g[i * n + j]! -= factor * g[k * n + j]!;
      g[i * n + k] = factor;
    }
  }
}

function backSolve(g: Float64Array, n: number, v: Float64Array): void {
  for (let i = 0; i < n; i++) {
    let sum = v[i]!;
    for (let j = 0; j < i; j++) sum -= g[i * n + j]! * v[j]!;
    v[i] = sum;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = v[i]!;
    for (let j = i + 1; j < n; j++) sum -= g[i * n + j]! * v[j]!;
    v[i] = sum / g[i * n + i]!;
  }
}

/** For every node the lowest node it hangs together with. */
function islands(size: number, ways: readonly { readonly a: number; readonly b: number }[]): Int32Array {
  const up = Int32Array.from({ length: size }, (_, i) => i);
  const root = (node: number): number => {
    let at = node;
    while (up[at] !== at) at = up[at] = up[up[at]!]!;
    return at;
  };
  for (const { a, b } of ways) {
    const [low, high] = [root(a), root(b)].sort((x, y) => x - y) as [number, number];
    up[high] = low;
  }
  return up.map((_, i) => root(i));
}
