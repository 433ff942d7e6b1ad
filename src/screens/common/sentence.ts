import { quantityWords } from "../../measurement/quantityWords.ts";
import { dayAndTime } from "./calendar.ts";

const number = "[\u2212+-]?[0-9.]+(?:e[+-]?[0-9]+)?";
const written = /\b[A-Za-z][A-Za-z0-9]*(?:_[A-Za-z0-9]+)+\b/g;

/** Quantities that a sentence names as they are written, such as `level_V`; the longest first. */
function quantitiesIn(sentence: string, known: readonly string[]): readonly string[] {
  const found = (sentence.match(written) ?? []).filter((name) => quantityWords(name).unit !== "");
  return [...new Set([...known, ...found])].sort((a, b) => b.length - a.length);
}

/**
 * A sentence of the ledger as people write it: `level_V 242 ± 0.5` becomes `level 242 ± 0.5 V`, a date its weekday,
 * a hyphen before a number its minus.
 */
export function inWords(sentence: string, quantities: readonly string[] = []): string {
  const said = quantitiesIn(sentence, quantities)
    .reduce((text, quantity) => {
      const { name, unit } = quantityWords(quantity);
      const withDoubt = new RegExp(`${quantity}((?: at [^,;.]{1,60}?| reads)? ${number} \u00b1 ${number})`, "g");
      const alone = new RegExp(`${quantity}((?: reads)? ${number})`, "g");
      const put = (_: string, read: string) => `${name}${read} ${unit}`.trim();
      return text.replace(withDoubt, put).replace(alone, put).replaceAll(quantity, name);
    }, sentence)
    .replace(/(\d{4}-\d{2}-\d{2})[ T](\d{2}:\d{2})(:\d{2}(\.\d+)?)?Z?/g, (_, date, clock) =>
      dayAndTime(`${date}T${clock}`),
    )
    .replace(/(^|[\s(])-(?=\d)/g, "$1\u2212");
  return capital(said);
}

/** Begins with a capital, as a title or a sentence does. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
