/// <reference types="vite/client" />
import { withTold } from "./fields.ts";
import { type Phrasebook, phrasebook, type Sentences } from "./phrasebook.ts";

/**
 * What the workshop's machine composed in English, in the language in use.
 *
 * A language's sentences lie in its folder, `de/sentences/`, a file for each part of the house. They are fetched beside
 * the first answer, so that the first page doesn't wait for what only others need.
 */
const files = import.meta.glob<{ readonly sentences: Sentences }>("../*/sentences/*.ts");

const partOf = (path: string) => /^\.\.\/([\w-]+)\/sentences\/([\w-]+)\.ts$/.exec(path);
/** All that the first page's answers hold. */
const firstPart = "day";
/** What only a refusal holds. */
const refusals = "refusals";
const firstAddresses = /^\/api\/(workshop|morning|session)$/;

type Need = "first page" | "any page" | "refusal";

let locale = "en";
let held: Sentences = {};
let book: Phrasebook | undefined;
const fetched = new Map<string, Promise<void>>();

/** Sentences are told in this language from now on. */
export function tellIn(tag: string): void {
  locale = tag;
  held = {};
  book = undefined;
  fetched.clear();
}

const needed = (part: string, need: Need) =>
  need === "refusal" || part === firstPart || (need === "any page" && part !== refusals);

/** Resolves when the language's sentences for this need are at hand. */
async function fetchSentences(need: Need): Promise<void> {
  const wanted = Object.entries(files).filter(([path]) => {
    const [, tag, part] = partOf(path) ?? [];
    return tag === locale && needed(part!, need);
  });
  await Promise.all(
    wanted.map(([path, load]) => {
      const before = fetched.get(path);
      if (before) return before;
      const now = load().then(({ sentences }) => {
        held = { ...held, ...sentences };
        book = undefined;
      });
      fetched.set(path, now);
      return now;
    }),
  );
}

/** One composed sentence, told with what is at hand; for fields that `spokenFields` can't name. */
export function tell(english: string): string {
  if (Object.keys(held).length === 0) return english;
  book ??= phrasebook(held, locale);
  return book.tell(english);
}

/** An answer of the workshop's machine, its sentences told. */
export async function toldAnswer<T>(path: string, answer: T): Promise<T> {
  await fetchSentences(firstAddresses.test(path) ? "first page" : "any page");
  return Object.keys(held).length === 0 ? answer : withTold(answer, tell);
}

/** The words of a refusal, told; in what is at hand when the machine that holds the sentences doesn't answer. */
export async function toldRefusal(message: string): Promise<string> {
  await fetchSentences("refusal").catch(() => fetched.clear());
  return tell(message);
}
