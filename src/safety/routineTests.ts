import { BadInput, quote } from "../maths/badInput.ts";
import type { Verdict } from "../measurement/index.ts";
import { guard } from "../measurement/index.ts";

export interface RoutineTest {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** 95 % half-width. */
  readonly doubt: number;
  /** As adopted by the responsible person. */
  readonly limit: number;
  readonly kind: "max" | "min";
}

export interface TestVerdict {
  readonly state: Verdict;
  /** How far inside the limit the reading stands; negative outside. */
  readonly margin: number;
  /** Value that may be read at most (or at least) to be proven. */
  readonly acceptance: number;
  /** Chance that the true value is outside. */
  readonly riskFalseAccept: number;
}

/**
 * Judges one routine safety test with a guard band of one doubt.
 *
 *     max: proven at value + doubt ≤ limit, refuted at value − doubt > limit; min: mirrored; undecided else
 *
 * @throws BadInput  a number that is not finite, or a negative doubt, with the field inside the test
 * @remarks Limits are the caller's: which apply, and in what edition, is for the responsible person to say.
 * @source  JCGM 106:2012, guarded acceptance (from memory)
 */
export function judgeTest({ value, doubt, limit, kind }: RoutineTest): TestVerdict {
  for (const [name, number] of Object.entries({ value, doubt, limit })) {
    if (!Number.isFinite(number))
      throw new BadInput(name, quote(number), "a finite number", `give ${name} as a number`);
  }
  const { state, riskFalseAccept } = guard({ value, doubt, ...(kind === "max" ? { high: limit } : { low: limit }) });
  const margin = kind === "max" ? limit - value : value - limit;
  const standsOnBand = state === "refuted" && !(-margin > doubt + rounding(value, doubt, limit));
  return {
    state: standsOnBand ? (doubt > 0 ? "undecided" : "proven") : state,
    margin,
    acceptance: kind === "max" ? limit - doubt : limit + doubt,
    riskFalseAccept,
  };
}

/** A reading exactly one doubt outside is not yet refuted, however binary numbers round it. */
function rounding(value: number, doubt: number, limit: number): number {
  return doubt === 0 ? 0 : 2 * Number.EPSILON * Math.max(Math.abs(value), doubt, Math.abs(limit));
}

/** All together: one refuted test refutes, one undecided leaves undecided. */
export function judgeAll(states: readonly Verdict[]): Verdict {
  if (states.includes("refuted")) return "refuted";
  return states.includes("undecided") ? "undecided" : "proven";
}

/** What must be shown beside any result of these tests. */
export const safetyCautions: readonly string[] = [
  "Figures are guides; local codes and a licensed practitioner decide.",
  "Valve amplifiers hold lethal voltages after unplugging, and a bleeder can fail open: measure before touching.",
  "Earth continuity comes first: a broken earth gives a false pass of leakage. Stop at the first failure.",
  "Withstand voltage goes on the mains part only, in a guarded area; discharge the unit before it is opened.",
];
