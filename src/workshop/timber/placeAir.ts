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
  const inside = all.filter(({ at_ms }) => at_ms >= from_ms && at_ms <= to_ms);
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
  const log = logOf(yard, place).filter(({ at_ms }) => at_ms <= before_ms);
  const last_ms = log.at(-1)?.at_ms;
  if (last_ms === undefined) return undefined;
  const { temperature_C, humidity_pct } = meanOf(log.filter(({ at_ms }) => at_ms > last_ms - 24 * hour_ms));
  return { temperature_C: Number(temperature_C.toFixed(1)), humidity_pct: Number(humidity_pct.toFixed(1)) };
}

const sorted = new WeakMap<Yard, Map<string, { readonly key: string; readonly log: readonly AirReading[] }>>();

/** A place's whole log by the clock, sorted once for as long as nothing is added to it. */
function logOf(yard: Yard, place: string): readonly AirReading[] {
  const entries = yard.airOf(place);
  const key = entries.map(({ id }) => id).join(" ");
  const known = sorted.get(yard) ?? new Map();
  sorted.set(yard, known);
  const kept = known.get(place);
  if (kept?.key === key) return kept.log;
  const log = entries
    .flatMap(({ body }) =>
      body.readings.map(({ at, temperature_C, humidity_pct }) => ({
        at_ms: Date.parse(at),
        temperature_C,
        humidity_pct,
      })),
    )
    .toSorted((one, other) => one.at_ms - other.at_ms);
  known.set(place, { key, log });
  return log;
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
