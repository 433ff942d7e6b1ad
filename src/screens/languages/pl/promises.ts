import type { Words } from "../catalogue.ts";
import { ile } from "./forms/ile.ts";

/** The promise book in Polish. */
export const said: Words<"promises"> = {
  words: {
    what: "Księga terminów",
    title: "Księga terminów",
    lead: "Terminy biorą się stąd, że nadchodzące tygodnie warsztatu rozgrywa się wiele razy, z usterkami i naprawami. Każda wstęga jest tak gruba, jaka część przebiegów, w których zamówienie jest jeszcze tutaj.",
    scale: "Bliskie dni narysowano szerzej niż dalekie.",
    promised: (date) => `Obiecane na ${date}.`,
    promisedMark: "obiecane",
    noPromise: "Nie podano terminu.",
    late: (promised, by) => `Zagrożone: obiecane na ${promised}, a 80 na 100 dopiero do ${by}.`,
    lateOnes: (orders) =>
      orders.length === 1
        ? `Zamówieniu ${orders[0]} grozi niedotrzymanie terminu.`
        : `${ile(orders.length, "zamówieniu", "zamówieniom", "zamówieniom")} grozi niedotrzymanie terminu: ${orders.join(", ")}.`,
    heldBy: "Wstrzymuje",
    orders: "Zamówienia",
    whatIf: "Co, jeśli",
    ordering: "Co zamówić",
    kept: "Dotrzymane?",
    lookBack: "Spojrzenie wstecz",
    onTime: (share) => `Dotrzymane w ${share} na 100 przebiegów.`,
    nearlyAll: "ponad 99",
    hardlyAny: "mniej niż 1",
    give: "Podaj termin",
    giveShare: "Dzień, który się utrzyma",
    giveIt: "Zapisz obietnicę",
    inHundred: (share) => `${share} na 100`,
    given: (order, date) => `${order} obiecane na ${date}.`,
    units: (units) => (units.length === 1 ? "Urządzenie" : "Urządzenia"),
    today: "dziś",
    emptyTitle: "Brak otwartych zamówień",
    empty: "Nikomu nic nie obiecano. Zamówienie pojawi się tu, gdy tylko zostanie zapisane.",
    odds: {
      p50: (date) => `50 na 100 do ${date}`,
      p80: (date) => `80 na 100 do ${date}`,
      p95: (date) => `95 na 100 do ${date}`,
    },
  },
};
