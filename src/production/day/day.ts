import type { Counted, Odds } from "../odds.ts";
import type { Calendar, Person } from "../shop.ts";
import type { WorkingHours } from "../workingHours.ts";

export type Danger = "none" | "dust" | "hot" | "mains" | "high-voltage";

/** One fault that a check may find. */
export interface Suspected {
  readonly fault: string;
  /** Odds that it is there: a number, or what the shop counted. */
  readonly odds: number | Counted;
  /** Odds that the check finds it where it is there; 1 if left out. */
  readonly finds?: number | Counted;
  /** Hours that it costs found now, and found where it would be found else. */
  readonly now_h: number;
  readonly later_h: number;
}

export interface Task {
  readonly id: string;
  /** What it is done on; one thing at a time goes on with it. */
  readonly unit?: string;
  readonly skill: string;
  readonly hands_min: number;
  /** Goes on by itself afterwards, such as a heat run or a soak. */
  readonly wait_h?: number;
  /** May be broken off when hands go home, and go on the next day. */
  readonly splits?: boolean;
  readonly place?: string;
  readonly danger?: Danger;
  /** Not before. */
  readonly ready?: string;
  /** Among equals the earlier date goes first. */
  readonly due?: string;
  readonly faults?: readonly Suspected[];
}

export interface Hands extends Person {
  /** Dangers this person may meet; all if left out. */
  readonly dangers?: readonly Danger[];
}

export interface DayInput {
  readonly now: string;
  readonly timeZone?: string;
  readonly calendars: Readonly<Record<string, Calendar>>;
  readonly people: readonly Hands[];
  /** Free slots at places; a place not named holds one. */
  readonly free?: Readonly<Record<string, number>>;
  readonly tasks: readonly Task[];
  readonly limits?: {
    /** The longest a check may keep a unit waiting by itself. */
    readonly wait_h?: number;
    /** Lets somebody work on live parts with nobody else at work. */
    readonly alone?: boolean;
  };
  /** What an hour costs, so that hours are told in money too. */
  readonly hour_cents?: number;
  readonly currency?: string;
  /** Tasks listed for each pair of hands, 3 if left out. */
  readonly depth?: number;
}

export interface Worth {
  readonly saves_h: number;
  readonly saves_h_per_min: number;
  /** Faults looked for besides the chief one. */
  readonly others: number;
  /** The fault that most of it comes from. */
  readonly chief?: {
    readonly fault: string;
    readonly odds: Odds;
    readonly finds: Odds;
    readonly now_h: number;
    readonly later_h: number;
    readonly records?: Counted;
  };
}

export interface Planned extends Worth {
  readonly task: string;
  readonly start: string;
  readonly why: string;
}

export interface BeforeHome {
  readonly task: string;
  /** Begun later, it would not be under way before these hands go home. */
  readonly latest: string;
  readonly ripe: string;
  /** When it would be ripe were it begun tomorrow. */
  readonly tomorrow: string;
  /** Hours at work that the unit gains by it. */
  readonly gains_h: number;
  readonly why: string;
}

export interface DayPlan {
  readonly hands: readonly {
    readonly person: string;
    /** When they go home; left out when they are not at work any more today. */
    readonly home?: string;
    readonly next: readonly Planned[];
    readonly beforeHome: readonly BeforeHome[];
  }[];
  /** What nobody can do today, and why. */
  readonly blocked: readonly { readonly task: string; readonly why: string }[];
}

export interface Job {
  readonly id: string;
  readonly unit?: string;
  readonly skill: string;
  readonly hands_min: number;
  readonly wait_h: number;
  readonly splits: boolean;
  readonly place?: string;
  readonly danger: Danger;
  readonly ready: number;
  readonly due: number;
  readonly worth: Worth;
}

export type Shift = readonly [start: number, end: number];

export interface Worker {
  readonly id: string;
  readonly skills: readonly string[];
  readonly dangers?: readonly Danger[];
  readonly hours: WorkingHours;
  /** What is left of today, in milliseconds from now. */
  readonly shifts: readonly Shift[];
  readonly home: number | undefined;
}
