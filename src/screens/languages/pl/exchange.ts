import type { Words } from "../catalogue.ts";
import { ile } from "./forms/ile.ts";

/** Lists out and tables in in Polish. */
export const said: Words<"exchange"> = {
  words: {
    what: "Listy",
    title: "Import i eksport",
    lead: "Listy do przekazania, tabele z innych programów i cały warsztat w otwartej postaci. To, co wychodzi, zostaje i tutaj; to, co wchodzi, nie zastępuje niczego, co zapisano.",
    out: "Eksportuj",
    outLead: "Każda lista w obecnym stanie. Nazwy kolumn kończą się jednostką.",
    formats: { csv: "CSV", json: "JSON", xlsx: "Arkusz" },
    formatOf: (what, format) => `${what} jako ${format}`,
    lists: {
      units: "Urządzenia i stan ich dowodów",
      claims: "Dowody każdego urządzenia",
      orders: "Zamówienia i ich terminy",
      valves: "Lampy i ich oceny",
      timber: "Deski i ich wilgotność",
      parts: "Zamówione części",
      instruments: "Przyrządy i ich próby",
    },
    evidence: "Jeden rodzaj wpisów, dokładnie tak, jak je zapisano",
    kind: "Rodzaj",
    kindOf: (kind, entries) => `${kind} (${entries})`,
    whole: "Cały warsztat",
    wholeLead:
      "Jedno archiwum z każdym wpisem, nagraniem i zdjęciem, w postaciach czytelnych dla innych programów. „stillglow import” robi z niego gdzie indziej ten sam warsztat. Są w nim nazwiska i adresy klientów: przechowuj je tak jak one.",
    wholeFile: "workshop.zip",
    in: "Importuj",
    inLead: "Tabela odczytów albo czegokolwiek innego, co się zapisuje: CSV, JSON lub arkusz (.xlsx).",
    rows: "Czym są jej wiersze",
    file: "Plik",
    decimal: "Miejsca dziesiętne stoją po",
    decimals: { point: "kropce", comma: "przecinku" },
    looking: "Plik jest czytany …",
    columns: "Która kolumna jest która",
    columnsLead: "Kolumnę niepotrzebną wolno pominąć.",
    column: (head) => `„${head}” zawiera`,
    leftOut: "– pomiń –",
    missing: "Nie ma w pliku: tak samo w każdym wierszu",
    faults: (count) => `Jeszcze nie: ${ile(count, "błąd", "błędy", "błędów")}`,
    faultsLead: "Dopóki choć jeden zostaje, nic nie zostanie przyjęte.",
    fault: (line, column) => (column === "" ? `Wiersz ${line}` : `Wiersz ${line}, ${column}`),
    more: (count) => `i jeszcze ${count}`,
    preview: (count) =>
      count === 1
        ? "Można przyjąć jeden wpis:"
        : `Można przyjąć ${ile(count, "wpis", "wpisy", "wpisów")}; pierwsze z nich:`,
    nothing: "Jest nagłówek, a pod nim ani jednego wiersza.",
    take: (count) => (count === 1 ? "Przyjmij jeden wpis" : `Przyjmij ${ile(count, "wpis", "wpisy", "wpisów")}`),
    taken: (count) => (count === 1 ? "Przyjęto jeden wpis." : `Przyjęto ${ile(count, "wpis", "wpisy", "wpisów")}.`),
  },
};
