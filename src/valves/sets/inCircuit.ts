import { BadInput, quote } from "../../maths/badInput.ts";
import type { ValveModel } from "../valveModel.ts";
import { alongLine } from "./alongLine.ts";
import { assign } from "./assign.ts";
import { PROVEN_SETS } from "./everySet.ts";
import { alikePositions, type GainSums, lineOf, type Seating, seatingBySums, seatings } from "./gainSums.ts";
import { improve } from "./improve.ts";
import { packed } from "./packing.ts";
import { bestPairs } from "./pairs.ts";
import {
  type Costing,
  type Grouping,
  isLate,
  type Order,
  type SetsAnswer,
  totalCost,
  type Wanted,
} from "./question.ts";
import { setsBySums } from "./setsBySums.ts";

export interface CurvedValve {
  readonly id: string;
  /** One curve for every section, or for a valve of one section. */
  readonly model?: ValveModel | undefined;
  /** A curve for each section, by the letter that follows the position in the net list's part: V2a, V2b. */
  readonly models?: Readonly<Record<string, ValveModel>> | undefined;
  /** How well the curve is known; left out, `USUAL_DOUBT`. */
  readonly doubt?: CurveDoubt | undefined;
  readonly doubts?: Readonly<Record<string, CurveDoubt>> | undefined;
}

/** 95 % half-widths of a fitted curve's plate current and of its mu, independent of each other. */
export interface CurveDoubt {
  readonly current_pct: number;
  readonly mu_pct: number;
}

export interface CircuitQuestion {
  readonly valves: readonly CurvedValve[];
  readonly demand: readonly Wanted[];
  readonly limit_dB: number;
  /** Once false, the best sets found so far are returned, with the gap that is proven for them. */
  readonly hasTime?: (() => boolean) | undefined;
  /** Ids of the valves in the net list. */
  readonly parts: readonly string[];
  /** Gains of the channels in dB, with the valves named in place of the net list's own. */
  readonly gainsOf: (candidate: Readonly<Record<string, ValveModel>>) => number[];
}

/** So many sets are worked out in the circuit one by one; with more, gains are added up from single exchanges. */
const MOST_TRIED = 1500;
/** Curves of valves well fitted are off by about so much (95 %), see `valves.fit`. */
const USUAL_DOUBT: CurveDoubt = { current_pct: 2, mu_pct: 2 };
/** A set over the limit in the circuit is set aside, and the rest chosen anew, so many times. */
const MOST_ROUNDS = 8;
/** Sets, evenly picked, on which added gains are held against the circuit. */
const CHECKED = 12;
const MOST_REMEMBERED = 2e5;
/** A channel that a valve shifts by less than this is not fed by it. */
const ROUNDING_dB = 1e-9;

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
  const isSmall = falling(valves.length, positions.length) <= MOST_TRIED;
  const alone = aloneGains(question, fitted, positions.length);
  const orders = isSmall ? seatings(positions.length) : seatings(positions.length, alikePositions(alone));
  const line = isSmall ? undefined : lineOf(alone);
  const bestSeating = isSmall
    ? (members: readonly number[]) =>
        orders
          .map((order) => order.map((i) => members[i]!))
          .map((seated) => ({ seated, cost: exact(seated) }))
          .reduce((a, b) => (b.cost < a.cost ? b : a))
    : seatingBySums(alone, orders);

  const memory = new Map<string, Seating>();
  const keyOf = (members: readonly number[]) => [...members].sort((a, b) => a - b).join(",");
  const seat = (members: readonly number[]) => {
    const key = keyOf(members);
    const known = memory.get(key) ?? bestSeating(members);
    if (memory.size < MOST_REMEMBERED) memory.set(key, known);
    return known;
  };
  const costing: Costing = {
    count: valves.length,
    cost: (m) => (m.length < positions.length ? 0 : seat(m).cost),
    pair: (a, b) => (positions.length > 2 ? 0 : seat([a, b]).cost),
    weight: 2 * orders.length,
    least: () => 0,
    grows: false,
    ...(line === undefined ? {} : { line }),
  };
  const places = alone.shift.map((byPosition) => byPosition.flat());
  const index = new Map(valves.map((v, i) => [v.id, i]));
  const choose = async () => {
    const answer = await assign({
      ids: valves.map((v) => v.id),
      demand,
      limit: limit_dB,
      hasTime: question.hasTime,
      costing,
      grouping: (order: Order): Promise<Grouping> =>
        groupInCircuit(costing, order, places, isSmall ? undefined : { alone, orders }),
      places,
      seat: (members) => seat(members).seated,
    });
    const sets = answer.sets.map((set) => {
      const seated = positions.map((p) => index.get(set.positions[p]!)!);
      return { set, seated, summed: set.cost, cost: exact(seated) };
    });
    return { answer, sets };
  };

  let off = isSmall ? 0 : sumsOff(valves.length, positions.length, bestSeating, exact);
  let { answer, sets } = await choose();
  const isOver = ({ cost }: { readonly cost: number }) => cost > limit_dB + 1e-9;
  for (let round = 0; round < MOST_ROUNDS && sets.some(isOver) && !isLate(question); round++) {
    // What the circuit says of the sets it was asked for takes the place of the sum.
    for (const { seated, summed, cost } of sets) {
      off = Math.max(off, Math.abs(cost - summed));
      memory.set(keyOf(seated), { seated, cost });
    }
    ({ answer, sets } = await choose());
  }
  off = Math.max(off, ...sets.map(({ summed, cost }) => Math.abs(cost - summed)));
  const kept = sets.filter((s) => !isOver(s));
  const lost = sets.filter(isOver);
  const isExact = isSmall || off < 1e-6;
  const totalCost = kept.reduce((sum, { cost }) => sum + cost, 0);
  const optimal = answer.optimal && isExact && lost.length === 0;
  const bound = Math.max(0, answer.totalCost - answer.gap - (isExact ? 0 : off * kept.length));
  return {
    ...answer,
    sets: kept.map(({ set, seated, cost }) => ({
      ...set,
      cost,
      doubt_dB: doubtOf(
        candidate(seated),
        Object.assign({}, ...seated.map((v, k) => doubtsFor(valves[v]!, seats[k]!))) as Record<string, CurveDoubt>,
        gainsOf,
      ),
    })),
    unplaced: [...answer.unplaced, ...lost.map(({ set }) => set.unit)],
    reserve: [...answer.reserve, ...lost.flatMap(({ set }) => Object.values(set.positions))],
    totalCost,
    optimal,
    gap: optimal ? 0 : Math.max(0, totalCost - bound),
    notes: [
      ...answer.notes.filter((note) => isExact || !note.startsWith("Not proven")),
      isSmall
        ? "Every set weighed was solved in the circuit."
        : `Gains were added up from single exchanges to choose, and the sets chosen solved in the circuit: the two differ by up to ${off.toPrecision(2)} dB${isExact ? "" : ", which the bound behind gap allows for"}.`,
      ...(optimal || bound > 0 ? [] : ["gap is the whole cost: the only bound known is 0 dB."]),
      `doubt_dB counts ${valves.some((v) => v.doubt ?? v.doubts) ? "the doubt given with the curves, and where none is given" : ""} 2 % in current and in mu (95 %); parts of the circuit are taken at their net list values.`.replace(
        "  ",
        " ",
      ),
    ],
  };
}

