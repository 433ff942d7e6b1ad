import { quantityWords } from "./quantity.ts";

/** A sentence of the ledger with the quantities' written names put into words, each with its unit once. */
export function inWords(sentence: string, quantities: readonly string[]): string {
  return quantities.reduce((text, quantity) => {
    const { name, unit } = quantityWords(quantity);
    return text.replaceAll(quantity, unit === "" ? name : `${name} in ${unit}`);
  }, sentence);
}
