/** How timber really is in the demo, kept apart and read only to keep score. */
export interface TimberTruth {
  /** Moisture of every board that stands in the shop now. */
  readonly boards: readonly { readonly piece: string; readonly mean_pct: number }[];
  readonly cases: readonly {
    readonly unit: string;
    readonly verdict: "proven" | "refuted";
    /** Words that its remedy must have. */
    readonly remedy: readonly string[];
    readonly story: string;
  }[];
  readonly cracks: {
    readonly cracked: number;
    readonly firstNight: number;
    readonly secondDay: number;
    /** Of the cracked, the share that held more than this as they were laid on the plate. */
    readonly wet_pct: number;
    readonly wetShare: number;
    readonly story: string;
  };
}
