import type { Words } from "../catalogue.ts";
import { ile } from "./forms/ile.ts";

/** The list of units in Polish. */
export const said: Words<"units"> = {
  words: {
    what: "Urządzenia",
    title: "Urządzenia",
    orders: "Zamówienia i jak je przyjąć",
    find: "Szukaj po numerze lub modelu",
    found: (count, all) =>
      count === all ? ile(all, "urządzenie", "urządzenia", "urządzeń") : `${count} z ${all} urządzeń`,
    none: (typed) => `Żadne urządzenie nie ma „${typed}” w numerze ani modelu.`,
    emptyTitle: "Jeszcze nie ma urządzeń",
    empty: "Każde urządzenie ma tu swoją teczkę, gdy tylko jego zamówienie zostanie zapisane.",
  },
};
