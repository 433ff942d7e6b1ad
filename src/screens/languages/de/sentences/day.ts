import type { Sentences } from "../../sentences/phrasebook.ts";

/** What the first page and every unit's folder say, in German. */
export const sentences: Sentences = {
  "heat run of units": "Wärmelauf der Geräte",
  "heat run of {!type}": "Einbrennlauf der {type}",
  "{~step} of units": "{step} der Geräte",
  wiring: "Verdrahtung",
  chassis: "Chassis",
  coats: "Anstriche",
  case: "Gehäuse",
  sanding: "Schleifen",
  oiling: "Ölen",
  soak: "Wärmelauf",
  lid: "Deckel",
  "heat run": "Einbrennlauf",
  released: "freigegeben",
  "{#n} proof[s] missing": "{n} {n|Beleg fehlt|Belege fehlen}",
  "ready to release": "darf freigegeben werden",
  "heat run of {#n} valves of batch {batch} ends: read the reference valve, then read them hot":
    "Einbrennlauf von {n} {n|Röhre|Röhren} aus {batch} endet: erst die Vergleichsröhre messen, dann heiß messen",
  "unit {unit}: {step} finished": "Gerät {unit}: {step} fertig",
  "unit {unit} is ready for: {~title}": "Gerät {unit} ist so weit für: {title}",
  "{&names} at {place} come[s] to [its|their] target": "{names} bei {place}: Ziel erreicht",
  "{&names} at {place} to be weighed": "{names} bei {place}: wiegen",
  "{&names} to {to}, as planned": "{names} nach {to}, wie geplant",
  "{names} and {#n} more boards to {to}, as planned":
    "{names} und {n} {n|weiteres Brett|weitere Bretter} nach {to}, wie geplant",
  "{names} and {#n} more boards at {place} come to their target":
    "{names} und {n} {n|weiteres Brett|weitere Bretter} bei {place}: Ziel erreicht",
  "{names} and {#n} more boards at {place} to be weighed":
    "{names} und {n} {n|weiteres Brett|weitere Bretter} bei {place}: wiegen",
  "turn {~what}: coat of {~finish}": "{what} wenden: Anstrich mit {finish}",
  "coat of {~finish} on {~what} is hard": "Anstrich mit {finish} ist hart: {what}",
  "the case": "das Gehäuse",
  "hardening oil": "härtendem Öl",
  "clear lacquer": "klarem Lack",
  oil: "Öl",
  wax: "Wachs",
  shellac: "Schellack",
  lacquer: "Lack",
  varnish: "Öllack",
  "lots to do": "viel zu tun",
  "{~there}, {~finding}, and found now it costs {~now} instead of {~later}: {~saves} saved on average for {#m} min of hands":
    "{there}, {finding}, und jetzt gefunden kostet es {now} statt {later}: im Mittel {saves} gespart für {m} min Handarbeit",
  "{~there}, {~finding}, and found now it costs {~now} instead of {~later}: {~saves} saved on average, {#n} rarer fault[s] included for {#m} min of hands":
    "{there}, {finding}, und jetzt gefunden kostet es {now} statt {later}: im Mittel {saves} gespart, {n} {n|seltenerer Fehler|seltenere Fehler} mitgezählt, für {m} min Handarbeit",
  "{~there}, {~finding}, and found now it costs {~now} instead of {~later}: {~saves} saved on average ({~money}) for {#m} min of hands":
    "{there}, {finding}, und jetzt gefunden kostet es {now} statt {later}: im Mittel {saves} gespart ({money}) für {m} min Handarbeit",
  "{~there}, {~finding}, and found now it costs {~now} instead of {~later}: {~saves} saved on average ({~money}), {#n} rarer fault[s] included for {#m} min of hands":
    "{there}, {finding}, und jetzt gefunden kostet es {now} statt {later}: im Mittel {saves} gespart ({money}), {n} {n|seltenerer Fehler|seltenere Fehler} mitgezählt, für {m} min Handarbeit",
  "{~there}, {~finding}, and found now or later it costs {~now}: {~saves} saved on average for {#m} min of hands":
    "{there}, {finding}, und jetzt oder später gefunden kostet es {now}: im Mittel {saves} gespart für {m} min Handarbeit",
  "{~there}, {~finding}, and found now or later it costs {~now}: {~saves} saved on average, {#n} rarer fault[s] included for {#m} min of hands":
    "{there}, {finding}, und jetzt oder später gefunden kostet es {now}: im Mittel {saves} gespart, {n} {n|seltenerer Fehler|seltenere Fehler} mitgezählt, für {m} min Handarbeit",
  "{~there}, {~finding}, and found now or later it costs {~now}: {~saves} saved on average ({~money}) for {#m} min of hands":
    "{there}, {finding}, und jetzt oder später gefunden kostet es {now}: im Mittel {saves} gespart ({money}) für {m} min Handarbeit",
  "{~there}, {~finding}, and found now or later it costs {~now}: {~saves} saved on average ({~money}), {#n} rarer fault[s] included for {#m} min of hands":
    "{there}, {finding}, und jetzt oder später gefunden kostet es {now}: im Mittel {saves} gespart ({money}), {n} {n|seltenerer Fehler|seltenere Fehler} mitgezählt, für {m} min Handarbeit",
  '{~odds} has a fault of "{~title}"': "{odds} hat einen Fehler bei „{title}“",
  '{~odds} has a fault of "{~title}" ({#k} of {#n} so far)':
    "{odds} hat einen Fehler bei „{title}“ (bisher {k} von {n})",
  '{~odds} has a fault of "{~title}" (a guess: nothing counted yet)':
    "{odds} hat einen Fehler bei „{title}“ (geschätzt, noch nichts gezählt)",
  "{~odds} has {fault} ({#k} of {#n} so far)": "bei {odds} kommt vor: {fault} (bisher {k} von {n})",
  "{~odds} has {fault} (a guess: nothing counted yet)":
    "bei {odds} kommt vor: {fault} (geschätzt, noch nichts gezählt)",
  "{~odds} has {fault}": "bei {odds} kommt vor: {fault}",
  "1 in {#n}": "1 von {n}",
  "{#k} in 100": "{k} von 100",
  "{#k} times in 100": "{k} von 100 Malen",
  "this finds it": "diese Prüfung findet ihn",
  "this finds {#k} in 100 of them": "diese Prüfung findet davon {k} von 100",
  "under 1 min": "unter 1 min",
  "{#n} in money": "{n} in Geld",
  "{#n} {!currency}": "{n} {currency}",
  "next by its date": "als Nächstes nach seinem Termin",
  "work to go on with": "Arbeit zum Weitermachen",
  "{#n} claim[s] wait[s] behind it; {~next}": "{n} {n|Beleg wartet|Belege warten} dahinter; {next}",
  "{~wait} by itself: begun today it is ready {#h} h at work sooner than begun tomorrow":
    "{wait} von selbst: heute begonnen ist es {h} Arbeitsstunden früher fertig als morgen begonnen",
  "keeps the unit waiting {~a}, longer than the {~b} allowed":
    "lässt das Gerät {a} warten, länger als die erlaubten {b}",
  "{place} has no slot free": "{place}: kein Fach frei",
  "{~danger}: nobody with the skill {skill} may meet it":
    "{danger}: Niemand mit der Fertigkeit {skill} darf sich dem aussetzen",
  "nobody with the skill {skill} is at work any more today":
    "niemand mit der Fertigkeit {skill} ist heute noch bei der Arbeit",
  "its {#m} min do not fit before the hands that can do it go home":
    "seine {m} min gehen sich bis zum Feierabend der Hände, die es können, nicht mehr aus",
  "{~danger}: nobody else is at work with the one who can do it":
    "{danger}: Außer dem, der es kann, ist niemand bei der Arbeit",
  "high-voltage": "Hochspannung",
  mains: "Netz",
  hot: "heiß",
  dust: "Staub",
  "read {#v} ± {#d} on {@at}": "zeigte {v} ± {d} am {at}",
  "{~read}; it must pass again: {~mend}": "{read}; es muss erst wieder bestehen: {mend}",
  "{~read}, which decides nothing: {~mend}": "{read}, was nichts entscheidet: {mend}",
  "never tried: {~mend}": "nie geprüft: {mend}",
  "enter {instrument} with what it is tried against, then try it":
    "{instrument} mit dem eintragen, woran es geprüft wird, und es dann prüfen",
  "try {instrument} on {reference}: {_q} must read {#truth} within {#limit} by its doubt":
    "{instrument} an {reference} prüfen: {q} muss nach der Unsicherheit auf {limit} {q.unit} genau {truth} {q.unit} zeigen",
  "its instrument {instrument} had failed its trial of {@at} and passed none since":
    "das Messgerät {instrument} hatte seine Kontrolle vom {at} nicht bestanden und seither keine",
  "its instrument {instrument} failed its trial of {@at}, the first since this was read":
    "das Messgerät {instrument} bestand seine Kontrolle vom {at} nicht, die erste seit dieser Messung",
  "its instrument {instrument} has never been tried": "das Messgerät {instrument} wurde noch nie geprüft",
  "the trial of {instrument} of {@at} decided nothing": "die Kontrolle von {instrument} vom {at} entschied nichts",
  "its instrument {instrument} {~rest}": "das Messgerät {instrument} {rest}",
  "Void: {~because}": "Ungültig: {because}",
  "Undecided: {~what}": "Unentschieden: {what}",
  "not yet checked": "noch nicht geprüft",
  "{~reason}; {#m} min of hands against {#h} h expected to be lost later":
    "{reason}; {m} min Handarbeit gegen {h} h, die sonst später verloren zu gehen drohen",
  "All {#n} figures lie inside their limits by their doubt":
    "Alle {n} Werte liegen mitsamt ihrer Unsicherheit innerhalb ihrer Grenzen",
  "The owner conceded it on {@at}: {reason}": "Sonderfreigabe des Inhabers, {at}: {reason}",
  "reads {_q} {#v} ± {#d}, inside {~limits} by its doubt":
    "{q} {v} ± {d} {q.unit}, mitsamt Unsicherheit innerhalb: {limits}",
  "reads {_q} {#v} ± {#d}, outside {~limits} by its doubt":
    "{q} {v} ± {d} {q.unit}, mitsamt Unsicherheit außerhalb: {limits}",
  "reads {_q} {#v} ± {#d}, nearer to {~limits} than its doubt":
    "{q} {v} ± {d} {q.unit}, näher an der Grenze als die Unsicherheit: {limits}",
  "{~verdict}; a failed safety test stands until repair is recorded":
    "{verdict}; eine nicht bestandene Sicherheitsprüfung gilt, bis die Reparatur eingetragen ist",
  "reads {_q} {#v} with no doubt stated, and a measured figure without doubt proves nothing":
    "{q} {v} {q.unit} ohne angegebene Unsicherheit, und ein Messwert ohne Unsicherheit belegt nichts",
  "state the doubt of the reading (a new entry that supersedes it), or {~check}":
    "die Unsicherheit der Messung angeben (ein neuer Eintrag, der sie ersetzt), oder {check}",
  "repair, record the rework, then {~check}": "reparieren, die Nacharbeit eintragen, dann: {check}",
  "repair, record the rework, then {~check}, or ask the owner for a written concession":
    "reparieren, die Nacharbeit eintragen, dann: {check}, oder den Inhaber um eine schriftliche Sonderfreigabe bitten",
  "measure {_q} again with a doubt of at most {#m}": "{q} noch einmal messen, mit höchstens {m} {q.unit} Unsicherheit",
  "measure {_q} again: it reads the limit itself": "{q} noch einmal messen: Der Wert steht genau auf der Grenze",
  "{valve} fitted at {position}": "{valve} in {position} eingesetzt",
  "the rework {id} of {@at} touched what it rests on ({~things})":
    "die Nacharbeit {id} vom {at} berührte, worauf es beruht ({things})",
  "it was recorded with {valve} at {position}, where {now} stands":
    "aufgenommen wurde mit {valve} in {position}, wo jetzt {now} steckt",
  "it was recorded with {valve} at {position}, where no valve stands":
    "aufgenommen wurde mit {valve} in {position}, wo jetzt keine Röhre steckt",
  "it was recorded with no valve at {position}, where {now} stands":
    "aufgenommen wurde ohne Röhre in {position}, wo jetzt {now} steckt",
  "no valve stands at {position}": "in {position} steckt keine Röhre",
  "fit a valve at {position} and record it": "eine Röhre in {position} einsetzen und eintragen",
  "no {_q} on record": "{q}: nichts eingetragen",
  "{~how} ({#m} min)": "{how} ({m} min)",
  "{~how} ({#m} min, then {#h} h by itself)": "{how} ({m} min, danach {h} h von selbst)",
  "at most {#n}": "höchstens {n}",
  "at least {#n}": "mindestens {n}",
  "{#a} to {#b}": "{a} bis {b}",
  "{place}: {~rest}": "{place}: {rest}",
  "{label}; {~words}": "{label}; {words}",
  "{~where}: {~what}": "{where}: {what}",
  "inside {~limits} by its doubt": "mitsamt Unsicherheit innerhalb: {limits}",
  "outside {~limits} by its doubt": "mitsamt Unsicherheit außerhalb: {limits}",
  "nearer to {~limits} than its doubt": "näher an der Grenze als die Unsicherheit: {limits}",
  "{position} section {s}": "{position} System {s}",
  "{position} section {s} ({valve})": "{position} System {s} ({valve})",
  "left channel": "linker Kanal",
  "right channel": "rechter Kanal",
  "left channel {point}": "linker Kanal, {point}",
  "right channel {point}": "rechter Kanal, {point}",
  "unit {unit}": "Gerät {unit}",
  "{position} heater": "{position} Heizung",
  "{position} ({valve})": "{position} ({valve})",
  "it was drawn from {id}, which is not on record": "es wurde aus {id} gezogen, das nicht im Hauptbuch steht",
  "it was drawn from {id}, which {other} superseded": "es wurde aus {id} gezogen, das durch {other} ersetzt ist",
  "It was never released": "Es wurde nie freigegeben",
  "The release of {@at} fell with the rework {id} of {@then}":
    "Die Freigabe vom {at} fiel mit der Nacharbeit {id} vom {then}",
  "the unit was worked on since: {why}": "am Gerät wurde seither gearbeitet: {why}",
  "a coat of {~finish}": "ein Anstrich mit {finish}",
  "{piece} was machined": "{piece} wurde bearbeitet",
  "Every valve is steady through the heat run": "Jede Röhre bleibt im Einbrennlauf stabil",
  "Input stage: its test points lie in their windows": "Eingangsstufe: Ihre Messpunkte liegen in ihren Fenstern",
  "Output stage: its test points lie in their windows": "Ausgangsstufe: Ihre Messpunkte liegen in ihren Fenstern",
  "Gain stage: its test points lie in their windows": "Verstärkerstufe: Ihre Messpunkte liegen in ihren Fenstern",
  "Follower: its test points lie in their windows": "Folger: Seine Messpunkte liegen in ihren Fenstern",
  "Input pair: its test points lie in their windows": "Eingangspaar: Seine Messpunkte liegen in ihren Fenstern",
  "Output pair: its test points lie in their windows": "Ausgangspaar: Seine Messpunkte liegen in ihren Fenstern",
  "{stage} stage: its test points lie in their windows": "Stufe {stage}: Ihre Messpunkte liegen in ihren Fenstern",
  "No direct voltage at the jack": "Keine Gleichspannung an der Buchse",
  "No direct voltage at the output sockets": "Keine Gleichspannung an den Ausgangsbuchsen",
  "No direct voltage at the output": "Keine Gleichspannung am Ausgang",
  "Left and right are alike, at the gain of the model": "Links und rechts sind gleich, mit der Verstärkung des Modells",
  "No hum of its own is heard on any of the shop['|’]s headphones":
    "In keinem Kopfhörer der Werkstatt ist eigener Brumm zu hören",
  "Hum at the terminals is inaudible from the listening chair":
    "Der Brumm an den Klemmen ist vom Hörplatz aus unhörbar",
  "Hum at the sockets stays far under the hiss of the amplifier behind it":
    "Der Brumm an den Buchsen bleibt weit unter dem Rauschen des Verstärkers dahinter",
  "Hum at the stators stays under what electrostatic headphones let hear":
    "Der Brumm an den Statoren bleibt unter dem, was Elektrostaten hören lassen",
  "The ends of the band are where the model puts them": "Die Enden des Bandes liegen, wo das Modell sie hinlegt",
  "The hiss of the first stage stays low": "Das Rauschen der ersten Stufe bleibt gering",
  "The hiss stays low": "Das Rauschen bleibt gering",
  "Gain is the model[’|']s": "Die Verstärkung ist die des Modells",
  "Gain is the model[’|']s, alike in all channels": "Die Verstärkung ist die des Modells, in allen Kanälen gleich",
  "Output impedance is the model[’|']s": "Der Ausgangswiderstand ist der des Modells",
  "Distortion is the model[’|']s": "Der Klirr ist der des Modells",
  "Heaters get their voltage at the destination": "Die Heizungen bekommen am Bestimmungsort ihre Spannung",
  "HT is inside its window at the destination": "Die Anodenspannung liegt am Bestimmungsort im Fenster",
  "The supply[’|']s points are inside their windows at the destination":
    "Die Punkte des Netzteils liegen am Bestimmungsort in ihren Fenstern",
  "The core keeps clear of saturation at the destination": "Der Kern bleibt am Bestimmungsort fern der Sättigung",
  "The fuse suits the tap": "Die Sicherung passt zur Anzapfung",
  "The rating label says what the tap is set to": "Das Typenschild nennt, worauf die Anzapfung steht",
  "The case is as dry as its destination": "Das Gehäuse ist so trocken wie sein Bestimmungsort",
  "The case will stay whole at its destination": "Das Gehäuse bleibt am Bestimmungsort heil",
  "Lid and panels keep their gaps under the finish": "Deckel und Platten behalten unter der Oberfläche ihre Fugen",
  "The closed case stands the heat": "Das geschlossene Gehäuse hält die Wärme aus",
  "Every touchable metal part is bonded to earth": "Jedes berührbare Metallteil ist mit dem Schutzleiter verbunden",
  "Mains is insulated from the chassis": "Das Netz ist vom Chassis isoliert",
  "No more than a harmless current reaches a hand": "Nur ein harmloser Strom erreicht eine Hand",
  "The HT falls below {#v} V in time after unplugging":
    "Die Anodenspannung fällt nach dem Ausstecken rechtzeitig unter {v} V",
  "The high voltage falls below {#v} V in time after unplugging":
    "Die Hochspannung fällt nach dem Ausstecken rechtzeitig unter {v} V",
  "The bias can drive no harmful current through a hand":
    "Die Polarisationsspannung kann keinen schädlichen Strom durch eine Hand treiben",
  "The bias stands where the headphone wants it": "Die Polarisationsspannung steht, wo der Kopfhörer sie braucht",
  "Read every section on the valve tester cold, run the valve {hours} at working heat, read it again":
    "Jedes System kalt am Röhrenprüfer messen, die Röhre bei Betriebswärme laufen lassen ({hours}), wieder messen",
  "Probe the test points of the {~stage} stage with one hand, after a night of idling":
    "Die Messpunkte ({stage}) mit einer Hand abtasten, nach einer Nacht im Leerlauf",
  "Probe the test points of the {~stage} stage with one hand, warmed up":
    "Die Messpunkte ({stage}) mit einer Hand abtasten, warmgelaufen",
  input: "Eingang",
  output: "Ausgang",
  gain: "Verstärkung",
  follower: "Folger",
  supply: "Netzteil",
  "Input shorted, {#s} s on the building[’|']s mains and {#t} s regenerated":
    "Eingang kurzgeschlossen, {s} s am Hausnetz und {t} s an sauberer Versorgung",
  "After a day and a half of running in; {~rest}": "Nach anderthalb Tagen Einlaufen; {rest}",
  "Input shorted, hiss without lines, A-weighted": "Eingang kurzgeschlossen, Rauschen ohne Linien, A-bewertet",
  "Millivolts at the jack into {#o} ohm, cold, at switching on and settled":
    "Millivolt an der Buchse an {o} Ohm, kalt, beim Einschalten und eingelaufen",
  "Millivolts at the output, at switching on and settled": "Millivolt am Ausgang, beim Einschalten und eingelaufen",
  "Sweep from {#a} Hz to {#b} kHz into the rated load, against {#c} kHz":
    "Gleitton von {a} Hz bis {b} kHz in die Nennlast, gegen {c} kHz",
  "Sweep from {#a} Hz to {#b} kHz into {load}, against {#c} kHz":
    "Gleitton von {a} Hz bis {b} kHz in {load}, gegen {c} kHz",
  "Sweep from {#a} Hz to {#b} kHz, against {#c} kHz": "Gleitton von {a} Hz bis {b} kHz, gegen {c} kHz",
  "{#k} kHz, both channels driven, loop-back taken first":
    "{k} kHz, beide Kanäle angesteuert, vorher der Schleifenversuch",
  "{#k} kHz, all channels driven alike, loop-back taken first":
    "{k} kHz, alle Kanäle gleich angesteuert, vorher der Schleifenversuch",
  "{#k} kHz into {load}, all channels driven alike, loop-back taken first":
    "{k} kHz in {load}, alle Kanäle gleich angesteuert, vorher der Schleifenversuch",
  "{#k} kHz at the level told, orders {#a} to {#b}": "{k} kHz mit dem genannten Pegel, Ordnungen {a} bis {b}",
  "{#k} kHz into {load} at the level told, orders {#a} to {#b}":
    "{k} kHz in {load} mit dem genannten Pegel, Ordnungen {a} bis {b}",
  "Level at {#k} kHz unloaded and loaded, one channel at a time":
    "Pegel bei {k} kHz ohne und mit Last, ein Kanal nach dem anderen",
  "True-RMS volts at each heater, the destination[’|']s mains set on the regulator":
    "Echte Effektivvolt an jeder Heizung, das Netz des Bestimmungsorts am Stelltrafo eingestellt",
  "Supply points, loaded, the destination[’|']s mains set on the regulator":
    "Punkte des Netzteils unter Last, das Netz des Bestimmungsorts am Stelltrafo eingestellt",
  "HT at the reservoir, loaded, the destination[’|']s mains set":
    "Anodenspannung am Ladekondensator unter Last, das Netz des Bestimmungsorts eingestellt",
  "Magnetising current at {#p} % of the destination[’|']s mains":
    "Magnetisierungsstrom bei {p} % des Netzes am Bestimmungsort",
  "flux from turns and area": "Fluss aus Windungen und Querschnitt",
  "Magnetising current at {#p} % of the destination[’|']s mains, flux from turns and area":
    "Magnetisierungsstrom bei {p} % des Netzes am Bestimmungsort, Fluss aus Windungen und Querschnitt",
  "Read the fuse[’|']s rating on its cap against the primary current measured":
    "Den Wert auf der Kappe der Sicherung mit dem gemessenen Primärstrom vergleichen",
  "Read the label aloud against the tap and the order":
    "Das Typenschild laut vorlesen und mit Anzapfung und Auftrag vergleichen",
  "Moisture at three panels, less the middle of the destination[’|']s year":
    "Holzfeuchte an drei Platten, abzüglich der Mitte des Jahres am Bestimmungsort",
  "Weigh the panels before they are joined, write down how each is held and its room to move":
    "Die Platten vor dem Verbinden wiegen, aufschreiben, wie jede gehalten ist und welche Luft sie hat",
  "Feeler gauge round the lid after the last coat has hardened":
    "Fühlerlehre rings um den Deckel, wenn der letzte Anstrich hart ist",
  "Closed and idling for a night in the heat-run rack, then temperature and a look with the lens":
    "Geschlossen eine Nacht im Leerlauf im Wärmelaufgestell, dann Temperatur und ein Blick mit der Lupe",
  "{#a} A for {#s} s from the earth pin to chassis, jack and screws":
    "{a} A für {s} s vom Schutzleiterstift zu Chassis, Buchse und Schrauben",
  "{#a} A for {#s} s from the earth pin to chassis, sockets and screws":
    "{a} A für {s} s vom Schutzleiterstift zu Chassis, Buchsen und Schrauben",
  "{#v} V between both mains pins and earth for a minute, then discharge":
    "{v} V zwischen beiden Netzstiften und Erde für eine Minute, dann entladen",
  "Touch current with the earth lifted, both ways round, at {#p} % of the destination[’|']s mains":
    "Berührungsstrom bei abgetrennter Erde, in beiden Steckrichtungen, bei {p} % des Netzes am Bestimmungsort",
  "Unplug at full HT, clock the meter down to {#v} V":
    "Bei voller Anodenspannung ausstecken, die Zeit bis {v} V stoppen",
  "Unplug at full voltage, clock the meter down to {#v} V":
    "Bei voller Spannung ausstecken, die Zeit bis {v} V stoppen",
  "Limits here are guides: local codes and a licensed practitioner decide":
    "Die Grenzen hier sind Anhaltswerte: Es entscheiden die örtlichen Vorschriften und eine befugte Fachkraft",
  "Valve amplifiers hold lethal voltages after unplugging. Discharge, measure that it is gone, one hand behind your back":
    "Röhrenverstärker halten nach dem Ausstecken tödliche Spannungen. Entladen, nachmessen, eine Hand auf dem Rücken",
  "Mains parts are live while plugged in. Use an isolating transformer and a residual-current device":
    "Netzteile stehen eingesteckt unter Spannung. Trenntransformator und Fehlerstromschutz verwenden",
  "Valves and plates burn. Let them cool before touching":
    "Röhren und Platten verbrennen die Haut. Vor dem Anfassen abkühlen lassen",
  "Hardwood dust sensitises. Extract it and wear a mask":
    "Staub von Laubholz macht allergisch. Absaugen und Maske tragen",
  "opened as {model} revision {revision}, tap {tap}, valves {valves}":
    "angelegt als {model} Stand {revision}, Anzapfung {tap}, Röhren {valves}",
  "{step} done": "{step}, erledigt",
  "{_q} {#v} ± {#d}, with {instrument}": "{q} {v} ± {d} {q.unit}, mit {instrument}",
  "{_q} {#v} ± {#d}, by {calculation}": "{q} {v} ± {d} {q.unit}, aus {calculation}",
  "{_q} at {~where} {#v} ± {#d}, with {instrument}": "{q}, {where}: {v} ± {d} {q.unit}, mit {instrument}",
  "{_q} at {~where} {#v} ± {#d}, by {calculation}": "{q}, {where}: {v} ± {d} {q.unit}, aus {calculation}",
  "recording {id} ({~purpose}), on the building's mains, valves {valves}, input {~input}":
    "Aufnahme {id} ({purpose}), am Hausnetz, Röhren {valves}, Eingang {input}",
  "recording {id} ({~purpose}), regenerated at {#f} Hz, valves {valves}, input {~input}":
    "Aufnahme {id} ({purpose}), saubere Versorgung mit {f} Hz, Röhren {valves}, Eingang {input}",
  "came back: {says}": "zurückgekommen: {says}",
  "fault {fault}, found at {found}: {what}": "Fehler {fault}, gefunden bei {found}: {what}",
  "fault {fault}, found at {found}": "Fehler {fault}, gefunden bei {found}",
  "packed, label {#v} V {#f} Hz, valves apart {valves}":
    "gepackt, Schild {v} V {f} Hz, Röhren einzeln verpackt: {valves}",
  "came back": "zurückgekommen",
  packed: "gepackt",
  "rework: {why}": "Nacharbeit: {why}",
  "rework: {why} (now {valves})": "Nacharbeit: {why} (jetzt {valves})",
  "a coat of {~finish} on its case": "ein Anstrich mit {finish} auf dem Gehäuse",
  "{piece} of its case machined": "{piece} seines Gehäuses bearbeitet",
  "given case {case}": "Gehäuse {case} zugeteilt",
  "timber kept for it: {pieces}": "Holz dafür aufgehoben: {pieces}",
  "conceded {claim}: {reason}": "Sonderfreigabe für {claim}: {reason}",
  "released on {#n} claims, calculations {version}": "freigegeben auf {n} {n|Beleg|Belege}, Berechnungen {version}",
  tone: "Ton",
  "two tones": "zwei Töne",
  sweep: "Gleitton",
  noise: "Stille",
  tap: "Klopfen",
  hum: "Brumm",
  "supply shape": "Form der Versorgung",
  "switching on": "Einschalten",
  shorted: "kurzgeschlossen",
  driven: "angesteuert",
  "{valve}, section {s}: {_q} {#a} before the heat run, {#b} after it":
    "{valve}, System {s}: {q} {a} {q.unit} vor dem Einbrennlauf, {b} {q.unit} danach",
  "Four runs in five are done by then, after the date given; it waits longest for {what}":
    "Bis dahin sind vier von fünf Läufen fertig, nach dem zugesagten Termin; am längsten wartet es auf: {what}",
  "Four runs in five are done by then; it waits longest for {what}":
    "Bis dahin sind vier von fünf Läufen fertig; am längsten wartet es auf: {what}",
  "The workshop's machine does not answer. Check that Stillglow is still running there":
    "Der Rechner der Werkstatt antwortet nicht. Sehen Sie nach, ob Stillglow dort noch läuft",
  "The answer could not be read (status {#n})": "Die Antwort war nicht lesbar (Status {n})",
  drift: "Drift",
  "section spread": "Unterschied der Systeme",
  level: "Pegel",
  balance: "links zu rechts",
  response: "Frequenzgang",
  "hum above hearing": "Brumm über der Hörschwelle",
  "A-weighted hiss": "Rauschen, A-bewertet",
  "A-weighted noise": "Geräusch, A-bewertet",
  THD: "Klirr",
  "output impedance": "Ausgangswiderstand",
  "flux in the core": "Fluss",
  "fuse rating over the current drawn": "Sicherung zum aufgenommenen Strom",
  "label against the tap": "Typenschild gegen Anzapfung",
  moisture: "Holzfeuchte",
  "moisture against its destination": "Abweichung der Holzfeuchte",
  "panels at risk": "gefährdete Platten",
  gap: "Fuge",
  cracks: "Risse",
  crack: "Riss",
  temperature: "Temperatur",
  bond: "Schutzleiterwiderstand",
  "earth bond": "Schutzleiterwiderstand",
  resistance: "Widerstand",
  "touch current": "Berührungsstrom",
  "discharge time": "Entladezeit",
  field: "Feld",
  HT: "Anoden\u00adspannung",
  "DC at output": "Gleichspannung am Ausgang",
  "current with the bias shorted": "Kurzschlussstrom der Polarisation",
  plate: "Anode",
  "cracked panel": "gerissene Platte",
  "dry joint": "kalte Lötstelle",
  "valve drifted": "Röhre weggedriftet",
  "coat soft": "weicher Anstrich",
  "earth screw loose": "lose Schutzleiter\u00adschraube",
  "wrong resistor": "falscher Widerstand",
  "panel binds": "klemmende Platte",
  grid: "Gitter",
  screen: "Schirmgitter",
  mass: "Masse",
  "full scale": "Vollaussteuerung",
  "gap to lid": "Fuge am Deckel",
  "grid current": "Gitterstrom",
  leakage: "Leckstrom",
  "level in chassis": "Pegel im Chassis",
  "V r.m.s.": "V eff.",
  "mV r.m.s.": "mV eff.",
  "µV r.m.s.": "µV eff.",
  "crest factor": "Scheitelfaktor",
  "gap change": "Änderung der Fuge",
  heat: "Wärme",
  heater: "Heizung",
  humidity: "Luftfeuchte",
  imd: "Intermodulation",
  "jack DC": "Gleichspannung an der Buchse",
  lines: "Linien",
  pulse: "Spannungsstoß",
  settle: "beruhigt nach",
  taps: "Klopfstöße",
  thdn: "Klirr + Rauschen",
  "gain at 1k hz": "Verstärkung bei 1 kHz",
  "V peak": "V Spitze",
  "V quasi-peak": "V Quasispitze",
  account: "Abrechnung",
  "planned-stages": "Stufenplan",
  "finish-plan": "Oberflächenplan",
  "case-panels": "Platten des Gehäuses",
  "opened as {model} revision {revision}, tap {tap}, valves ":
    "angelegt als {model} Stand {revision}, Anzapfung {tap}, noch ohne Röhren",
  "Input shorted, {#o} ohm loads, all lines together on clean supply; {#s} s on the building's mains beside it":
    "Eingang kurzgeschlossen, Lasten von {o} Ohm, alle Linien zusammen an sauberer Versorgung; daneben {s} s am Hausnetz",
  "{~step}: its {#h} h are up": "{step}: {h} h sind um",
  "Its {#h} h are over ({~where}). {~rest}": "Seine {h} h sind um ({where}). {rest}",
  "{place}, slot {#n}": "{place}, Fach {n}",
  "{~where}: no {_q} on record": "{where}: {q} nicht eingetragen",
  "{point}: no {_q} on record": "{point}: {q} nicht eingetragen",
  "{~where}: reads {_q} {#v} ± {#d}, {~verdict}": "{where}: {q} {v} ± {d} {q.unit}, {verdict}",
  "{point}: reads {_q} {#v} ± {#d}, {~verdict}": "{point}: {q} {v} ± {d} {q.unit}, {verdict}",
  "{_q} at {point} {#v} ± {#d}, with {instrument}": "{q}, {point}: {v} ± {d} {q.unit}, mit {instrument}",
  "left channel, {~cause}": "linker Kanal, {cause}",
  "right channel, {~cause}": "rechter Kanal, {cause}",
  "{#d} s": "{d} s",
  return: "Rückläufer",
  "Millivolts at the sockets into {#a} kilohm, at switching on and settled":
    "Millivolt an den Buchsen an {a} Kiloohm, beim Einschalten und eingelaufen",
  "{~step}: its {#h} h are up ({~where})": "{step}: {h} h sind um ({where})",
  "heat run of {#n} valves of batch {batch} ends: read the reference valve, then read them hot ({where})":
    "Einbrennlauf von {n} {n|Röhre|Röhren} aus {batch} endet: erst die Vergleichsröhre messen, dann heiß messen ({where})",
  "Closed and idling for a night on the soak shelf, then temperature and a look with the lens":
    "Geschlossen eine Nacht im Leerlauf auf dem Wärmelaufregal, dann Temperatur und ein Blick mit der Lupe",
};
