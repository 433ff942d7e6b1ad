import type { Sentences } from "../../sentences/phrasebook.ts";

/** What is refused at the door, in Polish. */
export const sentences: Sentences = {
  "nobody is signed in here": "nikt nie jest tu zalogowany",
  "people of this workshop only": "tylko ludzie tego warsztatu",
  "sign in and do it again": "zalogować się i zrobić to jeszcze raz",
  "you may look": "wolno ci oglądać",
  "you may measure": "wolno ci mierzyć",
  "you may release": "wolno ci wydawać",
  "this takes the right measure": "to wymaga prawa do mierzenia",
  "this takes the right release": "to wymaga prawa do wydawania",
  "this takes the right owner": "to wolno tylko właścicielowi",
  "ask somebody who has it": "poprosić kogoś, kto je ma",
  "a write from no page": "wpis z żadnej strony",
  "only Stillglow's own page may write": "wpisywać może tylko własna strona Stillglow",
  "open the page of this server": "otworzyć stronę tego serwera",
  "you are signed in as {person}, and every act is under whoever does it":
    "zalogowano jako {person}, a każda czynność stoi pod tym, kto ją wykonuje",
  "leave it out, or let them sign in": "pominąć albo niech ta osoba się zaloguje",
  "this is written by the licensed person who answers for safety limits":
    "wpisuje to osoba z uprawnieniami, która odpowiada za granice bezpieczeństwa",
  "this is written by people with the right release": "wpisują to osoby z prawem do wydawania",
  "this is written by people with the right owner": "wpisuje to właściciel",
  "this is written by people with the right measure": "wpisują to osoby z prawem do mierzenia",
  "ask one of them": "poprosić jedną z nich",
  "{#n} computations of yours are under way and {#m} wait": "trwa {n} twoich obliczeń, a {m} czeka",
  "wait for one of them": "poczekać na jedno z nich",
  "too many requests from there": "zbyt wiele zapytań stamtąd",
  "try again in {~wait}": "spróbować ponownie za {wait}",
};
