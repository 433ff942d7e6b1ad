import { quantityWords } from "../../../measurement/quantityWords.ts";
import { formsOf } from "./forms.ts";
import { fill, type Hole, type Pattern, readPattern, withoutStop } from "./pattern.ts";

/** English sentence patterns, each with the same sentence in another language. */
export type Sentences = Readonly<Record<string, string>>;

export interface Phrasebook {
  /** The sentence in the other language; what isn't known stays as it came. */
  tell(english: string): string;
  /** What of it isn't known, in its smallest parts. */
  misses(english: string): readonly string[];
  /** What of it is passed on as it is, in the belief that people wrote it. */
  passed(english: string): readonly string[];
  /** Nothing of it is left untold, and nothing is passed on that reads like a sentence. */
  isSure(english: string): boolean;
}

interface Told {
  readonly said: string;
  readonly misses: readonly string[];
  /** What stood in holes that pass it on. */
  readonly passed?: readonly string[];
}

const figure = /^([±≤≥<>]?\s?[\u2212+-]?\d[\d.,]*(?:e[+-]?\d+)?)((?:\s?[^\p{L}\s]{1,3})?|\s\p{L}{1,3})$/u;
/** A number, an identity or a unit holds no word that could be told. */
const holdsNoWord = (text: string) => !/\p{L}\p{Ll}{2}/u.test(text) || /^[^\s]*\d[^\s]*$/.test(text);
const deepest = 12;

/**
 * Reads many patterns at once. Each is filed under the rarest of its whole words, so that a sentence is tried against
 * the few patterns that could fit.
 */
export function phrasebook(sentences: Sentences, locale: string): Phrasebook {
  const forms = formsOf(locale);
  const byWord = fileByRarest(Object.entries(sentences).map(([english, own]) => readPattern(english, own)));
  const known = new Map<string, Told>();
  const small = forms.hasLargeNouns ? smallWords(Object.values(sentences)) : undefined;
  /** Where nouns are written large: a word that no sentence has small. */
  const isNoun = (word: string) => small !== undefined && !small.has(word.toLowerCase());

  /** The way to read it that leaves the least untold and passes on the least that looks like sentences. */
  function tellWhole(text: string, depth: number): Told | undefined {
    const plain = withoutStop(text);
    let best: Told | undefined;
    for (const pattern of candidates(byWord, plain)) {
      const found = pattern.regex.exec(plain);
      if (!found) continue;
      const told = inPattern(pattern, found.slice(1), plain, depth);
      // Nothing but holes says nothing of a sentence that it can't fill.
      if (pattern.words.length === 0 && told.misses.length > 0) continue;
      if (!best || lost(told) < lost(best)) best = told;
      if (lost(best) === 0) break;
    }
    if (best && /\.$/.test(text) && !/[.!?]$/.test(best.said)) return { ...best, said: `${best.said}.` };
    return best;
  }

  function inPattern(pattern: Pattern, parts: readonly string[], plain: string, depth: number): Told {
    const misses: string[] = [];
    const passed: string[] = [];
    const given = new Map(
      pattern.holes.map((hole, at) => {
        const told = inHole(hole, parts[at]!, depth);
        misses.push(...told.misses);
        passed.push(...(told.passed ?? []));
        return [hole.name, { raw: parts[at]!, ...told }] as const;
      }),
    );
    const said = fill(pattern.target, given, forms);
    return { said: likeFirst(said, plain, pattern.isUpper, isNoun), misses, passed };
  }

  function inHole(hole: Hole, text: string, depth: number): Told & { readonly unit?: string } {
    if (hole.kind === "number") return { said: forms.number(text), misses: [] };
    if (hole.kind === "moment") return { said: forms.moment(text), misses: [] };
    if (hole.kind === "as it is" || hole.kind === "one word") return { said: text, misses: [], passed: [text] };
    if (hole.kind === "names") return namesIn(text, depth);
    if (hole.kind === "words") return tell(text, depth + 1);
    const { name, unit } = quantityWords(text);
    const told = tell(name, depth + 1);
    return { ...told, unit: tell(unit, depth + 1).said };
  }

  /** Names in a row get the language's own "and"; what might hold an "and" of its own is left alone. */
  function namesIn(text: string, depth: number): Told {
    const names = text.split(/,\s(?:and\s)?|\sand\s/);
    const told = names.map((name) => (/\s/.test(name) || !holdsNoWord(name) ? tell(name, depth + 1) : undefined));
    const isSure = told.every((one, at) => one === undefined || one.misses.length === 0 || !/\s/.test(names[at]!));
    if (!isSure) return { said: text, misses: [] };
    return { said: forms.names(told.map((one, at) => one?.said ?? names[at]!)), misses: [] };
  }

  function tell(text: string, depth = 0): Told {
    const found = known.get(text);
    if (found) return found;
    if (depth > deepest) return { said: text, misses: holdsNoWord(text) ? [] : [text] };
    const told = tellAfresh(text, depth);
    if (known.size > 20_000) known.clear();
    known.set(text, told);
    return told;
  }

  function tellAfresh(text: string, depth: number): Told {
    if (text.trim() === "") return { said: text, misses: [] };
    const number = figure.exec(text);
    if (number) return { said: forms.number(number[1]!) + number[2]!, misses: [] };
    if (/^[a-z]\w*_\w+$/.test(text)) {
      const { name, unit } = quantityWords(text);
      if (unit !== "") return tell(name, depth + 1);
    }
    const whole = tellWhole(text, depth);
    if (whole && lost(whole) === 0) return whole;
    const parted = inParts(text, depth);
    const best = [parted, whole].filter((one) => one !== undefined).sort((a, b) => lost(a) - lost(b))[0];
    const isUnknown = best === undefined || best.said === text;
    return isUnknown ? { said: text, misses: holdsNoWord(text) ? [] : [text] } : best;
  }

  /** Sentences after one another, or clauses parted by a semicolon. */
  function inParts(text: string, depth: number): Told | undefined {
    for (const between of [/(?<=[.!?])\s+(?=[^\p{Ll}\s])/u, /;\s/]) {
      const parts = text.split(between);
      if (parts.length < 2 || parts.length > 12) continue;
      const joint = between.source.startsWith(";") ? "; " : " ";
      return joined(parts, joint, depth);
    }
    return undefined;
  }

  /** The way to take neighbours together that leaves the least untold: a known sentence may hold the joint itself. */
  function joined(parts: readonly string[], joint: string, depth: number): Told {
    const best: Told[] = [{ said: "", misses: [] }];
    for (let to = 1; to <= parts.length; to += 1) {
      const ways = parts.slice(0, to).flatMap((_, from): readonly Told[] => {
        if (from === 0 && to === parts.length) return [];
        const text = parts.slice(from, to).join(joint);
        const one = to - from === 1 ? tell(text, depth + 1) : tellWhole(text, depth + 1);
        const before = best[from]!;
        return one
          ? [
              {
                said: from === 0 ? one.said : before.said + joint + (joint === " " ? opened(one.said) : one.said),
                misses: [...before.misses, ...one.misses],
                passed: [...(before.passed ?? []), ...(one.passed ?? [])],
              },
            ]
          : [];
      });
      best.push(ways.reduceRight((a, b) => (lost(b) < lost(a) ? b : a)));
    }
    return best.at(-1)!;
  }

  return {
    tell: (english) => tell(english).said,
    misses: (english) => tell(english).misses,
    passed: (english) => tell(english).passed ?? [],
    isSure: (english) => lost(tell(english)) === 0,
  };
}

