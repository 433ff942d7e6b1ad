import { chiSquaredCdf } from "../maths/statistics/index.ts";

export interface BalanceAt {
  readonly position: number | string;
  readonly difference_dB: number;
  readonly doubt_dB: number;
}

/** Does the difference of the channels go with the position of the volume control? */
export interface BalanceChange {
  readonly state: "changes" | "stays" | "undecided";
  /** The part that every position shares: gain of valves and circuit. */
  readonly common_dB: number;
  /** Largest less smallest difference: what the control adds. */
  readonly spread_dB: number;
  readonly spreadDoubt_dB: number;
  readonly reason: string;
}

/** Contacts make the same position read differently by this much, 95 %. */
const repeats_dB = 0.03;
/** A spread below this is no fault of anything. */
const matters_dB = 0.1;
const falseAlarm = 0.01;

/**
 * Tells control tracking from valves: valves differ by the same ratio wherever the control stands; the two tracks of a
 * control differ by another amount at each position.
 *
 *     χ² = Σ ((d − d̄)/σ)² on positions − 1 degrees of freedom
 */
export function balanceChange(byPosition: readonly BalanceAt[]): BalanceChange | undefined {
  const positions = new Set(byPosition.map(({ position }) => position));
  if (positions.size < 2) return undefined;
  const sd = byPosition.map(({ doubt_dB }) => Math.hypot(doubt_dB, repeats_dB) / 1.96);
  const weight = sd.reduce((sum, s) => sum + 1 / s ** 2, 0);
  const common_dB = byPosition.reduce((sum, { difference_dB }, i) => sum + difference_dB / sd[i]! ** 2, 0) / weight;
  const square = byPosition.reduce((sum, { difference_dB }, i) => sum + ((difference_dB - common_dB) / sd[i]!) ** 2, 0);
  const p = 1 - chiSquaredCdf(square, byPosition.length - 1);
  const differences = byPosition.map(({ difference_dB }) => difference_dB);
  const highest = differences.indexOf(Math.max(...differences));
  const lowest = differences.indexOf(Math.min(...differences));
  const spread_dB = differences[highest]! - differences[lowest]!;
  const spreadDoubt_dB = 1.96 * Math.hypot(sd[highest]!, sd[lowest]!);
  const told = { common_dB, spread_dB, spreadDoubt_dB };
  if (p < falseAlarm && spread_dB > matters_dB) {
    return {
      ...told,
      state: "changes",
      reason: `The difference moves by ${spread_dB.toFixed(2)} dB over the positions, more than its doubt: the control's tracks differ. What valves add stays alike at every position.`,
    };
  }
  if (spread_dB + spreadDoubt_dB < 5 * matters_dB && (p >= falseAlarm || spread_dB <= matters_dB)) {
    return {
      ...told,
      state: "stays",
      reason: `The difference stays at ${common_dB.toFixed(2)} dB at every position: it is not the control but valves or circuit.`,
    };
  }
  return {
    ...told,
    state: "undecided",
    reason: `The positions differ by ${spread_dB.toFixed(2)} dB with a doubt of ${spreadDoubt_dB.toFixed(2)} dB; record for longer or at a higher level.`,
  };
}
