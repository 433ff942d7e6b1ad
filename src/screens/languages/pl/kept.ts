import type { Words } from "../catalogue.ts";
import { ile } from "./forms/ile.ts";

/** Promises kept and missed in Polish. */
export const said: Words<"kept"> = {
  words: {
    what: "Dawne obietnice",
    title: "Dotrzymane?",
    lead: "Każdy podany termin obok dnia, w którym zamówienie wyszło. Termin, który ma się utrzymać 80 razy na 100, powinien trzymać mniej więcej tyle razy, ani rzadziej, ani częściej.",
    none: "Żadne obiecane zamówienie jeszcze nie wyszło",
    noneWords: "Gdy wyjdzie pierwsze obiecane zamówienie, terminy staną obok tego, co się stało.",
    all: "Wszystkie razem",
    said: "podano",
    group: (share, low, high) => `dotrzymano ${share}, przedział 95 % od ${low} do ${high}`,
    strip: "Każda kreska to zamówienie: na lewo od linii wyszło w czas, na prawo po terminie.",
    stripLabel: (kept, all) => `${kept} z ${all} zamówień wyszło do podanego dnia`,
    days: (days) =>
      days === 0
        ? "w samym dniu"
        : `${ile(Math.abs(days), "dzień", "dni", "dni")} ${days < 0 ? "przed terminem" : "po terminie"}`,
    early: "dni wcześniej",
    late: "dni później",
    orders: "Ostatnie zamówienia",
    promised: (day) => `obiecane na ${day}`,
    left: (day) => `wyszło ${day}`,
    otherwise: "Inaczej, niż zakładano:",
    notes: "Na czym opierają się te liczby",
  },
};
