export type FigureGroup = "points" | "valves" | "sound" | "noise" | "heat" | "cost" | "yield";

/** One figure of a version, found again in other versions by its key. */
export interface Figure {
  readonly key: string;
  readonly group: FigureGroup;
  /** What it is of: a test point, a valve, a load. */
  readonly of: string;
  /** The channel it is in, where it is in one. */
  readonly where?: string;
  /** Name ending in its unit. */
  readonly quantity: string;
  readonly value: number;
  /** 95 % half-width, where it is estimated from draws. */
  readonly doubt?: number;
  /** 99 % of good units lie between, where it was drawn. */
  readonly low?: number;
  readonly high?: number;
  /** Greatest value the rating allows, sign aside. */
  readonly most?: number;
  /** Figures of equal twin differ only by channel or section, and may share a line where they agree. */
  readonly twin: string;
}
