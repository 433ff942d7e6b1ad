import { linearSolver } from "../../maths/linearSolver.ts";
import type { GainSums } from "./gainSums.ts";

/**
 * A bound on the cost of so many sets by added gains: over all sets together, the channel that gains most less the one
 * that gains least, with the valves dealt to the positions, in parts too, so that this is least.
 *
 *     min high − low   with   low ≤ sets·own + Σ shift·x ≤ high for every channel,
 *                             Σ x = sets for every position,   Σ x ≤ 1 for every valve,   x ≥ 0
 *
 * Holds since what the sets span adds up to no less than what their sums span. Tight where every set leans the same
 * way, as between channels whose own parts differ.
 */
export async function transportBound({ own, shift }: GainSums, sets: number): Promise<number> {
  const solver = await linearSolver();
  const n = shift.length;
  const positions = shift[0]!.length;
  const channels = own.length;
  const rows = n + positions + 2 * channels;
  const first = n + positions;
  const starts = [0];
  const indices: number[] = [];
  const values: number[] = [];
  const put = (entries: readonly (readonly [number, number])[]): void => {
    for (const [row, value] of entries) {
      if (value === 0) continue;
      indices.push(row);
      values.push(value);
    }
    starts.push(indices.length);
  };
  for (let v = 0; v < n; v++) {
    for (let k = 0; k < positions; k++) {
      const shifts = shift[v]![k]!;
      put([
        [v, 1],
        [n + k, 1],
        ...shifts.map((dB, c) => [first + c, dB] as const),
        ...shifts.map((dB, c) => [first + channels + c, dB] as const),
      ]);
    }
  }
  put(own.map((_, c) => [first + c, -1] as const));
  put(own.map((_, c) => [first + channels + c, -1] as const));
  const columns = starts.length - 1;
  const free = (c: number) => c >= columns - 2;
  const middle = own.reduce((a, b) => a + b, 0) / channels;
  return solver.withModel(
    {
      numCols: columns,
      numRows: rows,
      colCost: Float64Array.from({ length: columns }, (_, c) => (free(c) ? (c === columns - 2 ? 1 : -1) : 0)),
      colLower: Float64Array.from({ length: columns }, (_, c) => (free(c) ? -solver.infinity : 0)),
      colUpper: Float64Array.from({ length: columns }, (_, c) => (free(c) ? solver.infinity : 1)),
      rowLower: Float64Array.from({ length: rows }, (_, r) => {
        if (r < n || (r >= first && r < first + channels)) return -solver.infinity;
        return r < first ? sets : -sets * (own[r - first - channels]! - middle);
      }),
      rowUpper: Float64Array.from({ length: rows }, (_, r) => {
        if (r < n) return 1;
        if (r < first) return sets;
        return r < first + channels ? -sets * (own[r - first]! - middle) : solver.infinity;
      }),
      matrix: {
        format: "csc",
        numRows: rows,
        numCols: columns,
        starts: Int32Array.from(starts),
        indices: Int32Array.from(indices),
        values: Float64Array.from(values),
      },
    },
    (model) => {
      model.options.set({ output_flag: false });
      model.run();
      const isDone = model.getModelStatus() === solver.constants.modelStatus.optimal;
      // The solver's tolerances count against the bound.
      return isDone
        ? Math.max(0, model.getObjectiveValue() - 1e-6 * (1 + sets * Math.max(...own.map(Math.abs)) * 1e-3))
        : 0;
    },
  );
}
