import type { Spread } from "./shop.ts";

/** A spread in milliseconds. */
export type Draw = Spread;

export interface PlannedStep {
  readonly name: string;
  /** Which waiting line it joins; −1 when it needs neither person nor place. */
  readonly line: number;
  readonly place: number;
  readonly isBatch: boolean;
  /** Runs by the clock and needs no hands: a repair then holds nothing. */
  readonly isUnattended: boolean;
  readonly work_ms: Draw;
  readonly failOdds: number;
  readonly failsOnce: boolean;
  readonly back: number;
  readonly repair_ms: number;
  /** Parts that hold it, as places in the plan's list. */
  readonly parts: readonly number[];
  /** The same parts as places among those of the model. */
  readonly uses: readonly number[];
}

/** Units that need the same person's skill and the same place wait in one line. */
export interface Line {
  readonly place: number;
  /** People who can serve it, in the order of the input; none when no person is needed. */
  readonly people: readonly number[];
  readonly needsPerson: boolean;
  readonly isBatch: boolean;
}

export interface PlannedUnit {
  readonly order: number;
  /** Tells its stream of chance from those of all other units, whatever else is open. */
  readonly label: string;
  readonly route: readonly PlannedStep[];
  readonly start_ms: number;
}

export interface PlannedPart {
  readonly id: string;
  readonly model: string;
  readonly step: string;
  readonly label: string;
  /** Orders it was bought for; left out, all of the model. */
  readonly orders?: ReadonlySet<string>;
  readonly isOrdered: boolean;
  readonly ordered_ms: number;
  readonly lead_ms: Draw;
}
