import type { Evidence } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import { groupBy } from "../groupBy.ts";
import type { ReportCellView, ReportsView } from "./views.ts";

type Note = Evidence<"listener-note">;

/** What testers reported of a model, matter by matter and version by version; who said more is counted once a cell. */
export function reportsOf(model: string, versions: readonly string[], shop: Shop): ReportsView {
  const notes = shop.listening.notes.filter(({ body }) => body.model === model);
  const byMatter = [...groupBy(notes, ({ body }) => body.heard)].toSorted((a, b) => b[1].length - a[1].length);
  return {
    testers: new Set(notes.map(({ body }) => body.tester)).size,
    versions,
    rows: byMatter.map(([heard, all]) => ({
      heard,
      cells: versions.map((version) => cellOf(all.filter(({ body }) => body.version === version))),
    })),
    notes: notes.toReversed().map(({ id, at, body: { kind: _, model: __, supersedes: ___, ...note } }) => ({
      id,
      at,
      version: note.version,
      tester: note.tester,
      heard: note.heard,
      speaks: note.speaks,
      strength: note.strength,
      isBlind: note.isBlind,
      says: note.says,
      ...(note.against !== undefined && { against: note.against }),
      ...(note.through !== undefined && { through: note.through }),
      ...(note.source !== undefined && { source: note.source }),
    })),
  };
}

function cellOf(notes: readonly Note[]): ReportCellView | null {
  if (notes.length === 0) return null;
  const testers = (of: readonly Note[]) => new Set(of.map(({ body }) => body.tester)).size;
  const strengths = notes.map(({ body }) => body.strength).toSorted((a, b) => a - b);
  return {
    testers: testers(notes),
    notes: notes.length,
    blind: testers(notes.filter(({ body }) => body.isBlind)),
    for: testers(notes.filter(({ body }) => body.speaks === "for")),
    against: testers(notes.filter(({ body }) => body.speaks === "against")),
    strength: strengths[Math.floor((strengths.length - 1) / 2)]!,
  };
}
