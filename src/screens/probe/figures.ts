import type { ProbeKind, Window } from "../../workshop/views.ts";
import { units } from "./messages.ts";
import { ohmsInWords } from "./resistance.ts";

const minus = (text: string) => text.replace("-", "\u2212");

/** A figure as a meter shows it: four digits, its unit. */
export function figure(value: number, kind: ProbeKind): string {
  return kind === "resistance" ? ohmsInWords(value) : `${plain(value)} ${units[kind]}`;
}

/** `226 to 260 V` */
export function windowWords({ low, high }: Window, kind: ProbeKind): string {
  if (kind === "resistance") return `${ohmsInWords(low)} to ${ohmsInWords(high)}`;
  return `${plain(low)} to ${plain(high)} ${units[kind]}`;
}

function plain(value: number): string {
  const size = Math.abs(value);
  const decimals = size >= 100 ? 0 : size >= 10 ? 1 : 2;
  return minus(Number(value.toFixed(decimals)).toString());
}
