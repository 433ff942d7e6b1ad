import type { Sentences } from "../../sentences/phrasebook.ts";

/** What the probe card and the notebook say, in German. */
export const sentences: Sentences = {
  "The circuit could not be worked out, so nothing can be said of its parts":
    "Die Schaltung ließ sich nicht ausrechnen, deshalb lässt sich über ihre Teile nichts sagen",
  "Only the newest {#a} of {#b} gains could be weighed: in a unit of so many parts more would not be answered in time":
    "Nur die neuesten {a} von {b} Verstärkungen ließen sich wiegen: Bei so vielen Teilen wäre mehr nicht rechtzeitig beantwortet",
  "None of {#b} gains could be weighed: in a unit of so many parts more would not be answered in time":
    "Keine von {b} Verstärkungen ließ sich wiegen: Bei so vielen Teilen wäre es nicht rechtzeitig beantwortet",
  "Nothing was probed yet. Begin with the circuit dead and discharged":
    "Noch ist nichts gemessen. Mit der stromlosen, entladenen Schaltung beginnen",
  "The readings together are what good parts give. Nothing accuses a part":
    "Die Messwerte zusammen sind die von guten Teilen. Nichts spricht gegen ein Teil",
  "No unit of good parts reads like this. One fault is looked for; the likeliest stands first":
    "Kein Gerät aus guten Teilen misst sich so. Gesucht wird ein Fehler; der wahrscheinlichste steht zuerst",
  "The readings do not decide between a good unit and a faulty one":
    "Die Messwerte entscheiden nicht zwischen einem guten und einem fehlerhaften Gerät",
  "{~a} if {~b}, {~c} if {~d}": "{a}, wenn {b}; {c}, wenn {d}",
  "all is good": "alles in Ordnung ist",
  "{part} open": "{part}: unterbrochen",
  "{part} open ({~detail})": "{part}: unterbrochen ({detail})",
  "{part} short": "{part}: kurzgeschlossen",
  "{part} short ({~detail})": "{part}: kurzgeschlossen ({detail})",
  "{part} high": "{part}: zu groß",
  "{part} high ({~detail})": "{part}: zu groß ({detail})",
  "{part} low": "{part}: zu klein",
  "{part} low ({~detail})": "{part}: zu klein ({detail})",
  "{part} leaky": "{part}: undicht",
  "{part} leaky ({~detail})": "{part}: undicht ({detail})",
  "{part} weak": "{part}: schwach",
  "{part} weak ({~detail})": "{part}: schwach ({detail})",
  "{part} dead": "{part}: tot",
  "{part} dead ({~detail})": "{part}: tot ({detail})",
  "about {#v} {!unit}": "etwa {v} {unit}",
  "under {#v} dB": "unter {v} dB",
  "Unplug the unit and discharge its capacitors; measure that they are empty before touching anything":
    "Gerät ausstecken und Kondensatoren entladen; nachmessen, dass sie leer sind, bevor Sie etwas berühren",
  "Voltages here can kill: clip the meter on with the unit off and discharged, one hand away, then switch on":
    "Spannungen hier können töten: das Messgerät am ausgeschalteten, entladenen Gerät anklemmen, eine Hand weg, dann einschalten",
  "Voltages here can kill: clip the meter on with the unit off and discharged, one hand away, then switch on. Block the direct voltage with a capacitor rated for it":
    "Spannungen hier können töten: das Messgerät am ausgeschalteten, entladenen Gerät anklemmen, eine Hand weg, dann einschalten. Die Gleichspannung mit einem dafür bemessenen Kondensator abblocken",
  "The unit is on and dangerous voltages are near this point: one hand, an insulated probe":
    "Das Gerät ist an, und neben diesem Punkt stehen gefährliche Spannungen: eine Hand, isolierte Prüfspitze",
  "about {~a} in place of {~b}": "etwa {a} statt {b}",
  "about {~a} in place of {~b}; perhaps {~c} was fitted": "etwa {a} statt {b}; vielleicht ist {c} eingesetzt",
  "{#n} {!unit}": "{n} {unit}",
  "leaks like {~ohm}": "undicht wie {ohm}",
  "leaks like {~ohm}; an electrolytic fitted backwards reads so too":
    "undicht wie {ohm}; ein verkehrt eingebauter Elko misst sich auch so",
  "{#p} % of its turns shorted": "{p} % der Windungen kurzgeschlossen",
  "winding {#n}": "Wicklung {n}",
  "windings {#a} and {#b}": "Wicklungen {a} und {b}",
  "passes about {#p} % of its current": "führt etwa {p} % seines Stroms",
  "about {#n} uA into its grid circuit": "etwa {n} µA in den Gitterkreis",
  "from cathode to heater, like {~ohm} to ground": "von der Kathode zur Heizung, wie {ohm} nach Masse",
  "{ids} cold: heater, socket pins, or no valve fitted":
    "{ids} kalt: Heizung, Fassungsstifte oder keine Röhre eingesetzt",
  "the whole bottle": "die ganze Röhre",
  "with {id}": "mit {id}",
  "{~reason}; {~what} would tell": "{reason}; {what} würde es sagen",
  "the dead circuit's resistance from {a} to {b}": "der Widerstand der stromlosen Schaltung von {a} nach {b}",
  "the voltage at {point}": "die Spannung an {point}",
  "a gain to {point}": "eine Verstärkung bis {point}",
  "the resistances agree best with supplies that conduct once the unit is off":
    "die Widerstände passen am besten zu Netzteilen, die ausgeschaltet leiten",
  "the resistances agree best with supplies that block once the unit is off":
    "die Widerstände passen am besten zu Netzteilen, die ausgeschaltet sperren",
  "no reading is given yet": "noch kein Messwert eingegeben",
  "one reading may be a slip: {~words}; take it again":
    "ein Messwert könnte ein Versehen sein: {words}; noch einmal messen",
  "{~what}; take it again": "{what}; noch einmal messen",
  "{name} stands alone against all other readings": "{name} steht allein gegen alle anderen Messwerte",
  "{name} stands alone against all other readings where a good unit reads about {#v} V":
    "{name} steht allein gegen alle anderen Messwerte, wo ein gutes Gerät etwa {v} V zeigt",
  "{name} stands alone against all other readings where a good unit reads about {#v} V; {~mend} would put it right":
    "{name} steht allein gegen alle anderen Messwerte, wo ein gutes Gerät etwa {v} V zeigt; {mend} brächte es in Ordnung",
  "a decimal point one place to the right": "ein Komma eine Stelle weiter rechts",
  "a decimal point one place to the left": "ein Komma eine Stelle weiter links",
  "the other sign": "das andere Vorzeichen",
  "{name} reads more than all supplies together": "{name} zeigt mehr als alle Versorgungen zusammen",
  "the readings lie at the edge of what good parts give ({~odds} good units reads so), and no fault explains them much better":
    "die Messwerte liegen am Rand dessen, was gute Teile geben ({odds} guten Geräten misst sich so), und kein Fehler erklärt sie viel besser",
  "one in {#n}": "eines von {n}",
  "the readings are not those of a good unit, but no single fault of the library explains them well: perhaps two faults, one of another kind, or a wrong reading":
    "die Messwerte sind nicht die eines guten Geräts, aber kein einzelner Fehler der Sammlung erklärt sie gut: vielleicht zwei Fehler, einer anderer Art oder ein falscher Messwert",
  "the readings together lie within what good parts give, but {~fault} explains them {#n} times better than a good unit does":
    "die Messwerte zusammen liegen in dem, was gute Teile geben, aber {fault} erklärt sie {n}-mal besser als ein gutes Gerät",
  "the readings together lie within what good parts give, but {~fault} (or one that reads like it) explains them {#n} times better than a good unit does":
    "die Messwerte zusammen liegen in dem, was gute Teile geben, aber {fault} (oder einer, der sich gleich misst) erklärt sie {n}-mal besser als ein gutes Gerät",
  "and {#n} more": "und {n} weitere",
  "node {node}: {~reason}": "Knoten {node}: {reason}",
  "node {node} has only one end joined to it; check its name": "am Knoten {node} hängt nur ein Ende; den Namen prüfen",
  "a real circuit would leave this rest and latch to one side; the net list has other rests":
    "eine wirkliche Schaltung verließe diese Ruhelage und kippte zu einer Seite; die Netzliste hat andere Ruhelagen",
  "a node between valves that are cut off is held only by leakage, taken as {#a}^{#b} ohm":
    "ein Knoten zwischen gesperrten Röhren wird nur vom Leckstrom gehalten, angenommen {a}^{b} Ohm",
  "{part} is cut off: its plate has no slope, so rp_ohm and mu are left out":
    "{part} ist gesperrt: Die Anode hat keine Steigung, Innenwiderstand und Verstärkungsfaktor fehlen deshalb",
  "{what} would have to carry an endless current; put a resistor in series with it":
    "{what} müsste endlosen Strom führen; einen Widerstand in Reihe legen",
  "nothing in the net list determines {node}; give it a path for direct current, or a coil beside it its resistance_ohm":
    "nichts in der Netzliste bestimmt {node}; einen Weg für Gleichstrom geben oder einer Spule daneben ihren Widerstand",
  "{node} would not settle; look for a loop that latches or oscillates there, or a value far from the usual":
    "{node} kam nicht zur Ruhe; nach einer Schleife suchen, die kippt oder schwingt, oder einem weit abliegenden Wert",
  "nothing in the net list has a tolerance, so every unit is alike":
    "nichts in der Netzliste hat eine Toleranz, deshalb ist jedes Gerät gleich",
  "under {#n} samples hold no half per cent of their own: windows stand {#s} standard deviations from the median, each side by its own":
    "unter {n} Ziehungen haben kein eigenes halbes Prozent: Die Fenster liegen {s} Standardabweichungen vom Median, jede Seite nach ihrer eigenen",
  "{#a} of {#b} drawn units found no rest; they count as bad and stand in no window":
    "{a} von {b} gezogenen Geräten fanden keine Ruhelage; sie zählen als schlecht und stehen in keinem Fenster",
  "this way round the meter may open the junctions of {ids} and read lower; the other way round, or on a range under {#v} V, they block":
    "so herum öffnet das Messgerät vielleicht die Übergänge von {ids} und zeigt weniger; andersherum oder in einem Bereich unter {v} V sperren sie",
  "wait until {ids} has charged through the meter: the reading climbs to its value":
    "warten, bis sich {ids} über das Messgerät geladen hat: Die Anzeige steigt auf ihren Wert",
  "valves carry no capacitances of their own; give them in the net list as capacitors where they matter":
    "Röhren haben keine eigenen Kapazitäten; wo sie zählen, in der Netzliste als Kondensatoren angeben",
  "white noise only: flicker noise, hum and microphony are left out":
    "nur weißes Rauschen: Funkelrauschen, Brumm und Mikrofonie bleiben außer Acht",
  "gains of {#d} dB mean that nothing arrives": "Verstärkungen von {d} dB heißen, dass nichts ankommt",
  "an input impedance of {#o} ohm means that the source delivers no current":
    "ein Eingangswiderstand von {o} Ohm heißt, dass die Quelle keinen Strom liefert",
  "at {#f} Hz nothing in the net list determines {node}": "bei {f} Hz bestimmt nichts in der Netzliste {node}",
  "{~channel}: {~share} of the hiss comes from {part}": "{channel}: {share} des Rauschens kommen von {part}",
  "{#p} %": "{p} %",
  "heaters without a part of their own in the net list (V1h for V1) are taken to stand at ground":
    "Heizungen ohne eigenes Teil in der Netzliste (V1h für V1) gelten als auf Masse",
  "the net list has no stage heaters; heater heat is the catalogue's":
    "die Netzliste hat keine Stufe „heaters“; die Heizwärme ist die des Verzeichnisses",
  "the cost is incomplete: {#a} of {#b} parts have no price ({some})":
    "die Kosten sind unvollständig: {a} von {b} Teilen haben keinen Preis ({some})",
  "no signal arrives at the output": "am Ausgang kommt kein Signal an",
  "distortion is not told at {#a} V: the output comes to {#b} V, bent by {#p} %":
    "bei {a} V wird kein Klirr genannt: Der Ausgang kommt auf {b} V, mit {p} % Klirr",
  "{part} is cut off for {#p} % of the time": "{part} ist {p} % der Zeit gesperrt",
  "{part} draws grid current, up to {#i} mA": "{part} zieht Gitterstrom, bis {i} mA",
  "no rest was found": "keine Ruhelage gefunden",
  "in {place}: {~words}": "in {place}: {words}",
  "gain, {~channel}": "Verstärkung, {channel}",
  "gain of {~channel} {#a} dB from the version's, allowed {#b} dB":
    "Verstärkung {channel} {a} dB neben der der Fassung, erlaubt {b} dB",
  "channels {#a} dB apart, allowed {#b} dB": "Kanäle {a} dB auseinander, erlaubt {b} dB",
  "{name} {#a} V, allowed {#b} to {#c} V": "{name} {a} V, erlaubt {b} bis {c} V",
  "no gain could be found": "keine Verstärkung zu finden",
  "comes to rest": "kommt zur Ruhe",
  "a unit is good when it keeps: {~limits}": "ein Gerät ist gut, wenn es einhält: {limits}",
  "ratings of the valves": "die Grenzwerte der Röhren",
  "test points within their tolerance": "die Messpunkte in ihrer Toleranz",
  "ratings of the valves, test points within their tolerance":
    "die Grenzwerte der Röhren, die Messpunkte in ihrer Toleranz",
  "ratings of the valves, test points within their tolerance, gain within {#a} dB of the version's":
    "die Grenzwerte der Röhren, die Messpunkte in ihrer Toleranz, die Verstärkung auf {a} dB der Fassung",
  "ratings of the valves, test points within their tolerance, gain within {#a} dB of the version's, channels within {#b} dB":
    "die Grenzwerte der Röhren, die Messpunkte in ihrer Toleranz, die Verstärkung auf {a} dB der Fassung, die Kanäle auf {b} dB",
  "{types}: too few measured valves of the type on the shelf; drawn by the net list's tolerance":
    "{types}: zu wenige gemessene Röhren des Typs im Lager; nach der Toleranz der Netzliste gezogen",
  "taken as exact, for want of a tolerance: {parts}": "mangels Toleranz als genau angenommen: {parts}",
  "{part}: {~what} {#v} {unit} exceeds the rating of {#l} {other}":
    "{part}: {what} {v} {unit} überschreitet den Grenzwert von {l} {other}",
  "{part} ({type}): {~what} {#v} {unit} exceeds the rating of {#l} {other}":
    "{part} ({type}): {what} {v} {unit} überschreitet den Grenzwert von {l} {other}",
  "{part} ({type}): {~what} {#v} {unit} is under the rating of {#l} {other}":
    "{part} ({type}): {what} {v} {unit} unterschreitet den Grenzwert von {l} {other}",
  "plate voltage": "Anodenspannung",
  "plate dissipation": "Anodenverlustleistung",
  "screen voltage": "Schirmgitterspannung",
  "screen dissipation": "Schirmgitterverlustleistung",
  "plate current": "Anodenstrom",
  "cathode current": "Kathodenstrom",
  "heater over cathode": "Heizung über Kathode",
  "heater under cathode": "Heizung unter Kathode",
  "heater voltage": "Heizspannung",
  "plate dissipation of both sections": "Anodenverlustleistung beider Systeme",
  "the net list names no test points, so no voltage is claimed; name some to have windows":
    "die Netzliste nennt keine Messpunkte, deshalb ist keine Spannung zu belegen; für Fenster welche nennen",
  "noise is claimed at twice what was computed, output impedance at {#n} times, for what the net list leaves out":
    "Rauschen wird mit dem Doppelten des Berechneten verlangt, Ausgangswiderstand mit dem {n}-fachen, für das, was die Netzliste auslässt",
  "the steps of building are a first guess; put the shop's own in their place":
    "die Bauschritte sind ein erster Vorschlag; die der Werkstatt an ihre Stelle setzen",
  "not taken over, for what it rested on is gone: {~title}":
    "nicht übernommen, denn worauf es beruhte, ist fort: {title}",
  "{&names} never lost to the other items, so no strengths are most likely; more comparisons of these with the others, or a model that allows for fewer, would decide":
    "{names} verlor nie gegen die anderen, deshalb ist keine Reihung am wahrscheinlichsten; mehr Vergleiche damit oder ein Modell, das mit weniger auskommt, würden entscheiden",
  "{~words}, beyond the limit": "{words}, jenseits der Grenze",
  "{~words}, too near to the limit to tell": "{words}, zu nahe an der Grenze, um es zu sagen",
  "Heaters, HT and flux as far as given keep their limits at the lowest, nominal and highest supply, doubt included":
    "Heizungen, Anodenspannung und Fluss halten, soweit angegeben, bei niedrigster, Nenn- und höchster Versorgung ihre Grenzen, Unsicherheit mitgezählt",
  "the current of {what}": "der Strom von {what}",
  "no steady state was found at this amplitude within the time; the circuit may block, latch or run away: try a smaller amplitude, or give grids and diodes a series resistance":
    "bei dieser Amplitude fand sich in der Zeit kein stetiger Zustand; die Schaltung kann sperren, kippen oder weglaufen: eine kleinere Amplitude versuchen oder Gittern und Dioden einen Vorwiderstand geben",
  "the harmonics still moved when those kept were doubled, and more would take too long; see doubt":
    "die Oberwellen bewegten sich noch, als ihre Zahl verdoppelt wurde, und mehr dauerte zu lange; siehe Unsicherheit",
  "nothing of the signal arrives at the output, so there is nothing to relate its harmonics to":
    "vom Signal kommt am Ausgang nichts an, also gibt es nichts, worauf sich seine Oberwellen beziehen",
  "power_mW holds {#n} mW of direct current in the load": "die Leistung enthält {n} mW Gleichstrom in der Last",
  "nothing in the net list bends, so there are no harmonics; the direct part of the output was not asked for":
    "nichts in der Netzliste ist krumm, also gibt es keine Oberwellen; nach dem Gleichanteil war nicht gefragt",
  "about {~a}; perhaps {~b} was fitted": "etwa {a}; vielleicht ist {b} eingesetzt",
  "{~deadly} Block the direct voltage with a capacitor rated for it":
    "{deadly} Die Gleichspannung mit einem dafür bemessenen Kondensator abblocken",
  "gain from {a} to {b}": "Verstärkung von {a} nach {b}",
  "{name} stands alone against all other readings; {~mend} would put it right":
    "{name} steht allein gegen alle anderen Messwerte; {mend} brächte es in Ordnung",
  "the dead circuit's resistance from {a}": "der Widerstand der stromlosen Schaltung an {a}",
  "at {#s} s no step was short enough; look for parts without any resistance that are switched onto one another":
    "bei {s} s war kein Schritt kurz genug; nach Teilen ohne jeden Widerstand suchen, die aufeinandergeschaltet werden",
  "the time ends before the valves draw their full current; the last figures are not those of the warm unit":
    "die Zeit endet, bevor die Röhren ihren vollen Strom ziehen; die letzten Werte sind nicht die des warmen Geräts",
  "still moving at the end: {what}; ask for a longer time":
    "am Ende noch in Bewegung: {what}; nach längerer Zeit fragen",
  "coils are linear: a core that saturates when switched on draws far more than the inrush given":
    "Spulen sind linear: Ein Kern, der beim Einschalten sättigt, zieht weit mehr als den genannten Einschaltstrom",
  "no time was left to look for the worst moment of switching on":
    "keine Zeit blieb, den schlimmsten Einschaltaugenblick zu suchen",
  "the text is longer than {n} letters; leave parts out": "der Text ist länger als {n} Zeichen; Teile weglassen",
  "nothing is written; begin with { and name ground and parts":
    "nichts steht da; mit { beginnen und ground und parts nennen",
  "{what} after the end of the net list; take it out, or one } or ] too many before it":
    "{what} nach dem Ende der Netzliste; herausnehmen oder eine } oder ] zu viel davor",
  "more than {n} brackets inside one another; a net list needs few":
    "mehr als {n} Klammern ineinander; eine Netzliste braucht wenige",
  "{what} is too large to hold; write an ordinary size": "{what} ist zu groß; eine übliche Größe schreiben",
  "a single quote; names stand in double quotes": "ein einfaches Anführungszeichen; Namen stehen in doppelten",
  "{what} is not a number; write digits with a point, the unit in the field's name (47000, not 47k)":
    "{what} ist keine Zahl; Ziffern mit Punkt schreiben, die Einheit im Feldnamen (47000, nicht 47k)",
  "{what} where a value belongs": "{what}, wo ein Wert hingehört",
  '{what} without quotes; write "{other}"': '{what} ohne Anführungszeichen; "{other}" schreiben',
  "a comma before }; take it out": "ein Komma vor }; herausnehmen",
  "a comma before ]; take it out": "ein Komma vor ]; herausnehmen",
  "{what} after a comma; a number's decimals stand behind a point, not a comma":
    "{what} nach einem Komma; die Dezimalen einer Zahl stehen hinter einem Punkt",
  "{what} where a field's name belongs; names stand in double quotes":
    "{what}, wo ein Feldname hingehört; Namen stehen in doppelten Anführungszeichen",
  '"{key}" stands twice in one part; leave one out': '"{key}" steht zweimal in einem Teil; eines weglassen',
  'no colon after "{key}"; write "{other}": and its value':
    'kein Doppelpunkt nach "{key}"; "{other}": und den Wert schreiben',
  "what opens here is never closed; write {end} where it ends":
    "was hier beginnt, schließt nie; {end} schreiben, wo es endet",
  "{what} where a comma or {end} belongs; put one before it":
    "{what}, wo ein Komma oder {end} hingehört; eines davorsetzen",
  'a name whose closing quote is missing; write " at its end':
    'ein Name ohne schließendes Anführungszeichen; " ans Ende schreiben',
  "a name with a backslash that means nothing, or a control letter; write it plainly":
    "ein Name mit bedeutungslosem Backslash oder Steuerzeichen; schlicht schreiben",
  "ratings of the valves, test points within their tolerance, channels within {#b} dB":
    "die Grenzwerte der Röhren, die Messpunkte in ihrer Toleranz, die Kanäle auf {b} dB",
  "no rest was found: {~why}": "keine Ruhelage gefunden: {why}",
  "The first playing was chosen every time, so no strength of that habit is most likely":
    "Immer wurde das zuerst Gespielte gewählt, deshalb ist keine Stärke dieser Neigung am wahrscheinlichsten",
  "The second playing was chosen every time, so no strength of that habit is most likely":
    "Immer wurde das zuletzt Gespielte gewählt, deshalb ist keine Stärke dieser Neigung am wahrscheinlichsten",
  "Item and order of playing together say every choice, so no strength of that habit is most likely; more comparisons would decide":
    "Ding und Reihenfolge erklären zusammen jede Wahl, deshalb ist keine Stärke dieser Neigung am wahrscheinlichsten; mehr Vergleiche würden entscheiden",
  "The same item was always played first, so order and item can't be told apart: play each pair both ways round":
    "Immer wurde dasselbe zuerst gespielt, deshalb sind Reihenfolge und Ding nicht zu trennen: jedes Paar in beiden Reihenfolgen spielen",
  "It was stopped at {a} of {#n} answers. A series stopped when its answers pleased would make chance look like hearing: the reason stands beside it":
    "Sie wurde bei {a} von {n} Antworten beendet. Eine Reihe, die endet, sobald ihre Antworten gefallen, ließe Zufall wie Hören aussehen: Der Grund steht daneben",
  "Nobody read how loud {a} and {b} were set: what was told apart may be loudness":
    "Niemand maß, wie laut {a} und {b} eingestellt waren: Was unterschieden wurde, kann Lautheit sein",
  "The levels were not proven alike: what was told apart may be loudness":
    "Die Pegel wurden nicht als gleich belegt: Was unterschieden wurde, kann Lautheit sein",
  "{~a} if {~b}, open if {~d}": "{a}, wenn {b}; unterbrochen, wenn {d}",
  "open if {~b}, {~c} if {~d}": "unterbrochen, wenn {b}; {c}, wenn {d}",
  "At the {~name} supply, {#v} V, heaters get {#h} ± {#d} V, {#m} % from {#r} V (allowed {#a} %), beyond the limit":
    "Am {name} Netz, {v} V, bekommt die Heizung {h} ± {d} V, {m} % neben {r} V (erlaubt {a} %), über der Grenze",
  "At the {~name} supply, {#v} V, heaters get {#h} ± {#d} V, {#m} % from {#r} V (allowed {#a} %), too near to the limit to tell":
    "Am {name} Netz, {v} V, bekommt die Heizung {h} ± {d} V, {m} % neben {r} V (erlaubt {a} %), zu nah an der Grenze, um es zu sagen",
  "At the {~name} supply, {#v} V, HT is {#h} ± {#d} V of {#a} V allowed, beyond the limit":
    "Am {name} Netz, {v} V, ist die Anodenspannung {h} ± {d} V von {a} V erlaubten, über der Grenze",
  "At the {~name} supply, {#v} V, HT is {#h} ± {#d} V of {#a} V allowed, too near to the limit to tell":
    "Am {name} Netz, {v} V, ist die Anodenspannung {h} ± {d} V von {a} V erlaubten, zu nah an der Grenze, um es zu sagen",
  "At the {~name} supply, {#v} V, {#f} Hz, flux is {#b} T of {#a} T allowed, beyond the limit":
    "Am {name} Netz, {v} V, {f} Hz, ist die Flussdichte {b} T von {a} T erlaubten, über der Grenze",
  "At the {~name} supply, {#v} V, {#f} Hz, flux is {#b} T of {#a} T allowed, too near to the limit to tell":
    "Am {name} Netz, {v} V, {f} Hz, ist die Flussdichte {b} T von {a} T erlaubten, zu nah an der Grenze, um es zu sagen",
  lowest: "niedrigsten",
  nominal: "genannten",
  highest: "höchsten",
  "The meter is taken as good to {#p} % (95 %), the same for all its readings":
    "Das Messgerät ist als auf {p} % gut genommen (95 %), bei allen Messwerten gleich",
  "The fuse and the label must suit the destination's voltage too":
    "Auch Sicherung und Typenschild müssen zur Spannung am Zielort passen",
  "Carried {#p} % beyond the nearest reading; a reading at such a supply would be surer":
    "{p} % über die nächste Messung hinaus gerechnet; eine Messung an einem solchen Netz wäre sicherer",
  "Flux is not judged: no core was given, and at {#a} Hz it is {#t} times that at {#b} Hz on the same volts":
    "Die Flussdichte ist nicht beurteilt: Kein Kern war angegeben, und bei {a} Hz ist sie {t}-mal so hoch wie bei {b} Hz an denselben Volt",
  "One reading only: carried in proportion, which overlooks the rectifier's drop":
    "Nur eine Messung: im Verhältnis übertragen, was den Abfall am Gleichrichter übersieht",
  unloaded: "ohne Last",
  "at the output": "am Ausgang",
  "as if at the input": "auf den Eingang bezogen",
  "in the case": "im Gehäuse",
  "headphone of {#z} ohm": "Kopfhörer von {z} Ohm",
  "{~load} at {#f} Hz": "{load} bei {f} Hz",
  "{~load} at {#f} kHz": "{load} bei {f} kHz",
  "{~load} at {#f} V": "{load} bei {f} V",
};
