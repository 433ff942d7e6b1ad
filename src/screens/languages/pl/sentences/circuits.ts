import type { Sentences } from "../../sentences/phrasebook.ts";

/** What the probe card and the notebook say, in Polish. */
export const sentences: Sentences = {
  "The circuit could not be worked out, so nothing can be said of its parts":
    "Układu nie dało się obliczyć, więc o jego częściach nic nie można powiedzieć",
  "Only the newest {#a} of {#b} gains could be weighed: in a unit of so many parts more would not be answered in time":
    "Zważono tylko {a} najnowszych z {b} wzmocnień: przy tylu częściach więcej nie byłoby na czas",
  "None of {#b} gains could be weighed: in a unit of so many parts more would not be answered in time":
    "Nie zważono żadnego z {b} wzmocnień: przy tylu częściach nie byłoby na czas",
  "Nothing was probed yet. Begin with the circuit dead and discharged":
    "Nic jeszcze nie zmierzono. Zacznij od układu bez prądu, rozładowanego",
  "The readings together are what good parts give. Nothing accuses a part":
    "Odczyty razem są takie, jak dają dobre części. Nic nie obciąża żadnej części",
  "No unit of good parts reads like this. One fault is looked for; the likeliest stands first":
    "Żadne urządzenie z dobrych części tak nie mierzy. Szukana jest jedna usterka; najbardziej prawdopodobna stoi pierwsza",
  "The readings do not decide between a good unit and a faulty one":
    "Odczyty nie rozstrzygają między urządzeniem dobrym a uszkodzonym",
  "{~a} if {~b}, {~c} if {~d}": "{a}, jeśli {b}; {c}, jeśli {d}",
  "all is good": "wszystko jest dobre",
  "{part} open": "{part}: przerwa",
  "{part} open ({~detail})": "{part}: przerwa ({detail})",
  "{part} short": "{part}: zwarcie",
  "{part} short ({~detail})": "{part}: zwarcie ({detail})",
  "{part} high": "{part}: za duże",
  "{part} high ({~detail})": "{part}: za duże ({detail})",
  "{part} low": "{part}: za małe",
  "{part} low ({~detail})": "{part}: za małe ({detail})",
  "{part} leaky": "{part}: upływ",
  "{part} leaky ({~detail})": "{part}: upływ ({detail})",
  "{part} weak": "{part}: słabe",
  "{part} weak ({~detail})": "{part}: słabe ({detail})",
  "{part} dead": "{part}: martwe",
  "{part} dead ({~detail})": "{part}: martwe ({detail})",
  "about {#v} {!unit}": "około {v} {unit}",
  "under {#v} dB": "poniżej {v} dB",
  "Unplug the unit and discharge its capacitors; measure that they are empty before touching anything":
    "Wyjmij wtyczkę i rozładuj kondensatory; zmierz, że są puste, zanim czegokolwiek dotkniesz",
  "Voltages here can kill: clip the meter on with the unit off and discharged, one hand away, then switch on":
    "Napięcia tutaj mogą zabić: załóż miernik przy wyłączonym i rozładowanym urządzeniu, jedna ręka z dala, potem włącz",
  "Voltages here can kill: clip the meter on with the unit off and discharged, one hand away, then switch on. Block the direct voltage with a capacitor rated for it":
    "Napięcia tutaj mogą zabić: załóż miernik przy wyłączonym i rozładowanym urządzeniu, jedna ręka z dala, potem włącz. Zablokuj napięcie stałe kondensatorem na nie obliczonym",
  "The unit is on and dangerous voltages are near this point: one hand, an insulated probe":
    "Urządzenie jest włączone, a obok tego punktu są niebezpieczne napięcia: jedna ręka, izolowana sonda",
  "about {~a} in place of {~b}": "około {a} zamiast {b}",
  "about {~a} in place of {~b}; perhaps {~c} was fitted": "około {a} zamiast {b}; może włożono {c}",
  "{#n} {!unit}": "{n} {unit}",
  "leaks like {~ohm}": "upływ jak {ohm}",
  "leaks like {~ohm}; an electrolytic fitted backwards reads so too":
    "upływ jak {ohm}; tak samo mierzy elektrolit włożony odwrotnie",
  "{#p} % of its turns shorted": "zwarte {p} % zwojów",
  "winding {#n}": "uzwojenie {n}",
  "windings {#a} and {#b}": "uzwojenia {a} i {b}",
  "passes about {#p} % of its current": "przepuszcza około {p} % swojego prądu",
  "about {#n} uA into its grid circuit": "około {n} µA do obwodu siatki",
  "from cathode to heater, like {~ohm} to ground": "z katody do grzejnika, jak {ohm} do masy",
  "{ids} cold: heater, socket pins, or no valve fitted": "{ids} zimne: żarzenie, styki podstawki albo brak lampy",
  "the whole bottle": "cała lampa",
  "with {id}": "z {id}",
  "{~reason}; {~what} would tell": "{reason}; powiedziałoby to: {what}",
  "the dead circuit's resistance from {a} to {b}": "opór układu bez prądu od {a} do {b}",
  "the voltage at {point}": "napięcie na {point}",
  "a gain to {point}": "wzmocnienie do {point}",
  "the resistances agree best with supplies that conduct once the unit is off":
    "opory pasują najlepiej do zasilaczy, które po wyłączeniu przewodzą",
  "the resistances agree best with supplies that block once the unit is off":
    "opory pasują najlepiej do zasilaczy, które po wyłączeniu blokują",
  "no reading is given yet": "nie podano jeszcze odczytu",
  "one reading may be a slip: {~words}; take it again": "jeden odczyt może być pomyłką: {words}; zmierz go znowu",
  "{~what}; take it again": "{what}; zmierz znowu",
  "{name} stands alone against all other readings": "{name} stoi sam przeciw wszystkim innym odczytom",
  "{name} stands alone against all other readings where a good unit reads about {#v} V":
    "{name} stoi sam przeciw wszystkim innym odczytom, gdzie dobre urządzenie ma około {v} V",
  "{name} stands alone against all other readings where a good unit reads about {#v} V; {~mend} would put it right":
    "{name} stoi sam przeciw wszystkim innym odczytom, gdzie dobre urządzenie ma około {v} V; naprawiłoby to: {mend}",
  "a decimal point one place to the right": "przecinek o jedno miejsce w prawo",
  "a decimal point one place to the left": "przecinek o jedno miejsce w lewo",
  "the other sign": "przeciwny znak",
  "{name} reads more than all supplies together": "{name} pokazuje więcej niż wszystkie zasilania razem",
  "the readings lie at the edge of what good parts give ({~odds} good units reads so), and no fault explains them much better":
    "odczyty leżą na skraju tego, co dają dobre części ({odds} dobrych urządzeń tak mierzy), a żadna usterka nie tłumaczy ich dużo lepiej",
  "one in {#n}": "jedno na {n}",
  "the readings are not those of a good unit, but no single fault of the library explains them well: perhaps two faults, one of another kind, or a wrong reading":
    "odczyty nie są od dobrego urządzenia, ale żadna pojedyncza usterka ze zbioru dobrze ich nie tłumaczy: może dwie usterki, inna albo błędny odczyt",
  "the readings together lie within what good parts give, but {~fault} explains them {#n} times better than a good unit does":
    "odczyty razem leżą w tym, co dają dobre części, ale {fault} tłumaczy je {n} razy lepiej niż dobre urządzenie",
  "the readings together lie within what good parts give, but {~fault} (or one that reads like it) explains them {#n} times better than a good unit does":
    "odczyty razem leżą w tym, co dają dobre części, ale {fault} (lub taka, która mierzy tak samo) tłumaczy je {n} razy lepiej niż dobre urządzenie",
  "and {#n} more": "i {n} więcej",
  "node {node}: {~reason}": "węzeł {node}: {reason}",
  "node {node} has only one end joined to it; check its name":
    "do węzła {node} dochodzi tylko jeden koniec; sprawdź nazwę",
  "a real circuit would leave this rest and latch to one side; the net list has other rests":
    "prawdziwy układ opuściłby ten spoczynek i przerzuciłby się na jedną stronę; lista połączeń ma inne spoczynki",
  "a node between valves that are cut off is held only by leakage, taken as {#a}^{#b} ohm":
    "węzeł między zatkanymi lampami trzyma tylko upływ, przyjęty jako {a}^{b} omów",
  "{part} is cut off: its plate has no slope, so rp_ohm and mu are left out":
    "{part} jest zatkana: anoda nie ma nachylenia, więc pominięto opór wewnętrzny i współczynnik wzmocnienia",
  "{what} would have to carry an endless current; put a resistor in series with it":
    "{what} musiałoby przewodzić nieskończony prąd; wstaw szeregowo opornik",
  "nothing in the net list determines {node}; give it a path for direct current, or a coil beside it its resistance_ohm":
    "nic w liście połączeń nie określa {node}; daj drogę dla prądu stałego albo cewce obok jej opór",
  "{node} would not settle; look for a loop that latches or oscillates there, or a value far from the usual":
    "{node} nie chciał się ustalić; szukaj pętli, która się przerzuca lub drga, albo wartości dalekiej od zwykłych",
  "nothing in the net list has a tolerance, so every unit is alike":
    "nic w liście połączeń nie ma tolerancji, więc każde urządzenie jest jednakowe",
  "under {#n} samples hold no half per cent of their own: windows stand {#s} standard deviations from the median, each side by its own":
    "poniżej {n} losowań nie ma własnego pół procenta: okna stoją {s} odchyleń standardowych od mediany, każda strona według własnego",
  "{#a} of {#b} drawn units found no rest; they count as bad and stand in no window":
    "{a} z {b} wylosowanych urządzeń nie znalazło spoczynku; liczą się jako złe i nie stoją w żadnym oknie",
  "this way round the meter may open the junctions of {ids} and read lower; the other way round, or on a range under {#v} V, they block":
    "w tę stronę miernik może otworzyć złącza {ids} i pokazać mniej; odwrotnie lub na zakresie poniżej {v} V są zatkane",
  "wait until {ids} has charged through the meter: the reading climbs to its value":
    "poczekaj, aż {ids} naładuje się przez miernik: odczyt wspina się do swojej wartości",
  "valves carry no capacitances of their own; give them in the net list as capacitors where they matter":
    "lampy nie mają własnych pojemności; gdzie się liczą, podaj je w liście połączeń jako kondensatory",
  "white noise only: flicker noise, hum and microphony are left out":
    "tylko szum biały: pominięto szum migotania, przydźwięk i mikrofonowanie",
  "gains of {#d} dB mean that nothing arrives": "wzmocnienia {d} dB znaczą, że nic nie dochodzi",
  "an input impedance of {#o} ohm means that the source delivers no current":
    "impedancja wejściowa {o} omów znaczy, że źródło nie daje prądu",
  "at {#f} Hz nothing in the net list determines {node}": "przy {f} Hz nic w liście połączeń nie określa {node}",
  "{~channel}: {~share} of the hiss comes from {part}": "{channel}: {share} szumu pochodzi od {part}",
  "{#p} %": "{p} %",
  "heaters without a part of their own in the net list (V1h for V1) are taken to stand at ground":
    "żarzenia bez własnej części w liście połączeń (V1h dla V1) przyjęto na masie",
  "the net list has no stage heaters; heater heat is the catalogue's":
    "lista połączeń nie ma stopnia „heaters”; ciepło żarzenia jest z katalogu",
  "the cost is incomplete: {#a} of {#b} parts have no price ({some})":
    "koszt jest niepełny: {a} z {b} części nie ma ceny ({some})",
  "no signal arrives at the output": "na wyjście nie dochodzi sygnał",
  "distortion is not told at {#a} V: the output comes to {#b} V, bent by {#p} %":
    "zniekształceń przy {a} V nie podano: wyjście dochodzi do {b} V, wygięte o {p} %",
  "{part} is cut off for {#p} % of the time": "{part} jest zatkana przez {p} % czasu",
  "{part} draws grid current, up to {#i} mA": "{part} pobiera prąd siatki, do {i} mA",
  "no rest was found": "nie znaleziono spoczynku",
  "in {place}: {~words}": "na {place}: {words}",
  "gain, {~channel}": "wzmocnienie, {channel}",
  "gain of {~channel} {#a} dB from the version's, allowed {#b} dB":
    "wzmocnienie, {channel}: {a} dB od wersji, dozwolone {b} dB",
  "channels {#a} dB apart, allowed {#b} dB": "kanały o {a} dB od siebie, dozwolone {b} dB",
  "{name} {#a} V, allowed {#b} to {#c} V": "{name} {a} V, dozwolone od {b} do {c} V",
  "no gain could be found": "nie znaleziono wzmocnienia",
  "comes to rest": "przychodzi do spoczynku",
  "a unit is good when it keeps: {~limits}": "urządzenie jest dobre, gdy dotrzymuje: {limits}",
  "ratings of the valves": "wartości graniczne lamp",
  "test points within their tolerance": "punkty pomiarowe w tolerancji",
  "ratings of the valves, test points within their tolerance": "wartości graniczne lamp, punkty pomiarowe w tolerancji",
  "ratings of the valves, test points within their tolerance, gain within {#a} dB of the version's":
    "wartości graniczne lamp, punkty pomiarowe w tolerancji, wzmocnienie na {a} dB od wersji",
  "ratings of the valves, test points within their tolerance, gain within {#a} dB of the version's, channels within {#b} dB":
    "wartości graniczne lamp, punkty pomiarowe w tolerancji, wzmocnienie na {a} dB od wersji, kanały na {b} dB",
  "{types}: too few measured valves of the type on the shelf; drawn by the net list's tolerance":
    "{types}: za mało zmierzonych lamp tego typu na półce; losowane według tolerancji listy połączeń",
  "taken as exact, for want of a tolerance: {parts}": "przyjęto za dokładne, bo brak tolerancji: {parts}",
  "{part}: {~what} {#v} {unit} exceeds the rating of {#l} {other}":
    "{part}: {what} {v} {unit} przekracza wartość graniczną {l} {other}",
  "{part} ({type}): {~what} {#v} {unit} exceeds the rating of {#l} {other}":
    "{part} ({type}): {what} {v} {unit} przekracza wartość graniczną {l} {other}",
  "{part} ({type}): {~what} {#v} {unit} is under the rating of {#l} {other}":
    "{part} ({type}): {what} {v} {unit} jest poniżej wartości granicznej {l} {other}",
  "plate voltage": "napięcie anody",
  "plate dissipation": "moc strat anody",
  "screen voltage": "napięcie siatki ekranującej",
  "screen dissipation": "moc strat siatki ekranującej",
  "plate current": "prąd anodowy",
  "cathode current": "prąd katody",
  "heater over cathode": "grzejnik nad katodą",
  "heater under cathode": "grzejnik pod katodą",
  "heater voltage": "napięcie żarzenia",
  "plate dissipation of both sections": "moc strat anod obu systemów",
  "the net list names no test points, so no voltage is claimed; name some to have windows":
    "lista połączeń nie nazywa punktów pomiarowych, więc żadnego napięcia się nie dowodzi; nazwij je, by mieć okna",
  "noise is claimed at twice what was computed, output impedance at {#n} times, for what the net list leaves out":
    "szumu dowodzi się przy dwukrotności obliczonego, impedancji wyjściowej przy {n} razy, za to, co lista połączeń pomija",
  "the steps of building are a first guess; put the shop's own in their place":
    "kroki budowy są pierwszą propozycją; wstaw w ich miejsce własne warsztatu",
  "not taken over, for what it rested on is gone: {~title}":
    "nie przejęto, bo tego, na czym się opierało, już nie ma: {title}",
  "{&names} never lost to the other items, so no strengths are most likely; more comparisons of these with the others, or a model that allows for fewer, would decide":
    "{names}: nigdy nie przegrało z innymi, więc żadna kolejność nie jest najbardziej prawdopodobna; rozstrzygnęłyby dalsze porównania z innymi albo model, któremu wystarcza mniej",
  "{~words}, beyond the limit": "{words}, poza granicą",
  "{~words}, too near to the limit to tell": "{words}, za blisko granicy, by orzec",
  "Heaters, HT and flux as far as given keep their limits at the lowest, nominal and highest supply, doubt included":
    "Żarzenia, napięcie anodowe i strumień, o ile podane, dotrzymują granic przy najniższym, znamionowym i najwyższym zasilaniu, z niepewnością",
  "the current of {what}": "prąd {what}",
  "no steady state was found at this amplitude within the time; the circuit may block, latch or run away: try a smaller amplitude, or give grids and diodes a series resistance":
    "przy tej amplitudzie nie znaleziono w czasie stanu ustalonego; układ może się zatkać, przerzucić lub uciec: spróbuj mniejszej amplitudy albo daj siatkom i diodom opornik szeregowy",
  "the harmonics still moved when those kept were doubled, and more would take too long; see doubt":
    "harmoniczne jeszcze się ruszały po podwojeniu ich liczby, a więcej trwałoby za długo; zobacz niepewność",
  "nothing of the signal arrives at the output, so there is nothing to relate its harmonics to":
    "nic z sygnału nie dochodzi na wyjście, więc nie ma do czego odnieść harmonicznych",
  "power_mW holds {#n} mW of direct current in the load": "moc zawiera {n} mW prądu stałego w obciążeniu",
  "nothing in the net list bends, so there are no harmonics; the direct part of the output was not asked for":
    "nic w liście połączeń nie jest krzywe, więc nie ma harmonicznych; o składową stałą nie pytano",
  "about {~a}; perhaps {~b} was fitted": "około {a}; może włożono {b}",
  "{~deadly} Block the direct voltage with a capacitor rated for it":
    "{deadly} Zablokuj napięcie stałe kondensatorem na nie obliczonym",
  "gain from {a} to {b}": "wzmocnienie od {a} do {b}",
  "{name} stands alone against all other readings; {~mend} would put it right":
    "{name} stoi sam przeciw wszystkim innym odczytom; naprawiłoby to: {mend}",
  "the dead circuit's resistance from {a}": "opór układu bez prądu od {a}",
  "at {#s} s no step was short enough; look for parts without any resistance that are switched onto one another":
    "przy {s} s żaden krok nie był dość krótki; szukaj części bez oporu, łączonych wprost ze sobą",
  "the time ends before the valves draw their full current; the last figures are not those of the warm unit":
    "czas kończy się, zanim lampy pobiorą pełny prąd; ostatnie wartości nie są ciepłego urządzenia",
  "still moving at the end: {what}; ask for a longer time": "na końcu jeszcze w ruchu: {what}; pytaj o dłuższy czas",
  "coils are linear: a core that saturates when switched on draws far more than the inrush given":
    "cewki są liniowe: rdzeń nasycający się przy włączeniu pobiera o wiele więcej niż podany udar",
  "no time was left to look for the worst moment of switching on":
    "nie zostało czasu na szukanie najgorszej chwili włączenia",
  "the text is longer than {n} letters; leave parts out": "tekst jest dłuższy niż {n} znaków; pomiń części",
  "nothing is written; begin with { and name ground and parts":
    "nic nie napisano; zacznij od { i nazwij ground i parts",
  "{what} after the end of the net list; take it out, or one } or ] too many before it":
    "{what} po końcu listy połączeń; usuń albo jest przed tym o jeden } lub ] za dużo",
  "more than {n} brackets inside one another; a net list needs few":
    "ponad {n} nawiasów w sobie; lista połączeń potrzebuje niewielu",
  "{what} is too large to hold; write an ordinary size": "{what} jest za duże; napisz zwykłą wielkość",
  "a single quote; names stand in double quotes": "pojedynczy cudzysłów; nazwy stoją w podwójnych",
  "{what} is not a number; write digits with a point, the unit in the field's name (47000, not 47k)":
    "{what} nie jest liczbą; napisz cyfry z kropką, jednostka w nazwie pola (47000, nie 47k)",
  "{what} where a value belongs": "{what} tam, gdzie należy wartość",
  '{what} without quotes; write "{other}"': '{what} bez cudzysłowu; napisz "{other}"',
  "a comma before }; take it out": "przecinek przed }; usuń",
  "a comma before ]; take it out": "przecinek przed ]; usuń",
  "{what} after a comma; a number's decimals stand behind a point, not a comma":
    "{what} po przecinku; część dziesiętna stoi po kropce, nie po przecinku",
  "{what} where a field's name belongs; names stand in double quotes":
    "{what} tam, gdzie należy nazwa pola; nazwy stoją w podwójnym cudzysłowie",
  '"{key}" stands twice in one part; leave one out': '"{key}" stoi dwa razy w jednej części; pomiń jedno',
  'no colon after "{key}"; write "{other}": and its value': 'brak dwukropka po "{key}"; napisz "{other}": i wartość',
  "what opens here is never closed; write {end} where it ends":
    "co tu się otwiera, nigdy się nie zamyka; napisz {end} na końcu",
  "{what} where a comma or {end} belongs; put one before it":
    "{what} tam, gdzie należy przecinek lub {end}; wstaw przedtem",
  'a name whose closing quote is missing; write " at its end': 'nazwa bez zamykającego cudzysłowu; napisz " na końcu',
  "a name with a backslash that means nothing, or a control letter; write it plainly":
    "nazwa z nic nieznaczącym ukośnikiem lub znakiem sterującym; napisz ją zwykle",
  "ratings of the valves, test points within their tolerance, channels within {#b} dB":
    "wartości graniczne lamp, punkty pomiarowe w tolerancji, kanały na {b} dB",
  "no rest was found: {~why}": "nie znaleziono spoczynku: {why}",
  "The first playing was chosen every time, so no strength of that habit is most likely":
    "Za każdym razem wybrano zagrane pierwsze, więc żadna siła tego nawyku nie jest najbardziej prawdopodobna",
  "The second playing was chosen every time, so no strength of that habit is most likely":
    "Za każdym razem wybrano zagrane drugie, więc żadna siła tego nawyku nie jest najbardziej prawdopodobna",
  "Item and order of playing together say every choice, so no strength of that habit is most likely; more comparisons would decide":
    "Pozycja i kolejność grania razem tłumaczą każdy wybór, więc żadna siła tego nawyku nie jest najbardziej prawdopodobna; rozstrzygnęłyby dalsze porównania",
  "The same item was always played first, so order and item can't be told apart: play each pair both ways round":
    "Zawsze pierwsze grano to samo, więc kolejności i pozycji nie da się rozdzielić: graj każdą parę w obu kolejnościach",
  "It was stopped at {a} of {#n} answers. A series stopped when its answers pleased would make chance look like hearing: the reason stands beside it":
    "Zakończono ją przy {a} z {n} odpowiedzi. Seria przerwana, gdy odpowiedzi się podobają, uczyniłaby przypadek podobnym do słyszenia: powód stoi obok",
  "Nobody read how loud {a} and {b} were set: what was told apart may be loudness":
    "Nikt nie zmierzył, jak głośno ustawiono {a} i {b}: to, co rozróżniono, może być głośnością",
  "The levels were not proven alike: what was told apart may be loudness":
    "Nie dowiedziono równych poziomów: to, co rozróżniono, może być głośnością",
  "{~a} if {~b}, open if {~d}": "{a}, jeśli {b}; przerwa, jeśli {d}",
  "open if {~b}, {~c} if {~d}": "przerwa, jeśli {b}; {c}, jeśli {d}",
  "At the {~name} supply, {#v} V, heaters get {#h} ± {#d} V, {#m} % from {#r} V (allowed {#a} %), beyond the limit":
    "Przy {name} sieci, {v} V, żarzenie dostaje {h} ± {d} V, {m} % od {r} V (dozwolone {a} %), poza granicą",
  "At the {~name} supply, {#v} V, heaters get {#h} ± {#d} V, {#m} % from {#r} V (allowed {#a} %), too near to the limit to tell":
    "Przy {name} sieci, {v} V, żarzenie dostaje {h} ± {d} V, {m} % od {r} V (dozwolone {a} %), za blisko granicy, by to stwierdzić",
  "At the {~name} supply, {#v} V, HT is {#h} ± {#d} V of {#a} V allowed, beyond the limit":
    "Przy {name} sieci, {v} V, napięcie anodowe to {h} ± {d} V z dozwolonych {a} V, poza granicą",
  "At the {~name} supply, {#v} V, HT is {#h} ± {#d} V of {#a} V allowed, too near to the limit to tell":
    "Przy {name} sieci, {v} V, napięcie anodowe to {h} ± {d} V z dozwolonych {a} V, za blisko granicy, by to stwierdzić",
  "At the {~name} supply, {#v} V, {#f} Hz, flux is {#b} T of {#a} T allowed, beyond the limit":
    "Przy {name} sieci, {v} V, {f} Hz, indukcja to {b} T z dozwolonych {a} T, poza granicą",
  "At the {~name} supply, {#v} V, {#f} Hz, flux is {#b} T of {#a} T allowed, too near to the limit to tell":
    "Przy {name} sieci, {v} V, {f} Hz, indukcja to {b} T z dozwolonych {a} T, za blisko granicy, by to stwierdzić",
  lowest: "najniższej",
  nominal: "podanej",
  highest: "najwyższej",
  "The meter is taken as good to {#p} % (95 %), the same for all its readings":
    "Miernik przyjęto jako dobry do {p} % (95 %), tak samo przy wszystkich odczytach",
  "The fuse and the label must suit the destination's voltage too":
    "Bezpiecznik i tabliczka też muszą pasować do napięcia u celu",
  "Carried {#p} % beyond the nearest reading; a reading at such a supply would be surer":
    "Przeniesione {p} % poza najbliższy odczyt; odczyt przy takiej sieci byłby pewniejszy",
  "Flux is not judged: no core was given, and at {#a} Hz it is {#t} times that at {#b} Hz on the same volts":
    "Indukcji nie oceniono: nie podano rdzenia, a przy {a} Hz jest {t} razy taka jak przy {b} Hz i tych samych woltach",
  "One reading only: carried in proportion, which overlooks the rectifier's drop":
    "Tylko jeden odczyt: przeniesiony proporcjonalnie, co pomija spadek na prostowniku",
  unloaded: "bez obciążenia",
  "at the output": "na wyjściu",
  "as if at the input": "odniesione do wejścia",
  "in the case": "w obudowie",
  "headphone of {#z} ohm": "słuchawki {z} Ω",
  "{~load} at {#f} Hz": "{load} przy {f} Hz",
  "{~load} at {#f} kHz": "{load} przy {f} kHz",
  "{~load} at {#f} V": "{load} przy {f} V",
};
