import { linearSolver } from "../../maths/linearSolver.ts";
import type { Pool } from "./pool.ts";
import { holders, type Packing, type Prices, type Triple } from "./prices.ts";
import { isLate, type Order } from "./question.ts";

type Solver = Awaited<ReturnType<typeof linearSolver>>;
type Model = ReturnType<Solver["createModel"]>;

/** Parts smaller than this are rounding. */
const LEAST_PART = 1e-7;

export interface PartsTaken {
  readonly prices: Prices;
  /** The sets taken at least in part, and how far. */
  readonly sets: Pool;
  readonly parts: Float64Array;
  /** The sets' numbers in the program. */
  readonly numbers: readonly number[];
}

/**
 * The packing with sets taken in parts, as a linear program kept in memory: sets and triples join it, and each solving
 * begins where the last one ended.
 *
 *     min Σ cost·x   with   Σ x over sets that hold v = 1 (≤ 1 where valves are left over),
 *                           Σ x over sets of a size = as many as are made,
 *                           Σ x over sets that hold two or three of a triple ≤ 1,   x ≥ 0
 */
export class PartsProgram {
  readonly #solver: Solver;
  readonly #model: Model;
  readonly #packing: Packing;
  readonly #sizes: readonly number[];
  readonly #sizeRow: ReadonlyMap<number, number>;
  readonly #unit: number;
  readonly #widest: number;
  readonly #known = new Set<string>();
  readonly #members: number[] = [];
  readonly #size: number[] = [];
  readonly #cost: number[] = [];
  readonly #triples: Triple[] = [];

