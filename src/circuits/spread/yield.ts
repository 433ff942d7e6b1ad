import { BadInput, quote } from "../../maths/badInput.ts";
import { bottlesOf } from "../bottles.ts";
import { heatersOf } from "../heaters.ts";
import { isValve } from "../netlist.ts";
import { bottleLimit_W, heaterToCathodeLimits, type RatedFigure, ratingLimits } from "../ratings.ts";
import type { UnitLanes } from "./unitLanes.ts";

/** Limits by point; a side left out is open. */
export type Limits = Readonly<
  Record<string, { readonly low_V?: number | undefined; readonly high_V?: number | undefined }>
>;

/** What spoils units, and how many it is found in. */
interface Spoiled {
  /** Point, part or bottle. */
  readonly of: string;
  readonly what: string;
  /** Of all units; a unit may be spoiled by several. */
  readonly share: number;
}

export interface YieldAnswer {
  /** Share of units inside every limit and rating; only where limits are given. */
  readonly yield?: number;
  /** Share of units that keep every rating of the catalogue; only where a valve has ratings. */
  readonly ratingsKept?: number;
  readonly doubt?: { readonly yield?: number; readonly ratingsKept?: number };
  readonly spoiledBy: readonly Spoiled[];
}

export interface UnitJudge {
  /** Counts the units of the first `lanes` lanes that found a rest (1), from their readings by point. */
  take(lanes: number, read: readonly Float64Array[], found: Uint8Array): void;
  answer(samples: number): YieldAnswer;
}

/** @throws BadInput  limits for a point that is not there, or the wrong way round */
export function unitJudge(
  units: UnitLanes,
  points: readonly { readonly name: string; readonly tolerance?: number | undefined }[],
  nominal: readonly number[],
  limits: Limits | undefined,
): UnitJudge {
  const windows = windowsOf(points, nominal, limits);
  const ratings = ratingsOf(units);
  const spoiled = [...windows.flatMap(({ sides }) => sides), ...ratings.map(({ tally }) => tally)];
  let good = 0;
  let kept = 0;
  return {
    take(lanes, read, found) {
      const within = found.slice(0, lanes);
      for (const { point, low_V, high_V, sides } of windows) {
        const of = read[point]!;
        for (let l = 0; l < lanes; l++) {
          if (!found[l] || (of[l]! >= low_V && of[l]! <= high_V)) continue;
          sides[of[l]! < low_V ? 0 : 1].count++;
          within[l] = 0;
        }
      }
      const rated = found.slice(0, lanes);
      for (const { tally, exceeds } of ratings) {
        for (let l = 0; l < lanes; l++) {
          if (!found[l] || !exceeds(l)) continue;
          tally.count++;
          rated[l] = 0;
        }
      }
      for (let l = 0; l < lanes; l++) {
        kept += rated[l]!;
        good += rated[l]! & within[l]!;
      }
    },
    answer(samples) {
      return {
        ...(windows.length > 0 ? { yield: good / samples } : {}),
        ...(ratings.length > 0 ? { ratingsKept: kept / samples } : {}),
        doubt: {
          ...(windows.length > 0 ? { yield: shareDoubt(good, samples) } : {}),
          ...(ratings.length > 0 ? { ratingsKept: shareDoubt(kept, samples) } : {}),
        },
        spoiledBy: spoiled
          .filter(({ count }) => count > 0)
          .map(({ of, what, count }) => ({ of, what, share: count / samples }))
          .sort((a, b) => b.share - a.share),
      };
    },
  };
}

interface Tally {
  readonly of: string;
  readonly what: string;
  count: number;
}

interface PointWindow {
  readonly point: number;
  readonly low_V: number;
  readonly high_V: number;
  readonly sides: readonly [Tally, Tally];
}

