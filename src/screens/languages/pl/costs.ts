import type { Words } from "../catalogue.ts";
import { ile } from "./forms/ile.ts";

/** What a unit costs in Polish. */
export const said: Words<"costs"> = {
  words: {
    what: "Koszty",
    title: "Ile kosztuje urządzenie",
    lead: "Części z wykazu, ręce po stawkach warsztatu, a to, co robi się dwa razy albo wyrzuca, tak często, jak mówią zapisy. Pieniądze to koszt warsztatu, nie cena sprzedaży.",
    none: "Jeszcze nic nie można powiedzieć: wpisz stawki (ile kosztuje godzina każdej umiejętności) i wykaz części każdego modelu.",
    missing: (model, why) => `${model}: ${why}.`,
    price: (price) => `cena ${price}`,
    model: (model, revision) => `${model}, wydanie ${revision}`,
    cost: (mean, low, high) => `Kosztuje średnio ${mean}; dziewięć na dziesięć urządzeń między ${low} a ${high}.`,
    margin: (mean) => `Z ceny zostaje średnio ${mean}.`,
    loss: (share) => `${share} sprzedaje się ze stratą.`,
    noLoss: "Prawie żadne nie idzie ze stratą.",
    real: (count, mean, low, high) =>
      `${ile(count, "rachunek gotowego urządzenia mówi", "rachunki gotowych urządzeń mówią", "rachunków gotowych urządzeń mówi")}: ${mean} (średnia między ${low} a ${high}).`,
    noReal: "Mniej niż trzy rachunki: nie ma z czym porównać.",
    parts: "części",
    work: "ręce",
    rework: "poprawki",
    scrap: "odpad",
    left: "zostaje",
    drawn: (model, cost, price) => `${model}: średni koszt ${cost} z ceny ${price}, narysowany w częściach`,
    bySkill: "Godziny według umiejętności",
    hours: (h) => `${h} h`,
    options: "Ile naprawdę kosztuje każdy wybór",
    optionsLead: (count) =>
      `Z rachunków ${ile(count, "gotowego urządzenia", "gotowych urządzeń", "gotowych urządzeń")}, wszystkie wybory ważone razem, każdy wobec najczęstszego.`,
    against: (choice, units) =>
      `wobec: ${choice}; ${ile(units, "urządzenie tak miało", "urządzenia tak miały", "urządzeń tak miało")}`,
    undecided: (more) =>
      more === undefined || more > 900
        ? "tego te zapisy nie mówią"
        : `jeszcze nie wiadomo: trzeba około ${more} urządzeń więcej`,
    interval: (choice, more, low, high) => `${choice}: ${more}, między ${low} a ${high}`,
    untold: (choice, why) => `${choice}: ${why}.`,
    noOptions: "Za mało rachunków z wyborami: tuzin to dobry początek.",
    orders: "Otwarte zamówienia",
    ordersLead: "Ile zostaje z ceny, najpewniej i w dziewięciu przypadkach na dziesięć.",
    order: "Zamówienie",
    units: "Urządzenia",
    leaves: "Zostaje",
    between: "Dziewięć na dziesięć między",
    toChecks: "Gdzie robić próby",
    toPromises: "Terminy",
  },
};