  /** @param unit  a usual cost, so that the solver's tolerances fit the figures */
  private constructor(solver: Solver, packing: Packing, widest: number, unit: number) {
    this.#solver = solver;
    this.#packing = packing;
    this.#widest = widest;
    this.#unit = unit;
    this.#sizes = [...packing.made.keys()];
    this.#sizeRow = new Map(this.#sizes.map((size, i) => [size, packing.valves + i]));
    this.#model = solver.createModel();
    this.#model.options.set({ output_flag: false });
    const counts = this.#sizes.map((size) => packing.made.get(size)!);
    const lower = [...new Array<number>(packing.valves).fill(packing.isTight ? 1 : -solver.infinity), ...counts];
    const upper = [...new Array<number>(packing.valves).fill(1), ...counts];
    this.#model.addRows({
      lower: Float64Array.from(lower),
      upper: Float64Array.from(upper),
      matrix: emptyRows(lower.length),
    });
  }

  static async create(packing: Packing, widest: number, unit: number): Promise<PartsProgram> {
    return new PartsProgram(await linearSolver(), packing, widest, unit);
  }

  /** Adds those sets of the pool that are asked for and not yet in; tells how many. */
  add(pool: Pool, sets: Iterable<number>): number {
    const { valves } = this.#packing;
    const hits = hitsOf(this.#triples, valves);
    const starts: number[] = [0];
    const indices: number[] = [];
    const costs: number[] = [];
    for (const j of sets) {
      const own = pool.members.subarray(j * pool.widest, j * pool.widest + pool.size[j]!);
      const key = own.join(" ");
      if (this.#known.has(key)) continue;
      this.#known.add(key);
      for (let k = 0; k < this.#widest; k++) this.#members.push(own[k] ?? valves);
      this.#size.push(own.length);
      this.#cost.push(pool.cost[j]!);
      costs.push(pool.cost[j]! / this.#unit);
      indices.push(...own, this.#sizeRow.get(own.length)!);
      for (const t of hits(own)) indices.push(valves + this.#sizes.length + t);
      starts.push(indices.length);
    }
    if (costs.length > 0) {
      this.#model.addCols({
        cost: Float64Array.from(costs),
        lower: new Float64Array(costs.length),
        upper: new Float64Array(costs.length).fill(this.#solver.infinity),
        matrix: {
          format: "csc",
          numRows: valves + this.#sizes.length + this.#triples.length,
          numCols: costs.length,
          starts: Int32Array.from(starts),
          indices: Int32Array.from(indices),
          values: new Float64Array(indices.length).fill(1),
        },
      });
    }
    return costs.length;
  }

  /** Of sets that hold two or three of a triple, one at most. */
  cut(triples: readonly Triple[]): void {
    const starts: number[] = [0];
    const indices: number[] = [];
    const held = holders(
      { widest: this.#widest, count: this.#size.length, members: this.#members },
      this.#packing.valves,
      triples,
    );
    for (const sets of held) {
      indices.push(...sets);
      starts.push(indices.length);
    }
    this.#triples.push(...triples);
    if (triples.length === 0) return;
    this.#model.addRows({
      lower: new Float64Array(triples.length).fill(-this.#solver.infinity),
      upper: new Float64Array(triples.length).fill(1),
      matrix: {
        format: "csr",
        numRows: triples.length,
        numCols: this.#size.length,
        starts: Int32Array.from(starts),
        indices: Int32Array.from(indices),
        values: new Float64Array(indices.length).fill(1),
      },
    });
  }

  /** @returns undefined where time ended first */
  solve(order: Pick<Order, "hasTime">): PartsTaken | undefined {
    this.#model.run({
      [this.#solver.constants.callbackType.simplexInterrupt]: (event) => {
        if (isLate(order)) event.interrupt();
      },
    });
    if (this.#model.getModelStatus() !== this.#solver.constants.modelStatus.optimal) return undefined;
    const { colValue, rowDual } = this.#model.getSolution();
    const { valves } = this.#packing;
    const valve = new Float64Array(valves + 1);
    for (let v = 0; v < valves; v++) valve[v] = rowDual[v]! * this.#unit;
    const first = valves + this.#sizes.length;
    const prices: Prices = {
      valve,
      size: new Map(this.#sizes.map((size, i) => [size, rowDual[valves + i]! * this.#unit])),
      triples: [...this.#triples],
      triple: this.#triples.map((_, t) => Math.max(0, -rowDual[first + t]! * this.#unit)),
    };
    const taken = [...colValue.keys()].filter((j) => colValue[j]! > LEAST_PART && this.#size[j]! > 0);
    return { prices, sets: this.#pick(taken), parts: Float64Array.from(taken, (j) => colValue[j]!), numbers: taken };
  }

  /** Lets sets go unmade and valves stay alone for so much, so that the program can always be solved. */
  allowMissing(cost: number): void {
    const { valves, isTight } = this.#packing;
    const [least] = [...this.#sizes].sort((a, b) => a - b);
    const rows = [...Array(valves + this.#sizes.length).keys()].filter((row) => isTight || row >= valves);
    this.#model.addCols({
      cost: Float64Array.from(rows, (row) => (row < valves ? cost / least! : cost) / this.#unit),
      lower: new Float64Array(rows.length),
      upper: new Float64Array(rows.length).fill(this.#solver.infinity),
      matrix: {
        format: "csc",
        numRows: valves + this.#sizes.length + this.#triples.length,
        numCols: rows.length,
        starts: Int32Array.from({ length: rows.length + 1 }, (_, i) => i),
        indices: Int32Array.from(rows),
        values: new Float64Array(rows.length).fill(1),
      },
    });
    for (const _ of rows) {
      this.#size.push(0);
      this.#cost.push(0);
      for (let k = 0; k < this.#widest; k++) this.#members.push(valves);
    }
  }

  /** Takes a set whole from now on. */
  fix(number: number): void {
    this.#model.changeColBounds(number, 1, this.#solver.infinity);
  }

  dispose(): void {
    this.#model.dispose();
  }

  #pick(taken: readonly number[]): Pool {
    const widest = this.#widest;
    return {
      widest,
      count: taken.length,
      start: new Int32Array(0),
      members: Int32Array.from(taken.flatMap((j) => this.#members.slice(j * widest, (j + 1) * widest))),
      size: Uint8Array.from(taken, (j) => this.#size[j]!),
      cost: Float64Array.from(taken, (j) => this.#cost[j]!),
      leftOut: new Float64Array(0),
    };
  }
}

/** Which triples a set holds two or three of. */
function hitsOf(triples: readonly Triple[], valves: number): (members: Int32Array) => number[] {
  const byValve: number[][] = Array.from({ length: valves }, () => []);
  triples.forEach((triple, t) => {
    for (const v of triple) byValve[v]!.push(t);
  });
  return (members) => {
    const once = new Set<number>();
    const hit = new Set<number>();
    for (const v of members) {
      for (const t of byValve[v]!) {
        if (once.has(t)) hit.add(t);
        once.add(t);
      }
    }
    return [...hit];
  };
}

function emptyRows(count: number) {
  return {
    format: "csr" as const,
    numRows: count,
    numCols: 0,
    starts: new Int32Array(count + 1),
    indices: new Int32Array(0),
    values: new Float64Array(0),
  };
}
