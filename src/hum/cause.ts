/** What a hum line can come from. A valve is always named with the position it stands in. */
export type Cause =
  | { readonly cause: "mains" | "pick-up" | "amplifier" }
  | { readonly cause: "valve"; readonly position: string; readonly valve: string };

export type CauseName = Cause["cause"];

/** A share of a line's power, between honest bounds (95 %), and the odds that no other cause makes more of the line. */
export type CauseShare = Cause & {
  readonly share: number;
  readonly low: number;
  readonly high: number;
  readonly leads: number;
};

export interface Supply {
  readonly source: "building" | "regenerated";
  readonly frequency_Hz: number;
}

/** How the unit stood when a recording was made. */
export interface Setting {
  readonly supply: Supply;
  /** The supply's lines stand apart from the building's. */
  readonly offset: boolean;
  /** Position to the valve fitted there. */
  readonly valves: Readonly<Record<string, string>>;
}

/** In words, for people. */
export function causeInWords(cause: Cause): string {
  switch (cause.cause) {
    case "valve":
      return `valve ${cause.valve} at ${cause.position}`;
    case "amplifier":
      return "the amplifier itself";
    case "pick-up":
      return "pick-up of the building's field";
    case "mains":
      return "distortion of the building's mains";
  }
}

export function sameCause(a: Cause, b: Cause): boolean {
  if (a.cause !== "valve" || b.cause !== "valve") return a.cause === b.cause;
  return a.position === b.position && a.valve === b.valve;
}
