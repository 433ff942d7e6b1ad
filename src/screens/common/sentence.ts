import { dayAndTime } from "./calendar.ts";
import { quantityWords } from "./quantity.ts";

const number = "[\u2212+-]?[0-9.]+(?:e[+-]?[0-9]+)?(?: \u00b1 [0-9.]+(?:e[+-]?[0-9]+)?)?";

/**
 * A sentence of the ledger as people write it: `level_V 242 ± 0.5` becomes `level 242 ± 0.5 V`, a date its weekday,
 * a hyphen before a number its minus.
 */
export function inWords(sentence: string, quantities: readonly string[]): string {
  const said = [...quantities]
    .sort((a, b) => b.length - a.length)
    .reduce((text, quantity) => {
      const { name, unit } = quantityWords(quantity);
      return text
        .replace(new RegExp(`${quantity} (reads )?(${number})`, "g"), (_, reads = "", read) =>
          `${name} ${reads}${read} ${unit}`.trim(),
        )
        .replaceAll(quantity, name);
    }, sentence)
    .replace(/(\d{4}-\d{2}-\d{2})[ T](\d{2}:\d{2})(:\d{2}(\.\d+)?)?Z?/g, (_, date, clock) =>
      dayAndTime(`${date}T${clock}`),
    )
    .replace(/(^|[\s(])-(?=\d)/g, "$1\u2212");
  return said.charAt(0).toUpperCase() + said.slice(1);
}
