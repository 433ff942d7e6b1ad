import { randomStream } from "../../maths/random.ts";
import { shareInterval } from "../../maths/statistics/index.ts";
import { isValve, type Netlist } from "../netlist.ts";
import type { Unsettled } from "../settle.ts";
import { type DrawnUnit, drawUnit, type ShelfValve, stand, withoutSpreadOf } from "./drawnUnit.ts";
import { positionsOf, type ValvePosition } from "./positions.ts";
import { type Broken, type UnitJudge, type UnitLimits, unitJudge } from "./unitJudge.ts";
import type { ChannelEnds } from "./version.ts";

export interface YieldQuestion {
  readonly netlist: Netlist;
  readonly channels: readonly ChannelEnds[];
  readonly frequency_Hz: number;
  readonly limits: UnitLimits;
  readonly shelf: readonly ShelfValve[];
  readonly draws: number;
  readonly seed: number | string;
}

export interface VersionYield {
  readonly state: "solved";
  /** Share of drawn units inside all limits, and its 95 % interval (Clopper and Pearson). */
  readonly yield: number;
  readonly low: number;
  readonly high: number;
  readonly draws: number;
  /** Of all drawn units, the share that breaks each limit, most first. */
  readonly broken: readonly { readonly limit: string; readonly share: number }[];
  /** What the yield would gain if one part, or one valve, had no spread; most first, none that chance could explain. */
  readonly costly: readonly {
    readonly part: string;
    readonly gain: number;
    readonly doubt: number;
  }[];
  /** Types whose valves were drawn from the shelf, with how many there were. */
  readonly fromShelf: Readonly<Record<string, number>>;
  /** Valves of the shelf that break a limit in every position of their type, all else as drawn up. */
  readonly notServing: readonly {
    readonly valve: string;
    readonly type: string;
    readonly reasons: readonly string[];
  }[];
  readonly notes: readonly string[];
}

/**
 * Yield of a version over drawn units, what spoils it, which part's spread costs most, and which valves of the shelf
 * would not serve.
 *
 * The gain of a part without spread is counted on the very same draws, so that chance falls out of the difference.
 *
 * @throws BadInput as `unitJudge`
 */
export function versionYield(question: YieldQuestion): VersionYield | Unsettled {
  const { netlist, channels, frequency_Hz, limits, draws } = question;
  const judge = unitJudge(netlist, channels, frequency_Hz, limits);
  if ("state" in judge) return judge;
  const positions = positionsOf(netlist);
  const shelf = byType(question.shelf);
  const chance = randomStream(question.seed);
  const units = Array.from({ length: draws }, (_, i) => drawUnit(netlist, positions, shelf, chance.fork(i)));
  const found = units.map((unit) => judge.judge(unit, true));
  const good = found.filter((broken) => broken.length === 0).length;

  const counts = new Map<string, number>();
  for (const broken of found) {
    for (const limit of new Set(broken.map((one) => one.limit))) counts.set(limit, (counts.get(limit) ?? 0) + 1);
  }
  const drawnTypes = [...new Set(positions.map(({ type }) => type))].filter((type) => {
    const places = positions.filter((position) => position.type === type).length;
    return (shelf.get(type)?.length ?? 0) >= places;
  });
  return {
    state: "solved",
    yield: good / draws,
    ...shareInterval(good, draws),
    draws,
    broken: [...counts]
      .map(([limit, count]) => ({ limit, share: count / draws }))
      .sort((a, b) => b.share - a.share || a.limit.localeCompare(b.limit)),
    costly: costly(netlist, positions, judge, units, found),
    fromShelf: Object.fromEntries(drawnTypes.map((type) => [type, shelf.get(type)!.length])),
    notServing: notServing(netlist, channels, positions, judge, question.shelf),
    notes: notesOn(netlist, limits, positions, drawnTypes),
  };
}

function byType(valves: readonly ShelfValve[]): ReadonlyMap<string, readonly ShelfValve[]> {
  const types = new Map<string, ShelfValve[]>();
  for (const valve of valves) types.set(valve.type, [...(types.get(valve.type) ?? []), valve]);
  return types;
}

/** Parts looked at closely: those whose lack of spread would mend most of the units that fail. */
const mostCostly = 6;
/** Failed units that are tried with each part in turn. */
const mostTried = 60;

