import { BadInput, quote } from "../maths/badInput.ts";
import { guard, type Verdict } from "../measurement/index.ts";

/** The two that are compared, read at the listener's end at one frequency and channel. */
export interface LevelPair {
  readonly at: string;
  readonly first_dB: number;
  readonly second_dB: number;
  /** 95 % half-width of each reading. */
  readonly doubt_dB: number;
  /** Whether the doubt is the same error in both, as of one meter moved over: then only its scatter counts. */
  readonly shared_dB?: number;
}

export interface LevelMatch {
  readonly state: Verdict;
  readonly pairs: readonly {
    readonly at: string;
    readonly difference_dB: number;
    readonly doubt_dB: number;
    readonly state: Verdict;
  }[];
  /** Gain to give the second so that the pairs agree on average, with its doubt. */
  readonly trim_dB: number;
  readonly trimDoubt_dB: number;
  /** The doubt a reading must have for these differences to be decided, where they are not. */
  readonly wouldDecide_dB?: number;
}

/**
 * Whether two amplifiers are set equally loud before anybody compares them.
 *
 *     difference = second − first,   doubt = √2·√(doubt² − shared²)
 *     proven     |difference| + doubt ≤ within,   refuted |difference| − doubt ≥ within
 *
 * @param within_dB  difference allowed; 0.1 dB is usual
 * @throws BadInput  no pairs, a negative doubt, a limit not above 0
 * @source  0.1 dB as the difference allowed: D. Clark, J. Audio Engineering Society 30 (1982) 330-338 (from memory)
 */
export function levelMatch(pairs: readonly LevelPair[], within_dB = 0.1): LevelMatch {
  if (pairs.length === 0) throw new BadInput("pairs", "no pairs", "at least one", "read both at 1 kHz");
  if (!(within_dB > 0 && within_dB <= 20))
    throw new BadInput("within_dB", quote(within_dB), "above 0, up to 20", "0.1 is usual");
  const judged = pairs.map(({ at, first_dB, second_dB, doubt_dB, shared_dB = 0 }, i) => {
    for (const [field, value] of Object.entries({ first_dB, second_dB })) {
      if (!Number.isFinite(value))
        throw new BadInput(`pairs[${i}].${field}`, quote(value), "a finite number", "read it again");
    }
    if (!(doubt_dB >= 0))
      throw new BadInput(`pairs[${i}].doubt_dB`, quote(doubt_dB), "0 or more", "leave the sign off");
    if (!(shared_dB >= 0 && shared_dB <= doubt_dB)) {
      throw new BadInput(
        `pairs[${i}].shared_dB`,
        quote(shared_dB),
        `0 to the doubt, ${doubt_dB}`,
        "it is part of the doubt",
      );
    }
    const difference_dB = second_dB - first_dB;
    const doubt = Math.SQRT2 * Math.sqrt(doubt_dB ** 2 - shared_dB ** 2);
    const { state } = guard({ value: difference_dB, doubt, low: -within_dB, high: within_dB });
    return { at, difference_dB, doubt_dB: doubt, state };
  });
  const states = judged.map(({ state }) => state);
  const state = states.includes("refuted") ? "refuted" : states.includes("undecided") ? "undecided" : "proven";
  const open = judged.filter((pair) => pair.state === "undecided");
  const room = Math.min(...open.map(({ difference_dB }) => Math.abs(within_dB - Math.abs(difference_dB))));
  return {
    state,
    pairs: judged,
    trim_dB: -judged.reduce((sum, { difference_dB }) => sum + difference_dB, 0) / judged.length,
    trimDoubt_dB: Math.hypot(...judged.map(({ doubt_dB }) => doubt_dB)) / judged.length,
    ...(open.length > 0 && room > 0 ? { wouldDecide_dB: room / Math.SQRT2 } : {}),
  };
}
