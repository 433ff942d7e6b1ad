/** Languages that the handbook is written in. */
export const handbookLanguages = ["en", "de", "pl"] as const;
export type HandbookLanguage = (typeof handbookLanguages)[number];

export const isHandbookLanguage = (tag: unknown): tag is HandbookLanguage =>
  handbookLanguages.some((one) => one === tag);

export const nameOfLanguage: Readonly<Record<HandbookLanguage, string>> = {
  en: "English",
  de: "Deutsch",
  pl: "Polski",
};

/** The first of a browser's wishes (Accept-Language) that the handbook is written in. */
export function wishedLanguage(header: string | undefined): HandbookLanguage {
  const tags = (header ?? "").split(",").map((wish) => wish.trim().slice(0, 2).toLowerCase());
  return tags.find(isHandbookLanguage) ?? "en";
}

/** The words about a page to read. */
export interface ReadingWords {
  readonly skip: string;
  readonly back: string;
  readonly handbook: string;
  readonly papers: string;
  readonly papersLead: string;
  readonly language: string;
  readonly contents: string;
  readonly ways: string;
  readonly inEnglish: string;
  readonly formula: string;
  readonly validity: string;
  readonly doubt: string;
  readonly doubtAlways: string;
  readonly input: string;
  readonly answer: string;
  readonly field: string;
  readonly what: string;
  readonly sources: string;
  readonly cautions: string;
  readonly byHand: string;
  readonly noFormula: string;
  readonly notFound: string;
  readonly notFoundMend: string;
}

export const readingWords: Readonly<Record<HandbookLanguage, ReadingWords>> = {
  en: {
    skip: "To the page",
    back: "To the workshop",
    handbook: "Handbook",
    papers: "Papers",
    papersLead:
      "Everything that Stillglow computes, each with its paper: the formula, where it comes from, where it holds and what its doubt means.",
    language: "Language",
    contents: "Contents",
    ways: "Before and after",
    inEnglish: "",
    formula: "Formula",
    validity: "Where it holds",
    doubt: "Doubt",
    doubtAlways:
      "A doubt is the half-width of the interval that holds the true value in 95 cases of 100, in the figure’s own unit.",
    input: "What goes in",
    answer: "What comes out",
    field: "Field",
    what: "What it is",
    sources: "Sources",
    cautions: "Cautions",
    byHand: "The same by hand, at the terminal",
    noFormula:
      "It is a procedure, not one formula; how it goes about it stands under “Where it holds” and in its sources.",
    notFound: "No such page",
    notFoundMend: "The address leads nowhere. Begin with the contents of the handbook.",
  },
  de: {
    skip: "Zur Seite",
    back: "Zur Werkstatt",
    handbook: "Handbuch",
    papers: "Rechenblätter",
    papersLead:
      "Alles, was Stillglow berechnet, jedes mit seinem Blatt: die Formel, woher sie stammt, wo sie gilt und was ihre Unsicherheit bedeutet.",
    language: "Sprache",
    contents: "Inhalt",
    ways: "Davor und danach",
    inEnglish: "Das Blatt selbst ist auf Englisch geschrieben, wie die Normen und Tabellen, auf die es sich stützt.",
    formula: "Formel",
    validity: "Wo es gilt",
    doubt: "Unsicherheit",
    doubtAlways:
      "Eine Unsicherheit ist die halbe Breite des Bereichs, in dem der wahre Wert in 95 von 100 Fällen liegt, in der Einheit des Werts selbst.",
    input: "Was hineingeht",
    answer: "Was herauskommt",
    field: "Feld",
    what: "Was es ist",
    sources: "Quellen",
    cautions: "Vorsicht",
    byHand: "Dasselbe von Hand, am Terminal",
    noFormula: "Es ist ein Verfahren, nicht eine Formel; wie es vorgeht, steht unter „Wo es gilt“ und in den Quellen.",
    notFound: "Diese Seite gibt es nicht",
    notFoundMend: "Die Adresse führt nirgendwohin. Beginnen Sie mit dem Inhalt des Handbuchs.",
  },
  pl: {
    skip: "Do strony",
    back: "Do warsztatu",
    handbook: "Podręcznik",
    papers: "Karty obliczeń",
    papersLead:
      "Wszystko, co oblicza Stillglow, każde ze swoją kartą: wzór, skąd pochodzi, gdzie obowiązuje i co znaczy jego niepewność.",
    language: "Język",
    contents: "Spis treści",
    ways: "Poprzednia i następna",
    inEnglish: "Sama karta jest napisana po angielsku, tak jak normy i tablice, na których się opiera.",
    formula: "Wzór",
    validity: "Gdzie obowiązuje",
    doubt: "Niepewność",
    doubtAlways:
      "Niepewność to połowa szerokości przedziału, w którym prawdziwa wartość leży w 95 przypadkach na 100, w jednostce samej wartości.",
    input: "Co wchodzi",
    answer: "Co wychodzi",
    field: "Pole",
    what: "Co to jest",
    sources: "Źródła",
    cautions: "Ostrożnie",
    byHand: "To samo ręcznie, w terminalu",
    noFormula: "To postępowanie, a nie jeden wzór; jak przebiega, stoi w części „Gdzie obowiązuje” i w źródłach.",
    notFound: "Nie ma takiej strony",
    notFoundMend: "Adres prowadzi donikąd. Zacznij od spisu treści podręcznika.",
  },
};
