import { BadInput, quote } from "../../maths/badInput.ts";

/** One operation: a place, and how long it is taken up. */
export interface Operation {
  readonly place: string | number;
  readonly hours: number;
}

/**
 * A job shop in whole units of time, its operations numbered job after job.
 *
 * Whole units keep the search exact: a schedule is better only when it is better by a unit.
 */
export interface JobShop {
  readonly size: number;
  /** How long each operation takes, whole. */
  readonly lasts: Float64Array;
  /** Operation before and after in its job, −1 for none. */
  readonly before: Int32Array;
  readonly after: Int32Array;
  readonly placeOf: Int32Array;
  /** Operations of each place, in the order given. */
  readonly places: readonly Int32Array[];
  readonly unitsPerHour: number;
  /** The hours as given, for the answer. */
  readonly hours: Float64Array;
  /** First operation of each job, and one past the last. */
  readonly firstOf: Int32Array;
}

/** More than this is not improved on within a sensible time. */
export const mostOperations = 5000;

/** @throws BadInput at the operation whose hours are no length of time, or for a shop too large */
export function jobShop(jobs: readonly (readonly Operation[])[]): JobShop {
  const operations = jobs.flat();
  const size = operations.length;
  if (size > mostOperations) {
    throw new BadInput(
      "jobs",
      `${size} operations`,
      `at most ${mostOperations}`,
      "plan a part of the shop, or join operations that follow one another in one place",
    );
  }
  jobs.forEach((job, j) => {
    job.forEach(({ hours }, k) => {
      if (hours >= 0 && hours <= longest_h) return;
      throw new BadInput(`jobs[${j}][${k}].hours`, quote(hours), `0 to ${longest_h} hours`, "give how long it takes");
    });
  });
  const hours = Float64Array.from(operations, (operation) => operation.hours);
  const unitsPerHour = unitsIn(hours);
  const before = new Int32Array(size).fill(-1);
  const after = new Int32Array(size).fill(-1);
  const firstOf = new Int32Array(jobs.length + 1);
  jobs.forEach((job, j) => {
    const first = firstOf[j]!;
    firstOf[j + 1] = first + job.length;
    for (let i = first + 1; i < first + job.length; i++) {
      before[i] = i - 1;
      after[i - 1] = i;
    }
  });
  const numbers = new Map<string, number>();
  const placeOf = Int32Array.from(operations, ({ place }) => {
    const name = String(place);
    if (!numbers.has(name)) numbers.set(name, numbers.size);
    return numbers.get(name)!;
  });
  const places = Array.from({ length: numbers.size }, (): number[] => []);
  placeOf.forEach((place, i) => {
    places[place]!.push(i);
  });
  return {
    size,
    lasts: hours.map((length_h) => Math.round(length_h * unitsPerHour)),
    before,
    after,
    placeOf,
    places: places.map((members) => Int32Array.from(members)),
    unitsPerHour,
    hours,
    firstOf,
  };
}

const longest_h = 1e9;

/**
 * Units of time in an hour: the coarsest in which all hours are whole (hours, minutes, seconds or decimal parts), or one
 * so fine that rounding to it is lost in the arithmetic's own.
 */
function unitsIn(hours: Float64Array): number {
  const total_h = hours.reduce((sum, length_h) => sum + length_h, 0);
  const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) <= 1e-12 * Math.max(1, value);
  const whole = [1, 10, 60, 100, 1000, 3600, 1e4, 1e5, 1e6].find(
    (units) => total_h * units < 2 ** 50 && hours.every((length_h) => isWhole(length_h * units)),
  );
  return whole ?? 2 ** Math.floor(Math.log2(2 ** 45 / total_h));
}

/** Earliest starts when every place takes its operations in the order given; undefined when the orders go round in a circle. */
export function startsOf(shop: JobShop, orders: readonly Int32Array[], lasts: Float64Array): Float64Array | undefined {
  const { size, before, after } = shop;
  const next = new Int32Array(size).fill(-1);
  const waits = new Int32Array(size);
  for (const order of orders) {
    for (let k = 1; k < order.length; k++) {
      next[order[k - 1]!] = order[k]!;
      waits[order[k]!] = 1;
    }
  }
  const ready = new Int32Array(size);
  let count = 0;
  for (let i = 0; i < size; i++) {
    if (before[i]! >= 0) waits[i] = waits[i]! + 1;
    if (waits[i] === 0) ready[count++] = i;
  }
  const starts = new Float64Array(size);
  for (let k = 0; k < count; k++) {
    const i = ready[k]!;
    const end = starts[i]! + lasts[i]!;
    for (const follower of [after[i]!, next[i]!]) {
      if (follower < 0) continue;
      if (end > starts[follower]!) starts[follower] = end;
      waits[follower] = waits[follower]! - 1;
      if (waits[follower] === 0) ready[count++] = follower;
    }
  }
  return count === size ? starts : undefined;
}

export function makespanOf(starts: Float64Array, lasts: Float64Array): number {
  return starts.reduce((latest, start, i) => Math.max(latest, start + lasts[i]!), 0);
}
