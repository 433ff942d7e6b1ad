import type { Sentences } from "../../sentences/phrasebook.ts";

/** What is wrong with a table that comes in, in German. */
export const sentences: Sentences = {
  "a number with a decimal point": "eine Zahl mit Dezimalpunkt",
  "a number with a decimal comma": "eine Zahl mit Dezimalkomma",
  "write the number alone": "nur die Zahl schreiben",
  "write the number alone, without unit or blanks": "nur die Zahl schreiben, ohne Einheit und Leerzeichen",
  "write a point, or say that the file has decimal commas; leave thousands unparted":
    "einen Punkt schreiben oder sagen, dass die Datei Dezimalkommas hat; Tausender nicht trennen",
  "write a comma, or say that the file has decimal points; leave thousands unparted":
    "ein Komma schreiben oder sagen, dass die Datei Dezimalpunkte hat; Tausender nicht trennen",
  "true or false": "true oder false",
  "write one of these": "eines davon schreiben",
  "a date and a time that is on the workshop's clock, 2026-03-29 14:05, or an instant with its offset":
    "Tag und Uhrzeit nach der Werkstattuhr, 2026-03-29 14:05, oder ein Zeitpunkt mit seinem Abstand zu UTC",
  "write it in that form": "in dieser Form schreiben",
  "mend the JSON, or write plain words": "das JSON richten oder einfache Wörter schreiben",
  "mend the JSON": "das JSON richten",
  "names between semicolons": "Namen zwischen Strichpunkten",
  "text in quotes": "Text in Anführungszeichen",
  "a column without a name": "eine Spalte ohne Namen",
  "say which it is, or leave it out": "sagen, welche es ist, oder weglassen",
  "each column once": "jede Spalte einmal",
  "leave one of the two out": "eine von beiden weglassen",
  "no such column": "keine solche Spalte",
  "a column that is needed": "eine Spalte, die gebraucht wird",
  "add it, say which column holds it, or give one value for all rows":
    "ergänzen, sagen, welche Spalte sie enthält, oder einen Wert für alle Zeilen angeben",
  "one JSON object": "ein JSON-Objekt",
  "one of {names}": "eine von {names}",
  "merged cells ({cell} and its neighbours)": "verbundene Zellen ({cell} und ihre Nachbarn)",
  "a cell for each value": "eine Zelle für jeden Wert",
  "part them, and write the value in each row that it holds for":
    "trennen und den Wert in jede Zeile schreiben, für die er gilt",
  "the formula {formula}": "die Formel {formula}",
  "a value that was read or typed": "ein abgelesener oder getippter Wert",
  "paste the column as values": "die Spalte als Werte einfügen",
  "a value": "ein Wert",
  "mend the cell": "die Zelle richten",
  "an empty sheet": "ein leeres Blatt",
  "an empty file": "eine leere Datei",
  "a head and rows": "ein Kopf und Zeilen",
  "name another sheet": "ein anderes Blatt nennen",
  "save the table again": "die Tabelle noch einmal speichern",
  "{#n} cells": "{n} {n|Zelle|Zellen}",
  "{#n} cells, as the head has columns": "{n} {n|Zelle|Zellen}, so viele wie der Kopf Spalten hat",
  "put a text that holds the separator, such as a decimal comma, in quotes, or part cells by semicolons":
    "Text mit dem Trennzeichen, etwa einem Dezimalkomma, in Anführungszeichen setzen oder Zellen durch Strichpunkte trennen",
  "bytes of {#n}": "Bytes {n}",
  "text in rows and columns": "Text in Zeilen und Spalten",
  "save it as CSV": "als CSV speichern",
  "every quote closed, a quote inside doubled": "jedes Anführungszeichen geschlossen, eines im Text verdoppelt",
  "mend the quotes there": "die Anführungszeichen dort richten",
  "the byte {byte}": "das Byte {byte}",
  "bytes of another encoding": "Bytes einer anderen Kodierung",
  "text in the encoding {encoding}": "Text in der Kodierung {encoding}",
  "save it as CSV UTF-8, or say its encoding (windows-1252 in the west of Europe, windows-1250 in its middle)":
    "als CSV UTF-8 speichern oder die Kodierung nennen (windows-1252 im Westen Europas, windows-1250 in der Mitte)",
  "the same as row {#n}": "dasselbe wie Zeile {n}",
  "each entry once": "jeder Eintrag einmal",
  "leave one out, or give the times at which each was read": "einen weglassen oder angeben, wann jeder abgelesen wurde",
  "take each kind in by itself": "jede Art für sich übernehmen",
};
