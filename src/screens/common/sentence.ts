import { quantityWords } from "./quantity.ts";

/** A sentence of the ledger with the quantities' written names put into words, each with its unit. */
export function inWords(sentence: string, quantities: readonly string[]): string {
  const said = quantities
    .reduce((text, quantity) => {
      const { name, unit } = quantityWords(quantity);
      return text.replaceAll(quantity, unit === "" ? name : `${name} in ${unit}`);
    }, sentence)
    .replace(/(^|[\s(])-(?=\d)/g, "$1\u2212");
  return said.charAt(0).toUpperCase() + said.slice(1);
}
