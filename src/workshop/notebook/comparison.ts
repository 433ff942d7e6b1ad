import type { Figure, FigureGroup } from "../../circuits/versions/index.ts";
import type { CellView, RowView, SpreadView } from "./views.ts";

export interface FiguredColumn {
  /** Place of the column that its differences are told against. */
  readonly against?: number;
  readonly figures: readonly Figure[];
}

const order: readonly FigureGroup[] = ["points", "valves", "sound", "noise", "heat", "cost"];

/**
 * Figures of several versions line by line, each with its difference from the version it came from. Twins (channels,
 * sections of like valves) that agree in every version share a line.
 */
export function comparison(columns: readonly FiguredColumn[]): SpreadView["groups"] {
  const byKey = columns.map(({ figures }) => new Map(figures.map((figure) => [figure.key, figure])));
  const keys = inOrder(columns.map(({ figures }) => figures.map(({ key }) => key)));
  const rows = keys.map((key): { group: FigureGroup; twin: string; row: RowView } => {
    const known = byKey.map((figures) => figures.get(key));
    const first = known.find((figure) => figure !== undefined)!;
    const cells = known.map((figure, i): CellView | null => {
      if (!figure) return null;
      const against = columns[i]!.against;
      const other = against === undefined ? undefined : known[against];
      return {
        value: figure.value,
        ...(other && { difference: settled(figure.value - other.value, figure.value) }),
        ...(isOver(figure) && { over: true }),
      };
    });
    const last = known.findLast((figure) => figure !== undefined)!;
    return {
      group: first.group,
      twin: first.twin,
      row: {
        key,
        of: [last.of],
        where: last.where === undefined ? [] : [last.where],
        quantity: first.quantity,
        ...(last.most !== undefined && { most: last.most }),
        cells,
      },
    };
  });
  return order
    .map((group) => ({ group, rows: mergeTwins(rows.filter((one) => one.group === group)) }))
    .filter((one) => one.rows.length > 0);
}

const isOver = ({ value, most }: Figure): boolean => most !== undefined && Math.abs(value) > most;

/** What solving leaves of nothing is nothing. */
function settled(difference: number, value: number): number {
  return Math.abs(difference) <= 1e-7 * Math.max(1e-6, Math.abs(value)) ? 0 : difference;
}

/** All keys, each list's own order kept: a new key stands after the one it follows. */
function inOrder(lists: readonly (readonly string[])[]): readonly string[] {
  const all: string[] = [];
  for (const list of lists) {
    let at = 0;
    for (const key of list) {
      const found = all.indexOf(key);
      if (found >= 0) at = found + 1;
      else all.splice(at++, 0, key);
    }
  }
  return all;
}

function mergeTwins(rows: readonly { readonly twin: string; readonly row: RowView }[]): readonly RowView[] {
  const merged = new Map<string, RowView>();
  for (const { twin, row } of rows) {
    const alike = JSON.stringify([
      twin,
      row.quantity,
      row.most ?? null,
      row.cells.map((cell) => cell && [rounded(cell.value), rounded(cell.difference ?? 0)]),
    ]);
    const known = merged.get(alike);
    merged.set(alike, known ? { ...known, of: union(known.of, row.of), where: union(known.where, row.where) } : row);
  }
  return [...merged.values()];
}

const union = (a: readonly string[], b: readonly string[]) => [...new Set([...a, ...b])];

const rounded = (value: number) => (Math.abs(value) < 1e-9 ? 0 : Number(value.toPrecision(6)));
