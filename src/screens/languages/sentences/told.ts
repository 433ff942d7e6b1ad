/// <reference types="vite/client" />
import { unbroken } from "../spoken.ts";
import { withTold } from "./fields.ts";
import { partsAt, refusalPart } from "./parts.ts";
import { type Phrasebook, phrasebook, type Sentences } from "./phrasebook.ts";

/**
 * What the workshop's machine composed in English, in the language in use.
 *
 * A language's sentences lie in its folder, `de/sentences/`, a file for each part of the house. Those that an answer
 * usually needs are fetched beside it; where they can't say all of it, the others follow before anything is shown.
 */
const files = import.meta.glob<{ readonly sentences: Sentences }>("../*/sentences/*.ts");

const partOf = (path: string) => /^\.\.\/([\w-]+)\/sentences\/([\w-]+)\.ts$/.exec(path);

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

const isEnglish = () => locale === "en";

/** Resolves when these parts of the language's sentences are at hand. */
async function fetchParts(isNeeded: (part: string) => boolean): Promise<void> {
  const wanted = Object.entries(files).filter(([path]) => {
    const [, tag, part] = partOf(path) ?? [];
    return tag === locale && isNeeded(part!);
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
      now.catch(() => fetched.delete(path));
      return now;
    }),
  );
}

const bookInUse = (): Phrasebook => {
  book ??= phrasebook(held, locale);
  return book;
};

/** One composed sentence, told with what is at hand; for fields that `spokenFields` can't name. */
export const tell = (english: string): string => (isEnglish() ? english : bookInUse().tell(english));

/** An answer of the workshop's machine, its sentences told. */
export async function toldAnswer<T>(path: string, answer: T): Promise<T> {
  if (isEnglish()) return answer;
  const parts = partsAt(path);
  await fetchParts((part) => parts.includes(part));
  let isSure = true;
  const told = withTold(answer, (english) => {
    isSure &&= bookInUse().isSure(english);
    return unbroken(tell(english));
  });
  if (isSure) return told;
  await fetchParts((part) => part !== refusalPart);
  return withTold(answer, (english) => unbroken(tell(english)));
}

/** The words of a refusal, told; in what is at hand when the machine that holds the sentences doesn't answer. */
export async function toldRefusal(message: string): Promise<string> {
  if (isEnglish()) return message;
  try {
    await fetchParts((part) => part === refusalPart);
    if (!bookInUse().isSure(message)) await fetchParts(() => true);
  } catch {
    // Said as well as it can be; what could not be fetched is asked for again the next time.
  }
  return tell(message);
}