function windowsOf(
  points: readonly { readonly name: string; readonly tolerance?: number | undefined }[],
  nominal: readonly number[],
  limits: Limits | undefined,
): PointWindow[] {
  for (const [name, { low_V, high_V }] of Object.entries(limits ?? {})) {
    if (!points.some((point) => point.name === name)) {
      throw new BadInput(
        `limits.${name}`,
        quote(name),
        `a test point (${points
          .slice(0, 12)
          .map((point) => point.name)
          .join(", ")})`,
        "correct the point's name",
      );
    }
    if (low_V !== undefined && high_V !== undefined && low_V > high_V) {
      throw new BadInput(`limits.${name}.low_V`, String(low_V), `at most high_V, ${high_V}`, "exchange the two");
    }
  }
  return points.flatMap(({ name, tolerance }, point): PointWindow[] => {
    const own = limits?.[name];
    if (own === undefined && tolerance === undefined) return [];
    const half_V = Math.abs(nominal[point]!) * (tolerance ?? 0);
    return [
      {
        point,
        low_V: own ? (own.low_V ?? Number.NEGATIVE_INFINITY) : nominal[point]! - half_V,
        high_V: own ? (own.high_V ?? Number.POSITIVE_INFINITY) : nominal[point]! + half_V,
        sides: [
          { of: name, what: "voltage too low", count: 0 },
          { of: name, what: "voltage too high", count: 0 },
        ],
      },
    ];
  });
}

interface LaneRating {
  readonly tally: Tally;
  exceeds(lane: number): boolean;
}

function ratingsOf(units: UnitLanes): LaneRating[] {
  const { netlist } = units.circuit;
  const alone = units.devices.flatMap((device): LaneRating[] => {
    if (!isValve(device.part)) return [];
    return ratingLimits(device.part).map(({ of, what, limit }) => {
      const value = readerOf(units, device, of);
      return { tally: { of: device.part.id, what, count: 0 }, exceeds: (lane) => value(lane) > limit };
    });
  });
  const together = [...bottlesOf(netlist)].flatMap(([name, sections]): LaneRating[] => {
    const limit = bottleLimit_W(netlist, sections);
    if (limit === undefined) return [];
    const heats = units.devices
      .filter(({ device }) => sections.includes(device.part))
      .map((device) => readerOf(units, device, "dissipation_W"));
    return [
      {
        tally: { of: name, what: "plate dissipation of both sections", count: 0 },
        exceeds: (lane) => heats.reduce((sum, heat) => sum + heat(lane), 0) > limit,
      },
    ];
  });
  return [...alone, ...together, ...heaterRatings(units)];
}

function heaterRatings(units: UnitLanes): LaneRating[] {
  const { circuit, elimination, lanes, pivotOfColumn } = units;
  return [...heatersOf(circuit.netlist)].flatMap(([id, heater]): LaneRating[] => {
    const part = circuit.netlist.parts.find((one) => one.id === id)!;
    if (!isValve(part)) return [];
    const at = (node: string): number => {
      const unknown = circuit.unknownOf(node)!;
      return unknown < 0 ? -1 : pivotOfColumn[unknown]! * lanes;
    };
    const ends = heater.by === "nodes" ? heater.between.map(at) : [];
    const held_V = heater.by === "potential" ? heater.heater_V : 0;
    const cathode = at(part.cathode);
    return heaterToCathodeLimits(part).map(({ what, sign, limit }) => ({
      tally: { of: id, what, count: 0 },
      exceeds: (lane) => {
        const { answers } = elimination;
        const cathode_V = cathode < 0 ? 0 : answers[cathode + lane]!;
        if (ends.length === 0) return sign * (held_V - cathode_V) > limit;
        for (const end of ends) if (sign * ((end < 0 ? 0 : answers[end + lane]!) - cathode_V) > limit) return true;
        return false;
      },
    }));
  });
}

/** One figure of a valve at rest, by lane. */
function readerOf(
  { lanes }: UnitLanes,
  { part, volts, amps }: UnitLanes["devices"][number],
  of: RatedFigure,
): (lane: number) => number {
  const screen = 2 * lanes;
  switch (of) {
    case "plate_V":
      return (lane) => volts[lane]!;
    case "screen_V":
      return (lane) => volts[screen + lane]!;
    case "dissipation_W":
      return (lane) => amps[lane]! * volts[lane]!;
    case "screenDissipation_W":
      return (lane) => amps[screen + lane]! * volts[screen + lane]!;
    case "plate_mA":
      return (lane) => amps[lane]! * 1e3;
    case "cathode_mA":
      return part.kind === "pentode"
        ? (lane) => (amps[lane]! + amps[lanes + lane]! + amps[screen + lane]!) * 1e3
        : (lane) => (amps[lane]! + amps[lanes + lane]!) * 1e3;
  }
}

/** 95 % half-width of a share counted in n, by Wilson's interval. */
function shareDoubt(count: number, n: number): number {
  const z = 1.96;
  const p = count / n;
  return (z / (1 + (z * z) / n)) * Math.sqrt((p * (1 - p)) / n + (z * z) / (4 * n * n));
}
