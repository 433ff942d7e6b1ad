import type { FigureState } from "./dossier.ts";
import type { Drawing } from "./drawings/drawing.ts";
import type { DossierLanguage } from "./languages/dossierWords.ts";

/** What stands on paper and on the page alike, in the order it is read. */
export type Block =
  | { readonly kind: "words"; readonly text: string; readonly tone: "plain" | "quiet" | "caution" | "stop" }
  | {
      readonly kind: "heading";
      readonly text: string;
      readonly state?: FigureState;
      /** The state as the record's language says it. */
      readonly stands?: string;
    }
  | { readonly kind: "facts"; readonly rows: readonly (readonly [string, string])[] }
  | {
      readonly kind: "table";
      readonly title: string;
      readonly head: readonly string[];
      /** Columns of figures stand to the right. */
      readonly right: readonly boolean[];
      readonly rows: readonly (readonly string[])[];
    }
  /** Short cautions side by side. */
  | { readonly kind: "cautions"; readonly rows: readonly string[] }
  | { readonly kind: "lines"; readonly rows: readonly string[] }
  | { readonly kind: "drawing"; readonly drawing: Drawing };

export interface Layout {
  readonly language: DossierLanguage;
  readonly title: string;
  readonly shop: string;
  readonly subtitle: string;
  readonly plate: readonly string[];
  /** The page in front, for the customer. */
  readonly front: readonly Block[];
  /** The full record behind it, sheet by sheet. */
  readonly record: readonly { readonly title: string; readonly blocks: readonly Block[] }[];
  /** The mark of its number, that a scanner reads. */
  readonly mark: { readonly svg: string; readonly alt: string };
  readonly foot: string;
  /** Between the number of a page and that of all: `1 of 9`. */
  readonly pageOf: string;
  readonly asOf: string;
}
