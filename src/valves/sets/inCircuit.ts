import { BadInput, quote } from "../../maths/badInput.ts";
import type { ValveModel } from "../valveModel.ts";
import { assign } from "./assign.ts";
import { packed } from "./packing.ts";
import { PROVEN_PAIRS, pairsProven } from "./pairs.ts";
import type { Costing, Grouping, Order, SetsAnswer, Wanted } from "./question.ts";

export interface CurvedValve {
  readonly id: string;
  /** One curve for every section, or for a valve of one section. */
  readonly model?: ValveModel | undefined;
  /** A curve for each section, by the letter that follows the position in the net list's part: V2a, V2b. */
  readonly models?: Readonly<Record<string, ValveModel>> | undefined;
}

export interface CircuitQuestion {
  readonly valves: readonly CurvedValve[];
  readonly demand: readonly Wanted[];
  readonly limit_dB: number;
  /** Ids of the valves in the net list. */
  readonly parts: readonly string[];
  /** Gains of the channels in dB, with the valves named in place of the net list's own. */
  readonly gainsOf: (candidate: Readonly<Record<string, ValveModel>>) => number[];
}

/** So many sets are worked out in the circuit one by one; with more, gains are added up from single exchanges. */
const MOST_TRIED = 1500;
/** Curves of valves well fitted are off by about so much (95 %), see `valves.fit`. */
const CURVE_DOUBT = { current: 0.02, mu: 0.02 } as const;

/**
 * Sets of valves whose channels come nearest in gain: the cost of a set is the largest less the smallest gain over
 * the channels, in dB, with the valves in the circuit. All seatings of a set's members are tried and the best kept.
 *
 * Few valves: every set is solved in the circuit. More: each valve is solved alone in each position, gains in dB are
 * added, and the sets chosen are solved in the circuit afterwards; the sum is exact where each channel's gain is a
 * product of stages with one valve each.
 *
 * @throws BadInput  a position that is no valve of the net list, a valve without a curve, units with unlike positions
 */
export async function setsInCircuit(question: CircuitQuestion): Promise<SetsAnswer> {
  const { valves, demand, limit_dB, gainsOf } = question;
  const positions = samePositions(demand);
  const seats = positions.map((position, k) => partsAt(question.parts, position, k));
  const fitted = valves.map((valve, v) => seats.map((seat) => curvesFor(valve, v, seat)));
  const candidate = (seated: readonly number[]) =>
    Object.assign({}, ...seated.map((v, k) => fitted[v]![k]!)) as Record<string, ValveModel>;
  const spreadOf = (gains: readonly number[]) => Math.max(...gains) - Math.min(...gains);

  const solved = new Map<string, number>();
  const exact = (seated: readonly number[]): number => {
    const key = seated.join(",");
    let cost = solved.get(key);
    if (cost === undefined) {
      cost = spreadOf(gainsOf(candidate(seated)));
      solved.set(key, cost);
    }
    return cost;
  };
  const orders = seatings(positions.length);
  const isSmall = falling(valves.length, positions.length) <= MOST_TRIED;
  const alone = aloneGains(question, fitted, positions.length);
  const summed = (seated: readonly number[]): number =>
    spreadOf(alone.own.map((own, c) => own + seated.reduce((sum, v, k) => sum + alone.shift[v]![k]![c]!, 0)));
  const costOfSeated = isSmall ? exact : summed;
  const bestSeating = (members: readonly number[]) =>
    orders
      .map((order) => order.map((i) => members[i]!))
      .map((seated) => ({ seated, cost: costOfSeated(seated) }))
      .reduce((a, b) => (b.cost < a.cost ? b : a));

  const memory = new Map<string, { seated: readonly number[]; cost: number }>();
  const seat = (members: readonly number[]) => {
    const key = [...members].sort((a, b) => a - b).join(",");
    const known = memory.get(key) ?? bestSeating(members);
    memory.set(key, known);
    return known;
  };
  const costing: Costing = {
    count: valves.length,
    cost: (m) => (m.length < positions.length ? 0 : seat(m).cost),
    least: () => 0,
    grows: false,
  };
  const places = alone.shift.map((byPosition) => byPosition.flat());
  const grouping = (order: Order): Promise<Grouping> => groupInCircuit(costing, order, places);
  const answer = await assign({
    ids: valves.map((v) => v.id),
    demand,
    limit: limit_dB,
    costing,
    grouping,
    places,
    seat: (members) => seat(members).seated,
  });

  const index = new Map(valves.map((v, i) => [v.id, i]));
  const sets = answer.sets.map((set) => {
    const seated = positions.map((p) => index.get(set.positions[p]!)!);
    return { ...set, cost: exact(seated), doubt_dB: doubtOf(candidate(seated), gainsOf) };
  });
  const off = Math.max(0, ...sets.map((set, i) => Math.abs(set.cost - answer.sets[i]!.cost)));
  const kept = sets.filter((set) => set.cost <= limit_dB + 1e-9);
  const lost = sets.filter((set) => set.cost > limit_dB + 1e-9).map((set) => set.unit);
  const isExact = isSmall || off < 1e-6;
  return {
    ...answer,
    sets: kept,
    unplaced: [...answer.unplaced, ...lost],
    reserve: [
      ...answer.reserve,
      ...sets.filter((s) => lost.includes(s.unit)).flatMap((s) => Object.values(s.positions)),
    ],
    totalCost: kept.reduce((sum, set) => sum + set.cost, 0),
    optimal: answer.optimal && isExact,
    gap: answer.optimal && isExact ? 0 : kept.reduce((sum, set) => sum + set.cost, 0),
    notes: [
      ...answer.notes.filter((note) => isExact || !note.startsWith("Not proven")),
      isSmall
        ? "Every set weighed was solved in the circuit."
        : `Gains were added up from single exchanges to choose, and the sets chosen solved in the circuit: the two differ by up to ${off.toPrecision(2)} dB.`,
      "doubt_dB counts curves known to 2 % in current and in mu (95 %); parts of the circuit are taken at their net list values.",
    ],
  };
}

