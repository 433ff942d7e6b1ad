import type { NotebookIndexView, NotebookView, OutlookView, ReleaseDraftView } from "../../workshop/notebook/views.ts";
import data from "./examples.json" with { type: "json" };

/** An invented preamplifier of three versions, as the workshop itself answered for it. */
export const three = data.view as unknown as NotebookView;
export const outlooks = data.outlooks as unknown as readonly OutlookView[];
export const release = data.release as unknown as ReleaseDraftView;

const only = (count: number): NotebookView => ({
  ...three,
  pages: three.pages.slice(0, count),
  columns: three.columns.slice(0, count),
  groups: three.groups.map(({ group, rows }) => ({
    group,
    rows: rows.map((row) => ({ ...row, cells: row.cells.slice(0, count) })),
  })),
});

export const one = only(1);

/** Nine versions, the second of which finds no rest. */
export const many: NotebookView = {
  ...three,
  pages: Array.from({ length: 9 }, (_, i) => ({ ...three.pages[i % 3]!, version: String(i + 1) })),
  columns: Array.from({ length: 9 }, (_, i) => ({
    ...three.columns[i % 3]!,
    name: String(i + 1),
    ...(i > 0 && { against: String(i) }),
    ...(i === 1 && { trouble: "no rest was found: node kL would not settle" }),
  })),
  groups: three.groups.map(({ group, rows }) => ({
    group,
    rows: rows.map((row) => ({
      ...row,
      cells: Array.from({ length: 9 }, (_, i) => (i === 1 ? null : (row.cells[i % 3] ?? null))),
    })),
  })),
};

export const shelfOutlook: readonly OutlookView[] = [
  {
    ...outlooks[0]!,
    fromShelf: { "6SN7GT": 14 },
    notServing: [
      { valve: "N-107", type: "6SN7GT", reasons: ["in V1: left plate 131 V, allowed 89.6 to 121 V"] },
      { valve: "N-112", type: "6SN7GT", reasons: ["in V1: channels 0.81 dB apart, allowed 0.5 dB"] },
    ],
  },
];

export const index: NotebookIndexView = {
  now: three.now,
  models: ["Holm", "Skerry", "A preamplifier with a rather long name for its shelf"].map((model, i) => ({
    model,
    versions: 3 - i,
    newest: {
      version: String(3 - i),
      at: three.pages[2 - i]!.at,
      why: three.pages[2 - i]!.why,
    },
    revisions: i === 0 ? ["A", "B"] : [],
  })),
};
export const noModels: NotebookIndexView = { now: three.now, models: [] };
