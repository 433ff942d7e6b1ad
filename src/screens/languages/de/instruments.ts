import type { Words } from "../catalogue.ts";
import { menge } from "./forms/menge.ts";

/** Instruments on trial in German. */
export const said: Words<"instruments"> = {
  words: {
    what: "Die Messgeräte",
    title: "Messgeräte und ihre Kontrolle",
    lead: "Jedes wird an etwas abgelesen, dessen Wert bekannt ist. Fällt eines durch, gilt kein Urteil mehr, das seit seiner letzten guten Kontrolle auf ihm ruhte.",
    none: "Es ist kein Messgerät eingetragen. Solange keines es ist, zählt kein Messwert.",
    states: {
      good: "In Ordnung",
      failed: "Durchgefallen: nicht mehr benutzen",
      undecided: "Unentschieden",
      untried: "Nicht geprüft",
    },
    against: (reference, truth, limit, unit) =>
      `Geprüft an ${reference}: ${truth}, höchstens ${limit} ${unit} daneben`.replace("  ", " "),
    rests: (count) =>
      count === 0
        ? "Kein Beleg eines offenen Geräts ruht darauf."
        : count === 1
          ? "Ein Beleg eines offenen Geräts ruht darauf."
          : `${count} Belege offener Geräte ruhen darauf.`,
    reopened: (count) => (count === 1 ? "Ein Beleg fiel mit ihm:" : `${count} Belege fielen mit ihm:`),
    drifts:
      "Seine Kontrollen neigen zu einer Seite, mehr als ihre Streuung erklärt: Es driftet, wenn auch noch innerhalb der Grenze.",
    before: "Das träge Mittel zeigt, seit wann es sich neigte.",
    steady: "Seine Kontrollen streuen um ihr Mittel, wie sie sollen.",
    signals: (count) =>
      count === 1 ? "Eine Kontrolle fiel aus ihrer Streuung." : `${count} Kontrollen fielen aus ihrer Streuung.`,
    few: "Zu wenige Kontrollen für ein Schaubild; ab acht gibt es eines.",
    chart: (title, count) =>
      `${menge(count, "Kontrolle", "Kontrollen")} von ${title}: jede Ablesung gegen den wahren Wert, die Grenzen und das träge Mittel`,
    enter: "Kontrolle eingeben",
    reading: "Es zeigt",
    doubt: "Unsicherheit der Ablesung",
    doubtHint: "halbe Breite, 95 %; ohne sie kann eine Kontrolle nur durchfallen",
    by: "Abgelesen von",
    write: "Kontrolle eintragen",
    written: (title) => `Die Kontrolle von ${title} ist eingetragen.`,
    limit: "Grenze",
    mean: "träges Mittel",
    toMorning: "Morgenkarte",
    toLimits: "Sicherheitsgrenzen",
  },
};
