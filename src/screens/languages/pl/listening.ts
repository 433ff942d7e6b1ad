import type { Words } from "../catalogue.ts";
import { ile } from "./forms/ile.ts";

/** Listening in Polish. */
export const said: Words<"listening"> = {
  words: {
    lead: "Ustal liczbę prób, wyrównaj głośność obu, potem słuchaj. Cokolwiek dokłada się do serii, gdy wynik jest już znany, sprawia, że przypadek wygląda jak słyszenie.",
    plan: "Ile prób",
    heard: "Kogo warto znaleźć, trafia w",
    heardHint: "na sto prób; 75 to połowa słyszana wyraźnie, a reszta zgadywana",
    listeners: "Osób, każda badana osobno",
    power: "Szansa, że się taką znajdzie",
    count: "Policz próby",
    needs: (trials, needed) =>
      `Po ${ile(trials, "próbie", "próby", "prób")} na osobę; wystarczy ${ile(needed, "trafna", "trafne", "trafnych")} lub więcej.`,
    keeps: (alarm, power) => `Zgadujący przechodzi ${alarm}; taka osoba przechodzi ${power}.`,
    others: "Inne długości",
    trials: "Prób",
    right: "Trafnych, by przejść",
    found: "Znajduje taką osobę",
    level: "Równie głośne",
    levelLead: "Zmierz oba u słuchającego, ze słuchawkami, jednym miernikiem na jednym zakresie.",
    first: "Pierwsze, dB",
    second: "Drugie, dB",
    doubt: "Niepewność odczytu, dB",
    shared: "Z tego wspólna dla obu, dB",
    within: "Równe z dokładnością do, dB",
    compare: "Porównaj poziomy",
    level_states: {
      proven: "Równie głośne, mimo niepewności.",
      refuted: "Nierówno głośne: podreguluj i zmierz znowu.",
      undecided: "Nierozstrzygnięte.",
    },
    difference: (difference) => `Drugie jest o ${difference} dB ponad pierwszym.`,
    trim: (trim) => `Zmień drugie o ${trim} dB.`,
    would: (doubt) => `Rozstrzygnąłby odczyt o niepewności ${doubt} dB.`,
    score: "Co mówi wynik",
    made: "Wykonane próby",
    got: "Z tego trafne",
    weigh: "Zważ wynik",
    p: (p) => `Przez zgadywanie tyle samo lub więcej zdarza się ${p}.`,
    odds: (odds) => `Odpowiedzi przemawiają ${odds} za słyszeniem.`,
    oddsAgainst: (odds) => `Odpowiedzi przemawiają ${odds} za zgadywaniem.`,
    more: (more) =>
      `Seria dłuższa o ${more} znalazłaby kogoś, kto wyraźnie słyszy, w czterech przypadkach na pięć. Zaplanuj ją od nowa; do tej nie dokładaj.`,
    enough: "Seria była dość długa, by znaleźć kogoś, kto wyraźnie słyszy, w czterech przypadkach na pięć.",
    share: (share, low, high) => `${share} na 100 trafnych, między ${low} a ${high}.`,
    toNotebook: "Notatnik",
    toUnits: "Urządzenia",
    times: (x) => `${x} do 1`,
    inHundred: (x) => `${x} razy na 100`,
  },
};