/** How far added gains lie from the circuit's own on sets picked evenly from all valves. */
function sumsOff(
  count: number,
  size: number,
  seating: (members: readonly number[]) => Seating,
  exact: (seated: readonly number[]) => number,
): number {
  if (count < size) return 0;
  return Array.from({ length: CHECKED }, (_, i) => {
    const step = 1 + ((i * 7) % Math.max(1, Math.floor(count / size)));
    const members = Array.from({ length: size }, (_, k) => (i * 5 + k * step) % count);
    if (new Set(members).size < size) return 0;
    const { seated, cost } = seating(members);
    return Math.abs(exact(seated) - cost);
  }).reduce((a, b) => Math.max(a, b), 0);
}

async function groupInCircuit(
  costing: Costing,
  order: Order,
  places: readonly (readonly number[])[],
  sums: { readonly alone: GainSums; readonly orders: readonly (readonly number[])[] } | undefined,
): Promise<Grouping> {
  const [size, ...more] = [...order.sizes.keys()];
  if (size === 1 && more.length === 0) return singles(costing, order);
  const line = alongLine(costing, order);
  if (line !== undefined) return line;
  if (size === 2 && more.length === 0) return bestPairs(costing, order);
  const few = costing.count <= PROVEN_SETS || sums === undefined ? await packed(costing, order, places) : undefined;
  if (few?.optimal || sums === undefined) return few!;
  const found = few?.groups ?? improve(costing, order, places);
  const { groups, bound } = await setsBySums(sums.alone, sums.orders, order, found);
  const cost = totalCost(costing, groups);
  const mostSets = groups.length === Math.min(order.sizes.get(size!)!, Math.floor(costing.count / size!));
  // The listed costs were lowered by their rounding.
  const optimal = mostSets && cost <= bound + 2e-7 * cost;
  return { groups, cost, bound, mostSets, optimal, how: "gains added up, sets priced and searched" };
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
): GainSums {
  const typical = Object.assign({}, ...fitted[valves.length >> 1]!) as Record<string, ValveModel>;
  const own = gainsOf(typical);
  const shift = fitted.map((byPosition) =>
    Array.from({ length: positions }, (_, k) =>
      gainsOf({ ...typical, ...byPosition[k]! }).map((g, c) => (Math.abs(g - own[c]!) < ROUNDING_dB ? 0 : g - own[c]!)),
    ),
  );
  return { own, shift };
}

function doubtsFor({ doubt, doubts }: CurvedValve, seat: Readonly<Record<string, string>>): Record<string, CurveDoubt> {
  return Object.fromEntries(
    Object.entries(seat).map(([section, part]) => [part, doubts?.[section] ?? doubt ?? USUAL_DOUBT]),
  );
}

/** Half-width of the spread between channels: each curve's current and mu moved by its doubt, added as squares. */
function doubtOf(
  candidate: Readonly<Record<string, ValveModel>>,
  doubts: Readonly<Record<string, CurveDoubt>>,
  gainsOf: CircuitQuestion["gainsOf"],
): number {
  const own = gainsOf(candidate);
  const pairs = own.flatMap((_, a) => own.map((_, b) => [a, b] as const)).filter(([a, b]) => a < b);
  const sums = pairs.map(() => 0);
  for (const [part, model] of Object.entries(candidate)) {
    const { current_pct, mu_pct } = doubts[part]!;
    for (const changed of [
      { ...model, current_A: model.current_A * (1 + current_pct / 100) },
      { ...model, mu: model.mu * (1 + mu_pct / 100) },
    ]) {
      const gains = gainsOf({ ...candidate, [part]: changed });
      pairs.forEach(([a, b], i) => {
        sums[i]! += (gains[a]! - own[a]! - (gains[b]! - own[b]!)) ** 2;
      });
    }
  }
  // The widest of any two channels, since doubt may make another two the farthest apart.
  return Math.sqrt(Math.max(0, ...sums));
}

function falling(n: number, k: number): number {
  return Array.from({ length: k }, (_, i) => n - i).reduce((product, x) => product * Math.max(x, 0), 1);
}
