import type { Sentences } from "../../sentences/phrasebook.ts";

/** What instruments on a wire say when something is the matter, in Polish. */
export const sentences: Sentences = {
  "{where} refuses the connection; is the instrument on, and its network port enabled?":
    "{where} odrzuca połączenie; czy przyrząd jest włączony, a jego port sieciowy odblokowany?",
  "{where} is a name that nobody knows; check it, or write the address":
    "{where} to nazwa, której nikt nie zna; sprawdź ją albo wpisz adres",
  "{where} can't be reached; check the cable and the address": "{where} jest nieosiągalny; sprawdź kabel i adres",
  "{where} broke the connection": "{where} zerwał połączenie",
  "{where} ended the connection": "{where} zakończył połączenie",
  "nobody answers at {where}": "pod {where} nikt nie odpowiada",
  "{path} is gone: was it unplugged?": "{path} zniknął: czy go odłączono?",
  "{path} is not there; is its adapter plugged in?": "{path} nie istnieje; czy przejściówka jest podłączona?",
  "{path} may not be opened by this user; add it to the ports' group":
    "tego użytkownika nie dopuszczono do {path}; dodaj go do grupy portów",
  "{path} is in use by another program": "z {path} korzysta inny program",
  "no answer within {#n} s": "brak odpowiedzi w ciągu {n} s",
  "only {said} came within {#n} s, without a line end": "w ciągu {n} s przyszło tylko {said}, bez końca wiersza",
  "{said} is no answer that its description knows": "{said} to nie jest odpowiedź znana jego opisowi",
  "{said} names no unit of {list}": "{said} nie podaje jednostki spośród {list}",
  "{said} is {#v}, and it can show {#a} to {#b}; nothing of it is kept":
    "{said} to {v}, a przyrząd może pokazać od {a} do {b}; nic z tego nie zostaje",
  "it says {said}, which is an overload; apply less, or choose a wider range":
    "podaje {said}, czyli przeciążenie; podaj mniej albo wybierz szerszy zakres",
  "it has not come to rest: {said}": "nie uspokoił się: {said}",
  "the pattern {pattern} takes too long on an answer": "wzorzec {pattern} trwa przy odpowiedzi zbyt długo",
  "{said} goes on without a line end; check baud rate and ending":
    "{said} ciągnie się bez końca wiersza; sprawdź szybkość i koniec wiersza",
  "it repeats {said} where {sent} was sent": "powtarza {said}, choć wysłano {sent}",
  "the checksum of {said} is wrong": "suma kontrolna {said} się nie zgadza",
  'it repeats what is sent; write `"echo": true` into its description':
    'powtarza to, co się wysyła; wpisz `"echo": true` do jego opisu',
  "{said} and {more} both answer one question; which is right can't be told":
    "{said} i {more} odpowiadają na jedno pytanie; nie wiadomo, która jest właściwa",
  "{said} came without being asked for, so no answer can be trusted":
    "{said} przyszło bez pytania, więc żadnej odpowiedzi nie można ufać",
  "{said} answers, and its description expects another; check the port and what is plugged in":
    "odpowiada {said}, a jego opis oczekuje innego; sprawdź port i to, co podłączono",
  "{~why}, in the middle of {said}": "{why}, w środku {said}",
  "{said} for the {#n}th time to the last digit, since {@at}, where it scattered before; is it held, or hung?":
    "{said} po raz {n}. do ostatniej cyfry, od {at}, choć wcześniej się wahał; czy trzyma wartość, czy się zawiesił?",
  "its clock stands still at {said}; it repeats an old reading": "jego zegar stoi na {said}; powtarza stary odczyt",
  "{setting} was set to {#sent} and it answers {#back}; what it gives is not known: switch its output off":
    "{setting} nastawiono na {sent}, a odpowiada {back}; nie wiadomo, co daje: wyłącz jego wyjście",
  "its output was switched on and it answers otherwise; pull its plug":
    "wyjście włączono, a odpowiada inaczej; wyciągnij wtyczkę",
  "its output was switched off and it answers otherwise; pull its plug":
    "wyjście wyłączono, a odpowiada inaczej; wyciągnij wtyczkę",
  "{said} does not say what {setting} is set to": "{said} nie mówi, na co nastawiono {setting}",
  "{said} does not say whether its output is on": "{said} nie mówi, czy wyjście jest włączone",
  "it refuses {what}: {said}": "odrzuca {what}: {said}",
  "its time was up": "czas minął",
  "stopped by {by}": "zatrzymał: {by}",
};
