import { decimalsOf } from "../../measurement/decimals.ts";
import { quantityWords } from "../../measurement/quantityWords.ts";
import type { DossierFigure } from "../dossier.ts";
import { de } from "./de.ts";
import type { DossierLanguage, DossierWords, Saying } from "./dossierWords.ts";
import { en } from "./en.ts";
import { pl } from "./pl.ts";

const catalogues: Readonly<Record<DossierLanguage, DossierWords>> = { en, de, pl };

/** How a record speaks: its words, and numbers, dates and names as its language writes them. */
export interface Sayer extends Saying {
  readonly language: DossierLanguage;
  readonly words: DossierWords;
  /** Digits as a machine writes them: a true minus, the language's decimal sign. */
  digits(text: string): string;
  /** To four figures, without a tail of zeros. */
  plain(value: number): string;
  /** `242.2 ± 0.5`; the doubt is the half-width of the 95 % interval. */
  withDoubt(value: number, doubt: number | undefined): string;
  figure(figure: DossierFigure): string;
  limit(figure: DossierFigure): string;
  longDate(instant: string): string;
  shortDate(instant: string): string;
  /** Quantities named as the ledger writes them, put as people read them: `level_V 242 ± 0.5` as `level 242 ± 0.5 V`. */
  inWords(sentence: string): string;
}

export function sayerOf(language: DossierLanguage): Sayer {
  const words = catalogues[language];
  const digits = (text: string) => text.replaceAll(minus, "\u2212").replaceAll(/(?<=\d)\.(?=\d)/g, words.decimal);
  const plain = (value: number) => digits(String(Number(value.toPrecision(4))));
  const withDoubt = (value: number, doubt: number | undefined) => {
    if (doubt === undefined || doubt <= 0) return plain(value);
    const decimals = decimalsOf(doubt);
    return digits(`${value.toFixed(decimals)} \u00b1 ${doubt.toFixed(decimals)}`);
  };
  const known = (phrase: string): string | undefined => {
    const written = phrase.replaceAll("\u2019", "'");
    return Object.hasOwn(words.trade, written) ? words.trade[written] : undefined;
  };
  const gaps = Object.entries(words.trade).filter(([phrase]) => phrase.includes("…"));
  const withGap = (phrase: string): string | undefined => {
    for (const [written, said] of gaps) {
      const [before, after] = written.split("…") as [string, string];
      const isSo = phrase.length >= before.length + after.length && phrase.startsWith(before) && phrase.endsWith(after);
      if (isSo) return said.replace("…", phrase.slice(before.length, phrase.length - after.length));
    }
    return undefined;
  };
  const trade = (phrase: string) =>
    known(phrase) ??
    withGap(phrase) ??
    phrase
      .split(" ")
      .map((part) => (Object.hasOwn(words.parts, part) ? words.parts[part]! : part))
      .join(" ");
  const quantity = (name: string) => {
    const said = known(name) ?? quantityWords(name).name;
    return said.charAt(0).toLocaleUpperCase(words.locale) + said.slice(1);
  };
  const withUnit = (text: string, name: string) => {
    const { unit } = quantityWords(name);
    return `${text}${unit === "" ? "" : `\u00a0${unit}`}`;
  };
  const dates = new Intl.DateTimeFormat(words.locale, { ...day, month: "long" });
  const shortDates = new Intl.DateTimeFormat(words.locale, { ...day, month: "short" });
  return {
    language,
    words,
    digits,
    plain,
    withDoubt,
    trade,
    quantity,
    value: (name, value, doubt) => withUnit(withDoubt(value, doubt), name),
    figure: ({ quantity: name, value, doubt }) =>
      value === undefined ? "\u2013" : withUnit(withDoubt(value, doubt), name),
    limit: ({ quantity: name, low, high }) => {
      const printed = (value: number) => withUnit(plain(value), name);
      if (low !== undefined && high !== undefined) {
        return low === high ? words.exactly(printed(low)) : words.between(plain(low), printed(high));
      }
      if (low !== undefined) return words.atLeast(printed(low));
      return high === undefined ? "" : words.atMost(printed(high));
    },
    longDate: (instant) => dates.format(wall(instant)),
    shortDate: (instant) => shortDates.format(wall(instant)).replaceAll(" ", "\u00a0"),
    inWords: asRead,
  };
}

const day = { timeZone: "UTC", day: "numeric", year: "numeric" } as const;

/** An instant's day on the wall it was written for. */
const wall = (instant: string) => new Date(`${instant.slice(0, 19)}Z`);

/** A hyphen that stands before a number, not within a name such as `T-170`. */
const minus = /(?<![\p{L}\d])-(?=[\d.])/gu;

const number = "[\u2212-]?[0-9.]+(?:e[+-]?[0-9]+)?";
const named = new RegExp(
  `\\b([A-Za-z][A-Za-z0-9]*(?:_[A-Za-z0-9]+)+)((?: at [^,;.]{1,60}?| reads)? ${number}(?: \u00b1 ${number})?)?`,
  "g",
);

function asRead(sentence: string): string {
  const said = sentence.replaceAll(named, (whole, quantity: string, read: string | undefined) => {
    const { name, unit } = quantityWords(quantity);
    if (unit === "") return whole;
    return read === undefined ? name : `${name}${read}\u00a0${unit}`;
  });
  return said.replaceAll(minus, "\u2212");
}
