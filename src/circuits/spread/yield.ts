import { BadInput, quote } from "../../maths/badInput.ts";
import { shareInterval } from "../../maths/statistics/index.ts";
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
  const scratch = new Float64Array(units.lanes);
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
      for (const { tally, limit, read: readRating } of ratings) {
        const of = readRating(scratch);
        for (let l = 0; l < lanes; l++) {
          if (!found[l] || !(of[l]! > limit)) continue;
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
  readonly limit: number;
  readonly read: LaneReader;
}

/** One figure of every lane's unit, in a row of its own or written into `scratch`. */
type LaneReader = (scratch: Float64Array) => Float64Array;

function ratingsOf(units: UnitLanes): LaneRating[] {
  const { netlist } = units.circuit;
  const alone = units.devices.flatMap((device): LaneRating[] => {
    if (!isValve(device.part)) return [];
    return ratingLimits(device.part).map(({ of, what, limit }) => {
      return { tally: { of: device.part.id, what, count: 0 }, limit, read: readerOf(units, device, of) };
    });
  });
  const together = [...bottlesOf(netlist)].flatMap(([name, sections]): LaneRating[] => {
    const limit = bottleLimit_W(netlist, sections);
    if (limit === undefined) return [];
    const heats = units.devices
      .filter(({ device }) => sections.includes(device.part))
      .map((device) => readerOf(units, device, "dissipation_W"));
    const one = new Float64Array(units.lanes);
    return [
      {
        tally: { of: name, what: "plate dissipation of both sections", count: 0 },
        limit,
        read: (scratch) => heats.reduce((sum, heat) => addRows(sum, heat(one)), scratch.fill(0)),
      },
    ];
  });
  return [...alone, ...together, ...heaterRatings(units)];
}

function addRows(into: Float64Array, row: Float64Array): Float64Array {
  for (let l = 0; l < into.length; l++) into[l] = into[l]! + row[l]!;
  return into;
}

function heaterRatings(units: UnitLanes): LaneRating[] {
  const { circuit, elimination, lanes, pivotOfColumn } = units;
  const ground = new Float64Array(lanes);
  const rowOf = (node: string): Float64Array => {
    const unknown = circuit.unknownOf(node)!;
    if (unknown < 0) return ground;
    const from = pivotOfColumn[unknown]! * lanes;
    return elimination.answers.subarray(from, from + lanes);
  };
  return [...heatersOf(circuit.netlist)].flatMap(([id, heater]): LaneRating[] => {
    const part = circuit.netlist.parts.find((one) => one.id === id)!;
    if (!isValve(part)) return [];
    const ends =
      heater.by === "nodes"
        ? heater.between.map(rowOf)
        : [new Float64Array(lanes).fill(heater.by === "potential" ? heater.heater_V : 0)];
    const cathode = rowOf(part.cathode);
    return heaterToCathodeLimits(part).map(({ what, sign, limit }) => ({
      tally: { of: id, what, count: 0 },
      limit,
      read(scratch) {
        scratch.fill(Number.NEGATIVE_INFINITY);
        for (const end of ends) {
          for (let l = 0; l < lanes; l++) scratch[l] = Math.max(scratch[l]!, sign * (end[l]! - cathode[l]!));
        }
        return scratch;
      },
    }));
  });
}

/** One figure of a valve at rest. */
function readerOf(
  { lanes }: UnitLanes,
  { part, volts, amps }: UnitLanes["devices"][number],
  of: RatedFigure,
): LaneReader {
  const row = (from: Float64Array, electrode: number) => from.subarray(electrode * lanes, (electrode + 1) * lanes);
  const plate_V = row(volts, 0);
  const [plate_A, grid_A, screen_A] = [row(amps, 0), row(amps, 1), row(amps, 2)];
  const times =
    (a: Float64Array, b: Float64Array): LaneReader =>
    (scratch) => {
      for (let l = 0; l < lanes; l++) scratch[l] = a[l]! * b[l]!;
      return scratch;
    };
  switch (of) {
    case "plate_V":
      return () => plate_V;
    case "screen_V":
      return () => row(volts, 2);
    case "dissipation_W":
      return times(plate_A, plate_V);
    case "screenDissipation_W":
      return times(screen_A, row(volts, 2));
    case "plate_mA":
      return times(plate_A, new Float64Array(lanes).fill(1e3));
    case "cathode_mA": {
      const carried = part.kind === "pentode" ? [plate_A, grid_A, screen_A] : [plate_A, grid_A];
      return (scratch) => {
        scratch.fill(0);
        for (const each of carried) addRows(scratch, each);
        for (let l = 0; l < lanes; l++) scratch[l] = scratch[l]! * 1e3;
        return scratch;
      };
    }
  }
}

/** How far the farther end of the 95 % interval of a share lies from it (Clopper and Pearson). */
function shareDoubt(count: number, n: number): number {
  const { low, high } = shareInterval(count, n);
  return Math.max(count / n - low, high - count / n);
}
