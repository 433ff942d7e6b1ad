import type { Words } from "../catalogue.ts";

/** What every screen says in German. */
export const said: Words<"common"> = {
  common: {
    waiting: (what) => `${what}: wird aus dem Hauptbuch geholt …`,
    troubleTitle: "Das ließ sich nicht holen",
    pageBroken:
      "Diese Seite ließ sich nicht öffnen. Was Sie getippt haben, bleibt erhalten: noch einmal fragen oder über die Zeile oben weitergehen.",
    voltsPeak: "V Spitze",
    behind: "Wird neu berechnet. Was hier steht, ist noch der Stand davor.",
    notFetched:
      "Der Rechner der Werkstatt hat diesen Teil der Seite nicht herausgegeben. Vielleicht startet er gerade neu; was Sie getippt haben, bleibt.",
    again: "Noch einmal fragen",
    allUnits: "Welche Geräte es gibt",
    noUnitTitle: "Ein solches Gerät gibt es hier nicht",
    howComputed: "So wird gerechnet:",
    writing: "Wird eingetragen, und was daraus folgt, wird berechnet …",
    by: "Wer trägt das ein",
    byHint: "Ihre Rolle, wie sie im Hauptbuch stehen soll",
    recalled: "Was Sie getippt hatten, ist noch da. Eingetragen war es noch nicht.",
    afresh: "Von vorn beginnen",
    mend: "Etwas fehlt oder ist nicht lesbar: siehe neben den Feldern. Nichts Getipptes ist verloren.",
    needed: "Das wird gebraucht.",
    inHundred: (count, side) => `${side === "over" ? "über " : side === "under" ? "unter " : ""}${count} von 100`,
    to: (low, high) => `${low} bis ${high}`,
    ruler: {
      unread: "noch nicht gemessen",
      notUnder: (low) => `nicht unter ${low}`,
      notOver: (high) => `nicht über ${high}`,
      noLimits: "ohne Grenzen",
    },
    takenOut: (valve) => `${valve}, herausgenommen`,
    putIn: (valve) => `${valve}, eingesteckt`,
    ambiguous: (typed) =>
      `„${typed}“ enthält Komma und Punkt. Lassen Sie das Zeichen weg, das die Tausender gruppiert.`,
    notANumber: (typed) => `„${typed}“ ist keine Zahl. Schreiben Sie Ziffern, Dezimalen nach Komma oder Punkt.`,
    dangers: {
      hot: "Heißes Glas und heiße Heizplatten: Sie verbrennen noch Minuten nach dem Ausschalten.",
      mains: "Netzspannung im Gerät: Stecker ziehen, bevor Sie hineingreifen.",
      "high-voltage": "Tödliche Spannung bleibt nach dem Ausstecken: erst entladen und nachmessen, dann anfassen.",
      dust: "Staub von Laubholz: Maske auf, Absaugung an.",
    },
    dangerShort: { hot: "heiß", mains: "Netz", "high-voltage": "Hochspannung", dust: "Staub" },
    guide: "Die Grenzen hier sind Anhaltswerte. Es entscheiden die örtlichen Vorschriften und eine befugte Fachkraft.",
  },
  channels: { left: "links", right: "rechts", mains: "Netz" },
  states: {
    open: "Offen",
    proven: "Belegt",
    refuted: "Widerlegt",
    undecided: "Unentschieden",
    void: "Ungültig",
    conceded: "Sonderfreigabe",
  },
  firstSteps: {
    title: "Was zuerst zu tun ist",
    steps: [
      "Die Werkstatt: ihre Leute, ihre Plätze und ihre Arbeitszeiten.",
      "Ihre Messgeräte, jedes mit dem Normal, an dem es täglich kontrolliert wird.",
      "Ein Modell: seine Schaltung, was von ihm in welchen Grenzen zu belegen ist und wie es gebaut wird.",
      "Ein Auftrag, seine Geräte und die Röhren, die darin stecken.",
    ],
    how: "Jedes davon wird auf seiner eigenen Seite eingetragen. Eine Datei mit Einträgen geht am Terminal hinein, einer je Zeile:",
    mend: "Ein Eintrag, dem etwas fehlt, wird mit dem Fehlenden zurückgewiesen, und nichts davon bleibt stehen.",
  },
  steps: {
    chassis: "Chassis",
    wiring: "Verdrahtung",
    plate: "Heizplatte",
    case: "Gehäuse",
    coats: "Anstriche",
    "heat run": "Einbrennlauf",
    soak: "Wärmelauf",
    sanding: "Schleifen",
    oiling: "Ölen",
    lid: "Deckel",
  },
};
