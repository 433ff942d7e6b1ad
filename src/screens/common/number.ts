import { decimalsOf } from "../../measurement/decimals.ts";
import { localeInUse } from "../languages/spoken.ts";
import { common } from "./messages.ts";

/**
 * Numbers typed at the bench: a decimal comma or point, thin or plain spaces between groups, a minus of either kind.
 * What could be read two ways is refused, with the mend.
 */
export type Typed =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly problem: "empty" | "ambiguous" | "not-a-number" };

export function readNumber(typed: string): Typed {
  const plain = typed
    .trim()
    .replace(/[\s\u00a0\u2009\u202f]/g, "")
    .replace(/\u2212/g, "-");
  if (plain === "") return { ok: false, problem: "empty" };
  if (plain.includes(",") && plain.includes(".")) return { ok: false, problem: "ambiguous" };
  if (!/^[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d{1,3})?$/i.test(plain)) return { ok: false, problem: "not-a-number" };
  const value = Number(plain.replace(",", "."));
  return Number.isFinite(value) ? { ok: true, value } : { ok: false, problem: "not-a-number" };
}

/** The sign between whole and broken in the language in use. */
const decimalSign = new Intl.NumberFormat(localeInUse())
  .formatToParts(1.5)
  .find(({ type }) => type === "decimal")?.value;

/** Digits as a machine writes them, put as people do: a true minus, the language's decimal sign. */
export const asWritten = (digits: string): string =>
  digits.replaceAll("-", "\u2212").replaceAll(".", decimalSign ?? ".");

/** To so many decimals, as people write it: `12.5`. */
export const fixed = (value: number, decimals: number): string => asWritten(value.toFixed(decimals));

/** A number to three figures, without a tail of zeros. */
export function plainNumber(value: number): string {
  if (value === 0) return "0";
  const size = Math.abs(value);
  if (size >= 1e6 || size < 1e-4) return asWritten(Number(value.toPrecision(3)).toString());
  const decimals = Math.max(0, 2 - Math.floor(Math.log10(size)));
  return asWritten(Number(value.toFixed(Math.min(9, decimals))).toString());
}

/** A value and its 95 % half-width, written to the same decimal: `0.12 ± 0.08`. */
export function withDoubt(value: number, doubt: number | undefined): string {
  if (doubt === undefined || !(doubt > 0)) return plainNumber(value);
  const decimals = decimalsOf(doubt);
  return asWritten(`${value.toFixed(decimals)} ± ${doubt.toFixed(decimals)}`);
}

/** A share of one as hundredths in words: `93 in 100`, never a false certainty. */
export function inHundred(share: number): string {
  const hundredths = Math.round(share * 100);
  if (hundredths >= 100 && share < 1) return common.inHundred(99, "over");
  if (hundredths <= 0 && share > 0) return common.inHundred(1, "under");
  return common.inHundred(hundredths, "");
}

/** Minutes of hands as people say them: `5 min`, `1 h 20 min`. */
export function minutes(count: number): string {
  const whole = Math.round(count);
  if (whole < 60) return `${whole} min`;
  const rest = whole % 60;
  return rest === 0 ? `${Math.floor(whole / 60)} h` : `${Math.floor(whole / 60)} h ${rest} min`;
}