const smallWords = (sentences: readonly string[]): ReadonlySet<string> =>
  new Set(sentences.flatMap((own) => own.match(/(?<!\p{L})\p{Ll}\p{L}*/gu) ?? []));

const letters = (texts: readonly string[]) => texts.reduce((sum, text) => sum + text.length, 0);
/** Words of a sentence, and what joins sentences: names hold few of them. */
const ofSentences =
  /[.!?;:](?=\s)|(?<!\S)(?:an|the|of|if|is|are|was|were|it|its|to|from|by|on|in|not|no|and|or|at|than|that|which|each|has|had|have|with)(?!\S)/gi;
/** A letter untold weighs more than anything that is passed on, and that only as far as it reads like a sentence. */
const lost = ({ misses, passed = [] }: Told) =>
  10_000 * letters(misses) + passed.reduce((sum, text) => sum + (text.match(ofSentences)?.length ?? 0), 0);

function fileByRarest(patterns: readonly Pattern[]): ReadonlyMap<string, readonly Pattern[]> {
  const count = new Map<string, number>();
  for (const word of patterns.flatMap(({ words }) => [...new Set(words)])) count.set(word, (count.get(word) ?? 0) + 1);
  const byWord = new Map<string, Pattern[]>();
  for (const pattern of patterns) {
    const rarest = pattern.words.reduce((a, b) => (a === "" || count.get(b)! < count.get(a)! ? b : a), "");
    byWord.set(rarest, [...(byWord.get(rarest) ?? []), pattern]);
  }
  return byWord;
}

/** The surest first. */
function candidates(byWord: ReadonlyMap<string, readonly Pattern[]>, text: string): readonly Pattern[] {
  const words = new Set((text.match(/\p{L}+/gu) ?? []).map((word) => word.toLowerCase()));
  return ["", ...words].flatMap((word) => byWord.get(word) ?? []).toSorted((a, b) => b.weight - a.weight);
}

/** A sentence after another begins large, whatever its first hole brought. */
const opened = (said: string): string => said.charAt(0).toUpperCase() + said.slice(1);

const firstWord = (said: string): string => /^\p{L}+/u.exec(said)?.[0] ?? "";

/** Begins large where the English did although its pattern begins small; the other way round small. */
function likeFirst(
  said: string,
  english: string,
  isUpper: boolean | undefined,
  isNoun: (word: string) => boolean,
): string {
  const first = english.charAt(0);
  if (isUpper === undefined || first.toLowerCase() === first.toUpperCase()) return said;
  const begins = first === first.toUpperCase();
  if (begins === isUpper) return said;
  if (!begins && isNoun(firstWord(said))) return said;
  return (begins ? said.charAt(0).toUpperCase() : said.charAt(0).toLowerCase()) + said.slice(1);
}
