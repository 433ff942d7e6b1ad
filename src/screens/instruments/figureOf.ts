import type { About } from "../../workshop/instruments/linkViews.ts";
import { withDoubt } from "../common/number.ts";
import { quantitySaid } from "../common/quantity.ts";

/** `12.346 ± 0.014 V`. */
export function figureOf(quantity: string, value: number, doubt: number): string {
  return `${withDoubt(value, doubt)} ${quantitySaid(quantity).unit}`.trim();
}

/** What a reading is of, in a few words: `0417, HT`. */
export function whereOf({ unit, valve, section, channel, point, piece }: About): string {
  return [unit, valve, section, channel, point, piece].filter(Boolean).join(", ");
}

export const nameOf = (quantity: string): string => {
  const { name, unit } = quantitySaid(quantity);
  return unit === "" ? name : `${name} (${unit})`;
};
