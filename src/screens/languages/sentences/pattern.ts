import type { Forms } from "./forms.ts";

/**
 * An English sentence pattern and the same sentence in another language.
 *
 * The English pattern is a sentence with holes, named and typed by a sign:
 *
 *     {valve}     whatever stands there, passed on untouched: names, notes, what people wrote
 *     {!field}    the same, where no blank may stand in it
 *     {#count}    a number, put as the language writes it
 *     {_quantity} a quantity's name, such as `drift_pct`; {quantity.unit} is its printed unit
 *     {@at}       a date or an instant
 *     {~because}  words that are told in their turn; what isn't known is passed on
 *     {&names}    names in a row, "a, b and c"
 *
 * and `[s]` or `[is|are]` where the English may stand one way or another. The other sentence names the same holes,
 * without a sign, in its own order; `{count|Röhre|Röhren}` gives the form that goes with a number.
 */
export interface Pattern {
  readonly regex: RegExp;
  readonly holes: readonly Hole[];
  /** Letters that stand fixed: the more, the surer a match. */
  readonly weight: number;
  /** Whole words that any match must have. */
  readonly words: readonly string[];
  readonly isUpper: boolean | undefined;
  readonly target: string;
}

export interface Hole {
  readonly name: string;
  readonly kind: HoleKind;
}
export type HoleKind = "as it is" | "one word" | "number" | "quantity" | "moment" | "words" | "names";

const kinds: Readonly<Record<string, HoleKind>> = {
  "!": "one word",
  "#": "number",
  _: "quantity",
  "@": "moment",
  "~": "words",
  "&": "names",
};

const number = String.raw`[\u2212+-]?(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?(?:e[+-]?\d+)?`;
const moment = String.raw`\d{4}-\d{2}-\d{2}(?:[T ]\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?:Z|[+-]\d{2}:\d{2})?)?`;
const within: Readonly<Record<HoleKind, string>> = {
  "as it is": ".+?",
  "one word": String.raw`\S+?`,
  number,
  quantity: "[A-Za-z][A-Za-z0-9]*(?:_[A-Za-z0-9]+)*",
  moment,
  words: ".+?",
  names: ".+?",
};

const pieces = /\{([!#_@~&]?)(\w+)\}|\[([^\]]*)\]/g;
const literal = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
const spaced = (fixed: string) => literal(fixed).replaceAll(" ", "\\s");
/** Words cut off by a hole or an alternative are no whole words of the sentence. */
const wholeWords = (fixed: string, opens: boolean, closes: boolean): readonly string[] =>
  [...fixed.matchAll(/\p{L}+/gu)].flatMap(({ 0: word, index }) =>
    (index === 0 && !opens) || (index + word.length === fixed.length && !closes) ? [] : [word.toLowerCase()],
  );

export const withoutStop = (text: string): string => (/[^.]\.$/.test(text) ? text.slice(0, -1) : text);

/** Reads a pattern. @throws RangeError when the two sentences don't name the same holes */
export function readPattern(english: string, target: string): Pattern {
  const plain = withoutStop(english);
  const holes: Hole[] = [];
  const words: string[] = [];
  let regex = "";
  let weight = 0;
  let from = 0;
  const fix = (to: number) => {
    const fixed = plain.slice(from, to);
    words.push(...wholeWords(fixed, from === 0, to === plain.length));
    weight += fixed.replace(/[^\p{L}]/gu, "").length + 0.1 * fixed.length;
    const first = fixed.charAt(0);
    const anyCase = regex === "" && from === 0 && first.toLowerCase() !== first.toUpperCase();
    regex += anyCase ? `[${first.toLowerCase()}${first.toUpperCase()}]${spaced(fixed.slice(1))}` : spaced(fixed);
  };
  for (const { 0: piece, 1: sign, 2: name, 3: ways, index } of plain.matchAll(pieces)) {
    fix(index);
    from = index + piece.length;
    if (name === undefined) {
      const alternatives = ways!.split("|");
      regex += `(?:${alternatives.map(literal).join("|")})${alternatives.length > 1 ? "" : "?"}`;
      continue;
    }
    const kind = kinds[sign!] ?? "as it is";
    holes.push({ name, kind });
    regex += `(${within[kind]})`;
  }
  fix(plain.length);
  const named = new Set(holes.map((hole) => hole.name));
  const lost = [...target.matchAll(/\{(\w+)/g)].map((found) => found[1]!).filter((name) => !named.has(name));
  if (lost.length > 0) throw new RangeError(`"${target}" names ${lost.join(", ")}, which "${english}" has not`);
  const opening = plain.charAt(0);
  return {
    regex: new RegExp(`^${regex}$`, "su"),
    holes,
    weight,
    words,
    isUpper: opening.toLowerCase() === opening.toUpperCase() ? undefined : opening === opening.toUpperCase(),
    target: withoutStop(target),
  };
}

/** The holes that the other sentence leaves out. */
export function holesLost(english: string, target: string): readonly string[] {
  const said = new Set([...target.matchAll(/\{(\w+)/g)].map((found) => found[1]!));
  return readPattern(english, target)
    .holes.map(({ name }) => name)
    .filter((name) => !said.has(name));
}

/** Puts what stood in the holes into the other sentence. */
export function fill(
  target: string,
  given: ReadonlyMap<string, { readonly said: string; readonly raw: string; readonly unit?: string }>,
  forms: Forms,
): string {
  return target.replace(/(\s?)\{(\w+)(\.unit)?(?:\|([^}]*))?\}/g, (_, space: string, name: string, unit, ways) => {
    const hole = given.get(name)!;
    if (unit) return hole.unit ? space + hole.unit : "";
    return space + (ways === undefined ? hole.said : forms.ofCount(hole.raw, ways.split("|")));
  });
}
