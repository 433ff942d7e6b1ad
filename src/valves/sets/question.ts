/** A unit that wants valves, one in each position. */
export interface Wanted {
  readonly unit: string;
  readonly positions: readonly string[];
  /** Only counts where not all units can have valves: the earliest is served first, none last. */
  readonly due?: string | undefined;
}

/** What a way of grouping valves needs to know; valves are numbered as they were given. */
export interface Costing {
  readonly count: number;
  /** Cost of a set, whatever the order of its members. */
  cost(members: readonly number[]): number;
  /** Cost of a pair; the same as `cost([a, b])`. */
  pair(a: number, b: number): number;
  /** Work of one asking, in askings of a plain spread; 1 where left out. */
  readonly weight?: number;
  /** Cost of the members and one more; left out where nothing is gained by asking so. */
  oneMore?(members: readonly number[]): (v: number) => number;
  /** No set that holds both costs less. Zero where nothing is known. */
  least(a: number, b: number): number;
  /** True where a set never gets cheaper by one member more. */
  readonly grows: boolean;
  /** Features and places (valve·features + feature) such that a set costs the sum of the sides of the box it spans. */
  readonly box?: { readonly features: number; readonly at: Float64Array };
  /** Places on one line such that a set's cost is the length of line it spans; left out where it is not so. */
  readonly line?: readonly number[];
}

/** How many sets of each size are wanted, and what one may cost. */
export interface Order {
  readonly sizes: ReadonlyMap<number, number>;
  readonly limit: number;
  /** Asked now and then in long searches; once false, they end with what they have. Left out, there is time. */
  readonly hasTime?: (() => boolean) | undefined;
}

export const isLate = ({ hasTime }: Pick<Order, "hasTime">): boolean => hasTime?.() === false;

export interface Grouping {
  readonly groups: readonly (readonly number[])[];
  readonly cost: number;
  /** No grouping of as many sets costs less than this. */
  readonly bound: number;
  /** True when no more sets can be made, by proof. */
  readonly mostSets: boolean;
  readonly optimal: boolean;
  readonly how: string;
}

export const wantedSets = (order: Order): number => [...order.sizes.values()].reduce((sum, n) => sum + n, 0);

export function totalCost(costing: Costing, groups: readonly (readonly number[])[]): number {
  return groups.reduce((sum, group) => sum + costing.cost(group), 0);
}

export interface SetOfValves {
  readonly unit: string;
  /** Position to valve id. */
  readonly positions: Readonly<Record<string, string>>;
  readonly cost: number;
  readonly doubt_dB?: number;
}

export interface SetsAnswer {
  readonly sets: readonly SetOfValves[];
  readonly unplaced: readonly string[];
  /** Valves in no set, those that fit the others best first. */
  readonly reserve: readonly string[];
  readonly totalCost: number;
  readonly optimal: boolean;
  /** Distance of the total cost to what no grouping can be under. */
  readonly gap: number;
  readonly notes: readonly string[];
}
