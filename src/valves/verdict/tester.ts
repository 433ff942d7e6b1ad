import { combined, reading, type Traced } from "./traced.ts";

export interface ReferenceReading {
  readonly time_h: number;
  readonly plate_mA: number;
}

/** What the tester reads of a true current, over time, as its reference valve shows it. */
export interface Tester {
  /** Reading over true current at a time; straight lines between the reference's readings, level beyond them. */
  factorAt(time_h: number): Traced;
  readonly lastFactor: Traced;
  readonly from_h: number;
  readonly to_h: number;
  readonly readings: number;
}

/** Readings taken at one time are averaged. Order does not matter. */
export function testerFrom(reference: readonly ReferenceReading[], referenceTrue_mA: number): Tester {
  const byTime = new Map<number, Traced[]>();
  reference.forEach((r, i) => {
    byTime.set(r.time_h, [...(byTime.get(r.time_h) ?? []), reading(`reference ${i}`, r.plate_mA / referenceTrue_mA)]);
  });
  const knots = [...byTime]
    .sort(([a], [b]) => a - b)
    .map(([time_h, all]) => {
      const mean = all.reduce((sum, r) => sum + r.value, 0) / all.length;
      return {
        time_h,
        factor: combined(
          mean,
          all.map((r) => [r, 1 / all.length] as const),
        ),
      };
    });
  const first = knots[0]!;
  const last = knots.at(-1)!;
  return {
    from_h: first.time_h,
    to_h: last.time_h,
    readings: reference.length,
    lastFactor: last.factor,
    factorAt(time_h) {
      if (time_h <= first.time_h) return first.factor;
      if (time_h >= last.time_h) return last.factor;
      const after = knots.findIndex((k) => k.time_h >= time_h);
      const [a, b] = [knots[after - 1]!, knots[after]!];
      const share = (time_h - a.time_h) / (b.time_h - a.time_h);
      return combined((1 - share) * a.factor.value + share * b.factor.value, [
        [a.factor, 1 - share],
        [b.factor, share],
      ]);
    },
  };
}
