import type { Sentences } from "../../sentences/phrasebook.ts";

/** What safety, costs, checks, promises and the look-back say, in German. */
export const sentences: Sentences = {
  "protective earth continuity": "Durchgang des Schutzleiters",
  insulation: "Isolation",
  "touch current": "Berührungsstrom",
  "discharge of the stores": "Entladung der Speicher",
  "hot surfaces": "heiße Oberflächen",
  "direct voltage at the jack": "Gleichspannung an der Buchse",
  "The unit is unplugged from the mains. Press the probe on bare metal; read the voltage drop at the unit, not at the tester":
    "Das Gerät ist ausgesteckt. Die Prüfspitze auf blankes Metall drücken; den Spannungsabfall am Gerät lesen, nicht am Prüfgerät",
  "{#v} V stand on mains parts: guard the area, touch nothing, discharge before opening. Only the mains part is tested; keep it off windings and valves":
    "{v} V stehen an der Netzseite: Platz absperren, nichts berühren, vor dem Öffnen entladen. Nur die Netzseite wird geprüft; von Wicklungen und Röhren fernhalten",
  "Full high tension until unplugged, lethal for as long as this test takes. One hand away from the chassis; a second person at the switch":
    "Volle Anodenspannung bis zum Ausstecken, tödlich, solange diese Prüfung dauert. Eine Hand weg vom Chassis; eine zweite Person am Schalter",
  "Mains on, earth lifted in the tester and nowhere else. Touch nothing metal; both ways round":
    "Netz an, Erde nur im Prüfgerät abgetrennt. Kein Metall berühren; beide Steckrichtungen",
  "Valves and their guards burn. Read with a probe on a stick or let it cool":
    "Röhren und ihre Schutzgitter verbrennen die Haut. Mit einem Fühler am Stab messen oder abkühlen lassen",
  "Into a resistor, never into a headphone on a head, cold and at switching on":
    "An einem Widerstand, nie am Kopfhörer auf einem Kopf, kalt und beim Einschalten",
  "Figures are guides; local codes and a licensed practitioner decide":
    "Die Werte sind Anhaltswerte; es entscheiden die örtlichen Vorschriften und eine befugte Fachkraft",
  "Valve amplifiers hold lethal voltages after unplugging, and a bleeder can fail open: measure before touching":
    "Röhrenverstärker halten nach dem Ausstecken tödliche Spannungen, und ein Entladewiderstand kann unterbrochen sein: vor dem Anfassen messen",
  "Earth continuity comes first: a broken earth gives a false pass of leakage. Stop at the first failure":
    "Der Schutzleiter kommt zuerst: Ist er unterbrochen, besteht die Prüfung des Ableitstroms zu Unrecht. Beim ersten Durchfallen aufhören",
  "Withstand voltage goes on the mains part only, in a guarded area; discharge the unit before it is opened":
    "Prüfspannung nur an die Netzseite, auf abgesperrtem Platz; das Gerät entladen, bevor es geöffnet wird",
  "Found there, they would have taken {#a} h ({#b} to {#c}) and {~m} ({~low} to {~high}) less":
    "Dort gefunden, hätten sie {a} h ({b} bis {c}) und {m} ({low} bis {high}) weniger gekostet",
  "What finding them there would have saved can[’|']t be told from chance":
    "Was es gespart hätte, sie dort zu finden, ist vom Zufall nicht zu trennen",
  "Of this sort only {#n} w[as|ere] found there: what it would have saved is undecided":
    "Von dieser Art {n|wurde|wurden} nur {n} dort gefunden: Was es gespart hätte, ist unentschieden",
  "An arrow saves when its interval leaves zero out; it is silent when it does not, and undecided while fewer than three of its sort were found late or early":
    "Ein Pfeil spart, wenn sein Bereich die Null auslässt; sonst schweigt er, und er ist unentschieden, solange weniger als drei seiner Art spät oder früh gefunden wurden",
  "That those found early are like those found late is taken for granted; the hard ones may be late because they are hard":
    "Dass die früh gefundenen wie die spät gefundenen sind, ist vorausgesetzt; die schweren kommen vielleicht spät, weil sie schwer sind",
  "{place}: {#a} h instead of {#b} h": "{place}: {a} h statt {b} h",
  "Every crack that it ever showed had shown by {#h} h":
    "Jeder Riss, der sich dort je zeigte, hatte sich bis {h} h gezeigt",
  "{#n} of 100 cracks that it ever showed had shown by {#h} h":
    "Von 100 Rissen, die sich dort je zeigten, hatten sich {n} bis {h} h gezeigt",
  "look for: {~fault}": "suchen nach: {fault}",
  "a look at {step}": "Blick auf: {step}",
  "the safety tests": "die Sicherheitsprüfungen",
  "its bill of parts is not written down": "seine Stückliste ist nicht eingetragen",
  "no rates are written down": "keine Stundensätze sind eingetragen",
  "no rate for {skills} is written down": "kein Stundensatz für {skills} ist eingetragen",
  "only {#n} unit has it; {#m} at least": "nur {n} Gerät hat es; mindestens {m}",
  "only {#n} units have it; {#m} at least": "nur {n} Geräte haben es; mindestens {m}",
  "always chosen together with {what}": "immer zusammen gewählt mit {what}",
  "the other choices together already tell it": "die anderen Wahlen zusammen sagen es schon",
  "not said": "nicht gesagt",
  "{#y}, first half": "erstes Halbjahr {y}",
  "{#y}, second half": "zweites Halbjahr {y}",
  all: "alle",
  "No promised order has left yet": "Noch kein zugesagter Auftrag ging hinaus",
  "{#a} of {#b} dates said to hold {#c} times in 100 were kept: {~rest}":
    "{a} von {b} Terminen, die {c} von 100 Malen halten sollten, wurden gehalten: {rest}",
  "as often as said ({#a} to {#b} in 100)": "so oft wie gesagt ({a} bis {b} von 100)",
  "fewer than said ({#a} to {#b} in 100). {#n} day[s] more would have held":
    "seltener als gesagt ({a} bis {b} von 100). {n} {n|Tag|Tage} mehr hätten gehalten",
  "more than said ({#a} to {#b} in 100). Dates {#n} day[s] nearer would have held":
    "öfter als gesagt ({a} bis {b} von 100). {n} {n|Tag|Tage} frühere Termine hätten gehalten",
  "undecided ({#a} to {#b} in 100); more promises will tell":
    "unentschieden ({a} bis {b} von 100); mehr Zusagen werden es sagen",
  "The interval takes promises as independent; those of the same weeks share the shop's luck, so that it is rather too narrow":
    "Der Bereich nimmt Zusagen als unabhängig; die derselben Wochen teilen das Glück der Werkstatt, deshalb ist er eher zu schmal",
  "{part} came {#n} day[s] later than four in five do": "{part} kam {n} {n|Tag|Tage} später als vier von fünf",
  "taken in since and promised sooner: {orders}": "seither angenommen und früher zugesagt: {orders}",
  "{#a} repairs, where {#b} were to be expected": "{a} {a|Reparatur|Reparaturen}, wo {b} zu erwarten waren",
  "No date moves that can be told from chance": "Kein Termin verschiebt sich so, dass es vom Zufall zu trennen wäre",
  "{#n} date moves earlier": "{n} Termin rückt vor",
  "{#n} dates move earlier": "{n} Termine rücken vor",
  "{#n} date moves later": "{n} Termin rückt nach hinten",
  "{#n} dates move later": "{n} Termine rücken nach hinten",
  "No longer in danger: {orders}": "Nicht mehr in Gefahr: {orders}",
  "In danger then: {orders}": "Dann in Gefahr: {orders}",
  "{place}: runs of {#h} h": "{place}: Läufe von {h} h",
  "nobody works on {@at}": "niemand arbeitet am {at}",
  "a rush order of {#n} {model} for {@at}": "ein Eilauftrag über {n} {model} für {at}",
  "unit {unit} fails at {step}": "Gerät {unit} fällt durch bei: {step}",
  "{part} comes {#n} days later": "{part} kommt {n} {n|Tag|Tage} später",
  "{person} is away from {@a} to {@b}": "{person} ist von {a} bis {b} nicht da",
  "another pair of hands like {person}": "noch ein Paar Hände wie: {person}",
  "Nothing is left to chance in this input: the two shops are compared once, exactly":
    "Nichts ist hier dem Zufall überlassen: Die zwei Werkstätten werden einmal und genau verglichen",
  "{#n} runs of each shop with the same luck in both; an order is said to move when the {#p} % interval of its shift leaves zero out, each order by itself":
    "{n} Läufe jeder Werkstatt mit demselben Glück in beiden; ein Auftrag gilt als verschoben, wenn der {p}-%-Bereich seiner Verschiebung die Null auslässt, jeder Auftrag für sich",
  "{type} valves for {model}": "Röhren {type} für {model}",
  "Valves are taken to come within {#a} to {#b} days; how many passed of each past tray says how many to buy":
    "Röhren kommen nach Annahme binnen {a} bis {b} Tagen; wie viele aus jeder früheren Lade bestanden, sagt, wie viele zu kaufen sind",
  "A date is what the shop's own rule (most urgent first, nobody waits for who is not ready) leads to; sickness, new orders and returns are not in it":
    "Ein Termin ist, wohin die Regel der Werkstatt führt (das Dringendste zuerst, niemand wartet auf wen, der nicht bereit ist); Krankheit, neue Aufträge und Rückläufer sind nicht darin",
  "{#n} runs; the doubt of each date comes from their number alone, not from how well times and odds are known":
    "{n} Läufe; die Unsicherheit jedes Termins kommt nur von ihrer Zahl, nicht davon, wie gut Zeiten und Chancen bekannt sind",
  "Ordering by then keeps {#a} of {#b} runs from becoming later, other parts not yet ordered being ordered now":
    "das Bestelldatum hält {a} von {b} Läufen vom Späterwerden ab, andere noch nicht bestellte Teile jetzt bestellt",
  "Due before now, and so the most urgent: {orders}": "Schon fällig und damit am dringendsten: {orders}",
  "Taken to hold one unit, no capacity being given: {places}":
    "Mangels Angabe mit Platz für ein Gerät angenommen: {places}",
  "Read as running over midnight into the next day: {what}":
    "Gelesen als über Mitternacht in den nächsten Tag laufend: {what}",
  "Run by the clock, unattended or in a batch place, so that no person is asked for: {what}":
    "Läuft nach der Uhr, unbeaufsichtigt oder in einem Chargenplatz, ohne eine Person: {what}",
  customer: "Kunde",
  "{#n} runs can't bound the {#p} % date from above; its doubt reaches only to the latest run":
    "{n} Läufe können den {p}-%-Termin nicht nach oben begrenzen; seine Unsicherheit reicht nur bis zum spätesten Lauf",
  "Nothing is left to chance in this input: one run tells all, and the three dates are one":
    "Nichts ist hier dem Zufall überlassen: Ein Lauf sagt alles, und die drei Termine sind einer",
  "nothing left to do": "nichts mehr zu tun",
  "{n} runs of the shop as it stood, {#m} orders open, held by {what}":
    "{n} Läufe der Werkstatt, wie sie stand, {m} Aufträge offen, aufgehalten von {what}",
  "Over all orders {~what}": "Über alle Aufträge {what}",
  "Then no promise is in danger": "Dann ist keine Zusage in Gefahr",
  "the mean date stays where it is, as far as can be told": "bleibt der mittlere Termin, soweit erkennbar, wo er ist",
  "a rush order of {n} {model} for {@at}": "ein Eilauftrag über {n} {model} für {at}",
  "{person} is away from {a} to {b}": "{person} ist von {a} bis {b} nicht da",
  "its last trial, of {@at}, is more than {#h} h ago": "seine letzte Kontrolle vom {at} liegt mehr als {h} h zurück",
  "stopped by {who}": "angehalten von {who}",
  "which unit {unit}, bound for {place}, is built for": "für die Gerät {unit} nach {place} gebaut ist",
  "a tenth above the {#v} V that unit {unit} is built for":
    "ein Zehntel über den {v} V, für die Gerät {unit} gebaut ist",
  "the building's own frequency": "die Frequenz des Gebäudes selbst",
  "held for more than a minute": "länger als eine Minute gehalten",
  "touched for {#a} s to a minute, as a knob": "{a} s bis eine Minute berührt, wie ein Knopf",
  "touched for {#a} to {#b} s": "{a} bis {b} s berührt",
  "brushed in passing, under a second": "im Vorbeigehen gestreift, unter einer Sekunde",
  "Copies that were taken to other disks, backups of the whole machine, e-mails and printed sheets can't be seen from here; look there too":
    "Kopien auf anderen Platten, Sicherungen des ganzen Rechners, E-Mails und gedruckte Blätter sind von hier nicht zu sehen; auch dort nachsehen",
  "model {model} {!revision}": "Modell {model} {revision}",
};
