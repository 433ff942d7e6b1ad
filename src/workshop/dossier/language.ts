import { type DossierLanguage, dossierLanguages } from "../../dossier/languages/dossierWords.ts";
import { BadInput, quote } from "../../maths/badInput.ts";

/**
 * A language asked for by its tag; nothing where none was, so that the order's own is taken.
 * @throws BadInput for one that no record can be printed in
 */
export function dossierLanguage(asked: string | undefined, path: string): DossierLanguage | undefined {
  if (asked === undefined || asked === "") return undefined;
  const found = dossierLanguages.find((one) => one === asked.toLowerCase());
  if (found) return found;
  throw new BadInput(path, quote(asked), `one of ${dossierLanguages.join(", ")}`, "leave it out for the order’s own");
}
