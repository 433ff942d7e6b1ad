import { decimalsOf } from "../measurement/decimals.ts";
import { quantityWords } from "../measurement/quantityWords.ts";
import type { DossierFigure } from "./dossier.ts";

export const sheetTitles: Readonly<Record<string, string>> = {
  valves: "Valves",
  voltages: "Voltages",
  sound: "Sound",
  hum: "Hum",
  supply: "Supply",
  timber: "Timber",
  safety: "Safety",
};

const minus = (text: string) => text.replaceAll(/-(?=[\d.])/g, "\u2212");

/** To four figures, without a tail of zeros. */
export function plain(value: number): string {
  return minus(String(Number(value.toPrecision(4))));
}

/** `242.2 ± 0.5`; the doubt is the half-width of the 95 % interval. */
export function withDoubt(value: number, doubt: number | undefined): string {
  if (doubt === undefined || doubt <= 0) return plain(value);
  const decimals = decimalsOf(doubt);
  return minus(`${value.toFixed(decimals)} \u00b1 ${doubt.toFixed(decimals)}`);
}

/** Value, doubt and unit of a figure; a dash where nothing was read. */
export function figureWords({ quantity, value, doubt }: DossierFigure): string {
  if (value === undefined) return "\u2013";
  const { unit } = quantityWords(quantity);
  return `${withDoubt(value, doubt)}${unit === "" ? "" : `\u00a0${unit}`}`;
}

export function limitWords({ quantity, low, high }: DossierFigure): string {
  const { unit } = quantityWords(quantity);
  const printed = (value: number) => `${plain(value)}${unit === "" ? "" : `\u00a0${unit}`}`;
  if (low !== undefined && high !== undefined) {
    return low === high ? `exactly ${printed(low)}` : `${plain(low)} to ${printed(high)}`;
  }
  if (low !== undefined) return `at least ${printed(low)}`;
  return high === undefined ? "" : `at most ${printed(high)}`;
}

export function quantityName(quantity: string): string {
  const { name } = quantityWords(quantity);
  return name.charAt(0).toUpperCase() + name.slice(1);
}

/** Quantities named as the ledger writes them, put as people read them: `level_V 242 ± 0.5` as `level 242 ± 0.5 V`. */
export function inWords(sentence: string): string {
  const number = "[\u2212-]?[0-9.]+(?:e[+-]?[0-9]+)?";
  return minus(
    sentence.replaceAll(
      new RegExp(
        `\\b([A-Za-z][A-Za-z0-9]*(?:_[A-Za-z0-9]+)+)((?: at [^,;.]{1,60}?| reads)? ${number}(?: \u00b1 ${number})?)?`,
        "g",
      ),
      (whole, quantity: string, read: string | undefined) => {
        const { name, unit } = quantityWords(quantity);
        if (unit === "") return whole;
        return read === undefined ? name : `${name}${read}\u00a0${unit}`;
      },
    ),
  );
}

const dates = new Intl.DateTimeFormat("en-GB", { timeZone: "UTC", day: "numeric", month: "long", year: "numeric" });
const shortDates = new Intl.DateTimeFormat("en-GB", {
  timeZone: "UTC",
  day: "numeric",
  month: "short",
  year: "numeric",
});

/** An instant's day on the wall it was written for. */
const wall = (instant: string) => new Date(`${instant.slice(0, 19)}Z`);
export const longDate = (instant: string): string => dates.format(wall(instant));
export const shortDate = (instant: string): string => shortDates.format(wall(instant)).replaceAll(" ", "\u00a0");
