import { quantityWords } from "../../measurement/quantityWords.ts";
import { tell } from "../languages/sentences/told.ts";

/** A quantity's words and its printed unit, in the reader's language. */
export function quantitySaid(quantity: string): { readonly name: string; readonly unit: string } {
  const { name, unit } = quantityWords(quantity);
  return { name: tell(name), unit: tell(unit) };
}
