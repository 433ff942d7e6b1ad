import type { Table } from "../../workshop/readingsFile.ts";
import { postFile, Trouble } from "../common/api.ts";

interface Fault {
  readonly line: number;
  readonly column?: string;
  readonly given: string;
  readonly allowed: string;
  readonly mend: string;
}

type Read =
  | {
      readonly ok: true;
      readonly grid: {
        readonly head: readonly string[];
        readonly rows: readonly {
          readonly line: number;
          readonly cells: readonly (string | number | boolean | null)[];
        }[];
      };
    }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/** A spreadsheet as the table that a text file would be; the workshop's machine takes it apart. */
export async function sheetTable(file: Blob): Promise<Table> {
  const answer = await postFile<Read>("/api/exchange/table", file);
  if (!answer.ok) {
    const { line, column, given, allowed, mend } = answer.faults[0]!;
    const where = [line, column].filter((part) => part !== undefined).join(", ");
    throw new Trouble(`${where}: ${given}; ${allowed}; ${mend}`, "", 422);
  }
  const { head, rows } = answer.grid;
  return {
    head,
    lines: rows.map(({ line }) => line),
    rows: rows.map(({ cells }) =>
      head.map((_, i) => (cells[i] === null || cells[i] === undefined ? "" : String(cells[i]))),
    ),
  };
}

/** By what is in it: every .xlsx file is a zip archive. */
export const isSheet = async (file: Blob): Promise<boolean> => (await file.slice(0, 2).text()) === "PK";
