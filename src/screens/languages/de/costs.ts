import type { Words } from "../catalogue.ts";
import { menge } from "./forms/menge.ts";

/** What a unit costs in German. */
export const said: Words<"costs"> = {
  words: {
    what: "Die Kosten",
    title: "Was ein Gerät kostet",
    lead: "Teile aus der Stückliste, Hände zu den Sätzen der Werkstatt, und was doppelt getan oder weggeworfen wird, so oft die Einträge es sagen. Geld ist hier, was es die Werkstatt kostet, nicht der Verkaufspreis.",
    none: "Noch lässt sich nichts sagen: Tragen Sie Stundensätze ein (was eine Stunde jeder Fertigkeit kostet) und für jedes Modell eine Stückliste.",
    missing: (model, why) => `${model}: ${why}.`,
    price: (price) => `Preis ${price}`,
    model: (model, revision) => `${model}, Stand ${revision}`,
    cost: (mean, low, high) => `Kostet im Mittel ${mean}; neun von zehn Geräten zwischen ${low} und ${high}.`,
    margin: (mean) => `Vom Preis bleiben im Mittel ${mean}.`,
    loss: (share) => `${share} ${share === "1 von 100" ? "geht" : "gehen"} mit Verlust weg.`,
    noLoss: "Kaum eines geht mit Verlust weg.",
    real: (count, mean, low, high) =>
      `${menge(count, "Abrechnung eines fertigen Geräts sagt", "Abrechnungen fertiger Geräte sagen")} ${mean} (Mittel zwischen ${low} und ${high}).`,
    noReal: "Weniger als drei Abrechnungen: nichts, woran es sich messen ließe.",
    parts: "Teile",
    work: "Hände",
    rework: "Nacharbeit",
    scrap: "Ausschuss",
    left: "bleibt",
    drawn: (model, cost, price) => `${model}: mittlere Kosten ${cost} von ${price} Preis, nach Anteilen gezeichnet`,
    bySkill: "Stunden nach Fertigkeit",
    hours: (h) => `${h} h`,
    options: "Was jede Wahl wirklich kostet",
    optionsLead: (count) =>
      `Aus den Abrechnungen von ${menge(count, "fertigen Gerät", "fertigen Geräten")}, alle Wahlen zusammen abgewogen, jede gegen die häufigste.`,
    against: (choice, units) => `gegen ${choice}; ${units === 1 ? "1 Gerät hatte" : `${units} Geräte hatten`} es`,
    undecided: (more) =>
      more === undefined || more > 900
        ? "sagen diese Einträge nicht"
        : `noch nicht zu sagen: erst mit etwa ${more} Geräten mehr`,
    interval: (choice, more, low, high) => `${choice}: ${more}, zwischen ${low} und ${high}`,
    untold: (choice, why) => `${choice}: ${why}.`,
    noOptions: "Zu wenige Abrechnungen mit Wahlen: Ein Dutzend ist ein Anfang.",
    orders: "Offene Aufträge",
    ordersLead: "Was vom Preis bleibt, im wahrscheinlichsten Fall und in neun von zehn Fällen.",
    order: "Auftrag",
    units: "Geräte",
    leaves: "Bleibt",
    between: "Neun von zehn zwischen",
    toChecks: "Wo Prüfungen hingehören",
    toPromises: "Zusagen",
  },
};
