import type { Sentences } from "../../sentences/phrasebook.ts";

/** What safety, costs, checks, promises and the look-back say, in Polish. */
export const sentences: Sentences = {
  "protective earth continuity": "ciągłość przewodu ochronnego",
  insulation: "izolacja",
  "touch current": "prąd dotyku",
  "discharge of the stores": "rozładowanie zasobników",
  "hot surfaces": "gorące powierzchnie",
  "direct voltage at the jack": "napięcie stałe na gnieździe",
  "The unit is unplugged from the mains. Press the probe on bare metal; read the voltage drop at the unit, not at the tester":
    "Urządzenie jest odłączone od sieci. Dociśnij sondę do gołego metalu; spadek napięcia czytaj na urządzeniu, nie na testerze",
  "{#v} V stand on mains parts: guard the area, touch nothing, discharge before opening. Only the mains part is tested; keep it off windings and valves":
    "Na częściach sieciowych jest {v} V: zabezpiecz miejsce, niczego nie dotykaj, rozładuj przed otwarciem. Bada się tylko część sieciową; z dala od uzwojeń i lamp",
  "Full high tension until unplugged, lethal for as long as this test takes. One hand away from the chassis; a second person at the switch":
    "Pełne napięcie anodowe do wyjęcia wtyczki, śmiertelne przez całą tę próbę. Jedna ręka z dala od chassis; druga osoba przy wyłączniku",
  "Mains on, earth lifted in the tester and nowhere else. Touch nothing metal; both ways round":
    "Sieć włączona, uziemienie odłączone w testerze i nigdzie indziej. Nie dotykaj metalu; oba ułożenia wtyczki",
  "Valves and their guards burn. Read with a probe on a stick or let it cool":
    "Lampy i ich osłony parzą. Mierz czujnikiem na pręcie albo daj ostygnąć",
  "Into a resistor, never into a headphone on a head, cold and at switching on":
    "Na oporniku, nigdy na słuchawkach na głowie, na zimno i przy włączeniu",
  "Figures are guides; local codes and a licensed practitioner decide":
    "Wartości to wskazówki; decydują przepisy miejscowe i osoba z uprawnieniami",
  "Valve amplifiers hold lethal voltages after unplugging, and a bleeder can fail open: measure before touching":
    "Wzmacniacze lampowe trzymają śmiertelne napięcia po wyjęciu wtyczki, a opornik rozładowujący może być przerwany: zmierz, zanim dotkniesz",
  "Earth continuity comes first: a broken earth gives a false pass of leakage. Stop at the first failure":
    "Najpierw ciągłość przewodu ochronnego: przerwany fałszywie zalicza upływ. Przerwij przy pierwszej niezaliczonej próbie",
  "Withstand voltage goes on the mains part only, in a guarded area; discharge the unit before it is opened":
    "Napięcie probiercze tylko na część sieciową, w zabezpieczonym miejscu; rozładuj urządzenie przed otwarciem",
  "Found there, they would have taken {#a} h ({#b} to {#c}) and {~m} ({~low} to {~high}) less":
    "Znalezione tam zabrałyby o {a} h (od {b} do {c}) i {m} (od {low} do {high}) mniej",
  "What finding them there would have saved can[’|']t be told from chance":
    "Tego, co dałoby znalezienie ich tam, nie da się odróżnić od przypadku",
  "Of this sort only {#n} w[as|ere] found there: what it would have saved is undecided":
    "Tego rodzaju znaleziono tam tylko {n}: co by to dało, jest nierozstrzygnięte",
  "An arrow saves when its interval leaves zero out; it is silent when it does not, and undecided while fewer than three of its sort were found late or early":
    "Strzałka oszczędza, gdy jej przedział pomija zero; milczy, gdy nie, a jest nierozstrzygnięta, póki znaleziono późno lub wcześnie mniej niż trzy tego rodzaju",
  "That those found early are like those found late is taken for granted; the hard ones may be late because they are hard":
    "Zakłada się, że znalezione wcześnie są jak znalezione późno; trudne mogą być późne, bo są trudne",
  "{place}: {#a} h instead of {#b} h": "{place}: {a} h zamiast {b} h",
  "Every crack that it ever showed had shown by {#h} h":
    "Każde pęknięcie, jakie się tam pokazało, pokazało się do {h} h",
  "{#n} of 100 cracks that it ever showed had shown by {#h} h":
    "Ze 100 pęknięć, jakie się tam pokazały, {n} pokazało się do {h} h",
  "look for: {~fault}": "szukać: {fault}",
  "a look at {step}": "rzut oka: {step}",
  "the safety tests": "próby bezpieczeństwa",
  "its bill of parts is not written down": "jego wykaz części nie jest zapisany",
  "no rates are written down": "nie zapisano stawek",
  "no rate for {skills} is written down": "nie zapisano stawki dla: {skills}",
  "only {#n} unit has it; {#m} at least": "ma to tylko {n} urządzenie; trzeba co najmniej {m}",
  "only {#n} units have it; {#m} at least":
    "ma to tylko {n} {n|urządzenie|urządzenia|urządzeń}; trzeba co najmniej {m}",
  "always chosen together with {what}": "zawsze wybierane razem z {what}",
  "the other choices together already tell it": "mówią to już inne wybory razem",
  "not said": "nie podano",
  "{#y}, first half": "pierwsza połowa {y}",
  "{#y}, second half": "druga połowa {y}",
  all: "wszystkie",
  "No promised order has left yet": "Nie wyszło jeszcze żadne obiecane zamówienie",
  "{#a} of {#b} dates said to hold {#c} times in 100 were kept: {~rest}":
    "Dotrzymano {a} z {b} terminów, które miały trzymać {c} razy na 100: {rest}",
  "as often as said ({#a} to {#b} in 100)": "tak często, jak powiedziano (od {a} do {b} na 100)",
  "fewer than said ({#a} to {#b} in 100). {#n} day[s] more would have held":
    "rzadziej, niż powiedziano (od {a} do {b} na 100). Wystarczyłoby {n} {n|dzień|dni|dni} więcej",
  "more than said ({#a} to {#b} in 100). Dates {#n} day[s] nearer would have held":
    "częściej, niż powiedziano (od {a} do {b} na 100). Terminy o {n} {n|dzień|dni|dni} bliższe też by trzymały",
  "undecided ({#a} to {#b} in 100); more promises will tell":
    "nierozstrzygnięte (od {a} do {b} na 100); powiedzą dalsze obietnice",
  "The interval takes promises as independent; those of the same weeks share the shop's luck, so that it is rather too narrow":
    "Przedział bierze obietnice za niezależne; te z tych samych tygodni dzielą szczęście warsztatu, więc jest raczej za wąski",
  "{part} came {#n} day[s] later than four in five do": "{part}: {n} {n|dzień|dni|dni} później niż cztery na pięć",
  "taken in since and promised sooner: {orders}": "przyjęte od tamtej pory i obiecane wcześniej: {orders}",
  "{#a} repairs, where {#b} were to be expected": "{a} {a|naprawa|naprawy|napraw}, gdzie oczekiwano {b}",
  "No date moves that can be told from chance": "Żaden termin nie przesuwa się tak, by odróżnić to od przypadku",
  "{#n} date moves earlier": "{n} termin przesuwa się wcześniej",
  "{#n} dates move earlier": "{n} {n|termin|terminy|terminów} {n|przesuwa|przesuwają|przesuwa} się wcześniej",
  "{#n} date moves later": "{n} termin przesuwa się później",
  "{#n} dates move later": "{n} {n|termin|terminy|terminów} {n|przesuwa|przesuwają|przesuwa} się później",
  "No longer in danger: {orders}": "Już nie zagrożone: {orders}",
  "In danger then: {orders}": "Wtedy zagrożone: {orders}",
  "{place}: runs of {#h} h": "{place}: przebiegi po {h} h",
  "nobody works on {@at}": "nikt nie pracuje {at}",
  "a rush order of {#n} {model} for {@at}": "pilne zamówienie {n} {model} na {at}",
  "unit {unit} fails at {step}": "urządzenie {unit} nie przechodzi: {step}",
  "{part} comes {#n} days later": "{part} przychodzi {n} {n|dzień|dni|dni} później",
  "{person} is away from {@a} to {@b}": "{person}: nieobecność od {a} do {b}",
  "another pair of hands like {person}": "jeszcze jedna para rąk jak: {person}",
  "Nothing is left to chance in this input: the two shops are compared once, exactly":
    "Nic tu nie jest przypadkowe: oba warsztaty porównano raz, dokładnie",
  "{#n} runs of each shop with the same luck in both; an order is said to move when the {#p} % interval of its shift leaves zero out, each order by itself":
    "{n} przebiegów każdego warsztatu z tym samym szczęściem w obu; zamówienie uznaje się za przesunięte, gdy przedział {p} % jego przesunięcia pomija zero, każde z osobna",
  "{type} valves for {model}": "lampy {type} do {model}",
  "Valves are taken to come within {#a} to {#b} days; how many passed of each past tray says how many to buy":
    "Przyjęto, że lampy przychodzą w {a} do {b} dni; ile przeszło z każdej dawnej tacy, mówi, ile kupić",
  "A date is what the shop's own rule (most urgent first, nobody waits for who is not ready) leads to; sickness, new orders and returns are not in it":
    "Termin to wynik reguły warsztatu (najpilniejsze najpierw, nikt nie czeka na niegotowego); choroby, nowe zamówienia i zwroty nie są w nim",
  "{#n} runs; the doubt of each date comes from their number alone, not from how well times and odds are known":
    "{n} przebiegów; niepewność każdego terminu pochodzi tylko z ich liczby, nie z tego, jak dobrze znane są czasy i szanse",
  "Ordering by then keeps {#a} of {#b} runs from becoming later, other parts not yet ordered being ordered now":
    "data zamówienia chroni {a} z {b} przebiegów przed opóźnieniem, gdy inne niezamówione części zamówi się teraz",
  "Due before now, and so the most urgent: {orders}": "Termin minął, a więc najpilniejsze: {orders}",
  "Taken to hold one unit, no capacity being given: {places}":
    "Przyjęto miejsce na jedno urządzenie, bo nie podano pojemności: {places}",
  "Read as running over midnight into the next day: {what}":
    "Odczytano jako przechodzące przez północ na następny dzień: {what}",
  "Run by the clock, unattended or in a batch place, so that no person is asked for: {what}":
    "Idzie według zegara, bez dozoru lub w miejscu wsadowym, bez osoby: {what}",
  customer: "klient",
  "{#n} runs can't bound the {#p} % date from above; its doubt reaches only to the latest run":
    "{n} przebiegów nie ogranicza od góry terminu {p} %; jego niepewność sięga tylko najpóźniejszego przebiegu",
  "Nothing is left to chance in this input: one run tells all, and the three dates are one":
    "Nic tu nie jest przypadkowe: jeden przebieg mówi wszystko, a trzy terminy są jednym",
  "nothing left to do": "nic już do zrobienia",
  "{n} runs of the shop as it stood, {#m} orders open, held by {what}":
    "{n} przebiegów warsztatu, jaki był, otwartych zamówień {m}, wstrzymuje: {what}",
  "Over all orders {~what}": "We wszystkich zamówieniach {what}",
  "Then no promise is in danger": "Wtedy żadna obietnica nie jest zagrożona",
  "the mean date stays where it is, as far as can be told":
    "średni termin zostaje, o ile da się powiedzieć, gdzie jest",
  "a rush order of {n} {model} for {@at}": "pilne zamówienie {n} {model} na {at}",
  "{person} is away from {a} to {b}": "{person}: nieobecność od {a} do {b}",
  "its last trial, of {@at}, is more than {#h} h ago": "jego ostatnia próba z {at} jest starsza niż {h} h",
  "stopped by {who}": "zatrzymał {who}",
  "which unit {unit}, bound for {place}, is built for": "dla których zbudowano urządzenie {unit} do miejsca {place}",
  "a tenth above the {#v} V that unit {unit} is built for":
    "dziesiąta część ponad {v} V, dla których zbudowano urządzenie {unit}",
  "the building's own frequency": "własna częstotliwość budynku",
  "held for more than a minute": "trzymane ponad minutę",
  "touched for {#a} s to a minute, as a knob": "dotykane od {a} s do minuty, jak gałka",
  "touched for {#a} to {#b} s": "dotykane od {a} do {b} s",
  "brushed in passing, under a second": "muśnięte w przejściu, poniżej sekundy",
  "Copies that were taken to other disks, backups of the whole machine, e-mails and printed sheets can't be seen from here; look there too":
    "Kopii na innych dyskach, kopii całego komputera, e-maili i wydruków stąd nie widać; zajrzyj i tam",
  "model {model} {!revision}": "model {model} {revision}",
};
