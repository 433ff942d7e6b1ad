import type { Words } from "../catalogue.ts";
import { menge } from "./forms/menge.ts";

/** The list of units in German. */
export const said: Words<"units"> = {
  words: {
    what: "Die Geräte",
    title: "Geräte",
    orders: "Aufträge, und wie einer angenommen wird",
    find: "Nach Nummer oder Modell suchen",
    found: (count, all) => (count === all ? menge(all, "Gerät", "Geräte") : `${count} von ${all} Geräten`),
    none: (typed) => `Kein Gerät hat „${typed}“ in Nummer oder Modell.`,
    emptyTitle: "Noch kein Gerät",
    empty: "Jedes Gerät hat hier seine Mappe, sobald sein Auftrag eingetragen ist.",
  },
};
