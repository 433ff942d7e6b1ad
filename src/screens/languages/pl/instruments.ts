import type { Words } from "../catalogue.ts";
import { forma, ile } from "./forms/ile.ts";

/** Instruments on trial in Polish. */
export const said: Words<"instruments"> = {
  words: {
    what: "Przyrządy",
    title: "Kontrola przyrządów",
    lead: "Każdym mierzy się coś, czego wartość jest znana. Gdy któryś nie przejdzie, przestają się liczyć wszystkie orzeczenia, które na nim polegały od jego ostatniej dobrej próby.",
    none: "Nie wpisano żadnego przyrządu. Dopóki go nie ma, żaden odczyt się nie liczy.",
    states: {
      good: "Dobry",
      failed: "Nie przeszedł: nie używać",
      undecided: "Nierozstrzygnięte",
      untried: "Niesprawdzony",
    },
    against: (reference, truth, limit, unit) =>
      `Sprawdzany na ${reference}: ${truth}, odchyłka do ${limit} ${unit}`.trim(),
    rests: (count) =>
      count === 0
        ? "Nie polega na nim żaden dowód otwartego urządzenia."
        : `${forma(count, "Polega", "Polegają", "Polega")} na nim ${ile(count, "dowód", "dowody", "dowodów")} otwartych urządzeń.`,
    reopened: (count) =>
      `Razem z nim ${forma(count, "upadł", "upadły", "upadło")} ${ile(count, "dowód", "dowody", "dowodów")}:`,
    drifts:
      "Jego próby chylą się na jedną stronę bardziej, niż tłumaczy ich rozrzut: płynie, choć jeszcze w granicach.",
    before: "Wolna średnia pokazuje, od kiedy się chylił.",
    steady: "Jego próby rozkładają się wokół średniej, jak powinny.",
    signals: (count) => `${ile(count, "próba wyszła", "próby wyszły", "prób wyszło")} poza własny rozrzut.`,
    few: "Za mało prób na wykres; wystarczy osiem.",
    chart: (title, count) =>
      `${title}, ${ile(count, "próba", "próby", "prób")}: każdy odczyt wobec wartości prawdziwej, granice i wolna średnia`,
    enter: "Wpisz próbę",
    reading: "Pokazuje",
    doubt: "Niepewność tego odczytu",
    doubtHint: "połowa przedziału 95 %; bez niej próba może tylko nie przejść",
    by: "Kto odczytał",
    write: "Zapisz próbę",
    written: (title) => `Zapisano próbę: ${title}.`,
    limit: "granica",
    mean: "wolna średnia",
    toMorning: "Karta poranna",
    toLimits: "Granice bezpieczeństwa",
  },
};
