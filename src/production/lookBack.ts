import { BadInput, quote } from "../maths/badInput.ts";
import { summary, tQuantile } from "../maths/statistics/index.ts";

/** A fault of the past: the first stage that could have shown it, the one that did, and what it took. */
export interface FoundFault {
  readonly unit: string;
  readonly fault: string;
  readonly possible: string;
  readonly found: string;
  readonly repair_h: number;
  readonly cost_cents: number;
}

/** Faults of one sort found at one stage that an earlier one could have shown. */
export interface Arrow {
  readonly fault: string;
  readonly found: string;
  readonly possible: string;
  readonly faults: number;
  readonly units: readonly string[];
  /** What they took, hands and money. */
  readonly spent_h: number;
  readonly spent_cents: number;
  /** Of the same sort, how many were found as early as they could be. */
  readonly early: number;
  /** What finding them there would have saved, with 95 % intervals; left out where too few were ever found there. */
  readonly saved_h?: number;
  readonly savedLow_h?: number;
  readonly savedHigh_h?: number;
  readonly saved_cents?: number;
  readonly savedLow_cents?: number;
  readonly savedHigh_cents?: number;
  /** Silent when the interval holds zero, undecided when nothing was found early to compare with. */
  readonly state: "saves" | "silent" | "undecided";
}

export interface LookBack {
  readonly arrows: readonly Arrow[];
  /** Rungs in the order of work, with how many faults each found and how many could first have been seen there. */
  readonly rungs: readonly {
    readonly stage: string;
    readonly found: number;
    readonly possible: number;
    readonly spent_h: number;
  }[];
  readonly faults: number;
  readonly late: number;
}

/** A mean of fewer says nothing. */
const fewest = 3;

/**
 * From where faults were found to where they could have been, in hours and money.
 *
 *     saved = n·(mean spent on those found late − mean on the same sort found early)
 *
 * with Welch's interval of the difference of the two means.
 *
 * @param stages  in the order of work
 * @throws BadInput  a stage that is not among them, or a fault found before it could be
 * @source  B. L. Welch, Biometrika 34 (1947) 28-35 (from memory)
 * @remarks That the early finds are like the late ones is taken for granted; hard ones may be found late because they
 *   are hard. Whether a check there would pay is another question, production.where.
 */
export function lookBack(stages: readonly string[], faults: readonly FoundFault[]): LookBack {
  const at = new Map(stages.map((stage, i) => [stage, i]));
  for (const [i, fault] of faults.entries()) {
    for (const field of ["possible", "found"] as const) {
      if (at.has(fault[field])) continue;
      throw new BadInput(
        `faults[${i}].${field}`,
        `${quote(fault[field])} of unit ${quote(fault.unit)}`,
        `one of the stages: ${stages.map((stage) => quote(stage)).join(", ")}`,
        "name one of them, or add it to stages",
      );
    }
    if (at.get(fault.possible)! <= at.get(fault.found)!) continue;
    throw new BadInput(
      `faults[${i}].possible`,
      `${quote(fault.possible)} of unit ${quote(fault.unit)}`,
      `a stage up to ${quote(fault.found)}, where it was found`,
      "name the first stage that could have shown it",
    );
  }
  const late = faults.filter(({ possible, found }) => possible !== found);
  const groups = new Map<string, FoundFault[]>();
  for (const fault of late) {
    const key = JSON.stringify([fault.fault, fault.possible, fault.found]);
    groups.set(key, [...(groups.get(key) ?? []), fault]);
  }
  const arrows = [...groups.values()].map((group) => {
    const { fault, possible } = group[0]!;
    return arrowOf(
      group,
      faults.filter((one) => one.fault === fault && one.found === possible),
    );
  });
  return {
    arrows: arrows.toSorted((a, b) => b.spent_cents - a.spent_cents || b.spent_h - a.spent_h),
    rungs: stages.map((stage) => {
      const here = faults.filter(({ found }) => found === stage);
      return {
        stage,
        found: here.length,
        possible: faults.filter(({ possible }) => possible === stage).length,
        spent_h: here.reduce((sum, { repair_h }) => sum + repair_h, 0),
      };
    }),
    faults: faults.length,
    late: late.length,
  };
}

function arrowOf(late: readonly FoundFault[], early: readonly FoundFault[]): Arrow {
  const { fault, found, possible } = late[0]!;
  const total = (of: (one: FoundFault) => number) => late.reduce((sum, one) => sum + of(one), 0);
  const hours = difference(late, early, ({ repair_h }) => repair_h);
  const cents = difference(late, early, ({ cost_cents }) => cost_cents);
  return {
    fault,
    found,
    possible,
    faults: late.length,
    units: late.map(({ unit }) => unit),
    spent_h: total(({ repair_h }) => repair_h),
    spent_cents: total(({ cost_cents }) => cost_cents),
    early: early.length,
    ...(hours && { saved_h: hours.mean, savedLow_h: hours.low, savedHigh_h: hours.high }),
    ...(cents && { saved_cents: cents.mean, savedLow_cents: cents.low, savedHigh_cents: cents.high }),
    state: hours && cents ? (hours.low > 0 || cents.low > 0 ? "saves" : "silent") : "undecided",
  };
}

/** n·(mean late − mean early) with Welch's 95 % interval. */
function difference(
  late: readonly FoundFault[],
  early: readonly FoundFault[],
  of: (one: FoundFault) => number,
): { readonly mean: number; readonly low: number; readonly high: number } | undefined {
  if (late.length < fewest || early.length < fewest) return undefined;
  const [a, b] = [summary(late.map(of)), summary(early.map(of))];
  const [va, vb] = [a.sd ** 2 / a.n, b.sd ** 2 / b.n];
  const mean = a.mean - b.mean;
  const variance = va + vb;
  const freedom = variance > 0 ? variance ** 2 / (va ** 2 / (a.n - 1) + vb ** 2 / (b.n - 1)) : 1;
  const reach = variance > 0 ? tQuantile(0.975, freedom) * Math.sqrt(variance) : 0;
  return { mean: a.n * mean, low: a.n * (mean - reach), high: a.n * (mean + reach) };
}
