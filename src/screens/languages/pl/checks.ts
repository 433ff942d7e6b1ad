import type { Words } from "../catalogue.ts";
import { ile } from "./forms/ile.ts";

/** Where checks belong in Polish. */
export const said: Words<"checks"> = {
  words: {
    what: "Gdzie robić próby",
    title: "Gdzie robić próby",
    lead: (units, faults) =>
      `Z ${ile(units, "urządzenia", "urządzeń", "urządzeń")}; ${ile(faults, "znaleziona usterka", "znalezione usterki", "znalezionych usterek")}: gdzie każdą znaleziono, gdzie można było i ile dokłada do jej kosztu każdy etap.`,
    none: "Nie zapisano jeszcze żadnej usterki. Zapisuj każdą, gdy ją znajdziesz, z pierwszym etapem, na którym można ją było znaleźć.",
    today: (cents) => `Usterki i próby kosztują dziś ${cents} na urządzenie.`,
    saves: "Co według zapisów zmienić",
    noSaves: "Żadna nowa ani przeniesiona próba nie oszczędza jeszcze całym swoim przedziałem.",
    asToday: "To też odpowiedź: zostaw, jak jest.",
    at: (money) => `po ${money}`,
    kinds: {
      add: (check, to) => `Dodaj na etapie ${to}: ${check}`,
      move: (check, from, to) => `Przenieś z etapu ${from} na etap ${to}: ${check}`,
      drop: (check) => `Pomiń: ${check.charAt(0).toLowerCase()}${check.slice(1)}`,
    },
    dear: "Droższe niż to, co znalazły",
    dearLead:
      "Według tych zapisów próby te kosztują więcej, niż znalezione usterki kosztowałyby później. W zapisach nie ma tego, przed jakimi błędami rąk chronią, ani tego, co znaleziono, a nie zapisano: decyduje właściciel, a do tej pory każda pozostaje wymagana. Krótsze spojrzenie to mniejszy krok.",
    per: "na urządzenie",
    perPiece: "na sztuce",
    past: (count) =>
      count === 0
        ? "żaden z wpisanych błędów by się nie prześlizgnął"
        : count === 1
          ? "jeden wpisany błąd by się prześlizgnął"
          : `prześlizgnęłoby się wpisanych błędów: ${count}`,
    units: (count) => `inaczej poszłoby z ${ile(count, "urządzeniem", "urządzeniami", "urządzeniami")}`,
    interval: (saving, low, high) => `oszczędza ${saving} na urządzenie, między ${low} a ${high}`,
    between: (low, high) => `od ${low} do ${high}`,
    silent: "Tego te zapisy nie mówią",
    silentLead: "Ich przedział obejmuje zero. Powiedzą to następne urządzenia; do tej pory nic nie jest proponowane.",
    soaks: "Jak długo próba albo wygrzewanie się opłaca",
    soaksLead:
      "Z godzin, po których sztuki zawiodły albo pękły; te, które wyszły dobre, liczą się do tej chwili jako dobre.",
    toSoaks: "Godziny w księdze",
    soakKinds: {
      shorten: (what, from, to) => `Skróć z ${from} h do ${to} h: ${what}`,
      lengthen: (what, from, to) => `Wydłuż z ${from} h do ${to} h: ${what}`,
    },
    soakSilent: (told) => `${told} (te godziny tego nie mówią)`,
    soakPieces: (pieces, failures) => `${ile(pieces, "sztuka", "sztuki", "sztuk")}, zawiodło ${failures}.`,
    sorts: "Gdzie znajdowano usterki",
    sort: "Usterka",
    possible: "Widoczna od",
    found: "Znaleziona przy",
    order: "Kolejność prób",
    orderLead:
      "Ile pracy rąk kosztują średnio próby urządzenia, gdy przerywa się przy pierwszej usterce: w kolejności modelu i w najtańszej dozwolonej. To, co chroni badającego, zostaje na swoim miejscu.",
    minutes: (now, best) => `${now} min według listy, ${best} min w najtańszej kolejności`,
    proven: "Żadna dozwolona kolejność nie kosztuje mniej.",
    notProven: "Najtańsza znaleziona, bez dowodu.",
    show: (model) => `Najtańsza kolejność dla ${model}`,
    toCosts: "Ile kosztuje urządzenie",
    toMorning: "Karta poranna",
  },
};
