import type { Calculate } from "../calculate.ts";
import type { Life } from "./life.ts";

/** What `timber.piece` answers, as far as the shop shows it. */
export interface Course {
  readonly state: "fitted" | "approach" | "unweighed";
  readonly reason?: string;
  readonly hours: readonly number[];
  readonly mean_pct: readonly number[];
  readonly low_pct: readonly number[];
  readonly high_pct: readonly number[];
  readonly surface_pct: readonly number[];
  readonly core_pct: readonly number[];
  readonly hoursToTarget?: number;
  readonly targetLow_h?: number;
  readonly targetHigh_h?: number;
  /** As each stage ends, those still to come too. */
  readonly stageEnds: readonly {
    readonly place: string;
    readonly hour: number;
    readonly mean_pct: number;
    readonly surface_pct: number;
    readonly core_pct: number;
    readonly leftUndone: number;
  }[];
  readonly checkIndex: number;
  readonly masses: readonly { readonly hour: number; readonly mass_g: number; readonly moisture_pct: number }[];
  readonly aside: readonly {
    readonly weighing: number;
    readonly hour: number;
    readonly mass_g: number;
    readonly why: string;
  }[];
  readonly nextWeighing?: {
    readonly hour: number;
    readonly why: string;
    /** 95 % half-widths of what it would narrow. */
    readonly before: number;
    readonly after: number;
  };
  readonly doubt: { readonly checkIndex: number; readonly hoursToTarget?: number };
  readonly notes: readonly string[];
}

interface Asked {
  readonly promise: Promise<void>;
  course?: Course;
  fault?: string;
}

/** So many answers are kept in memory; a shop's shelf and its past are fewer. */
const most = 4000;

/** Courses of pieces, each computed once for as long as nothing more is known of it. */
export class Courses {
  private readonly asked = new Map<string, Asked>();

  constructor(private readonly calculate: Calculate) {}

  /** Begins to compute a course, unless it is known or under way. */
  ask({ question }: Life): Asked {
    const key = JSON.stringify(question);
    const known = this.asked.get(key);
    if (known) return known;
    if (this.asked.size >= most) this.asked.clear();
    const fresh: { promise: Promise<void>; course?: Course; fault?: string } = { promise: Promise.resolve() };
    fresh.promise = this.calculate<Course>("timber.piece", question).then(
      (course) => {
        fresh.course = course;
      },
      (fault: Error) => {
        fresh.fault = fault.message;
      },
    );
    this.asked.set(key, fresh);
    return fresh;
  }
}

const hour_ms = 3_600_000;

/** A course at some moment, between the hours that were asked for. */
export function courseAt(course: Course, { origin_ms }: Life, at_ms: number) {
  const hour = (at_ms - origin_ms) / hour_ms;
  const { hours } = course;
  const next = Math.min(
    hours.length - 1,
    Math.max(
      1,
      hours.findIndex((one) => one >= hour),
    ),
  );
  const i = hours.some((one) => one >= hour) ? next : hours.length - 1;
  const [a, b] = [hours[i - 1] ?? 0, hours[i] ?? 0];
  const share = b > a ? Math.min(1, Math.max(0, (hour - a) / (b - a))) : 1;
  const between = (of: readonly number[]) => (of[i - 1] ?? of[i]!) + share * (of[i]! - (of[i - 1] ?? of[i]!));
  return {
    mean_pct: between(course.mean_pct),
    low_pct: between(course.low_pct),
    high_pct: between(course.high_pct),
    surface_pct: between(course.surface_pct),
    core_pct: between(course.core_pct),
  };
}
