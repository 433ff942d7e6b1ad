import type { LinkDescription, LinkQuantity } from "../claims/links/description.ts";
import { saidWords } from "./fault.ts";
import { matched } from "./match.ts";

export interface Figure {
  readonly ok: true;
  readonly value: number;
  /** 95 % half-width. */
  readonly doubt: number;
  /** The answer as it came. */
  readonly raw: string;
  /** What its clock or counter showed, where it prints one. */
  readonly clock?: string;
}

export type Answer =
  | Figure
  | {
      readonly ok: false;
      readonly problem: "garbled" | "checksum" | "overload" | "out of range" | "unsteady";
      readonly words: string;
    };

/**
 * The figure in an instrument's answer, in our unit, with its doubt.
 *
 *     doubt = reading_pct/100·|value| + counts·(last digit printed, in our unit) + fixed
 *
 * @param line  without its line end; its checksum, where it has one, taken off before
 */
export function figureIn(line: string, quantity: LinkQuantity): Answer {
  const { answer, overload, unsteady, units, range } = quantity;
  const no = (problem: Exclude<Answer, Figure>["problem"], words: string): Answer => ({ ok: false, problem, words });
  try {
    if (overload !== undefined && matched(overload, line)) {
      return no("overload", `it says ${saidWords(line)}, which is an overload; apply less, or choose a wider range`);
    }
    if (unsteady !== undefined && matched(unsteady, line)) {
      return no("unsteady", `it has not come to rest: ${saidWords(line)}`);
    }
    const found = matched(answer, line);
    const text = found?.value?.replace(/\s/g, "").replace(",", ".");
    if (!found || text === undefined || !/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i.test(text)) {
      return no("garbled", `${saidWords(line)} is no answer that its description knows`);
    }
    const unit = found.unit?.trim();
    const factor = units === undefined ? quantity.scale : (units[unit ?? ""] ?? Number.NaN);
    if (!Number.isFinite(factor)) {
      return no("garbled", `${saidWords(line)} names no unit of ${Object.keys(units ?? {}).join(", ")}`);
    }
    const value = rounded(Number(text) * factor);
    if (!(value >= range.low && value <= range.high)) {
      return no(
        "out of range",
        `${saidWords(line)} is ${value}, and it can show ${range.low} to ${range.high}; nothing of it is kept`,
      );
    }
    return {
      ok: true,
      value,
      doubt: doubtOf(value, lastDigit(text) * Math.abs(factor), quantity.doubt),
      raw: line,
      ...(found.clock !== undefined && { clock: found.clock }),
    };
  } catch (fault) {
    return no("garbled", (fault as Error).message);
  }
}

/** What one of the last digit is worth: of `12.34E+2`, 1. */
function lastDigit(text: string): number {
  const [mantissa = "", exponent = "0"] = text.toLowerCase().split("e");
  return 10 ** (Number(exponent) - (mantissa.split(".")[1]?.length ?? 0));
}

function doubtOf(value: number, digit: number, { reading_pct, counts, fixed }: LinkQuantity["doubt"]): number {
  return Number(((reading_pct / 100) * Math.abs(value) + counts * digit + fixed).toPrecision(3));
}

/** A product with a decimal factor, without the tail of noughts and nines that binary numbers leave. */
const rounded = (value: number) => Number(value.toPrecision(12));

/**
 * The answer without its checksum, once that is found to be right.
 *
 * @returns undefined  where it is wrong or missing
 */
export function withoutChecksum(line: string, checksum: LinkDescription["checksum"]): string | undefined {
  if (!checksum) return line;
  const at = line.lastIndexOf(checksum.mark);
  if (at < 0 || !/^[0-9A-Fa-f]{2}$/.test(line.slice(at + 1).trim())) return undefined;
  const body = line.slice(0, at);
  const bytes = [...Buffer.from(body, "latin1")];
  const sum = checksum.kind === "sum" ? bytes.reduce((a, b) => a + b, 0) % 256 : bytes.reduce((a, b) => a ^ b, 0);
  return sum === Number.parseInt(line.slice(at + 1), 16) ? body : undefined;
}
