import type { Sentences } from "../../sentences/phrasebook.ts";

/** What the timber shelf, a piece and a case say, in Polish. */
export const sentences: Sentences = {
  high: "wysoka",
  middling: "średnia",
  low: "niska",
  "{#p} %, the middle of the year at {place}": "{p} %, środek roku w miejscu {place}",
  "It will not come to {~goal}, where it stands now: move it to drier air":
    "Tam, gdzie stoi, nie dojdzie do: {goal}; przenieś do suchszego powietrza",
  "Fit for {place} as it stands; {~goal}, would be better still, in drier air":
    "Takie, jakie jest, nadaje się dla miejsca {place}; jeszcze lepiej: {goal}, w suchszym powietrzu",
  "Kept for no unit yet: nothing says how dry it should be":
    "Jeszcze dla żadnego urządzenia: nic nie mówi, jak suche ma być",
  "Nothing says what air unit {unit} goes to: enter the climate of its destination":
    "Nic nie mówi, do jakiego powietrza idzie urządzenie {unit}: wpisz klimat miejsca przeznaczenia",
  "Drier than {place} ever makes it: let it take up moisture, do not dry it":
    "Suchsze, niż kiedykolwiek uczyni je {place}: daj mu nabrać wilgoci, nie susz",
  "Do not dry it further: it stands at or below {~goal}": "Nie susz dalej: jest na poziomie lub poniżej: {goal}",
  "Ready: within half a percent of {~goal}": "Gotowe: w granicy pół procenta od: {goal}",
  "Drying toward {~goal}": "Schnie do: {goal}",
  "By its plan it comes to {#p} % by {@at}: {~rest}": "Według planu do {at} dojdzie do {p} %: {rest}",
  "within half a percent of {~goal}": "w granicy pół procenta od: {goal}",
  "drier than {~goal}": "suchsze niż: {goal}",
  "wetter than {~goal}": "wilgotniejsze niż: {goal}",
  "{~way}; nearest after {place}, at {#p} %": "{way}; najbliżej po: {place}, przy {p} %",
  "Being computed": "W liczeniu",
  "only the approach is known: dry an offcut of it": "znane jest tylko dążenie: wysusz jego odcinek",
  "Only the approach is known: without an oven-dry mass weighings tell how near the piece is to rest, not its moisture. Dry an offcut of this board at {#t} °C":
    "Znane jest tylko dążenie: bez masy suchej ważenia mówią, jak blisko sztuka jest spoczynku, nie jaka jest wilgotność. Wysusz odcinek tej deski w {t} °C",
  "then a weighing narrows {~what} on {@at} from ±{#a} to ±{#b} {~unit}; later ones tell little more":
    "wtedy ważenie {at} zawęża {what} z ±{a} do ±{b} {unit}; późniejsze mówią niewiele więcej",
  "then a weighing narrows {~what} from ±{#a} to ±{#b} {~unit}; later ones tell little more":
    "wtedy ważenie zawęża {what} z ±{a} do ±{b} {unit}; późniejsze mówią niewiele więcej",
  "then a weighing narrows {~what} from ±{#a} to ±{#b} {~unit}": "wtedy ważenie zawęża {what} z ±{a} do ±{b} {unit}",
  "its moisture": "jego wilgotność",
  "the hours to its target": "godziny do celu",
  "its moisture at hour {#h}": "jego wilgotność w godzinie {h}",
  "on {@at}": "w dniu {at}",
  "first night on the plate": "pierwsza noc na płycie",
  "rest of the first day": "reszta pierwszego dnia",
  "second day on the plate": "drugi dzień na płycie",
  "later on the plate": "później na płycie",
  "{#a} of {#b} cracked pieces had cracked by the first morning on the plate":
    "{a} z {b} pękniętych sztuk pękło do pierwszego ranka na płycie",
  "The second day there showed none more": "Drugi dzień tam nie pokazał żadnej więcej",
  "The second day there showed {#n} more": "Drugi dzień tam pokazał jeszcze {n}",
  "A crack counts at the hour it was first seen; with inspections at a stage's end alone, it may have opened any time before":
    "Pęknięcie liczy się w godzinie, w której je pierwszy raz widziano; przy oględzinach tylko na końcu etapu mogło się otworzyć kiedykolwiek wcześniej",
  "The check index tells cracked from whole pieces better than chance: it may be ranked by. A chance is told from {#a} cracked and {#b} whole pieces of a species on":
    "Wskaźnik pęknięć odróżnia sztuki pęknięte od całych lepiej niż przypadek: można według niego porządkować. Szansę podaje się od {a} pękniętych i {b} całych sztuk gatunku",
  "The check index does not yet tell cracked from whole pieces better than chance: go by the shares above":
    "Wskaźnik pęknięć nie odróżnia jeszcze sztuk pękniętych od całych lepiej niż przypadek: kieruj się udziałami powyżej",
  "Of two pieces, one that cracked and one that stayed whole, the cracked one had the higher check index in {~a} of cases ({~b} to {~c}): it can be ranked by":
    "Z dwóch sztuk, pękniętej i całej, pęknięta miała wyższy wskaźnik w {a} przypadków (od {b} do {c}): można według niego porządkować",
  "The check index does not yet tell cracked from whole pieces better than a toss of a coin ({~a} to {~b} of pairs): go by the shares":
    "Wskaźnik pęknięć nie odróżnia jeszcze sztuk pękniętych od całych lepiej niż rzut monetą (od {a} do {b} par): kieruj się udziałami",
  "up to {#n} mm": "do {n} mm",
  "above {#n} mm": "ponad {n} mm",
  "{#a} to {#b} mm": "od {a} do {b} mm",
  "Too few pieces went over the plate to tell: {#a} cracked and {#b} whole, {#n} of each are needed":
    "Zbyt mało sztuk przeszło przez płytę: {a} pękniętych i {b} całych, trzeba po {n}",
  "{#a} of {#b} pieces that cracked lay on the plate wetter than {#p} %, which four of five whole ones were below: a weighing on leaving the chamber would have held them back, before any sanding":
    "{a} z {b} pękniętych sztuk leżało na płycie wilgotniejsze niż {p} %, poniżej czego były cztery na pięć całych: ważenie przy wyjściu z komory zatrzymałoby je przed szlifowaniem",
  "This unit has no case on record yet": "To urządzenie nie ma jeszcze zapisanej obudowy",
  "its destination": "miejsce przeznaczenia",
  "The case will stay whole at {place}: every panel keeps its room through the year":
    "Obudowa w miejscu {place} pozostanie cała: każda płyta ma przez rok swój luz",
  "The case will not stay whole at {place}: {panels} ha[s|ve] not the room to move":
    "Obudowa w miejscu {place} nie pozostanie cała: brak luzu na ruch, {panels}",
  "Whether the case will stay whole at {place} can't be told yet, because of {panels}":
    "Czy obudowa w miejscu {place} pozostanie cała, jeszcze nie wiadomo, z powodu: {panels}",
  "Nothing says what air it goes to: enter the climate of its destination":
    "Nic nie mówi, do jakiego powietrza idzie: wpisz klimat miejsca przeznaczenia",
  "None needed: the fixing takes {#a} mm, well below the {#b} mm at which the wood would part":
    "Nic nie trzeba zmieniać: mocowanie przejmuje {a} mm, znacznie poniżej {b} mm, przy których drewno by pękło",
  "None needed: it keeps {#a} mm": "Nic nie trzeba zmieniać: zostaje {a} mm",
  "None needed: it keeps {#a} mm, and shrinks {#b} mm at the driest":
    "Nic nie trzeba zmieniać: zostaje {a} mm, a gdy najsuszej, kurczy się o {b} mm",
  "drying it further would only use up the gap": "dalsze suszenie zużyłoby tylko szczelinę",
  "Do not fix both edges: slot the fixings for {#a} mm inward and {#b} mm outward, fixed at the centre":
    "Nie mocuj obu krawędzi: zrób podłużne otwory na {a} mm do wewnątrz i {b} mm na zewnątrz, sztywno pośrodku",
  "Widen the gap from {#a} to {#b} mm": "Poszerz szczelinę z {a} do {b} mm",
  "quarter-sawn, it would move {#a} mm in place of {#b}": "cięte promieniowo ruszałoby się o {a} mm zamiast {b}",
  "dry from {#a} to about {#b} % before it is built": "wysusz przed budową z {a} do około {b} %",
  "leave it at {#p} %: its home will keep it there": "zostaw przy {p} %: jego dom utrzyma je tam",
  "let it take up moisture (do not dry it further) from {#a} to about {#b} % before it is built":
    "daj mu przed budową nabrać wilgoci (nie susz dalej) z {a} do około {b} %",
  "Do not dry it further: the year there lies at {#a} to {#b} %, and drying would only use up its gap":
    "Nie susz dalej: rok tam leży między {a} a {b} %, a suszenie zużyłoby tylko jego szczelinę",
  "Do not dry it further: the year there lies at {#a} to {#b} %, and drying would only strain its edges":
    "Nie susz dalej: rok tam leży między {a} a {b} %, a suszenie tylko naprężyłoby jego krawędzie",
  "no heat before the oil is hard": "bez grzania, zanim olej stwardnieje",
  "a parcel sticks to a soft finish": "paczka przykleja się do miękkiego wykończenia",
  "the finish is still soft": "wykończenie jest jeszcze miękkie",
  "the finish is ready for it": "wykończenie jest na to gotowe",
  "{~why}: wait until hour {#h}": "{why}: czekaj do godziny {h}",
  "Rags and sanding dust with drying oil heat up by themselves and can catch fire within hours: spread them single and flat outdoors, or keep them under water in a closed metal can; never in the bin, near the chamber or a plate":
    "Szmaty i pył ze szlifowania z olejem schnącym same się grzeją i mogą zapalić się w kilka godzin: rozłóż je pojedynczo i płasko na dworze albo trzymaj pod wodą w zamkniętej metalowej puszce; nigdy w koszu, przy komorze ani płycie",
  "Sanding makes hardwood dust, which sensitises and harms lungs ({#a} mg/m³ over {#b} h is the limit in the EU): extract it and wear a mask":
    "Szlifowanie robi pył drewna liściastego, który uczula i szkodzi płucom (granica w UE {a} mg/m³ przez {b} h): odciągaj go i noś maskę",
  "Solvents of shellac, lacquer and varnish catch fire and dull the mind: air the room, no flame, no running plate":
    "Rozpuszczalniki szelaku, lakieru i lakieru olejnego palą się i otępiają: wietrz, bez ognia, bez grzejącej płyty",
  "Nothing says how {piece} came in: receive it": "Nic nie mówi, jak przyszła sztuka {piece}: przyjmij ją",
  "Nothing says how warm {place} is: write down what it is set to":
    "Nic nie mówi, jak ciepło jest w miejscu {place}: zapisz jego nastawę",
  "No air of {place} is on record: log its temperature and humidity":
    "Nie zapisano powietrza miejsca {place}: notuj temperaturę i wilgotność",
  "No air of {place} is on record: nothing can be planned in it":
    "Nie zapisano powietrza miejsca {place}: nie da się tam nic zaplanować",
  "No source tells how far {species} moves: measure a piece of it across the grain at two moistures, and write the wood down":
    "Żadne źródło nie mówi, o ile pracuje {species}: zmierz sztukę w poprzek włókien przy dwóch wilgotnościach i zapisz gatunek",
  "no source tells how far {species} moves": "żadne źródło nie mówi, o ile pracuje {species}",
  "its moisture is not known": "jego wilgotność nie jest znana",
  "it is cracked, and nobody wrote down where": "jest pęknięte, a nikt nie zapisał gdzie",
  "it is kept for {what}": "jest odłożone dla {what}",
  "it is sawn already": "jest już pocięte",
  "no board can be sawn": "żadnej deski nie da się pociąć",
  "No other way of cutting places more panels, or as many for less board, movement and drying":
    "Żaden inny rozkrój nie umieszcza więcej płyt ani tylu samo przy mniejszej ilości deski, ruchu i suszenia",
  "The best found in a few seconds, not proved: at most {#n} dm² of board could still be saved":
    "Najlepszy znaleziony w kilka sekund, niedowiedziony: można by oszczędzić jeszcze najwyżej {n} dm² deski",
  "No plan places more panels, or as many at less": "Żaden plan nie umieszcza więcej płyt ani tylu samo taniej",
  "Made by hand's rule or cut short by the clock; the bound says what could be gained at most":
    "Zrobiony według prostej reguły lub przerwany przez zegar; granica mówi, ile najwyżej można by zyskać",
  "Sizes hold allowances and a {#k} mm kerf. Offcuts from {#m} mm on count as kept, not wasted":
    "Wymiary zawierają naddatki i rzaz {k} mm. Odcinki od {m} mm liczą się jako zachowane, nie jako odpad",
  "Look at every board again before it is cut: a hidden check or a run of grain decides, not this plan":
    "Obejrzyj każdą deskę jeszcze raz przed cięciem: decyduje ukryte pęknięcie lub bieg włókien, nie ten plan",
  "all boards that would do are taken by other panels": "wszystkie nadające się deski zajęły inne płyty",
  "no one board has room left for it and all that are to match it":
    "żadna pojedyncza deska nie ma już miejsca na nią i wszystkie, które mają do niej pasować",
  "no clear stretch is long and wide enough; glue it up from staves, or take a longer board":
    "żaden czysty odcinek nie jest dość długi i szeroki; sklej z lameli albo weź dłuższą deskę",
  "no board of {species}": "brak deski: {species}",
  "no board of this species meets its {~what}": "żadna deska tego gatunku nie spełnia: {what}",
  "ring angle": "kąt słojów",
  thickness: "grubość",
  figure: "rysunek",
  "Nothing says what air unit {unit} goes to: write it down under “Air of its rooms” on the page of its case":
    "Nic nie mówi, do jakiego powietrza idzie urządzenie {unit}: zapisz je na stronie jego obudowy przy powietrzu pomieszczeń",
  "The plan can't be followed into {place}: nothing says what air it has":
    "Planu nie da się prześledzić do miejsca {place}: nic nie mówi, jakie jest tam powietrze",
  "Its air draws wood to {#p} %, below any home: take pieces out at their target, not when they stop losing mass":
    "Jego powietrze ciągnie drewno do {p} %, poniżej każdego domu: wyjmuj sztuki u celu, nie dopiero, gdy przestaną tracić masę",
  "Hours count from now. Each piece comes out at its own hour; a weighing before then decides, not the clock":
    "Godziny liczą się od teraz. Każda sztuka wychodzi o swojej godzinie; decyduje ważenie przedtem, nie zegar",
  "A batch is of pieces that ripen together: by thickness, target and each piece's own speed":
    "Wsad to sztuki, które dojrzewają razem: według grubości, celu i własnego tempa każdej",
  "{place} has no room for it": "{place} nie ma na to miejsca",
  "in {place} it never comes from {#a} to {#b} %": "w miejscu {place} nigdy nie dojdzie z {a} do {b} %",
  "{place} would bring its check index to {#a}, above {#b}":
    "{place} podniosłoby jego wskaźnik pęknięć do {a}, powyżej {b}",
  "no target": "brak celu",
  "not known": "nieznane",
  "came in from {seller}: {#a} × {#b} × {#c} mm": "przyszła od {seller}: {a} × {b} × {c} mm",
  "came in from {seller}: {#a} × {#b} × {#c} mm; {seen}": "przyszła od {seller}: {a} × {b} × {c} mm; {seen}",
  "came in from {seller}, said to be at {#p} %: {#a} × {#b} × {#c} mm":
    "przyszła od {seller}, podobno przy {p} %: {a} × {b} × {c} mm",
  "came in from {seller}, said to be at {#p} %: {#a} × {#b} × {#c} mm; {seen}":
    "przyszła od {seller}, podobno przy {p} %: {a} × {b} × {c} mm; {seen}",
  "weighed {#m} g with {balance}": "zważona: {m} g, waga {balance}",
  "an offcut cut on {@at} went from {#a} to {#b} g in the oven: {#p} % then":
    "odcinek z {at} zszedł w piecu z {a} do {b} g: wtedy {p} %",
  "moved to {place}": "przeniesiona, dokąd: {place}",
  "moved to {place}, one face open": "przeniesiona, dokąd: {place}, jedna strona odkryta",
  "machined to {#a} × {#b} × {#c} mm": "obrobiona do {a} × {b} × {c} mm",
  "a coat of {~finish}, hard after {#h} h": "powłoka: {finish}, twarda po {h} h",
  "crack of {#l} mm": "pęknięcie {l} mm",
  "bow of {#l} mm": "wygięcie {l} mm",
  "cup of {#l} mm": "łódkowatość {l} mm",
  "twist of {#l} mm": "zwichrowanie {l} mm",
  "{~flaw}, found: {found}": "{flaw}, znalezione: {found}",
  "sawn into {pieces}": "pocięta na {pieces}",
  "sawn from {piece}: {#a} × {#b} × {#c} mm": "wycięta z {piece}: {a} × {b} × {c} mm",
  "its plan was given up": "jej plan porzucono",
  "planned: {~stages}": "zaplanowano: {stages}",
  "{place} for {#h} h": "{place} {h} h",
  "{place} for {#h} h, then {~rest}": "{place} {h} h, potem {rest}",
  "kept for unit {unit}": "odłożona dla urządzenia {unit}",
  "joined into case {case} as its {panel}, held at centre, {#l} mm to move":
    "połączona w obudowę {case} jako {panel}, trzymana pośrodku, {l} mm luzu",
  "joined into case {case} as its {panel}, held at edges, {#l} mm to move":
    "połączona w obudowę {case} jako {panel}, trzymana na krawędziach, {l} mm luzu",
  "joined into case {case} as its {panel}, held at free, {#l} mm to move":
    "połączona w obudowę {case} jako {panel}, swobodna, {l} mm luzu",
  "looked over: {~seen}": "obejrzana: {seen}",
  "clear all over": "wszędzie czysta",
  knot: "sęk",
  check: "pęknięcie",
  sapwood: "biel",
  other: "inne",
  "{~what} {#a} to {#b} mm from the end": "{what} od {a} do {b} mm od końca",
  "{~what} {#a} to {#b} mm from the end, {#c} to {#d} mm from the edge":
    "{what} od {a} do {b} mm od końca, od {c} do {d} mm od krawędzi",
  "figure plain": "rysunek zwykły",
  "figure some": "rysunek niewielki",
  "figure fine": "rysunek ładny",
  "figure the finest": "rysunek najładniejszy",
  "No other piece of this species went over the plate here: nothing to rank it by":
    "Żadna inna sztuka tego gatunku nie leżała tu na płycie: nie ma do czego porównać",
  "{~rank}; none of them cracked. {~chance}": "{rank}; żadna z nich nie pękła. {chance}",
  "{~rank}; {#n} of them cracked. {~chance}": "{rank}; {n} z nich {n|pękła|pękły|pękło}. {chance}",
  "Lower, so far, than all {#n} past pieces of this species":
    "Dotąd niżej niż wszystkie dawne sztuki tego gatunku ({n})",
  "Higher than all {#n} past pieces of this species": "Wyżej niż wszystkie dawne sztuki tego gatunku ({n})",
  "Higher than {#a} of {#n} past pieces of this species": "Wyżej niż {a} z {n} dawnych sztuk tego gatunku",
  "The shop's record is too short to make a chance of it": "Zapisy warsztatu są za krótkie, by zrobić z tego szansę",
  "Of those nearest to it {#a} % cracked ({#b} to {#c} %): the shop's own record":
    "Z najbliższych jej pękło {a} % (od {b} do {c} %): z zapisów warsztatu",
  "Trade rules may apply to {species}, and no paper came with it. {~asked}":
    "Dla {species} mogą obowiązywać przepisy handlowe, a żaden papier z nim nie przyszedł. {asked}",
  "Of the supplier: the Latin name, the country of harvest, and the import papers of this lot":
    "Od dostawcy: nazwa łacińska, kraj pozyskania i papiery przywozowe tej partii",
  "Of the home authority, before the order is confirmed: whether a finished case of this wood needs an export paper, and one from the country it goes to":
    "Od urzędu w kraju, zanim zamówienie zostanie potwierdzone: czy gotowa obudowa z tego drewna wymaga papieru wywozowego i papieru kraju, do którego idzie",
  "For the {~where}: {~asks}, where its goods are on the list": "Dla: {where}; {asks}, jeśli ich towary są na liście",
  "European Union": "Unia Europejska",
  "United States": "Stany Zjednoczone",
  "Keep both with the unit's folder; a board without its papers stays at home":
    "Trzymaj oba w teczce urządzenia; deska bez papierów zostaje w kraju",
  "none known": "nieznane",
  "The masses lie within what the balance explains of one course, red oak's diffusivity (or the law given) times {#n}":
    "Masy leżą w tym, co waga tłumaczy jednym przebiegiem: dyfuzja dębu czerwonego (lub podane prawo) razy {n}",
  "The masses lie further from any course than the balance explains ({#n} times); the doubt is widened by that. Check the air log, the dry mass and the times":
    "Masy leżą dalej od każdego przebiegu, niż tłumaczy waga ({n} razy); niepewność o to poszerzono. Sprawdź zapis powietrza, masę suchą i czasy",
  "Not weighed: {~rest}": "Nieważona: {rest}",
  "The diffusivity given is used as it stands": "Podana dyfuzja użyta tak, jak stoi",
  "Diffusivity is northern red oak's times {#n}, a judgement good to a factor of {#f}; two or three weighings with the oven-dry mass would tell":
    "Dyfuzja to dyfuzja dębu czerwonego razy {n}, ocena dobra do czynnika {f}; powiedziałyby dwa lub trzy ważenia z masą suchą",
  "Diffusivity is northern red oak's times the factor given, {#n}":
    "Dyfuzja to dyfuzja dębu czerwonego razy podany czynnik, {n}",
  "overDry: the mean falls more than {#n} % below the target": "Przesuszenie: średnia spada o ponad {n} % poniżej celu",
  "overDry: the mean falls below {#n} %, the driest that usual rooms make of wood":
    "Przesuszenie: średnia spada poniżej {n} %, najsuchszego, co robią z drewna zwykłe pomieszczenia",
  "checkIndex: most that the face wanted to shrink beyond the mean, over the strain at which wood parts; elastic, so a number to rank by, not a chance. Creep relieves a large part; which board cracks cannot be told":
    "Wskaźnik pęknięć: o ile najwięcej powierzchnia chciała skurczyć się ponad średnią, dzielone przez odkształcenie, przy którym drewno pęka; sprężysty, więc liczba do porządkowania, nie szansa. Pełzanie zdejmuje dużą część; która deska pęknie, nie da się powiedzieć",
  "The piece is taken as warm at once, its ends as sealed, moisture as moving across the thickness only; on a plate the push of the temperature's gradient is left out":
    "Sztukę przyjmuje się za ciepłą od razu, końce za szczelne, ruch wilgoci tylko przez grubość; na płycie pomija się pchanie gradientu temperatury",
  "The core, {#a} %, is {#b} % wetter than the skin: a weighing shows the mean alone. Let it level before it is cut or fitted":
    "Rdzeń, {a} %, jest o {b} % wilgotniejszy niż skóra: ważenie pokazuje samą średnią. Daj się wyrównać, zanim potniesz lub wbudujesz",
  "The hours to {#p} % have no upper end: within its doubt the air, or this wood, may never bring it there":
    "Godziny do {p} % nie mają górnego końca: w granicach niepewności powietrze albo to drewno może nigdy tam nie dojść",
  "This wood comes to rest about {#p} % of moisture or more off the table's equilibrium, or the air is not as logged":
    "To drewno spoczywa o około {p} % wilgotności lub więcej od równowagi z tabeli albo powietrze nie jest takie jak w zapisie",
  "hoursToTarget is undecided: no face is open in the last stage, so nothing changes":
    "Godziny do celu nierozstrzygnięte: w ostatnim etapie żadna strona nie jest odkryta, więc nic się nie zmienia",
  "hoursToTarget is undecided: in the last stage the mean goes to {#a} % and never comes to {#b} %. Change that stage's air, or the target":
    "Godziny do celu nierozstrzygnięte: w ostatnim etapie średnia idzie do {a} % i nigdy nie dochodzi do {b} %. Zmień powietrze tego etapu albo cel",
  "Of {#n} past pieces of this species {#p} % stayed below this index; {#c} of them checked":
    "Z {n} dawnych sztuk tego gatunku {p} % zostało poniżej tego wskaźnika; {c} z nich pękło",
  "Records justify a chance from {#a} checked and {#b} whole pieces on, {#c} in all":
    "Zapisy uzasadniają szansę od {a} pękniętych i {b} całych sztuk, razem {c}",
  "Of the {#n} with an index nearest to this one {#c} checked; that share is the shop's own record, dried as it was then":
    "Z {n} o najbliższym wskaźniku pękło {c}; ten udział to zapis warsztatu, suszone jak wtedy",
  "a mass is above 0": "masa jest większa od 0",
  "it lies before the first stage": "leży przed pierwszym etapem",
  "out of order: hour {#a} stands after hour {#b}; check its time":
    "nie po kolei: godzina {a} stoi po godzinie {b}; sprawdź jej czas",
  "below the oven-dry mass, {#m} g; check this mass and ovenDry_g":
    "poniżej masy suchej {m} g; sprawdź tę masę i masę suchą",
  "all other weighings agree on {#m} g; check it for a slip":
    "wszystkie inne ważenia zgadzają się na {m} g; sprawdź, czy to nie pomyłka",
  "It can't be computed": "Nie da się tego policzyć",
  "Nothing says how many pieces {places} can hold: planned as if all found room. Add it to the place":
    "Nic nie mówi, ile sztuk mieści {places}: zaplanowano, jakby wszystkie się zmieściły. Dodaj to do miejsca",
  "overDry: the mean fell below {#n} %, the driest that usual rooms make of wood":
    "Przesuszenie: średnia spadła poniżej {n} %, najsuchszego, co robią z drewna zwykłe pomieszczenia",
  "overDry: the mean fell more than {#n} % below the target": "Przesuszenie: średnia spadła o ponad {n} % poniżej celu",
  "The piece is taken as warm at once, its ends as sealed, and moisture as moving across the thickness only":
    "Sztukę przyjmuje się za ciepłą od razu, końce za szczelne, a ruch wilgoci tylko przez grubość",
  "Diffusivity is northern red oak's times {n}, a judgement good to a factor of {f}; two or three weighings with the oven-dry mass would tell":
    "Dyfuzja to dyfuzja dębu czerwonego razy {n}, ocena dobra do czynnika {f}; powiedziałyby dwa lub trzy ważenia z masą suchą",
  "No list at hand names {species}; some destinations still ask for the species and the country of harvest":
    "Żadna lista pod ręką nie wymienia: {species}; niektóre miejsca i tak pytają o gatunek i kraj pozyskania",
  "{species} is not in the catalogue: find its Latin name and look it up in the current list before it is cut for abroad":
    "{species} nie ma w katalogu: znajdź nazwę łacińską i sprawdź w aktualnej liście, zanim potniesz na wywóz",
  "out of order: hour {a} stands after hour {b}; check its time":
    "nie po kolei: godzina {a} stoi po godzinie {b}; sprawdź jej czas",
  "The sources differ by up to {#p} %; low and high span them":
    "Źródła różnią się o najwyżej {p} %; granice je obejmują",
  "masses lie within {#p} % moisture of the fit": "masy leżą do {p} % wilgotności od dopasowania",
  "Latin name, value, quantity with its unit, and country of harvest of the wood, in a declaration with the import":
    "nazwa łacińska, wartość, ilość z jednostką i kraj pozyskania drewna, w deklaracji przy przywozie",
  "due diligence on where the wood was cut and whether it was lawful, of whoever first sells it there":
    "należyta staranność co do tego, gdzie ścięto drewno i czy zgodnie z prawem, po stronie pierwszego sprzedawcy",
};
