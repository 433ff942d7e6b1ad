import type { Words } from "../catalogue.ts";
import { menge } from "./forms/menge.ts";

/** Lists out and tables in in German. */
export const said: Words<"exchange"> = {
  words: {
    what: "Die Listen",
    title: "Import und Export",
    lead: "Listen zum Weitergeben, Tabellen aus anderen Programmen und die ganze Werkstatt in offener Form. Was hinausgeht, bleibt auch hier; was hereinkommt, ersetzt nichts Geschriebenes.",
    out: "Exportieren",
    outLead: "Jede Liste, wie sie jetzt steht. Die Namen der Spalten enden mit ihrer Einheit.",
    formats: { csv: "CSV", json: "JSON", xlsx: "Tabellenblatt" },
    formatOf: (what, format) => `${what} als ${format}`,
    lists: {
      units: "Geräte und wie weit sie belegt sind",
      claims: "Belege jedes Geräts",
      orders: "Aufträge und ihre Termine",
      valves: "Röhren und ihre Urteile",
      timber: "Bretter und ihre Feuchte",
      parts: "Bestellte Teile",
      instruments: "Messgeräte und ihre Kontrollen",
    },
    evidence: "Eine Art von Einträgen, genau wie sie geschrieben wurden",
    kind: "Art",
    kindOf: (kind, entries) => `${kind} (${entries})`,
    whole: "Die ganze Werkstatt",
    wholeLead:
      "Ein Archiv mit jedem Eintrag, jeder Aufnahme und jedem Foto, in Formen, die andere Programme lesen. ‚stillglow import‘ macht anderswo dieselbe Werkstatt daraus. Namen und Anschriften der Kunden sind darin: Verwahren Sie es wie diese.",
    wholeFile: "workshop.zip",
    in: "Importieren",
    inLead: "Eine Tabelle mit Messwerten oder anderem, was eingetragen wird: CSV, JSON oder ein Tabellenblatt (.xlsx).",
    rows: "Was ihre Zeilen sind",
    file: "Datei",
    decimal: "Nachkommastellen stehen nach",
    decimals: { point: "Punkt", comma: "Komma" },
    looking: "Die Datei wird gelesen …",
    columns: "Welche Spalte welche ist",
    columnsLead: "Was nicht gebraucht wird, darf wegbleiben.",
    column: (head) => `„${head}“ enthält`,
    leftOut: "– weglassen –",
    missing: "Nicht in der Datei: für alle Zeilen gleich",
    faults: (count) => `Noch nicht: ${menge(count, "Fehler", "Fehler")}`,
    faultsLead: "Solange einer bleibt, wird nichts übernommen.",
    fault: (line, column) => (column === "" ? `Zeile ${line}` : `Zeile ${line}, ${column}`),
    more: (count) => `und ${count} weitere`,
    preview: (count) =>
      count === 1
        ? "Ein Eintrag kann übernommen werden:"
        : `${count} Einträge können übernommen werden; die ersten davon:`,
    nothing: "Es gibt einen Kopf und keine Zeile darunter.",
    take: (count) => (count === 1 ? "Einen Eintrag übernehmen" : `${count} Einträge übernehmen`),
    taken: (count) => (count === 1 ? "Ein Eintrag übernommen." : `${count} Einträge übernommen.`),
  },
};
