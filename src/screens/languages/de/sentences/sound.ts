import type { Sentences } from "../../sentences/phrasebook.ts";

/** What hum, taps and bench recordings say, in German. */
export const sentences: Sentences = {
  left: "links",
  right: "rechts",
  both: "beide",
  "in left": "links",
  "in right": "rechts",
  "reading {recording}": "{recording} wird gelesen",
  "reading {recording}, {channel}": "{recording} wird gelesen, {channel}",
  "weighing the causes in {~channel}": "die Ursachen werden gewogen: {channel}",
  "the supplies it ran on": "die Versorgungen, an denen es lief",
  "who would hear it": "wer es hören würde",
  "No hum recording of this unit yet. Begin with one on the building's mains, input shorted":
    "Von diesem Gerät gibt es noch keine Brummaufnahme. Mit einer am Hausnetz beginnen, Eingang kurzgeschlossen",
  "Recording {id} is not compared: {~why}. A regenerator with cut peaks or a sag lowers HT, and a hum that goes with it is not cured":
    "Aufnahme {id} wird nicht verglichen: {why}. Ein Netzregenerator mit gekappten Spitzen oder Einbruch senkt die Anodenspannung, und ein Brumm, der damit vergeht, ist nicht geheilt",
  "Recording {id} decides nothing: by its own supply channel, {~why}. A hum that falls with the HT is not cured":
    "Aufnahme {id} entscheidet nichts: nach ihrem eigenen Versorgungskanal {why}. Ein Brumm, der mit der Anodenspannung fällt, ist nicht geheilt",
  "its shape was recorded that day and {~why}": "seine Form wurde an dem Tag aufgenommen, und {why}",
  "by its own supply channel {~why}": "nach dem eigenen Versorgungskanal {why}",
  "its supply channel stood {#p} % lower than on the building's mains":
    "sein Versorgungskanal lag {p} % tiefer als am Hausnetz",
  "HT stood {#p} % lower than on the building's mains": "die Anodenspannung lag {p} % tiefer als am Hausnetz",
  "it stands {#p} % lower than the building's mains": "sie liegt {p} % tiefer als das Hausnetz",
  "its peaks are cut: crest factor {#c} ± {#d}, not under {#n}":
    "seine Spitzen sind gekappt: Scheitelfaktor {c} ± {d}, nicht unter {n}",
  "its peaks are cut: crest factor {~rest}": "seine Spitzen sind gekappt: Scheitelfaktor {rest}",
  "crest factor {~rest}": "Scheitelfaktor {rest}",
  "THD {~rest}": "Klirr {rest}",
  "{#v} ± {#d}, not under {#n}": "{v} ± {d}, nicht unter {n}",
  "{#v} ± {#d}, not over {#n}": "{v} ± {d}, nicht über {n}",
  "{#v} ± {#d} %, not over {#n} %": "{v} ± {d} %, nicht über {n} %",
  "{#v}, not under {#n}: {~verdict}": "{v}, nicht unter {n}: {verdict}",
  "{#v}, not over {#n}: {~verdict}": "{v}, nicht über {n}: {verdict}",
  "{#v}, not under {#a}, not over {#b}: {~verdict}": "{v}, nicht unter {a} und nicht über {b}: {verdict}",
  "distortion {~rest}": "Verzerrungen {rest}",
  "level {~rest}": "Pegel {rest}",
  "Doubts are the scatter between blocks of about {#t} ms; the divider's own error is not among them":
    "Die Unsicherheiten sind die Streuung zwischen Blöcken von etwa {t} ms; der eigene Fehler des Teilers ist nicht darin",
  "Limits left out are common practice for a supply that shall count as clean, with no source":
    "Weggelassene Grenzen sind üblich für eine Versorgung, die als sauber gelten soll; ohne Quelle",
  "not under {#n}": "nicht unter {n}",
  "not over {#n}": "nicht über {n}",
  "{~what}: too near to tell": "{what}: zu nahe, um es zu sagen",
  "too near to tell": "zu nahe, um es zu sagen",
  outside: "außerhalb",
  "{~channel}: quiet, no mains-related line stands out of the floor":
    "{channel}: still, keine Netzlinie steht aus dem Rauschen heraus",
  "{~channel}: undecided. {~why}": "{channel}: unentschieden. {why}",
  "{~channel}: {~cause} ({~odds})": "{channel}: {cause} ({odds})",
  "{~channel}: {~cause}": "{channel}: {cause}",
  "odds over {#n} in 100": "Chance über {n} von 100",
  "odds {#n} in 100": "Chance {n} von 100",
  "valve {valve} at {position}": "Röhre {valve} in {position}",
  "the distortion of this building's mains brings it in; it is gone on a clean supply":
    "die Verzerrung des hiesigen Netzes bringt ihn herein; an sauberer Versorgung ist er fort",
  "pick-up of this building's field; what another house brings can't be told from here":
    "Einstreuung aus dem Feld dieses Gebäudes; was ein anderes Haus bringt, lässt sich von hier nicht sagen",
  "pick-up of this building's field": "Einstreuung aus dem Feld dieses Gebäudes",
  "the amplifier's own supply or wiring": "Netzteil oder Verdrahtung des Verstärkers selbst",
  "{#f} Hz": "{f} Hz",
  "{fs} Hz in the {~where}: the loudest, {#f} Hz, is {~heard}": "{fs} Hz, {where}: Die lauteste, {f} Hz, ist {heard}",
  "{#f} Hz in the {~where}: {~heard}": "{f} Hz, {where}: {heard}",
  "{~channel}, {~cause}": "{channel}, {cause}",
  "of a cause not told apart": "Ursache nicht zu trennen",
  "mostly {~cause}": "vor allem {cause}",
  "Its other lines ({lines} and others) are below the threshold of hearing on all headphones on file":
    "Seine übrigen Linien ({lines} und andere) liegen in allen eingetragenen Kopfhörern unter der Hörschwelle",
  "Its other lines ({lines}) are below the threshold of hearing on all headphones on file":
    "Seine übrigen Linien ({lines}) liegen in allen eingetragenen Kopfhörern unter der Hörschwelle",
  "{#f} Hz and its multiples in the {~channel}: {~cause}; the loudest of them is {~heard}":
    "{f} Hz und Vielfache, {channel}: {cause}; die lauteste davon ist {heard}",
  "outside the {#a} Hz to {#b} kHz that thresholds are known for":
    "außerhalb der {a} Hz bis {b} kHz, für die Hörschwellen bekannt sind",
  "no headphones are on file to judge it by": "ohne eingetragenen Kopfhörer nicht zu beurteilen",
  "below the threshold of hearing on all {#n} headphones": "in allen {n} Kopfhörern unter der Hörschwelle",
  "audible for certain on none of {#n} headphones, doubtful on {#d}":
    "in keinem von {n} Kopfhörern sicher hörbar, in {d} zweifelhaft",
  "audible on {#k} of {#n} headphones": "in {k} von {n} Kopfhörern hörbar",
  "audible on {#k} of {#n} headphones, doubtful on {#d}": "in {k} von {n} Kopfhörern hörbar, in {d} zweifelhaft",
  "{~heard}, though its own hiss covers it": "{heard}, obwohl das eigene Rauschen sie verdeckt",
  "the amplifier itself": "der Verstärker selbst",
  "pick-up of the building's field": "Einstreuung aus dem Feld des Gebäudes",
  "distortion of the building's mains": "Verzerrung des Hausnetzes",
  "The recordings leave {&causes} possible: {~missing}": "Die Aufnahmen lassen {causes} offen: {missing}",
  "no recording was made on a supply at another frequency than the building's":
    "keine Aufnahme entstand an einer Versorgung mit anderer Frequenz als der des Gebäudes",
  "no recording was made on a clean supply": "keine Aufnahme entstand an sauberer Versorgung",
  "{&causes} was never exchanged": "{causes} wurde nie getauscht",
  "{&causes} were never exchanged": "{causes} wurden nie getauscht",
  "not separable: {~cause} and {&names} came and went together":
    "nicht zu trennen: {cause} und {names} kamen und gingen zusammen",
  "No one cause stands out enough among {&causes}": "Keine Ursache tritt unter {causes} deutlich genug hervor",
  "{&causes} is likely, but not surely more than half of the hum":
    "{causes} ist wahrscheinlich, aber nicht sicher mehr als die Hälfte des Brumms",
  "{number} causes together: {~parts}; none of them is surely more than half":
    "Mehrere Ursachen zusammen: {parts}; keine davon ist sicher mehr als die Hälfte",
  "{~cause} ({#a} to {#b} % of the hum), {~rest}": "{cause} ({a} bis {b} % des Brumms), {rest}",
  "{~cause} ({#a} to {#b} % of the hum) and {~rest}": "{cause} ({a} bis {b} % des Brumms) und {rest}",
  "{~cause} ({#a} to {#b} % of the hum)": "{cause} ({a} bis {b} % des Brumms)",
  "Still possible in {~channel}: {~causes}": "Noch möglich ({channel}): {causes}",
  "In {~channel}, a supply at {#f} Hz parts what follows the unit's supply from the building's field and from what the building's mains bring in":
    "Eine Versorgung mit {f} Hz trennt ({channel}), was der Versorgung des Geräts folgt, vom Feld des Gebäudes und von dem, was das Hausnetz hereinbringt",
  "In {~channel}, the building's own mains show what they bring in":
    "Das Hausnetz selbst zeigt ({channel}), was es hereinbringt",
  "{~what} at {position} in place of {valve}, everything else as it was: hum that falls was the valve's, hum that stays was not":
    "{what} in {position} statt {valve}, alles andere wie zuvor: Brumm, der fällt, kam von der Röhre, Brumm, der bleibt, nicht",
  "fit {id}": "{id} einsetzen",
  "fit {a} or {b}": "{a} oder {b} einsetzen",
  "fit another valve from the shelf": "eine andere Röhre aus dem Lager einsetzen",
  "fit another valve from the shelf, other than {tried}": "eine andere Röhre aus dem Lager einsetzen, nicht {tried}",
  "Of {#n} ways on it tells most for its {#m} minutes": "Von {n} Wegen sagt dieser in seinen {m} Minuten am meisten",
  "{lines} They lie close together; a second offset frequency, with a mains reference channel and a longer recording, reads them apart once more":
    "{lines} Sie liegen dicht beisammen; eine zweite versetzte Frequenz, mit einem Netzbezugskanal und einer längeren Aufnahme, trennt sie noch einmal",
  "{id}: its supply was not sound ({~why}). That lowers HT, and a hum that falls with it is not cured: its lines stand, but it decides nothing":
    "{id}: Die Versorgung war nicht in Ordnung ({why}). Das senkt die Anodenspannung, und ein Brumm, der damit fällt, ist nicht geheilt: Ihre Linien gelten, aber sie entscheidet nichts",
  "{id}: in {~channel} the hum moved by {#a} dB since {other}, its hiss by {#b} dB. That is how a changed gain looks (another valve, the volume control, the recorder), so it decides nothing there":
    "{id}: Seit {other} änderte sich der Brumm ({channel}) um {a} dB, das Rauschen um {b} dB. So sieht eine geänderte Verstärkung aus (andere Röhre, Lautstärkesteller, Recorder), deshalb entscheidet sie dort nichts",
  "{id}: in {~channel} the hum moved by {#a} dB since {other}, its hiss by {#b} dB and the building's lines by {#c} dB. That is how a changed gain looks (another valve, the volume control, the recorder), so it decides nothing there":
    "{id}: Seit {other} änderte sich der Brumm ({channel}) um {a} dB, das Rauschen um {b} dB und die Linien des Gebäudes um {c} dB. So sieht eine geänderte Verstärkung aus (andere Röhre, Lautstärkesteller, Recorder), deshalb entscheidet sie dort nichts",
  "{valve} at {position} was not exchanged on an offset supply, so a lead laid otherwise meanwhile would look the same in {~channel}: put it back and hear the hum return before it is laid aside":
    "{valve} in {position} wurde nicht an versetzter Versorgung getauscht; eine inzwischen anders liegende Leitung sähe ({channel}) genauso aus: zurückstecken und den Brumm wiederkommen hören, bevor sie ausgesondert wird",
  "{#n} faint lines were not weighed, to answer in time; their causes stand as open. More seconds granted weigh them too":
    "{n} schwache Linien wurden nicht gewogen, um rechtzeitig zu antworten; ihre Ursachen stehen als offen. Mehr gewährte Sekunden wiegen auch sie",
  "{id}: {&channels} clipped; its lines are not to be trusted":
    "{id}: {channels} übersteuert; ihren Linien ist nicht zu trauen",
  "{id}: the file is cut short; {#s} s of it were used": "{id}: Die Datei bricht ab; {s} s davon wurden benutzt",
  "{id}: {#s} s is short; {#t} s part near lines better": "{id}: {s} s sind kurz; {t} s trennen nahe Linien besser",
  "{id}: its input was {~given}, not {~closed}; its lines stand, but it decides nothing":
    "{id}: Der Eingang war {given}, nicht {closed}; ihre Linien gelten, aber sie entscheidet nichts",
  open: "offen",
  terminated: "abgeschlossen",
  "Only the first {#s} s of {~which} were read, to answer in time; more seconds granted read more":
    "Nur die ersten {s} s ({which}) wurden gelesen, um rechtzeitig zu antworten; mehr gewährte Sekunden lesen mehr",
  "each recording": "jeder Aufnahme",
  "{#a} of {#b} recordings": "{a} von {b} Aufnahmen",
  "feeds names {position}, which no recording has a valve at":
    "genannt ist {position}, wo in keiner Aufnahme eine Röhre steckt",
  "No tap stands out of the noise: tap harder, or raise the gain":
    "Kein Klopfer steht aus dem Rauschen heraus: fester klopfen oder die Verstärkung erhöhen",
  "no tap stands out of the noise; tap harder, or raise the gain":
    "kein Klopfer steht aus dem Rauschen heraus; fester klopfen oder die Verstärkung erhöhen",
  "Tapped, nothing in it rings for longer than any valve does":
    "Beim Klopfen klingt nichts länger nach, als es jede Röhre tut",
  "{#f} Hz for {#t} ms": "{f} Hz, {t} ms lang",
  "Valve {valve} in {position} is microphonic: tapped, it rings at {~note}; with another valve in its place nothing does. No hum recording shows it":
    "Röhre {valve} in {position} ist mikrofonisch: Beim Klopfen klingt sie mit {note}; mit einer anderen an ihrem Platz klingt nichts. Keine Brummaufnahme zeigt das",
  "Tapped, it rings at {~note}, and with no one valve: look at sockets and wiring":
    "Beim Klopfen klingt es mit {note}, und mit keiner bestimmten Röhre: Fassungen und Verdrahtung ansehen",
  "Tapped, it rings at {~note}. Exchange {valves} and tap again: a ring that leaves with the valve is the valve's":
    "Beim Klopfen klingt es mit {note}. {valves} tauschen und wieder klopfen: Ein Klang, der mit der Röhre geht, ist ihrer",
  "what rings is too weak against the noise; tap harder, or raise the gain":
    "was klingt, ist zu schwach gegen das Rauschen; fester klopfen oder die Verstärkung erhöhen",
  "the taps leave no resonance that stands out of the noise":
    "die Klopfer lassen keine Resonanz aus dem Rauschen heraustreten",
  "{name}: the recorder was driven beyond its range (clipped); {~rest}":
    "{name}: Der Recorder wurde übersteuert; {rest}",
  "peaks read low": "Spitzen lesen sich zu niedrig",
  "its level reads low": "sein Pegel liest sich zu niedrig",
  "turn it down and record again": "zurückdrehen und neu aufnehmen",
  "distortion is not the amplifier's alone": "der Klirr ist nicht allein der des Verstärkers",
  "harmonics are not the amplifier's alone": "die Oberwellen sind nicht allein die des Verstärkers",
  "products are not the amplifier's alone": "die Produkte sind nicht allein die des Verstärkers",
  "Only the channel {name} is judged": "Nur der Kanal {name} wird beurteilt",
  "Of this long recording {#a} to {#b} s are judged, where taps were hardest":
    "Von dieser langen Aufnahme werden {a} bis {b} s beurteilt, wo am festesten geklopft wurde",
  "Of {#a} taps the {#b} in a row that were struck hardest are judged":
    "Von {a} Klopfern werden die {b} festesten hintereinander beurteilt",
  "More may ring than was looked for in the time: cut the recording to fewer taps, or grant more seconds":
    "Es klingt vielleicht mehr, als in der Zeit zu suchen war: auf weniger Klopfer kürzen oder mehr Sekunden gewähren",
  "Nearly every resonance rings after one tap alone: music, or different things struck, rather than one":
    "Fast jede Resonanz klingt nur nach einem Klopfer: eher Musik oder verschiedene Dinge als eines",
  "A steady line at {#f} Hz does not go with the taps and is left out":
    "Eine stetige Linie bei {f} Hz geht nicht mit den Klopfern und bleibt außer Acht",
  "Something rings near {#f} Hz, too weak to say for how long":
    "Etwas klingt nahe {f} Hz, zu schwach, um zu sagen, wie lange",
  "what was played is not on record, so nothing can be judged":
    "was gespielt wurde, ist nicht eingetragen, deshalb lässt sich nichts beurteilen",
  "nothing played": "nichts gespielt",
  "input {~input}": "Eingang {input}",
  "input {~input}, {~rest}": "Eingang {input}, {rest}",
  "nothing played, {~rest}": "nichts gespielt, {rest}",
  "on the building's mains at {#f} Hz": "am Hausnetz mit {f} Hz",
  "on clean supply at {#f} Hz": "an sauberer Versorgung mit {f} Hz",
  "{~channel} driven alone": "nur {channel} angesteuert",
  "{~channel} driven alone, {~rest}": "nur {channel} angesteuert, {rest}",
  "volume at {volume}": "Lautstärke auf {volume}",
  "volume at {volume}, {~rest}": "Lautstärke auf {volume}, {rest}",
  "into {#o} Ω": "in {o} Ω",
  "into {#o} Ω, {~rest}": "in {o} Ω, {rest}",
  "{#f} Hz, {~rest}": "{f} Hz, {rest}",
  "{#f} Hz at {#v} V peak, {~rest}": "{f} Hz mit {v} V Spitze, {rest}",
  "{#f} and {#g} Hz for {~products}, {~rest}": "{f} und {g} Hz für {products}, {rest}",
  "{#f} and {#g} Hz for {~products} at {#v} V peak, {~rest}": "{f} und {g} Hz für {products} mit {v} V Spitze, {rest}",
  modulation: "Modulation",
  difference: "Differenzton",
  "sweep from {#a} Hz to {#b} Hz in {#s} s, {~rest}": "Gleitton von {a} Hz bis {b} Hz in {s} s, {rest}",
  "sweep from {#a} Hz to {#b} Hz in {#s} s at {#v} V peak, {~rest}":
    "Gleitton von {a} Hz bis {b} Hz in {s} s mit {v} V Spitze, {rest}",
  "Some rounds change with the setting, others do not": "Einige Runden ändern sich mit der Stellung, andere nicht",
  "Left and right part by {#n} dB over the settings, with either set of valves alike: the tracks of the volume control differ. The valves are not at fault":
    "Links und rechts laufen über die Stellungen um {n} dB auseinander, mit beiden Röhrensätzen gleich: Die Bahnen des Lautstärkestellers unterscheiden sich. Die Röhren sind nicht schuld",
  "The error changes with the setting and, by {#n} dB, with the valves too: look for both":
    "Der Fehler ändert sich mit der Stellung und um {n} dB auch mit den Röhren: nach beidem suchen",
  "Left and right are alike at every setting, within a tenth of a decibel":
    "Links und rechts sind bei jeder Stellung auf ein Zehntel Dezibel gleich",
  "Left over right stays at {~n} at every setting: it is not the control. Exchange the valves and record again: an error that goes with them is theirs, one that stays is the circuit's":
    "Links zu rechts bleibt bei jeder Stellung {n}: Es ist nicht der Steller. Die Röhren tauschen und neu aufnehmen: Ein Fehler, der mitgeht, ist ihrer, einer, der bleibt, der der Schaltung",
  "Left over right is {~a} with {x} and {~b} with {y}, alike at every setting: it goes with the valves. The volume control is not at fault":
    "Links zu rechts ist {a} mit {x} und {b} mit {y}, bei jeder Stellung gleich: Es geht mit den Röhren. Der Lautstärkesteller ist nicht schuld",
  "Left over right stays at {~n} at every setting and with either set of valves: it is neither the control nor a valve, so look at the parts of the two channels":
    "Links zu rechts bleibt bei jeder Stellung und mit beiden Röhrensätzen {n}: weder Steller noch Röhre, also die Teile der beiden Kanäle ansehen",
  "{~reason} Exchange the valves and record the same settings again: an error that stays is the control's":
    "{reason} Die Röhren tauschen und dieselben Stellungen neu aufnehmen: Ein Fehler, der bleibt, ist der des Stellers",
  "The difference moves by {#n} dB over the positions, more than its doubt: the control's tracks differ. What valves add stays alike at every position":
    "Der Unterschied ändert sich über die Stellungen um {n} dB, mehr als seine Unsicherheit: Die Bahnen des Stellers unterscheiden sich. Was Röhren beitragen, bleibt bei jeder Stellung gleich",
  "The difference stays at {#n} dB at every position: it is not the control but valves or circuit":
    "Der Unterschied bleibt bei jeder Stellung {n} dB: nicht der Steller, sondern Röhren oder Schaltung",
  "The positions differ by {#n} dB with a doubt of {#d} dB; record for longer or at a higher level":
    "Die Stellungen unterscheiden sich um {n} dB bei {d} dB Unsicherheit; länger oder mit höherem Pegel aufnehmen",
  "Noise figures cover {#a} Hz to {#b} kHz with sharp edges; lines are found at a chance of {#p} in 100 a channel that noise alone is named":
    "Die Rauschwerte gelten für {a} Hz bis {b} kHz mit scharfen Kanten; Linien werden mit einer Chance von {p} von 100 je Kanal gefunden, dass bloßes Rauschen genannt wird",
  "The mains frequency moved during the recording and was followed; its mean is given":
    "Die Netzfrequenz wanderte während der Aufnahme und wurde verfolgt; genannt ist ihr Mittel",
  "No mains lines stand out of the noise; the mains frequency given is [the|a] nominal, not measured":
    "Keine Netzlinien stehen aus dem Rauschen heraus; die genannte Netzfrequenz ist der Nennwert, nicht gemessen",
  "{name}: the level is not steady: music, handling or a fault that comes and goes. Doubts hold for steady noise":
    "{name}: Der Pegel ist nicht stetig: Musik, Berührung oder ein Fehler, der kommt und geht. Die Unsicherheiten gelten für stetiges Rauschen",
  "{name}: digital silence or nothing but a constant voltage; check that the channel was connected":
    "{name}: digitale Stille oder nur Gleichspannung; prüfen, ob der Kanal angeschlossen war",
  "At {#r} samples a second nothing above {#f} Hz is included":
    "Bei {r} Abtastwerten je Sekunde ist nichts über {f} Hz enthalten",
  "The quasi-peak meter needs about a second to rise; a longer recording reads it better":
    "Der Quasispitzenmesser braucht etwa eine Sekunde zum Anstieg; eine längere Aufnahme liest ihn besser",
  "Read in {#n} stretches of {#s} s: levels are r.m.s. over all of them, frequencies means, and a mains line must stand out within a stretch":
    "In {n} Abschnitten von {s} s gelesen: Pegel sind Effektivwerte über alle, Frequenzen Mittel, und eine Netzlinie muss innerhalb eines Abschnitts herausragen",
  "Distortion has the noise that each harmonic holds taken off; figures that a noise floor hides are limits, with a doubt as large as themselves":
    "Vom Klirr ist das Rauschen in jeder Oberwelle abgezogen; Werte, die das Rauschen verdeckt, sind Grenzen mit ebenso großer Unsicherheit",
  "{name}: no tone stands out of the noise, so this channel has no figures":
    "{name}: Kein Ton steht aus dem Rauschen heraus, deshalb hat dieser Kanal keine Werte",
  "{name}: no two tones stand out of the noise, so this channel has no figures":
    "{name}: Keine zwei Töne stehen aus dem Rauschen heraus, deshalb hat dieser Kanal keine Werte",
  "{name}: distortion lies in the noise; it is at most {#p} %":
    "{name}: Der Klirr liegt im Rauschen; er beträgt höchstens {p} %",
  "{name}: intermodulation lies in the noise; it is at most {#p} %":
    "{name}: Die Intermodulation liegt im Rauschen; sie beträgt höchstens {p} %",
  "{name}: crosstalk lies in the noise; it is at most {#d} dB":
    "{name}: Das Übersprechen liegt im Rauschen; es beträgt höchstens {d} dB",
  "{name}: harmonics above {#n} lie beyond half the sample rate and are not counted":
    "{name}: Oberwellen über der {n}. liegen jenseits der halben Abtastrate und zählen nicht",
  "{name}: the tone is not alone: {#p} % of its level is something else. One steady tone is expected":
    "{name}: Der Ton ist nicht allein: {p} % seines Pegels sind etwas anderes. Erwartet wird ein stetiger Ton",
  "{name}: the tone drifted against the recorder's clock and was followed":
    "{name}: Der Ton wanderte gegen den Takt des Recorders und wurde verfolgt",
  "{name}: the tones drifted against the recorder's clock and were followed":
    "{name}: Die Töne wanderten gegen den Takt des Recorders und wurden verfolgt",
  "{name}: the two tones are not alone: {#v} V of something else is in the recording":
    "{name}: Die zwei Töne sind nicht allein: {v} V von etwas anderem sind in der Aufnahme",
  "{name}: the tones stand {#a} to {#b}, low to high; {#c} to {#d} is usual for this kind":
    "{name}: Die Töne stehen {a} zu {b}, tief zu hoch; üblich ist hier {c} zu {d}",
  "{name}: the {other} channel holds no tone that stands out of the noise; is it driven?":
    "{name}: Im Kanal {other} steht kein Ton aus dem Rauschen heraus; ist er angesteuert?",
  "{name}: the tone in the {other} channel is not alone; one steady tone is expected, not music or noise":
    "{name}: Der Ton im Kanal {other} ist nicht allein; erwartet wird ein stetiger Ton, nicht Musik oder Rauschen",
  "{name}: {a} is said to be driven but {b} is louder by {#d} dB; the channels seem exchanged":
    "{name}: Angesteuert sein soll {a}, aber {b} ist um {d} dB lauter; die Kanäle scheinen vertauscht",
  "phase_deg is free of the delay to the sweep's start, found as what is left beside the phase that goes with the gain":
    "Die Phase ist frei von der Verzögerung bis zum Beginn des Gleittons",
  "gain_dB is the level in dB over 1 V peak, as no level_Vpk was given":
    "Die Verstärkung ist der Pegel in dB über 1 V Spitze, da keine Spannung am Eingang angegeben ist",
  "The recording holds the sweep from {#a} Hz to {#b} Hz only; the rest was not recorded":
    "Die Aufnahme enthält den Gleitton nur von {a} Hz bis {b} Hz; der Rest wurde nicht aufgenommen",
  "Mains lines were fitted and taken out": "Netzlinien wurden angepasst und herausgenommen",
  "The player's clock runs {#a} ± {#b} ppm against the recorder's; it is allowed for":
    "Der Takt des Abspielers läuft {a} ± {b} ppm gegen den des Recorders; das ist berücksichtigt",
  "The sweep goes beyond half the sample rate; what lies there is not seen":
    "Der Gleitton geht über die halbe Abtastrate hinaus; was dort liegt, ist nicht zu sehen",
  "Channel {#n}: {#p} % of the power is not explained by the sweep; noise, or another sound":
    "Kanal {n}: {p} % der Leistung erklärt der Gleitton nicht; Rauschen oder ein anderer Klang",
  "{name}: start the recorder a second or more before switching on":
    "{name}: den Recorder mindestens eine Sekunde vor dem Einschalten starten",
  "no pulse stands out of the noise; its figures are limits":
    "kein Stoß steht aus dem Rauschen heraus; seine Werte sind Grenzen",
  "the recording begins after the switch, so where zero lies is not known":
    "die Aufnahme beginnt nach dem Schalten, deshalb ist nicht bekannt, wo Null liegt",
  "the recorder is not known to pass direct voltage, so the rest is not told":
    "ob der Recorder Gleichspannung durchlässt, ist nicht bekannt, deshalb fehlt die Ruhelage",
  "the recorder was driven beyond its range: the pulse is higher than it reads":
    "der Recorder wurde übersteuert: Der Stoß ist höher, als er sich liest",
  "it had not come within {#m} mV of its rest when the record ended":
    "es war am Ende der Aufnahme noch nicht auf {m} mV an seiner Ruhelage",
  "The two levels differ by {#p} %, too little against their doubt; take loads that lie further apart":
    "Die zwei Pegel unterscheiden sich um {p} %, zu wenig gegen ihre Unsicherheit; weiter auseinanderliegende Lasten nehmen",
  "{name}: the tone stands within {#d} dB of full scale, where some recorders bend; {#a} to {#b} dB lower is better":
    "{name}: Der Ton liegt {d} dB unter Vollaussteuerung, wo mancher Recorder krumm wird; {a} bis {b} dB tiefer ist besser",
  "{name}: the tone stands {#d} dB under full scale; a louder one calibrates better":
    "{name}: Der Ton liegt {d} dB unter Vollaussteuerung; ein lauterer kalibriert besser",
  "The samples come in steps of {#n} bits: between recorder and file something may have cut them down; nothing finer can be seen":
    "Die Abtastwerte kommen in Stufen von {n} Bit: Zwischen Recorder und Datei kann etwas sie gekürzt haben; Feineres ist nicht zu sehen",
  "Without a record of silence the recorder's own noise is not known":
    "Ohne eine Aufnahme der Stille ist das Eigenrauschen des Recorders nicht bekannt",
  "Distortion and noise are those of player and recorder together: the recorder alone has at most as much":
    "Klirr und Rauschen sind die von Abspieler und Recorder zusammen: Der Recorder allein hat höchstens so viel",
  "The recording holds the sweep from {#a} to {#b} Hz only; the rest was not recorded":
    "Die Aufnahme enthält den Gleitton nur von {a} bis {b} Hz; der Rest wurde nicht aufgenommen",
  "The loop-back shows a high-pass at {shown}; as the recorder is said to pass direct voltage, it is the player's":
    "Der Schleifenversuch zeigt einen Hochpass bei {shown}; da der Recorder Gleichspannung durchlassen soll, ist er der des Abspielers",
  "The recorder passes no direct voltage: the resting voltage at the jack is not seen. Read it with a meter":
    "Der Recorder lässt keine Gleichspannung durch: Die Ruhespannung an der Buchse ist nicht zu sehen. Mit einem Messgerät messen",
  "The recorder is not known to pass direct voltage: the resting voltage at the jack is not seen. Read it with a meter":
    "Ob der Recorder Gleichspannung durchlässt, ist nicht bekannt: Die Ruhespannung an der Buchse ist nicht zu sehen. Mit einem Messgerät messen",
  "How slow a pulse it can follow is not known: slow ones read low and end too soon. Give the recorder's loop-back":
    "Wie langsamen Stößen er folgt, ist nicht bekannt: Langsame lesen sich zu niedrig und enden zu früh. Den Schleifenversuch des Recorders angeben",
  "Its loop-back shows a high-pass at {shown}, the player's included: a pulse that lasts more than {#t} ms reads low by a tenth or more. What undoing it changes is in the doubt":
    "Sein Schleifenversuch zeigt einen Hochpass bei {shown}, den des Abspielers mit: Ein Stoß von mehr als {t} ms liest sich um ein Zehntel oder mehr zu niedrig. Was das Zurückrechnen ändert, steht in der Unsicherheit",
  "audible for certain on none of {#n} headphones": "in keinem von {n} Kopfhörern sicher hörbar",
  "the same valves": "denselben Röhren",
  "what was sent": "was gesendet wurde",
};
