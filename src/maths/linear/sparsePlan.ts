/**
 * How a sparse matrix is eliminated: which pivots in which order, where fill appears, which entries meet which.
 * Found once for a pattern and kept for all matrices of that pattern with alike values.
 *
 * Numbers stand in one flat array of slots: first the n pivots, then the upper rows, then the lower columns, pivot by
 * pivot. `k`, `i`, `j` below count pivots; `rowOf` and `columnOf` say which rows and columns they were.
 */
export interface SparsePlan {
  readonly size: number;
  readonly slots: number;
  readonly rowOf: Int32Array;
  readonly columnOf: Int32Array;
  /** Slot and pivot column of each of the pattern's own entries, in the order they were given. */
  readonly slotOf: Int32Array;
  readonly entryColumn: Int32Array;
  /** Upper entries of pivot k: from upperStart[k] to upperStart[k + 1], their columns, and the slot of the first. */
  readonly upperStart: Int32Array;
  readonly upperColumn: Int32Array;
  readonly upperSlot: number;
  readonly lowerStart: Int32Array;
  readonly lowerRow: Int32Array;
  readonly lowerSlot: number;
  /** Slot that each product lower × upper is taken from, in the order of elimination. */
  readonly targets: Int32Array;
  /** Sign of both exchanges together: 1 or −1. */
  readonly sign: number;
}

/** Places of a matrix that may hold something, row after row dense: row·size + column. */
export interface SparsePattern {
  readonly size: number;
  readonly places: Int32Array;
}

/** A pivot is at least this share of the largest entry of its column: multipliers stay under its inverse. */
const leastShare = 0.05;
/** A pivot under this share of its column's largest original entry counts as nothing. */
export const vanished = 1e-14;

/**
 * Pivots by Markowitz's count, (entries in the row − 1)·(entries in the column − 1), among those large enough.
 *
 * @param last  rows and columns taken only when no others are left (1); what changes often is best eliminated late
 * @param values  of the pattern's entries, such as they will be; the elimination is carried out on them to judge pivots
 * @returns undefined where no pivot is left that is not nothing: the matrix is singular, or nearly
 * @source H. Markowitz, Management Science 3, 1957; threshold after Duff, Erisman and Reid, Direct Methods for Sparse
 *         Matrices (both remembered)
 */
export function planElimination(
  { size: n, places }: SparsePattern,
  values: Float64Array,
  last?: Uint8Array,
): SparsePlan | undefined {
  const rows: Map<number, number>[] = Array.from({ length: n }, () => new Map());
  const columns: Set<number>[] = Array.from({ length: n }, () => new Set());
  const top = new Float64Array(n);
  places.forEach((place, e) => {
    const row = Math.floor(place / n);
    const column = place % n;
    rows[row]!.set(column, values[e]!);
    columns[column]!.add(row);
    top[column] = Math.max(top[column]!, Math.abs(values[e]!));
  });
  const rowOf = new Int32Array(n);
  const columnOf = new Int32Array(n);
  const uppers: number[][] = [];
  const lowers: number[][] = [];
  const openColumns = new Set(columns.keys());
  for (let k = 0; k < n; k++) {
    const pivot =
      (last && cheapestPivot(rows, columns, openColumns, top, last)) ?? cheapestPivot(rows, columns, openColumns, top);
    if (pivot === undefined) return undefined;
    const [row, column] = pivot;
    rowOf[k] = row;
    columnOf[k] = column;
    const pivotRow = rows[row]!;
    const value = pivotRow.get(column)!;
    pivotRow.delete(column);
    columns[column]!.delete(row);
    for (const j of pivotRow.keys()) columns[j]!.delete(row);
    for (const i of columns[column]!) {
      const other = rows[i]!;
      const factor = other.get(column)! / value;
      other.delete(column);
      for (const [j, upper] of pivotRow) {
        other.set(j, (other.get(j) ?? 0) - factor * upper);
        columns[j]!.add(i);
      }
    }
    uppers.push([...pivotRow.keys()]);
    lowers.push([...columns[column]!]);
    openColumns.delete(column);
  }
  return flattened(n, places, rowOf, columnOf, uppers, lowers);
}

