import type { Sentences } from "../../sentences/phrasebook.ts";

/** What the first page and every unit's folder say, in Polish. */
export const sentences: Sentences = {
  "heat run of units": "wygrzewanie urządzeń",
  "heat run of {!type}": "wygrzewanie lamp {type}",
  "{~step} of units": "{step} urządzeń",
  wiring: "okablowanie",
  chassis: "chassis",
  coats: "powłoki",
  case: "obudowa",
  sanding: "szlifowanie",
  oiling: "olejowanie",
  soak: "wygrzewanie",
  lid: "pokrywa",
  "heat run": "wygrzewanie lamp",
  released: "zwolnione",
  "{#n} proof[s] missing": "{n|brakuje|brakuje|brakuje} {n} {n|dowodu|dowodów|dowodów}",
  "ready to release": "można zwolnić",
  "heat run of {#n} valves of batch {batch} ends: read the reference valve, then read them hot":
    "wygrzewanie {n} {n|lampy|lamp|lamp} z partii {batch} kończy się: zmierz lampę wzorcową, potem je na gorąco",
  "unit {unit}: {step} finished": "urządzenie {unit}: {step}, skończone",
  "unit {unit} is ready for: {~title}": "urządzenie {unit} jest gotowe do: {title}",
  "{&names} at {place} come[s] to [its|their] target": "{names}, {place}: cel osiągnięty",
  "{&names} at {place} to be weighed": "{names}, {place}: zważyć",
  "{&names} to {to}, as planned": "{names}, dokąd: {to}, zgodnie z planem",
  "{names} and {#n} more boards to {to}, as planned":
    "{names} i {n} {n|inna deska|inne deski|innych desek}, dokąd: {to}, zgodnie z planem",
  "{names} and {#n} more boards at {place} come to their target":
    "{names} i {n} {n|inna deska|inne deski|innych desek}, {place}: cel osiągnięty",
  "{names} and {#n} more boards at {place} to be weighed":
    "{names} i {n} {n|inna deska|inne deski|innych desek}, {place}: zważyć",
  "turn {~what}: coat of {~finish}": "{what}, obrócić: powłoka, {finish}",
  "coat of {~finish} on {~what} is hard": "powłoka, {finish}, stwardniała: {what}",
  "the case": "obudowa",
  "hardening oil": "olej twardniejący",
  "clear lacquer": "lakier bezbarwny",
  oil: "olej",
  wax: "wosk",
  shellac: "szelak",
  lacquer: "lakier",
  varnish: "lakier olejny",
  "lots to do": "dużo do zrobienia",
  "{~there}, {~finding}, and found now it costs {~now} instead of {~later}: {~saves} saved on average for {#m} min of hands":
    "{there}, {finding}, a znalezione teraz kosztuje {now} zamiast {later}: średnio {saves} oszczędzone za {m} min pracy rąk",
  "{~there}, {~finding}, and found now it costs {~now} instead of {~later}: {~saves} saved on average, {#n} rarer fault[s] included for {#m} min of hands":
    "{there}, {finding}, a znalezione teraz kosztuje {now} zamiast {later}: średnio {saves} oszczędzone, z {n} {n|rzadszą usterką|rzadszymi usterkami|rzadszymi usterkami}, za {m} min pracy rąk",
  "{~there}, {~finding}, and found now it costs {~now} instead of {~later}: {~saves} saved on average ({~money}) for {#m} min of hands":
    "{there}, {finding}, a znalezione teraz kosztuje {now} zamiast {later}: średnio {saves} oszczędzone ({money}) za {m} min pracy rąk",
  "{~there}, {~finding}, and found now it costs {~now} instead of {~later}: {~saves} saved on average ({~money}), {#n} rarer fault[s] included for {#m} min of hands":
    "{there}, {finding}, a znalezione teraz kosztuje {now} zamiast {later}: średnio {saves} oszczędzone ({money}), z {n} {n|rzadszą usterką|rzadszymi usterkami|rzadszymi usterkami}, za {m} min pracy rąk",
  "{~there}, {~finding}, and found now or later it costs {~now}: {~saves} saved on average for {#m} min of hands":
    "{there}, {finding}, a znalezione teraz czy później kosztuje {now}: średnio {saves} oszczędzone za {m} min pracy rąk",
  "{~there}, {~finding}, and found now or later it costs {~now}: {~saves} saved on average, {#n} rarer fault[s] included for {#m} min of hands":
    "{there}, {finding}, a znalezione teraz czy później kosztuje {now}: średnio {saves} oszczędzone, z {n} {n|rzadszą usterką|rzadszymi usterkami|rzadszymi usterkami}, za {m} min pracy rąk",
  "{~there}, {~finding}, and found now or later it costs {~now}: {~saves} saved on average ({~money}) for {#m} min of hands":
    "{there}, {finding}, a znalezione teraz czy później kosztuje {now}: średnio {saves} oszczędzone ({money}) za {m} min pracy rąk",
  "{~there}, {~finding}, and found now or later it costs {~now}: {~saves} saved on average ({~money}), {#n} rarer fault[s] included for {#m} min of hands":
    "{there}, {finding}, a znalezione teraz czy później kosztuje {now}: średnio {saves} oszczędzone ({money}), z {n} {n|rzadszą usterką|rzadszymi usterkami|rzadszymi usterkami}, za {m} min pracy rąk",
  '{~odds} has a fault of "{~title}"': "{odds} ma usterkę: „{title}”",
  '{~odds} has a fault of "{~title}" ({#k} of {#n} so far)': "{odds} ma usterkę: „{title}” (dotąd {k} z {n})",
  '{~odds} has a fault of "{~title}" (a guess: nothing counted yet)':
    "{odds} ma usterkę: „{title}” (zgadnięte: nic jeszcze nie policzono)",
  "{~odds} has {fault} ({#k} of {#n} so far)": "u {odds} zdarza się: {fault} (dotąd {k} z {n})",
  "{~odds} has {fault} (a guess: nothing counted yet)":
    "u {odds} zdarza się: {fault} (zgadnięte: nic jeszcze nie policzono)",
  "{~odds} has {fault}": "u {odds} zdarza się: {fault}",
  "1 in {#n}": "1 na {n}",
  "{#k} in 100": "{k} na 100",
  "{#k} times in 100": "{k} razy na 100",
  "this finds it": "ta próba ją znajduje",
  "this finds {#k} in 100 of them": "ta próba znajduje {k} na 100 z nich",
  "under 1 min": "poniżej 1 min",
  "{#n} in money": "{n} w pieniądzu",
  "{#n} {!currency}": "{n} {currency}",
  "next by its date": "następna według terminu",
  "work to go on with": "praca, by iść dalej",
  "{#n} claim[s] wait[s] behind it; {~next}": "{n|czeka|czekają|czeka} za tym {n} {n|dowód|dowody|dowodów}; {next}",
  "{~wait} by itself: begun today it is ready {#h} h at work sooner than begun tomorrow":
    "{wait} samo: zaczęte dziś jest gotowe o {h} h pracy wcześniej niż zaczęte jutro",
  "keeps the unit waiting {~a}, longer than the {~b} allowed": "każe urządzeniu czekać {a}, dłużej niż dozwolone {b}",
  "{place} has no slot free": "{place}: nie ma wolnego miejsca",
  "{~danger}: nobody with the skill {skill} may meet it":
    "{danger}: nikt z umiejętnością {skill} nie może się na to narażać",
  "nobody with the skill {skill} is at work any more today": "nikogo z umiejętnością {skill} nie ma już dziś w pracy",
  "its {#m} min do not fit before the hands that can do it go home":
    "jego {m} min nie zmieści się, zanim ręce, które to umieją, pójdą do domu",
  "{~danger}: nobody else is at work with the one who can do it":
    "{danger}: oprócz tego, kto to umie, nikogo nie ma w pracy",
  "high-voltage": "wysokie napięcie",
  mains: "sieć",
  hot: "gorące",
  dust: "pył",
  "read {#v} ± {#d} on {@at}": "pokazał {v} ± {d}, {at}",
  "{~read}; it must pass again: {~mend}": "{read}; musi znów przejść: {mend}",
  "{~read}, which decides nothing: {~mend}": "{read}, co niczego nie rozstrzyga: {mend}",
  "never tried: {~mend}": "nigdy niesprawdzony: {mend}",
  "enter {instrument} with what it is tried against, then try it":
    "wpisz {instrument} z tym, na czym jest sprawdzany, potem go sprawdź",
  "try {instrument} on {reference}: {_q} must read {#truth} within {#limit} by its doubt":
    "sprawdź {instrument} na {reference}: {q} ma z niepewnością wyjść {truth} {q.unit} z dokładnością do {limit} {q.unit}",
  "its instrument {instrument} had failed its trial of {@at} and passed none since":
    "przyrząd {instrument} nie przeszedł próby z {at} i odtąd żadnej",
  "its instrument {instrument} failed its trial of {@at}, the first since this was read":
    "przyrząd {instrument} nie przeszedł próby z {at}, pierwszej od tego odczytu",
  "its instrument {instrument} has never been tried": "przyrządu {instrument} nigdy nie sprawdzono",
  "the trial of {instrument} of {@at} decided nothing": "próba przyrządu {instrument} z {at} niczego nie rozstrzygnęła",
  "its instrument {instrument} {~rest}": "przyrząd {instrument} {rest}",
  "Void: {~because}": "Unieważnione: {because}",
  "Undecided: {~what}": "Nierozstrzygnięte: {what}",
  "not yet checked": "jeszcze nie sprawdzono",
  "{~reason}; {#m} min of hands against {#h} h expected to be lost later":
    "{reason}; {m} min pracy rąk wobec {h} h, które inaczej przepadłyby później",
  "All {#n} figures lie inside their limits by their doubt":
    "Wszystkie wartości ({n}) leżą wraz z niepewnością w swoich granicach",
  "The owner conceded it on {@at}: {reason}": "Zgoda właściciela na odstępstwo, {at}: {reason}",
  "reads {_q} {#v} ± {#d}, inside {~limits} by its doubt":
    "{q} {v} ± {d} {q.unit}, wraz z niepewnością w granicy: {limits}",
  "reads {_q} {#v} ± {#d}, outside {~limits} by its doubt":
    "{q} {v} ± {d} {q.unit}, wraz z niepewnością poza granicą: {limits}",
  "reads {_q} {#v} ± {#d}, nearer to {~limits} than its doubt":
    "{q} {v} ± {d} {q.unit}, bliżej granicy niż niepewność: {limits}",
  "{~verdict}; a failed safety test stands until repair is recorded":
    "{verdict}; nieprzejście próby bezpieczeństwa obowiązuje, dopóki nie zapisano naprawy",
  "reads {_q} {#v} with no doubt stated, and a measured figure without doubt proves nothing":
    "{q} {v} {q.unit} bez podanej niepewności, a odczyt bez niepewności niczego nie dowodzi",
  "state the doubt of the reading (a new entry that supersedes it), or {~check}":
    "podaj niepewność odczytu (nowym wpisem, który go zastąpi) albo {check}",
  "repair, record the rework, then {~check}": "napraw, zapisz przeróbkę, potem: {check}",
  "repair, record the rework, then {~check}, or ask the owner for a written concession":
    "napraw, zapisz przeróbkę, potem: {check}, albo poproś właściciela o pisemną zgodę na odstępstwo",
  "measure {_q} again with a doubt of at most {#m}": "{q}: zmierz ponownie z niepewnością najwyżej {m} {q.unit}",
  "measure {_q} again: it reads the limit itself": "{q}: zmierz ponownie, bo odczyt wypada dokładnie na granicy",
  "{valve} fitted at {position}": "{valve} włożona na {position}",
  "the rework {id} of {@at} touched what it rests on ({~things})":
    "przeróbka {id} z {at} dotknęła tego, na czym to polega ({things})",
  "it was recorded with {valve} at {position}, where {now} stands":
    "zapisano z {valve} na {position}, gdzie teraz jest {now}",
  "it was recorded with {valve} at {position}, where no valve stands":
    "zapisano z {valve} na {position}, gdzie teraz nie ma lampy",
  "it was recorded with no valve at {position}, where {now} stands":
    "zapisano bez lampy na {position}, gdzie teraz jest {now}",
  "no valve stands at {position}": "na {position} nie ma lampy",
  "fit a valve at {position} and record it": "włóż lampę na {position} i zapisz to",
  "no {_q} on record": "{q}: nic nie zapisano",
  "{~how} ({#m} min)": "{how} ({m} min)",
  "{~how} ({#m} min, then {#h} h by itself)": "{how} ({m} min, potem {h} h samo)",
  "at most {#n}": "najwyżej {n}",
  "at least {#n}": "co najmniej {n}",
  "{#a} to {#b}": "od {a} do {b}",
  "{place}: {~rest}": "{place}: {rest}",
  "{label}; {~words}": "{label}; {words}",
  "{~where}: {~what}": "{where}: {what}",
  "inside {~limits} by its doubt": "wraz z niepewnością w granicy: {limits}",
  "outside {~limits} by its doubt": "wraz z niepewnością poza granicą: {limits}",
  "nearer to {~limits} than its doubt": "bliżej granicy niż niepewność: {limits}",
  "{position} section {s}": "{position}, system {s}",
  "{position} section {s} ({valve})": "{position}, system {s} ({valve})",
  "left channel": "kanał lewy",
  "right channel": "kanał prawy",
  "left channel {point}": "kanał lewy, {point}",
  "right channel {point}": "kanał prawy, {point}",
  "unit {unit}": "urządzenie {unit}",
  "{position} heater": "{position}, żarzenie",
  "{position} ({valve})": "{position} ({valve})",
  "it was drawn from {id}, which is not on record": "wyprowadzono to z {id}, którego nie ma w księdze",
  "it was drawn from {id}, which {other} superseded": "wyprowadzono to z {id}, które zastąpił wpis {other}",
  "It was never released": "Nigdy nie zostało zwolnione",
  "The release of {@at} fell with the rework {id} of {@then}":
    "Zwolnienie z {at} upadło wraz z przeróbką {id} z {then}",
  "the unit was worked on since: {why}": "od tamtej pory pracowano przy urządzeniu: {why}",
  "a coat of {~finish}": "powłoka: {finish}",
  "{piece} was machined": "{piece} obrobiono",
  "Every valve is steady through the heat run": "Każda lampa jest stała przez wygrzewanie",
  "Input stage: its test points lie in their windows": "Stopień wejściowy: jego punkty pomiarowe leżą w oknach",
  "Output stage: its test points lie in their windows": "Stopień wyjściowy: jego punkty pomiarowe leżą w oknach",
  "Gain stage: its test points lie in their windows": "Stopień wzmacniający: jego punkty pomiarowe leżą w oknach",
  "Follower: its test points lie in their windows": "Wtórnik: jego punkty pomiarowe leżą w oknach",
  "Input pair: its test points lie in their windows": "Para wejściowa: jej punkty pomiarowe leżą w oknach",
  "Output pair: its test points lie in their windows": "Para wyjściowa: jej punkty pomiarowe leżą w oknach",
  "{stage} stage: its test points lie in their windows": "Stopień {stage}: jego punkty pomiarowe leżą w oknach",
  "No direct voltage at the jack": "Brak napięcia stałego na gnieździe",
  "No direct voltage at the output sockets": "Brak napięcia stałego na gniazdach wyjściowych",
  "No direct voltage at the output": "Brak napięcia stałego na wyjściu",
  "Left and right are alike, at the gain of the model": "Lewy i prawy są jednakowe, o wzmocnieniu modelu",
  "No hum of its own is heard on any of the shop['|’]s headphones":
    "W żadnych słuchawkach warsztatu nie słychać własnego przydźwięku",
  "Hum at the terminals is inaudible from the listening chair": "Przydźwięku na zaciskach nie słychać z fotela",
  "Hum at the sockets stays far under the hiss of the amplifier behind it":
    "Przydźwięk na gniazdach zostaje daleko pod szumem wzmacniacza za nimi",
  "Hum at the stators stays under what electrostatic headphones let hear":
    "Przydźwięk na statorach zostaje poniżej tego, co dają usłyszeć słuchawki elektrostatyczne",
  "The ends of the band are where the model puts them": "Krańce pasma są tam, gdzie kładzie je model",
  "The hiss of the first stage stays low": "Szum pierwszego stopnia pozostaje mały",
  "The hiss stays low": "Szum pozostaje mały",
  "Gain is the model[’|']s": "Wzmocnienie jest takie jak modelu",
  "Gain is the model[’|']s, alike in all channels":
    "Wzmocnienie jest takie jak modelu, jednakowe we wszystkich kanałach",
  "Output impedance is the model[’|']s": "Impedancja wyjściowa jest taka jak modelu",
  "Distortion is the model[’|']s": "Zniekształcenia są takie jak modelu",
  "Heaters get their voltage at the destination": "Żarzenia mają u celu swoje napięcie",
  "HT is inside its window at the destination": "Napięcie anodowe leży u celu w oknie",
  "The supply[’|']s points are inside their windows at the destination": "Punkty zasilacza leżą u celu w oknach",
  "The core keeps clear of saturation at the destination": "Rdzeń u celu nie zbliża się do nasycenia",
  "The fuse suits the tap": "Bezpiecznik pasuje do odczepu",
  "The rating label says what the tap is set to": "Tabliczka podaje to, na co ustawiono odczep",
  "The case is as dry as its destination": "Obudowa jest tak sucha jak jej miejsce przeznaczenia",
  "The case will stay whole at its destination": "Obudowa pozostanie u celu cała",
  "Lid and panels keep their gaps under the finish": "Pokrywa i płyty zachowują szczeliny pod wykończeniem",
  "The closed case stands the heat": "Zamknięta obudowa znosi ciepło",
  "Every touchable metal part is bonded to earth": "Każda dotykalna część metalowa jest połączona z ziemią",
  "Mains is insulated from the chassis": "Sieć jest odizolowana od chassis",
  "No more than a harmless current reaches a hand": "Do dłoni dociera najwyżej nieszkodliwy prąd",
  "The HT falls below {#v} V in time after unplugging":
    "Napięcie anodowe spada po wyjęciu wtyczki na czas poniżej {v} V",
  "The high voltage falls below {#v} V in time after unplugging":
    "Wysokie napięcie spada po wyjęciu wtyczki na czas poniżej {v} V",
  "The bias can drive no harmful current through a hand":
    "Napięcie polaryzacji nie może przepuścić przez dłoń szkodliwego prądu",
  "The bias stands where the headphone wants it": "Napięcie polaryzacji jest takie, jakiego chcą słuchawki",
  "Read every section on the valve tester cold, run the valve {hours} at working heat, read it again":
    "Zmierz każdy system na zimno testerem lamp, grzej lampę jak w pracy ({hours}) i zmierz znowu",
  "Probe the test points of the {~stage} stage with one hand, after a night of idling":
    "Zmierz jedną ręką punkty pomiarowe ({stage}), po nocy biegu jałowego",
  "Probe the test points of the {~stage} stage with one hand, warmed up":
    "Zmierz jedną ręką punkty pomiarowe ({stage}), na ciepło",
  input: "wejście",
  output: "wyjście",
  gain: "wzmocnienie",
  follower: "wtórnik",
  supply: "zasilacz",
  "Input shorted, {#s} s on the building[’|']s mains and {#t} s regenerated":
    "Wejście zwarte, {s} s na sieci budynku i {t} s na czystym zasilaniu",
  "After a day and a half of running in; {~rest}": "Po półtora dnia docierania; {rest}",
  "Input shorted, hiss without lines, A-weighted": "Wejście zwarte, szum bez linii, ważony A",
  "Millivolts at the jack into {#o} ohm, cold, at switching on and settled":
    "Miliwolty na gnieździe przy {o} omach, na zimno, przy włączeniu i po ustaleniu",
  "Millivolts at the output, at switching on and settled": "Miliwolty na wyjściu, przy włączeniu i po ustaleniu",
  "Sweep from {#a} Hz to {#b} kHz into the rated load, against {#c} kHz":
    "Przemiatanie od {a} Hz do {b} kHz na obciążeniu znamionowym, względem {c} kHz",
  "Sweep from {#a} Hz to {#b} kHz into {load}, against {#c} kHz":
    "Przemiatanie od {a} Hz do {b} kHz na {load}, względem {c} kHz",
  "Sweep from {#a} Hz to {#b} kHz, against {#c} kHz": "Przemiatanie od {a} Hz do {b} kHz, względem {c} kHz",
  "{#k} kHz, both channels driven, loop-back taken first":
    "{k} kHz, oba kanały wysterowane, najpierw pętla rejestratora",
  "{#k} kHz, all channels driven alike, loop-back taken first":
    "{k} kHz, wszystkie kanały wysterowane jednakowo, najpierw pętla rejestratora",
  "{#k} kHz into {load}, all channels driven alike, loop-back taken first":
    "{k} kHz na {load}, wszystkie kanały wysterowane jednakowo, najpierw pętla rejestratora",
  "{#k} kHz at the level told, orders {#a} to {#b}": "{k} kHz o podanym poziomie, harmoniczne od {a} do {b}",
  "{#k} kHz into {load} at the level told, orders {#a} to {#b}":
    "{k} kHz na {load} o podanym poziomie, harmoniczne od {a} do {b}",
  "Level at {#k} kHz unloaded and loaded, one channel at a time":
    "Poziom przy {k} kHz bez obciążenia i z nim, kanał po kanale",
  "True-RMS volts at each heater, the destination[’|']s mains set on the regulator":
    "Wolty skuteczne na każdym żarzeniu, z siecią miejsca przeznaczenia ustawioną na regulatorze",
  "Supply points, loaded, the destination[’|']s mains set on the regulator":
    "Punkty zasilacza pod obciążeniem, z siecią miejsca przeznaczenia ustawioną na regulatorze",
  "HT at the reservoir, loaded, the destination[’|']s mains set":
    "Napięcie anodowe na pierwszym kondensatorze pod obciążeniem, z ustawioną siecią miejsca przeznaczenia",
  "Magnetising current at {#p} % of the destination[’|']s mains":
    "Prąd magnesujący przy {p} % sieci miejsca przeznaczenia",
  "flux from turns and area": "strumień ze zwojów i przekroju",
  "Magnetising current at {#p} % of the destination[’|']s mains, flux from turns and area":
    "Prąd magnesujący przy {p} % sieci miejsca przeznaczenia, strumień ze zwojów i przekroju",
  "Read the fuse[’|']s rating on its cap against the primary current measured":
    "Porównaj wartość na kapturku bezpiecznika ze zmierzonym prądem pierwotnym",
  "Read the label aloud against the tap and the order":
    "Przeczytaj tabliczkę na głos i porównaj z odczepem i zamówieniem",
  "Moisture at three panels, less the middle of the destination[’|']s year":
    "Wilgotność trzech płyt minus środek roku w miejscu przeznaczenia",
  "Weigh the panels before they are joined, write down how each is held and its room to move":
    "Zważ płyty przed połączeniem, zapisz, jak każda jest trzymana i ile ma luzu",
  "Feeler gauge round the lid after the last coat has hardened":
    "Szczelinomierz wokół pokrywy, gdy ostatnia powłoka stwardnieje",
  "Closed and idling for a night in the heat-run rack, then temperature and a look with the lens":
    "Zamknięta, noc na biegu jałowym w stojaku, potem temperatura i oględziny z lupą",
  "{#a} A for {#s} s from the earth pin to chassis, jack and screws":
    "{a} A przez {s} s od bolca ochronnego do chassis, gniazda i śrub",
  "{#a} A for {#s} s from the earth pin to chassis, sockets and screws":
    "{a} A przez {s} s od bolca ochronnego do chassis, gniazd i śrub",
  "{#v} V between both mains pins and earth for a minute, then discharge":
    "{v} V między oboma bolcami sieci a ziemią przez minutę, potem rozładuj",
  "Touch current with the earth lifted, both ways round, at {#p} % of the destination[’|']s mains":
    "Prąd dotyku z odłączoną ziemią, w obu ułożeniach wtyczki, przy {p} % sieci miejsca przeznaczenia",
  "Unplug at full HT, clock the meter down to {#v} V":
    "Wyjmij wtyczkę przy pełnym napięciu anodowym, mierz czas do {v} V",
  "Unplug at full voltage, clock the meter down to {#v} V": "Wyjmij wtyczkę przy pełnym napięciu, mierz czas do {v} V",
  "Limits here are guides: local codes and a licensed practitioner decide":
    "Granice tutaj to wskazówki: decydują przepisy miejscowe i osoba z uprawnieniami",
  "Valve amplifiers hold lethal voltages after unplugging. Discharge, measure that it is gone, one hand behind your back":
    "Wzmacniacze lampowe trzymają śmiertelne napięcia po wyjęciu wtyczki. Rozładuj, zmierz, że ich nie ma, jedna ręka za plecami",
  "Mains parts are live while plugged in. Use an isolating transformer and a residual-current device":
    "Części sieciowe są pod napięciem, dopóki wtyczka jest włożona. Używaj transformatora separującego i wyłącznika różnicowego",
  "Valves and plates burn. Let them cool before touching": "Lampy i płyty parzą. Daj im ostygnąć, zanim dotkniesz",
  "Hardwood dust sensitises. Extract it and wear a mask": "Pył drewna liściastego uczula. Odciągaj go i noś maskę",
  "opened as {model} revision {revision}, tap {tap}, valves {valves}":
    "założone jako {model}, wydanie {revision}, odczep {tap}, lampy {valves}",
  "{step} done": "{step}, zrobione",
  "{_q} {#v} ± {#d}, with {instrument}": "{q} {v} ± {d} {q.unit}, przyrząd {instrument}",
  "{_q} {#v} ± {#d}, by {calculation}": "{q} {v} ± {d} {q.unit}, z {calculation}",
  "{_q} at {~where} {#v} ± {#d}, with {instrument}": "{q}, {where}: {v} ± {d} {q.unit}, przyrząd {instrument}",
  "{_q} at {~where} {#v} ± {#d}, by {calculation}": "{q}, {where}: {v} ± {d} {q.unit}, z {calculation}",
  "recording {id} ({~purpose}), on the building's mains, valves {valves}, input {~input}":
    "nagranie {id} ({purpose}), na sieci budynku, lampy {valves}, wejście {input}",
  "recording {id} ({~purpose}), regenerated at {#f} Hz, valves {valves}, input {~input}":
    "nagranie {id} ({purpose}), czyste zasilanie {f} Hz, lampy {valves}, wejście {input}",
  "came back: {says}": "wróciło: {says}",
  "fault {fault}, found at {found}: {what}": "usterka {fault}, znaleziona przy {found}: {what}",
  "fault {fault}, found at {found}": "usterka {fault}, znaleziona przy {found}",
  "packed, label {#v} V {#f} Hz, valves apart {valves}": "zapakowane, tabliczka {v} V {f} Hz, lampy osobno: {valves}",
  "came back": "wróciło",
  packed: "zapakowane",
  "rework: {why}": "przeróbka: {why}",
  "rework: {why} (now {valves})": "przeróbka: {why} (teraz {valves})",
  "a coat of {~finish} on its case": "powłoka na obudowie: {finish}",
  "{piece} of its case machined": "{piece} z jego obudowy obrobiono",
  "given case {case}": "przydzielono obudowę {case}",
  "timber kept for it: {pieces}": "odłożone dla niego drewno: {pieces}",
  "conceded {claim}: {reason}": "zgoda na odstępstwo, {claim}: {reason}",
  "released on {#n} claims, calculations {version}":
    "zwolnione na podstawie {n} {n|dowodu|dowodów|dowodów}, obliczenia {version}",
  tone: "ton",
  "two tones": "dwa tony",
  sweep: "przemiatanie",
  noise: "cisza",
  tap: "stukanie",
  hum: "przydźwięk",
  "supply shape": "kształt zasilania",
  "switching on": "włączenie",
  shorted: "zwarte",
  driven: "wysterowane",
  "{valve}, section {s}: {_q} {#a} before the heat run, {#b} after it":
    "{valve}, system {s}: {q} {a} {q.unit} przed wygrzewaniem, {b} {q.unit} po nim",
  "Four runs in five are done by then, after the date given; it waits longest for {what}":
    "Do tego dnia gotowe są cztery przebiegi na pięć, po obiecanym terminie; najdłużej czeka na: {what}",
  "Four runs in five are done by then; it waits longest for {what}":
    "Do tego dnia gotowe są cztery przebiegi na pięć; najdłużej czeka na: {what}",
  "The workshop's machine does not answer. Check that Stillglow is still running there":
    "Komputer warsztatu nie odpowiada. Sprawdź, czy Stillglow jeszcze tam działa",
  "The answer could not be read (status {#n})": "Odpowiedzi nie dało się odczytać (status {n})",
  drift: "dryf",
  "section spread": "różnica systemów",
  level: "poziom",
  balance: "lewy do prawego",
  response: "charakterystyka",
  "hum above hearing": "przydźwięk ponad progiem słyszenia",
  "A-weighted hiss": "szum ważony A",
  "A-weighted noise": "szum ważony A",
  THD: "zniekształcenia",
  "output impedance": "impedancja wyjściowa",
  "flux in the core": "strumień",
  "fuse rating over the current drawn": "bezpiecznik względem pobieranego prądu",
  "label against the tap": "tabliczka względem odczepu",
  moisture: "wilgotność",
  "moisture against its destination": "różnica wilgotności",
  "panels at risk": "zagrożone płyty",
  gap: "szczelina",
  cracks: "pęknięcia",
  crack: "pęknięcie",
  temperature: "temperatura",
  bond: "opór przewodu ochronnego",
  "earth bond": "opór przewodu ochronnego",
  resistance: "opór",
  "touch current": "prąd dotyku",
  "discharge time": "czas rozładowania",
  field: "pole",
  HT: "napięcie anodowe",
  "DC at output": "napięcie stałe na wyjściu",
  "current with the bias shorted": "prąd zwarcia polaryzacji",
  plate: "anoda",
  "cracked panel": "pęknięta płyta",
  "dry joint": "zimny lut",
  "valve drifted": "dryf lampy",
  "coat soft": "miękka powłoka",
  "earth screw loose": "luźna śruba uziemienia",
  "wrong resistor": "zły rezystor",
  "panel binds": "klinująca się płyta",
  grid: "siatka",
  screen: "siatka ekranująca",
  mass: "masa",
  "full scale": "pełne wysterowanie",
  "gap to lid": "szczelina przy pokrywie",
  "grid current": "prąd siatki",
  leakage: "upływ",
  "level in chassis": "poziom w chassis",
  "V r.m.s.": "V sk.",
  "mV r.m.s.": "mV sk.",
  "µV r.m.s.": "µV sk.",
  "crest factor": "współczynnik szczytu",
  "gap change": "zmiana szczeliny",
  heat: "ciepło",
  heater: "żarzenie",
  humidity: "wilgotność powietrza",
  imd: "intermodulacja",
  "jack DC": "napięcie stałe na gnieździe",
  lines: "linie",
  pulse: "impuls",
  settle: "uspokojone po",
  taps: "puknięcia",
  thdn: "zniekształcenia + szum",
  "gain at 1k hz": "wzmocnienie przy 1 kHz",
  "V peak": "V szczyt.",
  "V quasi-peak": "V quasi-szczyt.",
  account: "rozliczenie",
  "planned-stages": "plan etapów",
  "finish-plan": "plan wykończenia",
  "case-panels": "płyty obudowy",
  "opened as {model} revision {revision}, tap {tap}, valves ":
    "założone jako {model}, wydanie {revision}, odczep {tap}, jeszcze bez lamp",
  "Input shorted, {#o} ohm loads, all lines together on clean supply; {#s} s on the building's mains beside it":
    "Wejście zwarte, obciążenia {o} omów, wszystkie linie razem na czystym zasilaniu; obok {s} s na sieci budynku",
  "{~step}: its {#h} h are up": "{step}: minęło {h} h",
  "Its {#h} h are over ({~where}). {~rest}": "Minęło {h} h ({where}). {rest}",
  "{place}, slot {#n}": "{place}, stanowisko {n}",
  "{~where}: no {_q} on record": "{where}: {q}, nic nie zapisano",
  "{point}: no {_q} on record": "{point}: {q}, nic nie zapisano",
  "{~where}: reads {_q} {#v} ± {#d}, {~verdict}": "{where}: {q} {v} ± {d} {q.unit}, {verdict}",
  "{point}: reads {_q} {#v} ± {#d}, {~verdict}": "{point}: {q} {v} ± {d} {q.unit}, {verdict}",
  "{_q} at {point} {#v} ± {#d}, with {instrument}": "{q}, {point}: {v} ± {d} {q.unit}, przyrząd {instrument}",
  "left channel, {~cause}": "kanał lewy, {cause}",
  "right channel, {~cause}": "kanał prawy, {cause}",
  "{#d} s": "{d} s",
  return: "zwrot",
  "Millivolts at the sockets into {#a} kilohm, at switching on and settled":
    "Miliwolty na gniazdach przy {a} kiloomach, przy włączeniu i po ustaleniu",
  "{~step}: its {#h} h are up ({~where})": "{step}: minęło {h} h ({where})",
  "heat run of {#n} valves of batch {batch} ends: read the reference valve, then read them hot ({where})":
    "wygrzewanie {n} {n|lampy|lamp} z partii {batch} kończy się: zmierz lampę wzorcową, potem je na gorąco ({where})",
  "Closed and idling for a night on the soak shelf, then temperature and a look with the lens":
    "Zamknięta, noc na biegu jałowym na półce do wygrzewania, potem temperatura i oględziny z lupą",
};
