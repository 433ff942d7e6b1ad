/**
 * What the screens say, in the language that this machine has chosen.
 *
 * Each screen's messages are written in English beside it and pass through `spoken`; a file in this folder, named by its
 * language tag, holds the same messages in another language. A further language is one more such file. It is fetched
 * before the screens are, so that a message is a plain value wherever it is used; choosing another loads the page anew.
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

/** A language as its file gives it: messages by their screen and by the name they have there. */
export type Said = { readonly [screen: string]: { readonly [name: string]: unknown } | undefined };

let chosen: { readonly tag: string; readonly said: Said } = { tag: "en", said: {} };

/** The language tag (BCP 47) that dates and numbers are written by; English is the workshop's, with days before months. */
export const localeInUse = (): string => (chosen.tag === "en" ? "en-GB" : chosen.tag);
export const languageInUse = (): string => chosen.tag;

/** Takes a language into use; what was already said stays as it was. */
export function speak(tag: string, said: Said): void {
  chosen = { tag, said };
}

/** One screen's messages of one name, in the language in use; English where it has none. */
export function spoken<const Messages extends object>(screen: string, name: string, english: Messages): Told<Messages> {
  return over(english, chosen.said[screen]?.[name]) as Told<Messages>;
}

function over(english: unknown, said: unknown): unknown {
  if (said === undefined) return english;
  if (!isTable(english) || !isTable(said)) return said;
  return Object.fromEntries(Object.entries(english).map(([name, words]) => [name, over(words, said[name])]));
}

function isTable(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