async function groupInCircuit(
  costing: Costing,
  order: Order,
  places: readonly (readonly number[])[],
): Promise<Grouping> {
  const [size, ...more] = [...order.sizes.keys()];
  if (size === 1 && more.length === 0) return singles(costing, order);
  if (size === 2 && more.length === 0 && costing.count <= PROVEN_PAIRS) return pairsProven(costing, order);
  return packed(costing, order, places);
}

/** One valve a unit: the cheapest, each within the limit. */
function singles(costing: Costing, order: Order): Grouping {
  const groups = [...Array(costing.count).keys()]
    .map((v) => ({ v, cost: costing.cost([v]) }))
    .filter(({ cost }) => cost <= order.limit)
    .sort((a, b) => a.cost - b.cost)
    .slice(0, order.sizes.get(1)!);
  const cost = groups.reduce((sum, g) => sum + g.cost, 0);
  return {
    groups: groups.map(({ v }) => [v]),
    cost,
    bound: cost,
    mostSets: true,
    optimal: true,
    how: "each valve tried alone",
  };
}

function samePositions(demand: readonly Wanted[]): readonly string[] {
  const first = demand[0]!.positions;
  demand.forEach(({ positions }, i) => {
    if (positions.length === first.length && positions.every((p, k) => p === first[k])) return;
    throw new BadInput(
      `demand[${i}].positions`,
      quote(positions),
      `the positions of the first unit, ${first.join(", ")}, since one net list serves all`,
      "ask for units with other positions apart",
    );
  });
  return first;
}

/** Net list parts of a position: the part of that name, or its sections V2a, V2b, … by their letter. */
function partsAt(parts: readonly string[], position: string, k: number): Readonly<Record<string, string>> {
  if (parts.includes(position)) return { "": position };
  const sections = parts.filter((p) => p.length === position.length + 1 && p.startsWith(position));
  if (sections.length === 0) {
    throw new BadInput(
      `demand[0].positions[${k}]`,
      quote(position),
      `a valve of the net list: ${parts.join(", ") || "it has none"}`,
      "name a position by its valve's id, or by what the ids of its sections begin with",
    );
  }
  return Object.fromEntries(sections.map((p) => [p.slice(position.length), p]));
}

function curvesFor(valve: CurvedValve, v: number, seat: Readonly<Record<string, string>>): Record<string, ValveModel> {
  return Object.fromEntries(
    Object.entries(seat).map(([section, part]) => {
      const model =
        valve.models?.[section] ?? valve.model ?? (section === "" ? Object.values(valve.models ?? {})[0] : undefined);
      if (model === undefined) {
        throw new BadInput(
          section === "" ? `valves[${v}].model` : `valves[${v}].models.${section}`,
          "nothing",
          "the valve's curve as valves.fit gives it",
          "fit the valve's readings first",
        );
      }
      return [part, model];
    }),
  );
}

/** What each valve alone, in each position, does to each channel's gain against a common starting set. */
function aloneGains(
  { valves, gainsOf }: CircuitQuestion,
  fitted: readonly (readonly Record<string, ValveModel>[])[],
  positions: number,
): { own: number[]; shift: number[][][] } {
  const typical = Object.assign({}, ...fitted[valves.length >> 1]!) as Record<string, ValveModel>;
  const own = gainsOf(typical);
  const shift = fitted.map((byPosition) =>
    Array.from({ length: positions }, (_, k) => gainsOf({ ...typical, ...byPosition[k]! }).map((g, c) => g - own[c]!)),
  );
  return { own, shift };
}

function doubtOf(candidate: Readonly<Record<string, ValveModel>>, gainsOf: CircuitQuestion["gainsOf"]): number {
  const own = gainsOf(candidate);
  const [high, low] = [own.indexOf(Math.max(...own)), own.indexOf(Math.min(...own))];
  let sum = 0;
  for (const [part, model] of Object.entries(candidate)) {
    for (const changed of [
      { ...model, current_A: model.current_A * (1 + CURVE_DOUBT.current) },
      { ...model, mu: model.mu * (1 + CURVE_DOUBT.mu) },
    ]) {
      const gains = gainsOf({ ...candidate, [part]: changed });
      sum += (gains[high]! - own[high]! - (gains[low]! - own[low]!)) ** 2;
    }
  }
  // All channels alike to the last digit still leave the curves' doubt in each.
  return Math.sqrt(sum);
}

function seatings(count: number): number[][] {
  if (count === 1) return [[0]];
  return seatings(count - 1).flatMap((order) =>
    Array.from({ length: count }, (_, at) => [...order.slice(0, at), count - 1, ...order.slice(at)]),
  );
}

function falling(n: number, k: number): number {
  return Array.from({ length: k }, (_, i) => n - i).reduce((product, x) => product * Math.max(x, 0), 1);
}
