import type { Sentences } from "../../sentences/phrasebook.ts";

/** What is wrong with a table that comes in, in Polish. */
export const sentences: Sentences = {
  "a number with a decimal point": "liczba z kropką dziesiętną",
  "a number with a decimal comma": "liczba z przecinkiem dziesiętnym",
  "write the number alone": "napisz samą liczbę",
  "write the number alone, without unit or blanks": "napisz samą liczbę, bez jednostki i odstępów",
  "write a point, or say that the file has decimal commas; leave thousands unparted":
    "napisz kropkę albo zaznacz, że plik ma przecinki; tysięcy nie oddzielaj",
  "write a comma, or say that the file has decimal points; leave thousands unparted":
    "napisz przecinek albo zaznacz, że plik ma kropki; tysięcy nie oddzielaj",
  "true or false": "true albo false",
  "write one of these": "napisz jedno z nich",
  "a date and a time that is on the workshop's clock, 2026-03-29 14:05, or an instant with its offset":
    "dzień i godzina według zegara warsztatu, 2026-03-29 14:05, albo chwila z przesunięciem",
  "write it in that form": "napisz w tej postaci",
  "mend the JSON, or write plain words": "popraw JSON albo napisz zwykłe słowa",
  "mend the JSON": "popraw JSON",
  "names between semicolons": "nazwy rozdzielone średnikami",
  "text in quotes": "tekst w cudzysłowie",
  "a column without a name": "kolumna bez nazwy",
  "say which it is, or leave it out": "wskaż, która to, albo ją pomiń",
  "each column once": "każda kolumna raz",
  "leave one of the two out": "pomiń jedną z dwóch",
  "no such column": "nie ma takiej kolumny",
  "a column that is needed": "kolumna, która jest potrzebna",
  "add it, say which column holds it, or give one value for all rows":
    "dodaj ją, wskaż kolumnę, która ją zawiera, albo podaj jedną wartość dla wszystkich wierszy",
  "one JSON object": "jeden obiekt JSON",
  "one of {names}": "jedna z {names}",
  "merged cells ({cell} and its neighbours)": "scalone komórki ({cell} i sąsiednie)",
  "a cell for each value": "komórka na każdą wartość",
  "part them, and write the value in each row that it holds for":
    "rozdziel je i wpisz wartość w każdym wierszu, którego dotyczy",
  "the formula {formula}": "formuła {formula}",
  "a value that was read or typed": "wartość odczytana albo wpisana",
  "paste the column as values": "wklej kolumnę jako wartości",
  "a value": "wartość",
  "mend the cell": "popraw komórkę",
  "an empty sheet": "pusty arkusz",
  "an empty file": "pusty plik",
  "a head and rows": "nagłówek i wiersze",
  "name another sheet": "wskaż inny arkusz",
  "save the table again": "zapisz tabelę jeszcze raz",
  "{#n} cells": "{n} {n|komórka|komórki|komórek}",
  "{#n} cells, as the head has columns": "{n} {n|komórka|komórki|komórek}, tyle, ile kolumn ma nagłówek",
  "put a text that holds the separator, such as a decimal comma, in quotes, or part cells by semicolons":
    "tekst ze znakiem rozdzielającym, na przykład przecinkiem dziesiętnym, ujmij w cudzysłów albo rozdziel komórki średnikami",
  "bytes of {#n}": "bajty {n}",
  "text in rows and columns": "tekst w wierszach i kolumnach",
  "save it as CSV": "zapisz jako CSV",
  "every quote closed, a quote inside doubled": "każdy cudzysłów zamknięty, wewnętrzny podwojony",
  "mend the quotes there": "popraw tam cudzysłowy",
  "the byte {byte}": "bajt {byte}",
  "bytes of another encoding": "bajty innego kodowania",
  "text in the encoding {encoding}": "tekst w kodowaniu {encoding}",
  "save it as CSV UTF-8, or say its encoding (windows-1252 in the west of Europe, windows-1250 in its middle)":
    "zapisz jako CSV UTF-8 albo podaj kodowanie (windows-1252 na zachodzie Europy, windows-1250 w środku)",
  "the same as row {#n}": "to samo co wiersz {n}",
  "each entry once": "każdy wpis raz",
  "leave one out, or give the times at which each was read": "pomiń jeden albo podaj, kiedy każdy odczytano",
  "take each kind in by itself": "przyjmuj każdy rodzaj osobno",
};
