import { localeInUse } from "../languages/spoken.ts";
import { fixed } from "./number.ts";

/** Money as people write it, from whole minor units: `€ 2,175`, small sums with their cents. */
export function money(cents: number, currency: string | undefined): string {
  const whole = Math.abs(cents) >= 10_000;
  const digits = whole ? 0 : 2;
  if (currency === undefined) return fixed(cents / 100, digits);
  return new Intl.NumberFormat(localeInUse(), {
    style: "currency",
    currency,
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
  })
    .format(cents / 100)
    .replace("-", "\u2212");
}

/** With its sign: `+ €24`, `− €8`. */
export function moreMoney(cents: number, currency: string | undefined): string {
  return `${cents < 0 ? "\u2212" : "+"}\u00a0${money(Math.abs(cents), currency)}`;
}
