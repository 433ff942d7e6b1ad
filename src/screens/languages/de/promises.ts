import type { Words } from "../catalogue.ts";

/** The promise book in German. */
export const said: Words<"promises"> = {
  words: {
    what: "Das Zusagenbuch",
    title: "Zusagenbuch",
    lead: "Die Termine kommen daher, dass die nächsten Wochen der Werkstatt viele Male durchgespielt werden, mit Fehlern und Nacharbeit. Jedes Band ist so dick wie der Anteil der Läufe, in denen der Auftrag noch hier ist.",
    scale: "Nahe Tage sind breiter gezeichnet als ferne.",
    promised: (date) => `Zugesagt: ${date}.`,
    promisedMark: "zugesagt",
    noPromise: "Kein Termin genannt.",
    late: (promised, by) => `In Gefahr: zugesagt ${promised}, aber mit 80 von 100 erst bis ${by}.`,
    lateOnes: (orders) =>
      orders.length === 1
        ? `Bei ${orders[0]} ist die Zusage in Gefahr.`
        : `Bei ${orders.length} Aufträgen ist die Zusage in Gefahr: ${orders.join(", ")}.`,
    heldBy: "Aufgehalten von",
    orders: "Aufträge",
    whatIf: "Was wäre, wenn",
    ordering: "Was zu bestellen ist",
    kept: "Gehalten?",
    lookBack: "Rückblick",
    onTime: (share) => `Gehalten in ${share} von 100 Läufen.`,
    nearlyAll: "über 99",
    hardlyAny: "unter 1",
    give: "Termin zusagen",
    giveShare: "Ein Tag, der hält",
    giveIt: "Zusage eintragen",
    inHundred: (share) => `${share} von 100`,
    given: (order, date) => `${order} ist für ${date} zugesagt.`,
    units: (units) => (units.length === 1 ? "Gerät" : "Geräte"),
    today: "heute",
    emptyTitle: "Kein offener Auftrag",
    empty: "Niemandem ist etwas zugesagt. Ein Auftrag erscheint hier, sobald er eingetragen ist.",
    odds: {
      p50: (date) => `mit 50 von 100 bis ${date}`,
      p80: (date) => `mit 80 von 100 bis ${date}`,
      p95: (date) => `mit 95 von 100 bis ${date}`,
    },
  },
};
