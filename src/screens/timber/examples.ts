import type {
  CaseView,
  CrackLookBackView,
  CutPlanView,
  EarlyWeighingView,
  PieceCardView,
  PieceView,
  RunsView,
  TimberPlaceView,
  TimberShelfView,
} from "../../workshop/timber/views.ts";
import kept from "./examples.json" with { type: "json" };

/** Invented shelves for the preview page and the browser tests. */

export const shelf = kept.shelf as unknown as TimberShelfView;
export const piece = kept.piece as unknown as PieceView;
export const approach = kept.approach as unknown as PieceView;
export const refuted = kept.refuted as unknown as CaseView;
export const runs = kept.runs as unknown as RunsView;
export const cracks = kept.cracks as unknown as CrackLookBackView;
export const cuts = kept.cuts as unknown as CutPlanView;
export const proven = kept.proven as unknown as CaseView;

export const none: TimberShelfView = {
  ...shelf,
  pieces: [],
  places: [],
  cases: [],
  computing: 0,
  units: [],
  cracks: { pieces: 0, cracks: 0, found: [], words: [] },
};

const only = (names: readonly string[], pieces: readonly PieceCardView[]): TimberShelfView => ({
  ...shelf,
  pieces,
  places: shelf.places.map(
    (place): TimberPlaceView => ({
      ...place,
      pieces: place.pieces.filter((name) => names.includes(name)),
    }),
  ),
  cases: [],
});

export const one = only(
  ["A-125"],
  shelf.pieces.filter((card) => card.piece === "A-125"),
);

/** The first moments after opening: nothing is computed yet. */
export const computing: TimberShelfView = {
  ...shelf,
  computing: shelf.pieces.length,
  pieces: shelf.pieces.map(({ moisture: _, stands: __, ripe: ___, ...card }) => ({ ...card, pending: true })),
};

export const many: TimberShelfView = {
  ...shelf,
  pieces: Array.from({ length: 12 }, (_, i) =>
    shelf.pieces.map((card) => ({ ...card, piece: `${card.piece}-${i + 1}` })),
  ).flat(),
  places: shelf.places.map((place) => ({
    ...place,
    pieces: Array.from({ length: 12 }, (_, i) => place.pieces.map((name) => `${name}-${i + 1}`)).flat(),
  })),
};

const long = "Balkan pear from the orchard that the storm of the second winter took down behind the boathouse";

export const veryLong: TimberShelfView = only(
  ["A-125"],
  shelf.pieces
    .filter((card) => card.piece === "A-125")
    .map((card) => ({
      ...card,
      piece: "A-125-left-half-of-the-second-plank",
      species: long,
      flaws: ["crack of 212 mm", "bow of 4 mm", "twist of 3 mm"],
      wanting: `No air of ${long} is on record: log its temperature and humidity.`,
    })),
);

export const early: EarlyWeighingView = {
  cracked: 26,
  whole: 90,
  limit_pct: 11.1,
  held: 16,
  share: 0.62,
  words:
    "16 of 26 pieces that cracked lay on the plate wetter than 11.1 %, which four of five whole ones were below: a weighing on leaving the chamber would have held them back, before any sanding.",
};

export const noCase: CaseView = {
  now: shelf.now,
  unit: "0420",
  destination: "Chiba, Japan",
  panels: [],
  verdict: "open",
  words: "This unit has no case on record yet.",
  coats: [],
  free: [],
  pieces: [],
  people: ["woodworker", "owner"],
  warmPlaces: ["warm chamber"],
};
