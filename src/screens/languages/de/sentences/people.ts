import type { Sentences } from "../../sentences/phrasebook.ts";

/** What is refused at the door, in German. */
export const sentences: Sentences = {
  "nobody is signed in here": "hier ist niemand angemeldet",
  "people of this workshop only": "nur Leute dieser Werkstatt",
  "sign in and do it again": "anmelden und noch einmal tun",
  "you may look": "Sie dürfen ansehen",
  "you may measure": "Sie dürfen messen",
  "you may release": "Sie dürfen freigeben",
  "this takes the right measure": "das braucht das Recht zu messen",
  "this takes the right release": "das braucht das Recht freizugeben",
  "this takes the right owner": "das darf nur der Inhaber",
  "ask somebody who has it": "jemanden fragen, der es hat",
  "a write from no page": "eine Eintragung von keiner Seite",
  "only Stillglow's own page may write": "nur die eigene Seite von Stillglow darf eintragen",
  "open the page of this server": "die Seite dieses Servers öffnen",
  "you are signed in as {person}, and every act is under whoever does it":
    "Sie sind als {person} angemeldet, und jede Handlung steht unter dem, der sie tut",
  "leave it out, or let them sign in": "weglassen, oder diese Person sich anmelden lassen",
  "this is written by the licensed person who answers for safety limits":
    "das trägt die befugte Fachkraft ein, die für die Sicherheitsgrenzen einsteht",
  "this is written by people with the right release": "das tragen Leute mit dem Recht freizugeben ein",
  "this is written by people with the right owner": "das trägt der Inhaber ein",
  "this is written by people with the right measure": "das tragen Leute mit dem Recht zu messen ein",
  "ask one of them": "eine dieser Personen fragen",
  "{#n} computations of yours are under way and {#m} wait": "{n} Ihrer Berechnungen laufen, und {m} warten",
  "wait for one of them": "auf eine davon warten",
  "too many requests from there": "zu viele Anfragen von dort",
  "try again in {~wait}": "in {wait} noch einmal versuchen",
};
