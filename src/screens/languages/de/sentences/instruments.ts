import type { Sentences } from "../../sentences/phrasebook.ts";

/** What instruments on a wire say when something is the matter, in German. */
export const sentences: Sentences = {
  "{where} refuses the connection; is the instrument on, and its network port enabled?":
    "{where} lehnt die Verbindung ab; ist das Messgerät an und sein Netzwerkanschluss freigegeben?",
  "{where} is a name that nobody knows; check it, or write the address":
    "{where} ist ein Name, den niemand kennt; nachsehen oder die Adresse schreiben",
  "{where} can't be reached; check the cable and the address":
    "{where} ist nicht erreichbar; Kabel und Adresse nachsehen",
  "{where} broke the connection": "{where} hat die Verbindung abgebrochen",
  "{where} ended the connection": "{where} hat die Verbindung beendet",
  "nobody answers at {where}": "unter {where} antwortet niemand",
  "{path} is gone: was it unplugged?": "{path} ist weg: wurde es ausgesteckt?",
  "{path} is not there; is its adapter plugged in?": "{path} ist nicht da; steckt der Adapter?",
  "{path} may not be opened by this user; add it to the ports' group":
    "{path} darf von diesem Benutzer nicht geöffnet werden; ihn in die Gruppe der Anschlüsse aufnehmen",
  "{path} is in use by another program": "{path} wird von einem anderen Programm benutzt",
  "no answer within {#n} s": "keine Antwort innerhalb von {n} s",
  "only {said} came within {#n} s, without a line end": "innerhalb von {n} s kam nur {said}, ohne Zeilenende",
  "{said} is no answer that its description knows": "{said} ist keine Antwort, die seine Beschreibung kennt",
  "{said} names no unit of {list}": "{said} nennt keine Einheit aus {list}",
  "{said} is {#v}, and it can show {#a} to {#b}; nothing of it is kept":
    "{said} ist {v}, und es kann {a} bis {b} anzeigen; nichts davon wird behalten",
  "it says {said}, which is an overload; apply less, or choose a wider range":
    "es sagt {said}, das ist eine Überlast; weniger anlegen oder einen größeren Bereich wählen",
  "it has not come to rest: {said}": "es ist nicht zur Ruhe gekommen: {said}",
  "the pattern {pattern} takes too long on an answer": "das Muster {pattern} braucht an einer Antwort zu lange",
  "{said} goes on without a line end; check baud rate and ending":
    "{said} geht ohne Zeilenende weiter; Baudrate und Zeilenende nachsehen",
  "it repeats {said} where {sent} was sent": "es wiederholt {said}, wo {sent} gesendet wurde",
  "the checksum of {said} is wrong": "die Prüfsumme von {said} stimmt nicht",
  'it repeats what is sent; write `"echo": true` into its description':
    'es wiederholt, was gesendet wird; `"echo": true` in seine Beschreibung schreiben',
  "{said} and {more} both answer one question; which is right can't be told":
    "{said} und {more} antworten beide auf eine Frage; welche stimmt, ist nicht zu sagen",
  "{said} came without being asked for, so no answer can be trusted":
    "{said} kam ungefragt, deshalb ist keiner Antwort zu trauen",
  "{said} answers, and its description expects another; check the port and what is plugged in":
    "{said} antwortet, und seine Beschreibung erwartet ein anderes; Anschluss und Stecker nachsehen",
  "{~why}, in the middle of {said}": "{why}, mitten in {said}",
  "{said} for the {#n}th time to the last digit, since {@at}, where it scattered before; is it held, or hung?":
    "{said} zum {n}. Mal bis zur letzten Stelle, seit {at}, wo es vorher streute; hält es den Wert fest, oder hängt es?",
  "its clock stands still at {said}; it repeats an old reading":
    "seine Uhr steht bei {said}; es wiederholt einen alten Messwert",
  "{setting} was set to {#sent} and it answers {#back}; what it gives is not known: switch its output off":
    "{setting} wurde auf {sent} eingestellt, und es antwortet {back}; was es abgibt, ist nicht bekannt: seinen Ausgang ausschalten",
  "its output was switched on and it answers otherwise; pull its plug":
    "sein Ausgang wurde eingeschaltet, und es antwortet anders; den Stecker ziehen",
  "its output was switched off and it answers otherwise; pull its plug":
    "sein Ausgang wurde ausgeschaltet, und es antwortet anders; den Stecker ziehen",
  "{said} does not say what {setting} is set to": "{said} sagt nicht, worauf {setting} eingestellt ist",
  "{said} does not say whether its output is on": "{said} sagt nicht, ob sein Ausgang an ist",
  "it refuses {what}: {said}": "es weist {what} zurück: {said}",
  "its time was up": "die Zeit war um",
  "stopped by {by}": "angehalten von {by}",
};
