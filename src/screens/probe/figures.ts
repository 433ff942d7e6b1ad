import type { ProbeKind, Window } from "../../workshop/views.ts";
import { common } from "../common/messages.ts";
import { asWritten } from "../common/number.ts";
import { units } from "./messages.ts";
import { ohmsInWords } from "./resistance.ts";

/** A figure as a meter shows it: four digits, its unit. */
export function figure(value: number, kind: ProbeKind): string {
  return kind === "resistance" ? ohmsInWords(value) : `${plain(value)} ${units[kind]}`;
}

/** `226 to 260 V` */
export function windowWords({ low, high }: Window, kind: ProbeKind): string {
  if (kind === "resistance") return common.to(ohmsInWords(low), ohmsInWords(high));
  return `${common.to(plain(low), plain(high))} ${units[kind]}`;
}

function plain(value: number): string {
  const size = Math.abs(value);
  const decimals = size >= 100 ? 0 : size >= 10 ? 1 : 2;
  return asWritten(Number(value.toFixed(decimals)).toString());
}