function cheapestPivot(
  rows: readonly Map<number, number>[],
  columns: readonly Set<number>[],
  open: ReadonlySet<number>,
  top: Float64Array,
  last?: Uint8Array,
): readonly [row: number, column: number] | undefined {
  let best: readonly [number, number] | undefined;
  let bestCount = Number.POSITIVE_INFINITY;
  let bestShare = 0;
  for (const column of open) {
    if (last?.[column]) continue;
    const entries = columns[column]!;
    if (entries.size - 1 > bestCount) continue;
    let largest = 0;
    for (const row of entries) largest = Math.max(largest, Math.abs(rows[row]!.get(column)!));
    if (!(largest > vanished * top[column]!)) continue;
    for (const row of entries) {
      if (last?.[row]) continue;
      const share = Math.abs(rows[row]!.get(column)!) / largest;
      if (share < leastShare) continue;
      const count = (rows[row]!.size - 1) * (entries.size - 1);
      if (count < bestCount || (count === bestCount && share > bestShare)) {
        best = [row, column];
        bestCount = count;
        bestShare = share;
      }
    }
  }
  return best;
}

function flattened(
  n: number,
  places: Int32Array,
  rowOf: Int32Array,
  columnOf: Int32Array,
  uppers: readonly (readonly number[])[],
  lowers: readonly (readonly number[])[],
): SparsePlan {
  const pivotOfRow = inverse(rowOf);
  const pivotOfColumn = inverse(columnOf);
  const [upperStart, upperColumn] = packed(uppers, pivotOfColumn);
  const [lowerStart, lowerRow] = packed(lowers, pivotOfRow);
  const upperSlot = n;
  const lowerSlot = n + upperColumn.length;
  const slotAt = new Map<number, number>();
  for (let k = 0; k < n; k++) {
    slotAt.set(k * n + k, k);
    for (let s = upperStart[k]!; s < upperStart[k + 1]!; s++) slotAt.set(k * n + upperColumn[s]!, upperSlot + s);
    for (let t = lowerStart[k]!; t < lowerStart[k + 1]!; t++) slotAt.set(lowerRow[t]! * n + k, lowerSlot + t);
  }
  const targets: number[] = [];
  for (let k = 0; k < n; k++) {
    for (let t = lowerStart[k]!; t < lowerStart[k + 1]!; t++) {
      for (let s = upperStart[k]!; s < upperStart[k + 1]!; s++) {
        targets.push(slotAt.get(lowerRow[t]! * n + upperColumn[s]!)!);
      }
    }
  }
  return {
    size: n,
    slots: lowerSlot + lowerRow.length,
    rowOf,
    columnOf,
    slotOf: places.map((place) => slotAt.get(pivotOfRow[Math.floor(place / n)]! * n + pivotOfColumn[place % n]!)!),
    entryColumn: places.map((place) => pivotOfColumn[place % n]!),
    upperStart,
    upperColumn,
    upperSlot,
    lowerStart,
    lowerRow,
    lowerSlot,
    targets: Int32Array.from(targets),
    sign: signOf(rowOf) * signOf(columnOf),
  };
}

function inverse(order: Int32Array): Int32Array {
  const back = new Int32Array(order.length);
  order.forEach((original, k) => {
    back[original] = k;
  });
  return back;
}

function packed(lists: readonly (readonly number[])[], pivotOf: Int32Array): [start: Int32Array, members: Int32Array] {
  const start = new Int32Array(lists.length + 1);
  lists.forEach((list, k) => {
    start[k + 1] = start[k]! + list.length;
  });
  return [start, Int32Array.from(lists.flatMap((list) => list.map((i) => pivotOf[i]!).sort((a, b) => a - b)))];
}

/** Of an exchange: 1 when it takes an even number of swaps, else −1. A cycle of even length is an odd exchange. */
function signOf(order: Int32Array): number {
  const seen = new Uint8Array(order.length);
  let sign = 1;
  for (let start = 0; start < order.length; start++) {
    let length = 0;
    for (let at = start; seen[at] === 0; at = order[at]!) {
      seen[at] = 1;
      length++;
    }
    if (length > 0 && length % 2 === 0) sign = -sign;
  }
  return sign;
}

/** Where a dense matrix, or any of several, holds something. */
export function patternOf(size: number, ...matrices: readonly Float64Array[]): SparsePattern {
  const places: number[] = [];
  for (let place = 0; place < size * size; place++) {
    if (matrices.some((matrix) => matrix[place] !== 0)) places.push(place);
  }
  return { size, places: Int32Array.from(places) };
}
