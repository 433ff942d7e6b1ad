/**
 * What the screens say, in the language that this machine has chosen.
 *
 * Each screen's messages are written in English beside it and pass through `spoken`; a folder here, named by its
 * language tag, holds a file for each such table with the same messages in another language. A further language is one
 * more such folder. A table is fetched before the screen that speaks from it is, so that a message is a plain value
 * wherever it is used; choosing another language loads the page anew.
 */

/** The same messages with other words: a text stays a text, a sentence with gaps keeps its gaps. */
export type Told<Messages> = Messages extends (...gaps: infer Gaps) => string
  ? (...gaps: Gaps) => string
  : Messages extends string
    ? string
    : Messages extends readonly string[]
      ? readonly string[]
      : { readonly [Name in keyof Messages]: Told<Messages[Name]> };

/** Some of the messages; what a language lacks is said in English. */
export type Partly<Messages> = Messages extends string | readonly string[] | ((...gaps: never[]) => string)
  ? Messages
  : { readonly [Name in keyof Messages]?: Partly<Messages[Name]> };

/** A table as a language's file gives it: messages by the name they have beside the screen. */
export type Said = { readonly [name: string]: unknown };

let tag = "en";
const tables = new Map<string, Said>();

/** The language tag (BCP 47) that dates and numbers are written by; English is the workshop's, with days before months. */
export const localeInUse = (): string => (tag === "en" ? "en-GB" : tag);
export const languageInUse = (): string => tag;

/** Takes a language into use; what was already said stays as it was. */
export function speak(language: string): void {
  tag = language;
  tables.clear();
}

/** From now on a table is said so; an empty one leaves it in English. */
export const say = (table: string, said: Said): void => void tables.set(table, said);

/** A table's messages of one name, in the language in use; English where it has none. */
export function spoken<const Messages extends object>(table: string, name: string, english: Messages): Told<Messages> {
  return over(english, tables.get(table)?.[name]) as Told<Messages>;
}

function over(english: unknown, said: unknown): unknown {
  if (said === undefined) return english;
  if (typeof said === "function") return setWell(said as (...gaps: unknown[]) => unknown);
  if (!isTable(english) || !isTable(said)) return said;
  return Object.fromEntries(Object.entries(english).map(([name, words]) => [name, over(words, said[name])]));
}

/** What its gaps brought is set as the language sets it. */
const setWell =
  (said: (...gaps: unknown[]) => unknown) =>
  (...gaps: unknown[]): unknown => {
    const words = said(...gaps);
    return typeof words === "string" ? unbroken(oneStop(words)) : words;
  };

/** A date may end with a stop of its own, as `14. Apr.` does, and so end the sentence too. */
export const oneStop = (words: string): string => words.replace(/(?<=\p{L})\.\.(?!\.)/gu, ".");

/** A figure and its unit stay on one line. */
export const unbroken = (words: string): string =>
  words.replace(/(?<=\d) (?=(?:h|min|s|[mµk]?[VAWmgF]|[kM]?Ω|k?Hz|dBV?|pF|nF|EUR|°C|%|T)(?![\p{L}\d]))/gu, "\u00a0");

function isTable(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
