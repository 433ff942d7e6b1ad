import type { Costing, Grouping, Order, SetOfValves, SetsAnswer, Wanted } from "./question.ts";

/**
 * Turns demand into numbers of sets by size, has them grouped, and hands the groups to units: among units that want
 * sets of one size the earliest due is served first, and gets the closest set.
 */
export async function assign(task: {
  readonly ids: readonly string[];
  readonly demand: readonly Wanted[];
  readonly limit: number;
  readonly hasTime?: (() => boolean) | undefined;
  readonly costing: Costing;
  readonly grouping: (order: Order) => Promise<Grouping>;
  readonly places: readonly (readonly number[])[];
  /** The order of a set's members by position; left out, as they come. */
  readonly seat?: (members: readonly number[]) => readonly number[];
}): Promise<SetsAnswer> {
  const { ids, demand, costing, places } = task;
  const sizes = new Map<number, number>();
  for (const { positions } of demand) sizes.set(positions.length, (sizes.get(positions.length) ?? 0) + 1);
  // A cost that is the limit itself must not fail by its last binary digit.
  const limit = task.limit + 1e-12 * Math.abs(task.limit);
  const grouping = await task.grouping({ sizes, limit, hasTime: task.hasTime });

  const served = [...demand.keys()].sort((a, b) => dueOf(demand[a]!) - dueOf(demand[b]!) || a - b);
  const byCost = grouping.groups
    .map((members) => ({ members, cost: costing.cost(members) }))
    .sort((a, b) => a.cost - b.cost);
  const given = new Map<number, SetOfValves>();
  for (const i of served) {
    const { unit, positions } = demand[i]!;
    const at = byCost.findIndex((g) => g.members.length === positions.length);
    if (at < 0) continue;
    const [{ members, cost }] = byCost.splice(at, 1) as [(typeof byCost)[0]];
    const seated = task.seat?.(members) ?? members;
    given.set(i, { unit, positions: Object.fromEntries(positions.map((p, k) => [p, ids[seated[k]!]!])), cost });
  }
  const used = new Set(grouping.groups.flat());
  const spare = [...ids.keys()].filter((v) => !used.has(v));
  const sets = [...given].sort(([a], [b]) => a - b).map(([, set]) => set);
  return {
    sets,
    unplaced: demand.filter((_, i) => !given.has(i)).map((d) => d.unit),
    reserve: byNearness(spare, places).map((v) => ids[v]!),
    totalCost: grouping.cost,
    optimal: grouping.optimal,
    gap: grouping.optimal ? 0 : Math.max(0, grouping.cost - grouping.bound),
    notes: notesFor(grouping, demand.length - sets.length),
  };
}

function dueOf({ due }: Wanted): number {
  const time = due === undefined ? Number.NaN : Date.parse(due);
  return Number.isNaN(time) ? Number.MAX_VALUE : time;
}

/** Valves nearest to the middle of all come first: they are the likeliest to replace one that fails. */
function byNearness(spare: readonly number[], places: readonly (readonly number[])[]): number[] {
  const middle = (places[0] ?? []).map((_, f) => {
    const values = places.map((p) => p[f]!).sort((a, b) => a - b);
    return values[values.length >> 1]!;
  });
  const far = (v: number) => places[v]!.reduce((sum, x, f) => sum + Math.abs(x - middle[f]!), 0);
  return [...spare].sort((a, b) => far(a) - far(b));
}

function notesFor(grouping: Grouping, without: number): string[] {
  const notes = [`Found by: ${grouping.how}.`];
  if (!grouping.optimal) {
    notes.push(
      `Not proven best: the total cannot be less than ${Number(grouping.bound.toPrecision(6))}${grouping.mostSets ? "" : ", and whether one more unit could have valves is not proven"}.`,
    );
  }
  if (without > 0) {
    notes.push(
      grouping.mostSets
        ? `${without} unit${without > 1 ? "s" : ""} cannot have valves: no way to make more sets within the limit from these valves.`
        : `${without} unit${without > 1 ? "s" : ""} left without valves.`,
    );
  }
  return notes;
}
