import { linearSolver } from "../../maths/linearSolver.ts";
import type { Pool } from "./pool.ts";
import { holders, type Prices } from "./prices.ts";
import { isLate, type Order } from "./question.ts";

export interface WholeSets {
  /** The cheapest found, cheaper than what was known; left out where none is. */
  readonly groups?: readonly (readonly number[])[];
  /** No packing of the sets weighed costs less than this. */
  readonly bound: number;
}

/**
 * The cheapest packing of some sets, each taken whole or not at all, by branch and bound.
 *
 * @param able   sets of the pool to weigh, those of `known` among them
 * @param known  sets of the pool that are a packing of `valves`, some of which may be left over
 * @param mayLeave  true where valves may be left over
 * @param seconds  time for the search; `hasTime` may end it earlier
 */
export async function wholeSets(
  pool: Pool,
  able: readonly number[],
  known: readonly number[],
  valves: readonly number[],
  mayLeave: boolean,
  prices: Prices,
  seconds: number,
  order: Pick<Order, "hasTime">,
): Promise<WholeSets> {
  const solver = await linearSolver();
  const { widest, members, size, cost } = pool;
  const n = valves.length;
  const row = new Map(valves.map((v, i) => [v, i]));
  const made = new Map<number, number>();
  for (const j of known) made.set(size[j]!, (made.get(size[j]!) ?? 0) + 1);
  const reached = known.reduce((sum, j) => sum + cost[j]!, 0);
  const unit = reached / known.length;
  const sizes = [...made.keys()];
  const triples = prices.triples.filter(
    (triple, t) => prices.triple[t]! > 0 && triple.filter((v) => row.has(v)).length > 1,
  );
  const rowsOfTriples: number[][] = able.map(() => []);
  const part = {
    widest,
    count: able.length,
    members: Int32Array.from(able.flatMap((j) => [...members.subarray(j * widest, (j + 1) * widest)])),
  };
  holders(part, prices.valve.length - 1, triples).forEach((sets, t) => {
    for (const i of sets) rowsOfTriples[i]!.push(n + sizes.length + t);
  });
  const starts = [0];
  const indices: number[] = [];
  able.forEach((j, i) => {
    for (let k = j * widest; k < j * widest + size[j]!; k++) indices.push(row.get(members[k]!)!);
    indices.push(n + sizes.indexOf(size[j]!), ...rowsOfTriples[i]!);
    starts.push(indices.length);
  });
  const rows = n + sizes.length + triples.length;
  const upper = Float64Array.from({ length: rows }, (_, r) => made.get(sizes[r - n]!) ?? 1);
  const lower = upper.map((most, r) => (r < n + sizes.length && (r >= n || !mayLeave) ? most : -solver.infinity));
  return solver.withModel(
    {
      numCols: able.length,
      numRows: rows,
      colCost: Float64Array.from(able, (j) => cost[j]! / unit),
      colLower: new Float64Array(able.length),
      colUpper: new Float64Array(able.length).fill(1),
      rowLower: lower,
      rowUpper: upper,
      integrality: new Int32Array(able.length).fill(solver.constants.variableType.integer),
      matrix: {
        format: "csc",
        numRows: rows,
        numCols: able.length,
        starts: Int32Array.from(starts),
        indices: Int32Array.from(indices),
        values: new Float64Array(indices.length).fill(1),
      },
    },
    (model) => {
      model.options.set({ output_flag: false, mip_rel_gap: 0, mip_abs_gap: 1e-9, time_limit: seconds });
      const isKnown = new Set(known);
      model.setSolution({ colValue: Float64Array.from(able, (j) => (isKnown.has(j) ? 1 : 0)) });
      model.run({
        [solver.constants.callbackType.mipInterrupt]: (event) => {
          if (isLate(order)) event.interrupt();
        },
      });
      const isDone = model.getModelStatus() === solver.constants.modelStatus.optimal;
      const bound = isDone ? model.getObjectiveValue() : Number(model.info.get("mip_dual_bound"));
      const { colValue } = model.getSolution();
      const taken = able.filter((_, i) => (colValue[i] ?? 0) > 0.5);
      const total = taken.reduce((sum, j) => sum + cost[j]!, 0);
      const isWhole = isPacking(taken, pool, made);
      return {
        bound: bound * unit,
        ...(isWhole && total < reached
          ? { groups: taken.map((j) => [...members.subarray(j * widest, j * widest + size[j]!)]) }
          : {}),
      };
    },
  );
}

/** The solver's word is not taken for it. */
function isPacking(
  taken: readonly number[],
  { widest, members, size }: Pool,
  made: ReadonlyMap<number, number>,
): boolean {
  const all = taken.flatMap((j) => [...members.subarray(j * widest, j * widest + size[j]!)]);
  return (
    new Set(all).size === all.length &&
    [...made].every(([s, count]) => taken.filter((j) => size[j] === s).length === count)
  );
}
