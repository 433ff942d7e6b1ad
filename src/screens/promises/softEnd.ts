import type { PromiseView } from "../../workshop/views.ts";
import { daysBetween } from "../common/calendar.ts";

export interface Moment {
  readonly day: number;
  /** Share of the runs in which the order is not done by then. */
  readonly stillHere: number;
}

/**
 * The ribbon's thickness over the coming days: 1 until the earliest runs end, one half at the even-odds day, a fifth at
 * 80 %, a twentieth at 95 %. Where it begins to thin and where it ends is drawn by eye, as far again as the known steps.
 */
export function softEnd({ p50, p80, p95 }: Pick<PromiseView, "p50" | "p80" | "p95">, now: string): readonly Moment[] {
  const [half, fifth, twentieth] = [p50, p80, p95].map((at) => Math.max(0, daysBetween(now, at))) as [
    number,
    number,
    number,
  ];
  const thins = Math.max(0, half - (fifth - half) * 1.2);
  const ends = twentieth + (twentieth - fifth) * 0.5;
  return [
    { day: 0, stillHere: 1 },
    { day: thins, stillHere: 1 },
    { day: half, stillHere: 0.5 },
    { day: fifth, stillHere: 0.2 },
    { day: twentieth, stillHere: 0.05 },
    { day: ends, stillHere: 0 },
  ];
}

/** Where a day lies on the strip, 0 to 1: near days are wider, so that this week stays readable beside next spring. */
export function placeOf(day: number, last: number): number {
  return Math.log1p(Math.max(0, day) / 4) / Math.log1p(Math.max(1, last) / 4);
}
