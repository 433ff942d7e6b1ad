import { type Grid, grid, halfGrid } from "./slab.ts";

/**
 * The piece left after its faces are planed, with the moisture that was there.
 *
 *     each new cell holds what the old cells that it overlaps held
 *
 * @param taken_mm  from the first face and from the second
 * @returns a grid of the same number of cells, and its moisture; water in the shavings is gone with them
 */
export function machined(
  slab: Grid,
  moisture_pct: Float64Array,
  taken_mm: readonly [number, number],
): [Grid, Float64Array<ArrayBuffer>] {
  const left = grid(slab.thickness_m - (taken_mm[0] + taken_mm[1]) / 1000, slab.size_m.length);
  return [left, moved(slab, moisture_pct, left, taken_mm[0] / 1000)];
}

/** The same of the first half of a slab whose halves are alike. */
export function machinedHalf(
  slab: Grid,
  moisture_pct: Float64Array,
  each_mm: number,
): [Grid, Float64Array<ArrayBuffer>] {
  const left = halfGrid(2 * (slab.thickness_m - each_mm / 1000), slab.size_m.length);
  return [left, moved(slab, moisture_pct, left, each_mm / 1000)];
}

function moved(slab: Grid, moisture_pct: Float64Array, left: Grid, first_m: number): Float64Array<ArrayBuffer> {
  const cells = slab.size_m.length;
  const oldEdges = edgesOf(slab);
  const held = new Float64Array(cells + 1);
  for (let i = 0; i < cells; i++) held[i + 1] = held[i]! + moisture_pct[i]! * slab.size_m[i]!;
  const upTo = (z_m: number) => {
    let i = 0;
    while (i < cells - 1 && oldEdges[i + 1]! < z_m) i++;
    return held[i]! + moisture_pct[i]! * (z_m - oldEdges[i]!);
  };
  const newEdges = edgesOf(left);
  return left.size_m.map((size, i) => (upTo(first_m + newEdges[i + 1]!) - upTo(first_m + newEdges[i]!)) / size);
}

function edgesOf({ size_m }: Grid): Float64Array {
  const edges = new Float64Array(size_m.length + 1);
  for (let i = 0; i < size_m.length; i++) edges[i + 1] = edges[i]! + size_m[i]!;
  return edges;
}
