interface Read {
  readonly value: number;
  /** 95 % half-width. */
  readonly doubt: number;
}

/**
 * Where a reading lies against what good units give. A window narrower than the meter can tell is widened by the
 * meter's doubt: more can't be asked of it.
 */
export function windowStanding(
  { value, doubt }: Read,
  { low, high }: { readonly low: number; readonly high: number },
): "inside" | "outside" | "undecided" {
  const give = high - low < 2 * doubt ? doubt : 0;
  if (value >= low - give && value <= high + give) return "inside";
  return value + doubt < low || value - doubt > high ? "outside" : "undecided";
}
