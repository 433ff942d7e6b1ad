import type { Figure } from "./answer.ts";

/** Pairs of readings in a row from which an instrument's habit of repeating itself is known. */
const pairsNeeded = 12;
/** Odds of such a run of equal readings below which it is called stuck. */
const leastOdds = 1e-6;
const mostKept = 200;

export interface Habit {
  /** Readings in the order they came, the newest last. */
  readonly raw: readonly string[];
  /** When the newest run of equal readings began. */
  readonly since: string;
  readonly clock?: string;
}

export const noHabit: Habit = { raw: [], since: "" };

export type Stuck =
  | { readonly is: false }
  | { readonly is: "stuck"; readonly times: number; readonly since: string }
  | { readonly is: "clock stands"; readonly since: string };

/**
 * Whether a reading repeats those before it to the last digit more often than this instrument does.
 *
 *     p = (equal pairs + 1)/(pairs + 2) of the readings before the run;  stuck when p^repeats < 10⁻⁶
 *
 * An instrument of few digits that mostly shows the same is thus given long, a noisy one is named after a few. Where
 * it prints a clock, that clock must move.
 *
 * @remarks Readings of the run itself say nothing of the habit; before twelve pairs nothing is said at all.
 */
export function stuckBy(habit: Habit, figure: Pick<Figure, "raw" | "clock">): Stuck {
  if (figure.clock !== undefined && figure.clock === habit.clock) return { is: "clock stands", since: habit.since };
  const repeats = runOf(habit.raw, figure.raw);
  const before = habit.raw.slice(0, habit.raw.length - repeats);
  const pairs = Math.max(0, before.length - 1);
  if (repeats === 0 || pairs < pairsNeeded) return { is: false };
  const equal = before.filter((text, i) => i > 0 && text === before[i - 1]).length;
  const odds = ((equal + 1) / (pairs + 2)) ** repeats;
  return odds < leastOdds ? { is: "stuck", times: repeats + 1, since: habit.since } : { is: false };
}

/** The habit with one more reading. */
export function withReading(habit: Habit, figure: Pick<Figure, "raw" | "clock">, at: string): Habit {
  const isSame = habit.raw.at(-1) === figure.raw;
  const raw = [...habit.raw, figure.raw];
  // Of a long run the readings before it are kept: they alone tell the habit.
  const run = runOf(habit.raw, figure.raw) + 1;
  const kept = raw.length > mostKept + run ? raw.slice(raw.length - mostKept - run) : raw;
  return {
    raw: kept,
    since: isSame ? habit.since : at,
    ...(figure.clock !== undefined && { clock: figure.clock }),
  };
}

function runOf(raw: readonly string[], text: string): number {
  let run = 0;
  while (run < raw.length && raw[raw.length - 1 - run] === text) run += 1;
  return run;
}
