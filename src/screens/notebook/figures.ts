import { quantityWords } from "../../measurement/quantityWords.ts";
import type { ChangeView, RowView } from "../../workshop/notebook/views.ts";
import { asWritten, fixed, plainNumber } from "../common/number.ts";
import { tell } from "../languages/sentences/told.ts";
import { localeInUse, unbroken } from "../languages/spoken.ts";
import { quantityNames, words } from "./messages.ts";

export interface Said {
  readonly text: string;
  readonly unit: string;
}

/** A figure as the page has it: resistance in its own thousand, money in whole units of its currency. */
export function said(quantity: string, value: number, currency = "", like = value): Said {
  if (quantity === "cost_cents") return { text: fixed(value / 100, 2), unit: currency };
  const size = Math.abs(like);
  if (quantity.endsWith("_ohm") && size >= 1e6) return { text: plainNumber(value / 1e6), unit: "MΩ" };
  if (quantity.endsWith("_ohm") && size >= 1e3) return { text: plainNumber(value / 1e3), unit: "kΩ" };
  const { unit } = quantityWords(quantity);
  const plain = unit === "µV r.m.s." ? "µV" : unit;
  if (quantity === "response_dB" || quantity === "gain_dB") return { text: fixed(value, 2), unit };
  return { text: plainNumber(value), unit: plain };
}

/** A difference always carries its sign. */
export function signed(quantity: string, difference: number, value: number, currency = ""): string {
  const { text } = said(quantity, difference, currency, value);
  return difference > 0 ? `+${text}` : text;
}

/** `V1a and V1b, 6SN7GT: plate heat` */
export function rowName({ of, where, quantity }: Pick<RowView, "of" | "where" | "quantity">): {
  readonly name: string;
  readonly what: string;
} {
  const types = of.map((one) => one.split(", "));
  const type = types[0]?.[1];
  const sameType = type !== undefined && types.every((one) => one[1] === type && one.length === 2);
  const name = sameType ? `${joined(types.map(([id]) => id ?? ""))}, ${type}` : joined(of);
  const what = [quantityNames[quantity] ?? tell(quantityWords(quantity).name), joined(where)]
    .filter(Boolean)
    .join(", ");
  return { name, what };
}

function joined(names: readonly string[]): string {
  const said = names.map((name) => unbroken(tell(name)));
  return said.length > 4 ? `${said.slice(0, 3).join(", ")} ${words.and(said.length - 3)}` : together.format(said);
}

const together = new Intl.ListFormat(localeInUse(), { type: "conjunction" });

const shown = (value: unknown): string =>
  value === null
    ? "nothing"
    : typeof value === "number"
      ? asWritten(String(value))
      : typeof value === "string"
        ? value
        : JSON.stringify(value).slice(0, 60);

/** A change in few words: `R4: ohm 47000 → 39000`. */
export function changeWords(change: ChangeView): string {
  if (change.kind !== "changed") return `${change.part} ${change.kind}, ${change.what}`;
  const { part, field, before, after } = change;
  const { name, unit } = quantityWords(`value_${field}`);
  const what = name === "value" ? "" : `${field} `;
  const of = part === "" ? "" : `${part}: `;
  return `${of}${what}${shown(before)} → ${shown(after)}${what === "" ? `\u00a0${unit}` : ""}`;
}

export const differs = (row: RowView): boolean =>
  row.cells.some((cell, i) => cell?.difference !== undefined && cell.difference !== 0) ||
  (row.cells.some((cell) => cell === null) && row.cells.some((cell) => cell !== null));
