import type { WorkshopHead } from "../common/api.ts";

/** An invented workshop for the preview page and the browser tests. */

const models = ["Ebb", "Neap", "Flood", "Bore"];

export const workshop: WorkshopHead = {
  title: "Quarrin Ness",
  now: "2026-11-25T08:10:00+00:00",
  demo: true,
  units: Array.from({ length: 31 }, (_, i) => ({
    unit: `0${215 + i}`,
    model: models[i % 4]!,
    state: i % 5 === 0 ? "released" : i % 3 === 0 ? "every proof is in" : `${1 + (i % 7)} proofs missing`,
  })),
  head: "5d1f0c9a7be2447c0f9d1c2f6a8e3b5577a1c0de99b4e6f2a3c4d5e6f7081920",
};

export const emptyWorkshop: WorkshopHead = { ...workshop, title: "Our workshop", demo: false, units: [] };
