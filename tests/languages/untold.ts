import { existsSync, readdirSync } from "node:fs";
import { isSpoken } from "../../src/screens/languages/sentences/fields.ts";
import { type Phrasebook, phrasebook, type Sentences } from "../../src/screens/languages/sentences/phrasebook.ts";
import { root } from "../helpers.ts";

export interface Language {
  readonly tag: string;
  readonly sentences: Sentences;
  readonly book: Phrasebook;
  /** English sentences that two of its files hold, said differently. */
  readonly twice: readonly string[];
}

const folder = `${root}/src/screens/languages/`;

/** Every language that has a folder, with all the sentences in it. */
export async function languagesHere(): Promise<readonly Language[]> {
  const tags = readdirSync(folder).filter((name) => existsSync(`${folder}${name}/sentences`));
  return Promise.all(
    tags.map(async (tag) => {
      const parts = readdirSync(`${folder}${tag}/sentences`).filter((file) => file.endsWith(".ts"));
      const read = await Promise.all(
        parts.map(
          async (file) => (await import(`${folder}${tag}/sentences/${file}`)) as { readonly sentences: Sentences },
        ),
      );
      const sentences: Sentences = Object.assign({}, ...read.map((one) => one.sentences));
      const twice = read.flatMap((one) =>
        Object.entries(one.sentences).flatMap(([english, own]) => (sentences[english] === own ? [] : [english])),
      );
      return { tag, sentences, book: phrasebook(sentences, tag), twice };
    }),
  );
}

export interface Spoken {
  readonly sentence: string;
  /** Where it was seen: an address and a field, or a file. */
  readonly where: string;
}

/** Every composed sentence of an answer. */
export function spokenIn(answer: unknown, where: string): readonly Spoken[] {
  const found: Spoken[] = [];
  const walk = (value: unknown, name: string, within: string) => {
    if (typeof value === "string") {
      if (isSpoken(name, within)) found.push({ sentence: value, where: `${where} ${within}.${name}` });
    } else if (Array.isArray(value)) for (const one of value) walk(one, name, within);
    else if (value !== null && typeof value === "object") {
      for (const [key, one] of Object.entries(value)) walk(one, key, name);
    }
  };
  walk(answer, "", "");
  return found;
}

/** What a language can't say, each written as a pattern to fill in, with where it was seen first. */
export function untold({ book }: Language, spoken: readonly Spoken[]): readonly string[] {
  const missing = new Map<string, string>();
  for (const { sentence, where } of new Map(spoken.map((one) => [one.sentence, one])).values()) {
    for (const miss of book.misses(sentence)) {
      const pattern = asPattern(miss);
      if (!missing.has(pattern)) missing.set(pattern, miss === sentence ? where : `${where}: ${sentence}`);
    }
  }
  return [...missing].map(([pattern, where]) => `"${pattern}": "",  // ${where}`);
}

const holes = "abcdefghijklmnopqrstuvwxyz";

/** A sentence with its figures, quantities and dates as holes, ready to be filled in. */
export function asPattern(sentence: string): string {
  let used = 0;
  const hole = (sign: string) => `{${sign}${holes[used++ % holes.length]}}`;
  return sentence
    .replace(/\.$/, "")
    .replace(
      /\d{4}-\d{2}-\d{2}(?:[T ][\d:.]+(?:Z|[+-]\d\d:\d\d)?)?|\b[a-z]\w*_[A-Za-z0-9]+\b|(?<![\w-])[\u2212+-]?\d+(?:\.\d+)?(?![\w-])/g,
      (found) => hole(/^\d{4}-/.test(found) ? "@" : /^[a-z]/.test(found) ? "_" : "#"),
    )
    .replaceAll('"', '\\"');
}

/** A few hundred sentences that stand for thousands: one of each form, whatever its figures and numbers are. */
export function oneOfEachForm(spoken: readonly Spoken[]): readonly Spoken[] {
  const form = (sentence: string) => asPattern(sentence.replace(/\b[A-Z]+-?\d[\w.]*/g, "X-1"));
  return [...new Map(spoken.toReversed().map((one) => [form(one.sentence), one])).values()].toReversed();
}
