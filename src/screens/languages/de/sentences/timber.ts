import type { Sentences } from "../../sentences/phrasebook.ts";

/** What the timber shelf, a piece and a case say, in German. */
export const sentences: Sentences = {
  high: "hoch",
  middling: "mittel",
  low: "niedrig",
  "{#p} %, the middle of the year at {place}": "{p} %, der Jahresmitte in {place}",
  "It will not come to {~goal}, where it stands now: move it to drier air":
    "Wo es jetzt steht, kommt es nie auf {goal}: in trocknere Luft stellen",
  "Fit for {place} as it stands; {~goal}, would be better still, in drier air":
    "Tauglich für {place}, wie es ist; noch besser wären {goal}, in trocknerer Luft",
  "Kept for no unit yet: nothing says how dry it should be":
    "Noch für kein Gerät bestimmt: Nichts sagt, wie trocken es sein soll",
  "Nothing says what air unit {unit} goes to: enter the climate of its destination":
    "Nichts sagt, in welche Luft Gerät {unit} geht: das Klima des Bestimmungsorts eintragen",
  "Drier than {place} ever makes it: let it take up moisture, do not dry it":
    "Trockener, als {place} es je macht: Feuchte aufnehmen lassen, nicht trocknen",
  "Do not dry it further: it stands at or below {~goal}": "Nicht weiter trocknen: Es steht auf oder unter {goal}",
  "Ready: within half a percent of {~goal}": "Fertig: auf ein halbes Prozent bei {goal}",
  "Drying toward {~goal}": "Trocknet auf {goal} zu",
  "By its plan it comes to {#p} % by {@at}: {~rest}": "Nach Plan kommt es bis {at} auf {p} %: {rest}",
  "within half a percent of {~goal}": "auf ein halbes Prozent bei {goal}",
  "drier than {~goal}": "trockener als {goal}",
  "wetter than {~goal}": "feuchter als {goal}",
  "{~way}; nearest after {place}, at {#p} %": "{way}; am nächsten nach {place}, mit {p} %",
  "Being computed": "Wird gerechnet",
  "only the approach is known: dry an offcut of it": "nur die Annäherung ist bekannt: einen Abschnitt davon darren",
  "Only the approach is known: without an oven-dry mass weighings tell how near the piece is to rest, not its moisture. Dry an offcut of this board at {#t} °C":
    "Nur die Annäherung ist bekannt: Ohne Darrgewicht sagen Wägungen, wie nahe das Stück der Ruhe ist, nicht seine Feuchte. Einen Abschnitt dieses Bretts bei {t} °C darren",
  "then a weighing narrows {~what} on {@at} from ±{#a} to ±{#b} {~unit}; later ones tell little more":
    "dann verengt eine Wägung am {at} {what} von ±{a} auf ±{b} {unit}; spätere sagen kaum mehr",
  "then a weighing narrows {~what} from ±{#a} to ±{#b} {~unit}; later ones tell little more":
    "dann verengt eine Wägung {what} von ±{a} auf ±{b} {unit}; spätere sagen kaum mehr",
  "then a weighing narrows {~what} from ±{#a} to ±{#b} {~unit}":
    "dann verengt eine Wägung {what} von ±{a} auf ±{b} {unit}",
  "its moisture": "seine Feuchte",
  "the hours to its target": "die Stunden bis zum Ziel",
  "its moisture at hour {#h}": "seine Feuchte zur Stunde {h}",
  "on {@at}": "am {at}",
  "first night on the plate": "erste Nacht auf der Heizplatte",
  "rest of the first day": "Rest des ersten Tages",
  "second day on the plate": "zweiter Tag auf der Heizplatte",
  "later on the plate": "später auf der Heizplatte",
  "{#a} of {#b} cracked pieces had cracked by the first morning on the plate":
    "{a} von {b} gerissenen Stücken waren bis zum ersten Morgen auf der Heizplatte gerissen",
  "The second day there showed none more": "Der zweite Tag dort zeigte keines mehr",
  "The second day there showed {#n} more": "Der zweite Tag dort zeigte {n} weitere",
  "A crack counts at the hour it was first seen; with inspections at a stage's end alone, it may have opened any time before":
    "Ein Riss zählt zu der Stunde, in der er zuerst gesehen wurde; bei Durchsicht nur am Ende einer Stufe kann er jederzeit davor entstanden sein",
  "The check index tells cracked from whole pieces better than chance: it may be ranked by. A chance is told from {#a} cracked and {#b} whole pieces of a species on":
    "Die Risszahl trennt gerissene von heilen Stücken besser als der Zufall: Danach darf geordnet werden. Eine Chance wird ab {a} gerissenen und {b} heilen Stücken einer Holzart genannt",
  "The check index does not yet tell cracked from whole pieces better than chance: go by the shares above":
    "Die Risszahl trennt gerissene von heilen Stücken noch nicht besser als der Zufall: nach den Anteilen oben gehen",
  "Of two pieces, one that cracked and one that stayed whole, the cracked one had the higher check index in {~a} of cases ({~b} to {~c}): it can be ranked by":
    "Von zwei Stücken, einem gerissenen und einem heilen, hatte das gerissene in {a} der Fälle die höhere Risszahl ({b} bis {c}): Danach lässt sich ordnen",
  "The check index does not yet tell cracked from whole pieces better than a toss of a coin ({~a} to {~b} of pairs): go by the shares":
    "Die Risszahl trennt gerissene von heilen Stücken noch nicht besser als ein Münzwurf ({a} bis {b} der Paare): nach den Anteilen gehen",
  "up to {#n} mm": "bis {n} mm",
  "above {#n} mm": "über {n} mm",
  "{#a} to {#b} mm": "{a} bis {b} mm",
  "Too few pieces went over the plate to tell: {#a} cracked and {#b} whole, {#n} of each are needed":
    "Zu wenige Stücke lagen auf der Heizplatte: {a} gerissen und {b} heil, gebraucht werden je {n}",
  "{#a} of {#b} pieces that cracked lay on the plate wetter than {#p} %, which four of five whole ones were below: a weighing on leaving the chamber would have held them back, before any sanding":
    "{a} von {b} gerissenen Stücken lagen feuchter als {p} % auf der Heizplatte, worunter vier von fünf heilen waren: Eine Wägung beim Verlassen der Kammer hätte sie zurückgehalten, vor jedem Schleifen",
  "This unit has no case on record yet": "Für dieses Gerät ist noch kein Gehäuse eingetragen",
  "its destination": "dem Bestimmungsort",
  "The case will stay whole at {place}: every panel keeps its room through the year":
    "Das Gehäuse bleibt in {place} heil: Jede Platte behält übers Jahr ihre Luft",
  "The case will not stay whole at {place}: {panels} ha[s|ve] not the room to move":
    "Das Gehäuse bleibt in {place} nicht heil: Luft zum Arbeiten fehlt bei {panels}",
  "Whether the case will stay whole at {place} can't be told yet, because of {panels}":
    "Ob das Gehäuse in {place} heil bleibt, lässt sich noch nicht sagen, wegen {panels}",
  "Nothing says what air it goes to: enter the climate of its destination":
    "Nichts sagt, in welche Luft es geht: das Klima des Bestimmungsorts eintragen",
  "None needed: the fixing takes {#a} mm, well below the {#b} mm at which the wood would part":
    "Nichts zu ändern: Die Befestigung nimmt {a} mm auf, weit unter den {b} mm, bei denen das Holz risse",
  "None needed: it keeps {#a} mm": "Nichts zu ändern: Es bleiben {a} mm",
  "None needed: it keeps {#a} mm, and shrinks {#b} mm at the driest":
    "Nichts zu ändern: Es bleiben {a} mm, und am trockensten schwindet es {b} mm",
  "drying it further would only use up the gap": "weiteres Trocknen würde nur die Fuge verbrauchen",
  "Do not fix both edges: slot the fixings for {#a} mm inward and {#b} mm outward, fixed at the centre":
    "Nicht beide Kanten festlegen: Die Befestigungen für {a} mm nach innen und {b} mm nach außen langlochen, in der Mitte fest",
  "Widen the gap from {#a} to {#b} mm": "Die Fuge von {a} auf {b} mm erweitern",
  "quarter-sawn, it would move {#a} mm in place of {#b}": "stehende Jahrringe: Es würde {a} mm arbeiten statt {b}",
  "dry from {#a} to about {#b} % before it is built": "vor dem Bau von {a} auf etwa {b} % trocknen",
  "leave it at {#p} %: its home will keep it there": "bei {p} % lassen: Sein Zuhause hält es dort",
  "let it take up moisture (do not dry it further) from {#a} to about {#b} % before it is built":
    "vor dem Bau Feuchte aufnehmen lassen (nicht weiter trocknen), von {a} auf etwa {b} %",
  "Do not dry it further: the year there lies at {#a} to {#b} %, and drying would only use up its gap":
    "Nicht weiter trocknen: Das Jahr dort liegt bei {a} bis {b} %, und Trocknen würde nur seine Fuge verbrauchen",
  "Do not dry it further: the year there lies at {#a} to {#b} %, and drying would only strain its edges":
    "Nicht weiter trocknen: Das Jahr dort liegt bei {a} bis {b} %, und Trocknen würde nur seine Kanten beanspruchen",
  "no heat before the oil is hard": "keine Wärme, bevor das Öl hart ist",
  "a parcel sticks to a soft finish": "ein Paket klebt an einer weichen Oberfläche",
  "the finish is still soft": "die Oberfläche ist noch weich",
  "the finish is ready for it": "die Oberfläche ist dafür bereit",
  "{~why}: wait until hour {#h}": "{why}: bis Stunde {h} warten",
  "Rags and sanding dust with drying oil heat up by themselves and can catch fire within hours: spread them single and flat outdoors, or keep them under water in a closed metal can; never in the bin, near the chamber or a plate":
    "Lappen und Schleifstaub mit härtendem Öl erwärmen sich von selbst und können binnen Stunden brennen: einzeln und flach draußen ausbreiten oder unter Wasser in einer geschlossenen Blechdose; nie in den Abfall, nie an die Kammer oder eine Platte",
  "Sanding makes hardwood dust, which sensitises and harms lungs ({#a} mg/m³ over {#b} h is the limit in the EU): extract it and wear a mask":
    "Schleifen macht Laubholzstaub, der allergisch macht und der Lunge schadet (Grenze in der EU {a} mg/m³ über {b} h): absaugen und Maske tragen",
  "Solvents of shellac, lacquer and varnish catch fire and dull the mind: air the room, no flame, no running plate":
    "Lösemittel von Schellack, Lack und Öllack brennen und benebeln: lüften, keine Flamme, keine laufende Heizplatte",
  "Nothing says how {piece} came in: receive it": "Nichts sagt, wie {piece} hereinkam: annehmen",
  "Nothing says how warm {place} is: write down what it is set to":
    "Nichts sagt, wie warm {place} ist: seine Einstellung eintragen",
  "No air of {place} is on record: log its temperature and humidity":
    "Für {place} ist keine Luft eingetragen: Temperatur und Luftfeuchte festhalten",
  "No air of {place} is on record: nothing can be planned in it":
    "Für {place} ist keine Luft eingetragen: Dort lässt sich nichts planen",
  "No source tells how far {species} moves: measure a piece of it across the grain at two moistures, and write the wood down":
    "Keine Quelle sagt, wie weit {species} arbeitet: ein Stück quer zur Faser bei zwei Feuchten messen und die Holzart eintragen",
  "no source tells how far {species} moves": "keine Quelle sagt, wie weit {species} arbeitet",
  "its moisture is not known": "seine Feuchte ist nicht bekannt",
  "it is cracked, and nobody wrote down where": "es ist gerissen, und niemand schrieb auf, wo",
  "it is kept for {what}": "es ist für {what} bestimmt",
  "it is sawn already": "es ist schon gesägt",
  "no board can be sawn": "kein Brett lässt sich sägen",
  "No other way of cutting places more panels, or as many for less board, movement and drying":
    "Kein anderer Zuschnitt bringt mehr Platten unter oder ebenso viele mit weniger Brett, Arbeiten und Trocknen",
  "The best found in a few seconds, not proved: at most {#n} dm² of board could still be saved":
    "Der beste in ein paar Sekunden gefundene, nicht bewiesen: Höchstens {n} dm² Brett ließen sich noch sparen",
  "No plan places more panels, or as many at less": "Kein Plan bringt mehr Platten unter oder ebenso viele mit weniger",
  "Made by hand's rule or cut short by the clock; the bound says what could be gained at most":
    "Nach Handregel gemacht oder von der Uhr abgebrochen; die Schranke sagt, was höchstens zu gewinnen wäre",
  "Sizes hold allowances and a {#k} mm kerf. Offcuts from {#m} mm on count as kept, not wasted":
    "Die Maße enthalten Zugaben und {k} mm Sägeschnitt. Abschnitte ab {m} mm zählen als aufgehoben, nicht als Verschnitt",
  "Look at every board again before it is cut: a hidden check or a run of grain decides, not this plan":
    "Jedes Brett vor dem Schnitt noch einmal ansehen: Ein verborgener Riss oder der Faserlauf entscheidet, nicht dieser Plan",
  "all boards that would do are taken by other panels": "alle tauglichen Bretter sind für andere Platten vergeben",
  "no one board has room left for it and all that are to match it":
    "kein einzelnes Brett hat noch Platz für sie und alle, die dazu passen sollen",
  "no clear stretch is long and wide enough; glue it up from staves, or take a longer board":
    "keine fehlerfreie Strecke ist lang und breit genug; aus Lamellen verleimen oder ein längeres Brett nehmen",
  "no board of {species}": "kein Brett aus {species}",
  "no board of this species meets its {~what}": "kein Brett dieser Holzart erfüllt: {what}",
  "ring angle": "Jahrringwinkel",
  thickness: "Dicke",
  figure: "Zeichnung",
  "Nothing says what air unit {unit} goes to: write it down under “Air of its rooms” on the page of its case":
    "Nichts sagt, in welche Luft Gerät {unit} geht: auf der Seite seines Gehäuses unter „Luft der Räume dort“ eintragen",
  "The plan can't be followed into {place}: nothing says what air it has":
    "Der Plan lässt sich nicht nach {place} verfolgen: Nichts sagt, welche Luft dort ist",
  "Its air draws wood to {#p} %, below any home: take pieces out at their target, not when they stop losing mass":
    "Seine Luft zieht Holz auf {p} %, unter jedes Zuhause: Stücke am Ziel herausnehmen, nicht erst, wenn sie kein Gewicht mehr verlieren",
  "Hours count from now. Each piece comes out at its own hour; a weighing before then decides, not the clock":
    "Stunden zählen ab jetzt. Jedes Stück kommt zu seiner eigenen Stunde heraus; eine Wägung davor entscheidet, nicht die Uhr",
  "A batch is of pieces that ripen together: by thickness, target and each piece's own speed":
    "Eine Beschickung sind Stücke, die zusammen reif werden: nach Dicke, Ziel und eigenem Tempo",
  "{place} has no room for it": "{place} hat keinen Platz dafür",
  "in {place} it never comes from {#a} to {#b} %": "in {place} kommt es nie von {a} auf {b} %",
  "{place} would bring its check index to {#a}, above {#b}": "{place} brächte seine Risszahl auf {a}, über {b}",
  "no target": "kein Ziel",
  "not known": "nicht bekannt",
  "came in from {seller}: {#a} × {#b} × {#c} mm": "hereingekommen von {seller}: {a} × {b} × {c} mm",
  "came in from {seller}: {#a} × {#b} × {#c} mm; {seen}": "hereingekommen von {seller}: {a} × {b} × {c} mm; {seen}",
  "came in from {seller}, said to be at {#p} %: {#a} × {#b} × {#c} mm":
    "hereingekommen von {seller}, angeblich mit {p} %: {a} × {b} × {c} mm",
  "came in from {seller}, said to be at {#p} %: {#a} × {#b} × {#c} mm; {seen}":
    "hereingekommen von {seller}, angeblich mit {p} %: {a} × {b} × {c} mm; {seen}",
  "weighed {#m} g with {balance}": "gewogen: {m} g, mit {balance}",
  "an offcut cut on {@at} went from {#a} to {#b} g in the oven: {#p} % then":
    "ein Abschnitt vom {at} ging im Darrofen von {a} auf {b} g: damals {p} %",
  "moved to {place}": "umgestellt nach {place}",
  "moved to {place}, one face open": "umgestellt nach {place}, eine Fläche offen",
  "machined to {#a} × {#b} × {#c} mm": "bearbeitet auf {a} × {b} × {c} mm",
  "a coat of {~finish}, hard after {#h} h": "ein Anstrich mit {finish}, hart nach {h} h",
  "crack of {#l} mm": "Riss von {l} mm",
  "bow of {#l} mm": "Längskrümmung, Stich {l} mm",
  "cup of {#l} mm": "Schüsselung, Stich {l} mm",
  "twist of {#l} mm": "Verdrehung, Stich {l} mm",
  "{~flaw}, found: {found}": "{flaw}, gefunden: {found}",
  "sawn into {pieces}": "gesägt zu {pieces}",
  "sawn from {piece}: {#a} × {#b} × {#c} mm": "gesägt aus {piece}: {a} × {b} × {c} mm",
  "its plan was given up": "sein Plan wurde aufgegeben",
  "planned: {~stages}": "geplant: {stages}",
  "{place} for {#h} h": "{place} {h} h",
  "{place} for {#h} h, then {~rest}": "{place} {h} h, dann {rest}",
  "kept for unit {unit}": "für Gerät {unit} aufgehoben",
  "joined into case {case} as its {panel}, held at centre, {#l} mm to move":
    "in Gehäuse {case} verbaut als {panel}, in der Mitte gehalten, {l} mm Luft",
  "joined into case {case} as its {panel}, held at edges, {#l} mm to move":
    "in Gehäuse {case} verbaut als {panel}, an den Kanten gehalten, {l} mm Luft",
  "joined into case {case} as its {panel}, held at free, {#l} mm to move":
    "in Gehäuse {case} verbaut als {panel}, frei, {l} mm Luft",
  "looked over: {~seen}": "durchgesehen: {seen}",
  "clear all over": "überall fehlerfrei",
  knot: "Ast",
  check: "Riss",
  sapwood: "Splint",
  other: "Anderes",
  "{~what} {#a} to {#b} mm from the end": "{what} {a} bis {b} mm vom Ende",
  "{~what} {#a} to {#b} mm from the end, {#c} to {#d} mm from the edge":
    "{what} {a} bis {b} mm vom Ende, {c} bis {d} mm von der Kante",
  "figure plain": "Zeichnung schlicht",
  "figure some": "Zeichnung etwas",
  "figure fine": "Zeichnung fein",
  "figure the finest": "Zeichnung die feinste",
  "No other piece of this species went over the plate here: nothing to rank it by":
    "Kein anderes Stück dieser Holzart lag hier auf der Heizplatte: nichts zum Einordnen",
  "{~rank}; none of them cracked. {~chance}": "{rank}; keines davon riss. {chance}",
  "{~rank}; {#n} of them cracked. {~chance}": "{rank}; {n} davon {n|riss|rissen}. {chance}",
  "Lower, so far, than all {#n} past pieces of this species":
    "Bisher niedriger als alle {n} früheren Stücke dieser Holzart",
  "Higher than all {#n} past pieces of this species": "Höher als alle {n} früheren Stücke dieser Holzart",
  "Higher than {#a} of {#n} past pieces of this species": "Höher als {a} von {n} früheren Stücken dieser Holzart",
  "The shop's record is too short to make a chance of it":
    "Die Aufzeichnungen der Werkstatt sind zu kurz, um daraus eine Chance zu machen",
  "Of those nearest to it {#a} % cracked ({#b} to {#c} %): the shop's own record":
    "Von den nächsten daran rissen {a} % ({b} bis {c} %): nach den eigenen Aufzeichnungen",
  "Trade rules may apply to {species}, and no paper came with it. {~asked}":
    "Für {species} können Handelsregeln gelten, und kein Papier kam mit. {asked}",
  "Of the supplier: the Latin name, the country of harvest, and the import papers of this lot":
    "Vom Lieferanten: der lateinische Name, das Land des Einschlags und die Einfuhrpapiere dieses Loses",
  "Of the home authority, before the order is confirmed: whether a finished case of this wood needs an export paper, and one from the country it goes to":
    "Von der eigenen Behörde, bevor der Auftrag bestätigt wird: ob ein fertiges Gehäuse aus diesem Holz ein Ausfuhrpapier braucht und eines des Ziellands",
  "For the {~where}: {~asks}, where its goods are on the list":
    "Für {where}: {asks}, wo ihre Waren auf der Liste stehen",
  "European Union": "die Europäische Union",
  "United States": "die Vereinigten Staaten",
  "Keep both with the unit's folder; a board without its papers stays at home":
    "Beides zur Mappe des Geräts legen; ein Brett ohne Papiere bleibt im Land",
  "none known": "keine bekannt",
  "The masses lie within what the balance explains of one course, red oak's diffusivity (or the law given) times {#n}":
    "Die Massen liegen innerhalb dessen, was die Waage an einem Verlauf erklärt: die Diffusion der Roteiche (oder das gegebene Gesetz) mal {n}",
  "The masses lie further from any course than the balance explains ({#n} times); the doubt is widened by that. Check the air log, the dry mass and the times":
    "Die Massen liegen weiter von jedem Verlauf, als die Waage erklärt ({n}-fach); die Unsicherheit ist darum erweitert. Luftaufzeichnung, Darrgewicht und Zeiten prüfen",
  "Not weighed: {~rest}": "Nicht gewogen: {rest}",
  "The diffusivity given is used as it stands": "Die angegebene Diffusion gilt, wie sie steht",
  "Diffusivity is northern red oak's times {#n}, a judgement good to a factor of {#f}; two or three weighings with the oven-dry mass would tell":
    "Die Diffusion ist die der Roteiche mal {n}, eine Schätzung auf den Faktor {f}; zwei oder drei Wägungen mit dem Darrgewicht würden es sagen",
  "Diffusivity is northern red oak's times the factor given, {#n}":
    "Die Diffusion ist die der Roteiche mal dem gegebenen Faktor, {n}",
  "overDry: the mean falls more than {#n} % below the target":
    "Übertrocknet: Das Mittel fällt mehr als {n} % unter das Ziel",
  "overDry: the mean falls below {#n} %, the driest that usual rooms make of wood":
    "Übertrocknet: Das Mittel fällt unter {n} %, das Trockenste, was übliche Räume aus Holz machen",
  "checkIndex: most that the face wanted to shrink beyond the mean, over the strain at which wood parts; elastic, so a number to rank by, not a chance. Creep relieves a large part; which board cracks cannot be told":
    "Risszahl: wie viel die Oberfläche höchstens über das Mittel hinaus schwinden wollte, geteilt durch die Dehnung, bei der Holz reißt; elastisch, also eine Zahl zum Ordnen, keine Chance. Kriechen nimmt einen großen Teil; welches Brett reißt, lässt sich nicht sagen",
  "The piece is taken as warm at once, its ends as sealed, moisture as moving across the thickness only; on a plate the push of the temperature's gradient is left out":
    "Das Stück gilt als sofort warm, seine Enden als dicht, die Feuchte als nur durch die Dicke wandernd; auf einer Heizplatte bleibt der Schub des Temperaturgefälles außer Acht",
  "The core, {#a} %, is {#b} % wetter than the skin: a weighing shows the mean alone. Let it level before it is cut or fitted":
    "Der Kern ist mit {a} % um {b} % feuchter als die Haut: Eine Wägung zeigt nur das Mittel. Vor dem Zuschnitt oder Einbau ausgleichen lassen",
  "The hours to {#p} % have no upper end: within its doubt the air, or this wood, may never bring it there":
    "Die Stunden bis {p} % haben kein oberes Ende: Innerhalb der Unsicherheit bringen Luft oder Holz es vielleicht nie dorthin",
  "This wood comes to rest about {#p} % of moisture or more off the table's equilibrium, or the air is not as logged":
    "Dieses Holz kommt etwa {p} % Feuchte oder mehr neben dem Gleichgewicht der Tabelle zur Ruhe, oder die Luft ist nicht wie aufgezeichnet",
  "hoursToTarget is undecided: no face is open in the last stage, so nothing changes":
    "Die Stunden bis zum Ziel sind unentschieden: In der letzten Stufe ist keine Fläche offen, also ändert sich nichts",
  "hoursToTarget is undecided: in the last stage the mean goes to {#a} % and never comes to {#b} %. Change that stage's air, or the target":
    "Die Stunden bis zum Ziel sind unentschieden: In der letzten Stufe geht das Mittel auf {a} % und kommt nie auf {b} %. Deren Luft oder das Ziel ändern",
  "Of {#n} past pieces of this species {#p} % stayed below this index; {#c} of them checked":
    "Von {n} früheren Stücken dieser Holzart blieben {p} % unter dieser Zahl; {c} davon rissen",
  "Records justify a chance from {#a} checked and {#b} whole pieces on, {#c} in all":
    "Aufzeichnungen tragen eine Chance ab {a} gerissenen und {b} heilen Stücken, zusammen {c}",
  "Of the {#n} with an index nearest to this one {#c} checked; that share is the shop's own record, dried as it was then":
    "Von den {n} mit der nächsten Zahl rissen {c}; dieser Anteil ist die eigene Aufzeichnung, getrocknet wie damals",
  "a mass is above 0": "eine Masse ist über 0",
  "it lies before the first stage": "sie liegt vor der ersten Stufe",
  "out of order: hour {#a} stands after hour {#b}; check its time":
    "außer der Reihe: Stunde {a} steht nach Stunde {b}; die Zeit prüfen",
  "below the oven-dry mass, {#m} g; check this mass and ovenDry_g":
    "unter dem Darrgewicht von {m} g; diese Masse und das Darrgewicht prüfen",
  "all other weighings agree on {#m} g; check it for a slip":
    "alle anderen Wägungen sprechen für {m} g; auf einen Schreibfehler prüfen",
  "It can't be computed": "Es lässt sich nicht rechnen",
  "Nothing says how many pieces {places} can hold: planned as if all found room. Add it to the place":
    "Nichts sagt, wie viele Stücke {places} fasst: geplant, als fänden alle Platz. Beim Platz eintragen",
  "overDry: the mean fell below {#n} %, the driest that usual rooms make of wood":
    "Übertrocknet: Das Mittel fiel unter {n} %, das Trockenste, was übliche Räume aus Holz machen",
  "overDry: the mean fell more than {#n} % below the target":
    "Übertrocknet: Das Mittel fiel mehr als {n} % unter das Ziel",
  "The piece is taken as warm at once, its ends as sealed, and moisture as moving across the thickness only":
    "Das Stück gilt als sofort warm, seine Enden als dicht, die Feuchte als nur durch die Dicke wandernd",
  "Diffusivity is northern red oak's times {n}, a judgement good to a factor of {f}; two or three weighings with the oven-dry mass would tell":
    "Die Diffusion ist die der Roteiche mal {n}, eine Schätzung auf den Faktor {f}; zwei oder drei Wägungen mit dem Darrgewicht würden es sagen",
  "No list at hand names {species}; some destinations still ask for the species and the country of harvest":
    "Keine Liste hier nennt {species}; manche Ziele fragen trotzdem nach Holzart und Land des Einschlags",
  "{species} is not in the catalogue: find its Latin name and look it up in the current list before it is cut for abroad":
    "{species} ist nicht im Verzeichnis: den lateinischen Namen suchen und in der geltenden Liste nachsehen, bevor es fürs Ausland geschnitten wird",
  "out of order: hour {a} stands after hour {b}; check its time":
    "außer der Reihe: Stunde {a} steht nach Stunde {b}; die Zeit prüfen",
  "The sources differ by up to {#p} %; low and high span them":
    "Die Quellen unterscheiden sich um bis zu {p} %; die Grenzen umfassen sie",
  "masses lie within {#p} % moisture of the fit": "die Massen liegen auf {p} % Feuchte an der Anpassung",
  "Latin name, value, quantity with its unit, and country of harvest of the wood, in a declaration with the import":
    "lateinischer Name, Wert, Menge mit Einheit und Land des Einschlags, in einer Erklärung bei der Einfuhr",
  "due diligence on where the wood was cut and whether it was lawful, of whoever first sells it there":
    "Sorgfaltspflicht, wo das Holz geschlagen wurde und ob rechtmäßig, für den, der es dort zuerst verkauft",
};
