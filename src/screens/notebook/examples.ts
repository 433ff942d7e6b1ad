import type {
  BlindView,
  NotebookIndexView,
  NotebookView,
  OutlookView,
  ReleaseDraftView,
  ReportsView,
} from "../../workshop/notebook/views.ts";
import data from "./examples.json" with { type: "json" };

const listener = (number: number, trials: number, right: number, p: number, amongAll: number) => ({
  listener: `listener ${number}`,
  through: ["Fulmar open"],
  trials,
  right,
  p,
  amongAll,
  needed: trials === 10 ? 9 : 12,
});

/** One of three listeners hears it; invented counts with their binomial odds. */
const heard: BlindView = {
  told: [
    {
      versions: ["1", "2"],
      together: {
        trials: 48,
        right: 32,
        p: 0.0147,
        needed: 31,
        power: 0.97,
        share: { value: 0.667, low: 0.516, high: 0.796 },
      },
      listeners: [listener(2, 16, 15, 0.00026, 0.00078), listener(1, 16, 9, 0.402, 1), listener(3, 16, 8, 0.598, 1)],
    },
  ],
  preferred: {
    trials: 60,
    listeners: 3,
    p: 0.021,
    ranking: [
      { item: "3", strength: 0.47, low: 0.31, high: 0.64 },
      { item: "2", strength: 0.34, low: 0.21, high: 0.5 },
      { item: "1", strength: 0.19, low: 0.1, high: 0.32 },
    ],
    order: { state: "solved", odds: 1.7, low: 1.1, high: 2.7 },
    ordered: 60,
  },
};
const unheard: BlindView = { told: [] };

/** What two testers wrote of three versions. */
const reported: ReportsView = {
  testers: 2,
  versions: ["1", "2", "3"],
  rows: [
    {
      heard: "hiss",
      cells: [
        { testers: 2, notes: 2, blind: 1, for: 0, against: 2, strength: 4 },
        null,
        { testers: 1, notes: 1, blind: 1, for: 1, against: 0, strength: 2 },
      ],
    },
    { heard: "heat", cells: [null, { testers: 1, notes: 1, blind: 0, for: 0, against: 1, strength: 3 }, null] },
  ],
  notes: [
    {
      id: "n2",
      at: "2026-11-20T12:00:00+00:00",
      version: "3",
      tester: "tester 2",
      heard: "hiss",
      speaks: "for",
      strength: 2,
      isBlind: true,
      against: "1",
      through: "Fulmar open",
      says: "Quiet now, between movements too",
    },
    {
      id: "n1",
      at: "2026-11-18T12:00:00+00:00",
      version: "2",
      tester: "tester 1",
      heard: "heat",
      speaks: "against",
      strength: 3,
      isBlind: false,
      says: "",
    },
  ],
};

/** An invented preamplifier of three versions, as the workshop itself answered for it. */
export const three: NotebookView = {
  ...(data.view as unknown as Omit<NotebookView, "blind" | "reports" | "headphones">),
  blind: heard,
  reports: reported,
  headphones: ["Fulmar open", "Great auk"],
};
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

export const one: NotebookView = { ...only(1), blind: unheard };

/** Nine versions, the second of which finds no rest, and twelve listeners who hear nothing. */
export const many: NotebookView = {
  ...three,
  blind: {
    told: [
      {
        versions: ["3", "4"],
        together: {
          trials: 120,
          right: 63,
          p: 0.324,
          needed: 70,
          power: 0.99,
          moreTrials: 0,
          share: { value: 0.525, low: 0.432, high: 0.617 },
        },
        listeners: Array.from({ length: 12 }, (_, i) => listener(i + 1, 10, 6, 0.377, 1)),
      },
    ],
  },
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

const endless = "Ausgangsübertragerlose-Kopfhörerverstärker-Vorstufe-mit-Kathodenfolger";

/** Names and reasons as long as somebody might write them. */
export const long: NotebookView = {
  ...three,
  model: `${endless} for the long room at the end of the quay`,
  pages: three.pages.map((page, i) => ({
    ...page,
    version: i === 2 ? endless : page.version,
    why: `${page.why}. ${"The trial of last week left it open whether the hiss came from the first stage or from the volume control, so both were changed. ".repeat(3)}`,
  })),
  columns: three.columns.map((column, i) => ({ ...column, name: i === 2 ? endless : column.name })),
  blind: {
    told: heard.told.map((pair) => ({
      ...pair,
      versions: ["1", endless],
      listeners: pair.listeners.map((one) => ({ ...one, listener: `${one.listener}, ${endless}`, trials: 400 })),
    })),
    preferred: {
      ...heard.preferred!,
      ranking: heard.preferred!.ranking.map((r) => ({ ...r, item: `${endless} ${r.item}` })),
    },
  },
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
