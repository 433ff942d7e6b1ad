import type { Edit } from "./edit.ts";

/** One single fault a unit may have: what it is called, how often it is met, and what it does to the net list. */
export interface Fault {
  readonly part: string;
  readonly fault: string;
  /** Tells apart faults of one part and one name: the other part exchanged, the nodes bridged, the winding. */
  readonly detail?: string;
  readonly also?: FaultDetail;
  /** Relative odds before any reading; common practice of the repair bench, not statistics. */
  readonly prior: number;
  /** Whether direct voltages, alternating signals and the ohmmeter can feel it at all. */
  readonly felt: { readonly steady: boolean; readonly signal: boolean; readonly dead: boolean };
  /** Range of ln(severity), even odds within it; left out where the fault has no degrees. */
  readonly range?: readonly [low: number, high: number];
  /** Severities to begin from. */
  readonly starts: readonly number[];
  edit(severity: number): Edit;
  /** The severity in words of the bench. */
  words?(severity: number): string;
}

/** Fields that stand beside part and fault in the answer. */
export interface FaultDetail {
  readonly with?: string;
  readonly between?: readonly [string, string];
  readonly winding?: number;
}

export function faultName({ part, fault, detail }: Fault): string {
  return detail === undefined ? `${part} ${fault}` : `${part} ${fault} (${detail})`;
}
