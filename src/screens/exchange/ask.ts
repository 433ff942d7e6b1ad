import { postFile } from "../common/api.ts";

export interface Column {
  readonly name: string;
  readonly leaf: string;
  readonly isNeeded: boolean;
}

/** What can be taken out, and what a table's rows may be. */
export interface Offers {
  readonly lists: readonly string[];
  readonly kinds: readonly {
    readonly kind: string;
    readonly entries: number;
    readonly columns: readonly Column[];
  }[];
}

export interface Fault {
  readonly line: number;
  readonly column?: string;
  readonly given: string;
  readonly allowed: string;
  readonly mend: string;
}

export type Looked =
  | {
      readonly ok: true;
      readonly head: readonly string[];
      readonly entries: readonly Readonly<Record<string, unknown>>[];
      readonly lines: readonly number[];
    }
  | { readonly ok: false; readonly head: readonly string[]; readonly faults: readonly Fault[] };

export interface Question {
  readonly kind: string;
  readonly decimal: "point" | "comma";
  readonly called: Readonly<Record<string, string>>;
  readonly fill: Readonly<Record<string, string>>;
}

/** What a file would bring; nothing is written by asking. */
export function lookAt(file: Blob, { kind, decimal, called, fill }: Question, signal: AbortSignal): Promise<Looked> {
  const query = new URLSearchParams({ kind, decimal, called: JSON.stringify(called), fill: JSON.stringify(fill) });
  return postFile<Looked>(`/api/exchange/look?${query}`, file, signal);
}