function costly(
  netlist: Netlist,
  positions: readonly ValvePosition[],
  judge: UnitJudge,
  units: readonly DrawnUnit[],
  found: readonly (readonly Broken[])[],
): VersionYield["costly"] {
  const bad = units.filter((_, i) => found[i]!.length > 0).slice(0, mostTried);
  if (bad.length === 0) return [];
  const isGood = (unit: DrawnUnit, parts: readonly string[]) =>
    judge.judge(withoutSpreadOf(unit, parts), true).length === 0;
  const inPosition = new Set(positions.flatMap(({ sections }) => Object.values(sections)));
  const things = [
    ...positions.map(({ position, sections }) => ({ part: position, parts: Object.values(sections) })),
    ...netlist.parts.filter(({ id }) => !inPosition.has(id)).map(({ id }) => ({ part: id, parts: [id] })),
  ].filter(({ parts }) => units.some((unit) => parts.some((id) => spreads(unit, id))));
  const likely = things
    .map((thing) => ({ ...thing, mended: bad.filter((unit) => isGood(unit, thing.parts)).length }))
    .filter(({ mended }) => mended > 0)
    .sort((a, b) => b.mended - a.mended)
    .slice(0, mostCostly);
  return likely
    .map(({ part, parts }) => {
      const changes = units.map((unit, i) => Number(isGood(unit, parts)) - Number(found[i]!.length === 0));
      const gain = changes.reduce((sum, change) => sum + change, 0) / units.length;
      const square = changes.reduce((sum, change) => sum + change ** 2, 0) / units.length;
      return { part, gain, doubt: 1.96 * Math.sqrt(Math.max(0, square - gain ** 2) / units.length) };
    })
    .filter(({ gain, doubt }) => gain > doubt)
    .sort((a, b) => b.gain - a.gain);
}

const spreads = (unit: DrawnUnit, id: string): boolean =>
  unit.values.has(id) || unit.factors.has(id) || unit.models.has(id);

function notServing(
  netlist: Netlist,
  channels: readonly ChannelEnds[],
  positions: readonly ValvePosition[],
  judge: UnitJudge,
  shelf: readonly ShelfValve[],
): VersionYield["notServing"] {
  const channelOf = new Map(netlist.parts.filter(isValve).map(({ id, channel }) => [id, channel]));
  return shelf.flatMap((valve) => {
    const places = positions.filter(({ type }) => type === valve.type);
    const tried = places.map((place) => {
      const parts = Object.values(place.sections);
      // A valve in one channel is balanced by another that is not yet chosen.
      const fed = new Set(parts.map((part) => channelOf.get(part)));
      const models = new Map<string, ShelfValve["models"][string]>();
      stand(valve, place, models);
      const broken = judge.judge(
        { models },
        channels.every(({ channel }) => fed.has(channel)),
      );
      return broken.map(({ words }) => `in ${place.position}: ${words}`);
    });
    if (tried.length === 0 || tried.some((reasons) => reasons.length === 0)) return [];
    return [{ valve: valve.id, type: valve.type, reasons: tried.flat().slice(0, 6) }];
  });
}

function notesOn(
  netlist: Netlist,
  { balance_dB, gain_dB }: UnitLimits,
  positions: readonly ValvePosition[],
  fromShelf: readonly string[],
): string[] {
  const notes: string[] = [];
  const points = (netlist.testPoints ?? []).some((point) => typeof point !== "string" && point.tolerance !== undefined);
  const limits = [
    "ratings of the valves",
    ...(points ? ["test points within their tolerance"] : []),
    ...(gain_dB === undefined ? [] : [`gain within ${gain_dB} dB of the version's`]),
    ...(balance_dB === undefined ? [] : [`channels within ${balance_dB} dB`]),
  ];
  notes.push(`a unit is good when it keeps: ${limits.join(", ")}`);
  const byTolerance = positions.filter(({ type }) => !fromShelf.includes(type)).map(({ position }) => position);
  if (byTolerance.length > 0) {
    notes.push(
      `${byTolerance.join(", ")}: too few measured valves of the type on the shelf; drawn by the net list's tolerance`,
    );
  }
  const exact = netlist.parts.filter(
    (part) =>
      (part.kind === "resistor" && part.tolerance === undefined) ||
      (isValve(part) && part.tolerance === undefined && !fromShelf.includes(part.type ?? "")),
  );
  if (exact.length > 0) {
    const some = exact
      .slice(0, 6)
      .map(({ id }) => id)
      .join(", ");
    notes.push(
      `taken as exact, for want of a tolerance: ${some}${exact.length > 6 ? ` and ${exact.length - 6} more` : ""}`,
    );
  }
  return notes;
}
