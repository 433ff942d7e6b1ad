import type { Words } from "../catalogue.ts";
import { menge } from "./forms/menge.ts";

/** Promises kept and missed in German. */
export const said: Words<"kept"> = {
  words: {
    what: "Die früheren Zusagen",
    title: "Gehalten?",
    lead: "Jeder zugesagte Termin neben dem Tag, an dem der Auftrag hinausging. Ein Termin, der 80 von 100 Malen halten soll, sollte etwa so oft halten, nicht seltener und nicht öfter.",
    none: "Noch kein zugesagter Auftrag ging hinaus",
    noneWords: "Sobald der erste zugesagte Auftrag hinausgeht, stehen die Termine neben dem, was geschah.",
    all: "Alle zusammen",
    said: "gesagt",
    group: (share, low, high) => `${share} gehalten, 95-%-Bereich ${low} bis ${high}`,
    strip: "Jeder Strich ist ein Auftrag: links der Linie ging er rechtzeitig hinaus, rechts zu spät.",
    stripLabel: (kept, all) => `${kept} von ${all} Aufträgen gingen zum zugesagten Tag hinaus`,
    days: (days) =>
      days === 0 ? "am Tag selbst" : `${menge(Math.abs(days), "Tag", "Tage")} ${days < 0 ? "zu früh" : "zu spät"}`,
    early: "Tage früher",
    late: "Tage später",
    orders: "Letzte Aufträge",
    promised: (day) => `zugesagt ${day}`,
    left: (day) => `hinaus ${day}`,
    otherwise: "Anders als angenommen:",
    notes: "Worauf diese Zahlen beruhen",
  },
};
