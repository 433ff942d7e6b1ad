import type { Evidence } from "../../claims/evidence.ts";
import type { Yard } from "../../claims/timber/yard.ts";

export interface AirReading {
  readonly at_ms: number;
  readonly temperature_C: number;
  readonly humidity_pct: number;
}

const hour_ms = 3_600_000;

/** Air of a room drifts with the weather, that of a chamber with its door. */
const grain_h = { room: 168, outside: 168, chamber: 12, plate: 12, amplifier: 12 } as const;
/** So many means a stay at most. */
const mostMeans = 40;

/**
 * What was logged of a place between two moments, as means of even spans, so that a reading more in a span that is
 * long over changes nothing else. Without a reading in between, the nearest one stands for all of it.
 */
export function airBetween(yard: Yard, place: string, from_ms: number, to_ms: number): readonly AirReading[] {
  const what = yard.places.get(place)?.what ?? "room";
  const all = logOf(yard, place);
  if (all.length === 0) return [];
  const inside = all.slice(
    firstThat(all, ({ at_ms }) => at_ms >= from_ms),
    firstThat(all, ({ at_ms }) => at_ms > to_ms),
  );
  if (inside.length === 0) {
    const middle_ms = (from_ms + to_ms) / 2;
    return [all.reduce((a, b) => (Math.abs(b.at_ms - middle_ms) < Math.abs(a.at_ms - middle_ms) ? b : a))];
  }
  let span_h: number = grain_h[what];
  while ((to_ms - from_ms) / hour_ms / span_h > mostMeans) span_h *= 2;
  const spans = new Map<number, AirReading[]>();
  for (const reading of inside) {
    const span = Math.floor(reading.at_ms / hour_ms / span_h);
    spans.set(span, [...(spans.get(span) ?? []), reading]);
  }
  return [...spans.values()].map(meanOf);
}

/** The newest air of a place. */
export function newestAir(yard: Yard, place: string): AirReading | undefined {
  return logOf(yard, place).at(-1);
}

/** Mean air of a place over the last day that was logged, to a tenth. */
export function meanAir(yard: Yard, place: string, before_ms: number) {
  const all = logOf(yard, place);
  const end = firstThat(all, ({ at_ms }) => at_ms > before_ms);
  const last_ms = all[end - 1]?.at_ms;
  if (last_ms === undefined) return undefined;
  const begin = firstThat(all, ({ at_ms }) => at_ms > last_ms - 24 * hour_ms);
  const { temperature_C, humidity_pct } = meanOf(all.slice(begin, end));
  return { temperature_C: Number(temperature_C.toFixed(1)), humidity_pct: Number(humidity_pct.toFixed(1)) };
}

const moments = new WeakMap<Evidence<"air">, readonly number[]>();

/** When a log's readings were taken, as they stand in it; an entry never changes. */
export function momentsOf(log: Evidence<"air">): readonly number[] {
  const known = moments.get(log) ?? log.body.readings.map(({ at }) => Date.parse(at));
  moments.set(log, known);
  return known;
}

const sorted = new WeakMap<readonly Evidence<"air">[], readonly AirReading[]>();

/** A place's whole log by the clock, sorted once for as long as nothing is added to it. */
function logOf(yard: Yard, place: string): readonly AirReading[] {
  const entries = yard.airOf(place);
  const known = sorted.get(entries);
  if (known) return known;
  const log = entries
    .flatMap((log) =>
      log.body.readings.map(({ temperature_C, humidity_pct }, i) => ({
        at_ms: momentsOf(log)[i]!,
        temperature_C,
        humidity_pct,
      })),
    )
    .toSorted((one, other) => one.at_ms - other.at_ms);
  sorted.set(entries, log);
  return log;
}

/** Where a log begins to be so, found by halving. */
function firstThat(log: readonly AirReading[], isSo: (one: AirReading) => boolean): number {
  let [low, high] = [0, log.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isSo(log[middle]!)) high = middle;
    else low = middle + 1;
  }
  return low;
}

function meanOf(readings: readonly AirReading[]): AirReading {
  const mean = (of: (one: AirReading) => number) =>
    Number((readings.reduce((sum, one) => sum + of(one), 0) / readings.length).toFixed(2));
  return {
    at_ms: mean(({ at_ms }) => at_ms),
    temperature_C: mean(({ temperature_C }) => temperature_C),
    humidity_pct: mean(({ humidity_pct }) => humidity_pct),
  };
}
