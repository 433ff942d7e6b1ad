import type { Sentences } from "../../sentences/phrasebook.ts";

/** What hum, taps and bench recordings say, in Polish. */
export const sentences: Sentences = {
  left: "lewy",
  right: "prawy",
  both: "oba",
  "in left": "w lewym",
  "in right": "w prawym",
  "reading {recording}": "czytanie {recording}",
  "reading {recording}, {channel}": "czytanie {recording}, {channel}",
  "weighing the causes in {~channel}": "ważenie przyczyn: {channel}",
  "the supplies it ran on": "zasilania, na których pracowało",
  "who would hear it": "kto by to usłyszał",
  "No hum recording of this unit yet. Begin with one on the building's mains, input shorted":
    "Nie ma jeszcze nagrania przydźwięku tego urządzenia. Zacznij od nagrania na sieci budynku, wejście zwarte",
  "Recording {id} is not compared: {~why}. A regenerator with cut peaks or a sag lowers HT, and a hum that goes with it is not cured":
    "Nagranie {id} nie jest porównywane: {why}. Regenerator ze ściętymi szczytami lub spadkiem obniża napięcie anodowe, a przydźwięk, który z tym znika, nie jest wyleczony",
  "Recording {id} decides nothing: by its own supply channel, {~why}. A hum that falls with the HT is not cured":
    "Nagranie {id} niczego nie rozstrzyga: według własnego kanału zasilania {why}. Przydźwięk, który spada z napięciem anodowym, nie jest wyleczony",
  "its shape was recorded that day and {~why}": "jego kształt nagrano tego dnia i {why}",
  "by its own supply channel {~why}": "według własnego kanału zasilania {why}",
  "its supply channel stood {#p} % lower than on the building's mains":
    "jego kanał zasilania był o {p} % niżej niż na sieci budynku",
  "HT stood {#p} % lower than on the building's mains": "napięcie anodowe było o {p} % niższe niż na sieci budynku",
  "it stands {#p} % lower than the building's mains": "jest o {p} % niższe niż sieć budynku",
  "its peaks are cut: crest factor {#c} ± {#d}, not under {#n}":
    "jego szczyty są ścięte: współczynnik szczytu {c} ± {d}, nie poniżej {n}",
  "its peaks are cut: crest factor {~rest}": "jego szczyty są ścięte: współczynnik szczytu {rest}",
  "crest factor {~rest}": "współczynnik szczytu {rest}",
  "THD {~rest}": "zniekształcenia {rest}",
  "{#v} ± {#d}, not under {#n}": "{v} ± {d}, nie poniżej {n}",
  "{#v} ± {#d}, not over {#n}": "{v} ± {d}, nie powyżej {n}",
  "{#v} ± {#d} %, not over {#n} %": "{v} ± {d} %, nie powyżej {n} %",
  "{#v}, not under {#n}: {~verdict}": "{v}, nie poniżej {n}: {verdict}",
  "{#v}, not over {#n}: {~verdict}": "{v}, nie powyżej {n}: {verdict}",
  "{#v}, not under {#a}, not over {#b}: {~verdict}": "{v}, nie poniżej {a} i nie powyżej {b}: {verdict}",
  "distortion {~rest}": "zniekształcenia {rest}",
  "level {~rest}": "poziom {rest}",
  "Doubts are the scatter between blocks of about {#t} ms; the divider's own error is not among them":
    "Niepewności to rozrzut między blokami po około {t} ms; własnego błędu dzielnika w nich nie ma",
  "Limits left out are common practice for a supply that shall count as clean, with no source":
    "Pominięte granice to zwyczaj dla zasilania, które ma uchodzić za czyste; bez źródła",
  "not under {#n}": "nie poniżej {n}",
  "not over {#n}": "nie powyżej {n}",
  "{~what}: too near to tell": "{what}: za blisko, by orzec",
  "too near to tell": "za blisko, by orzec",
  outside: "poza granicą",
  "{~channel}: quiet, no mains-related line stands out of the floor":
    "{channel}: cicho, żadna linia sieci nie wystaje z szumu",
  "{~channel}: undecided. {~why}": "{channel}: nierozstrzygnięte. {why}",
  "{~channel}: {~cause} ({~odds})": "{channel}: {cause} ({odds})",
  "{~channel}: {~cause}": "{channel}: {cause}",
  "odds over {#n} in 100": "szansa ponad {n} na 100",
  "odds {#n} in 100": "szansa {n} na 100",
  "valve {valve} at {position}": "lampa {valve} na {position}",
  "the distortion of this building's mains brings it in; it is gone on a clean supply":
    "wnosi go zniekształcenie sieci tego budynku; na czystym zasilaniu znika",
  "pick-up of this building's field; what another house brings can't be told from here":
    "zbierany z pola tego budynku; co wniesie inny dom, stąd nie wiadomo",
  "pick-up of this building's field": "zbierany z pola tego budynku",
  "the amplifier's own supply or wiring": "własny zasilacz lub okablowanie wzmacniacza",
  "{#f} Hz": "{f} Hz",
  "{fs} Hz in the {~where}: the loudest, {#f} Hz, is {~heard}":
    "{fs} Hz, {where}: najgłośniejsza, {f} Hz, jest {heard}",
  "{#f} Hz in the {~where}: {~heard}": "{f} Hz, {where}: {heard}",
  "{~channel}, {~cause}": "{channel}, {cause}",
  "of a cause not told apart": "z przyczyny nie do odróżnienia",
  "mostly {~cause}": "głównie {cause}",
  "Its other lines ({lines} and others) are below the threshold of hearing on all headphones on file":
    "Pozostałe linie ({lines} i inne) leżą poniżej progu słyszenia we wszystkich zapisanych słuchawkach",
  "Its other lines ({lines}) are below the threshold of hearing on all headphones on file":
    "Pozostałe linie ({lines}) leżą poniżej progu słyszenia we wszystkich zapisanych słuchawkach",
  "{#f} Hz and its multiples in the {~channel}: {~cause}; the loudest of them is {~heard}":
    "{f} Hz i wielokrotności, {channel}: {cause}; najgłośniejsza z nich jest {heard}",
  "outside the {#a} Hz to {#b} kHz that thresholds are known for":
    "poza zakresem od {a} Hz do {b} kHz, dla którego progi są znane",
  "no headphones are on file to judge it by": "bez zapisanych słuchawek nie do oceny",
  "below the threshold of hearing on all {#n} headphones": "poniżej progu słyszenia we wszystkich {n} słuchawkach",
  "audible for certain on none of {#n} headphones, doubtful on {#d}":
    "w żadnych z {n} słuchawek na pewno niesłyszalna, w {d} wątpliwa",
  "audible on {#k} of {#n} headphones": "słyszalna w {k} z {n} słuchawek",
  "audible on {#k} of {#n} headphones, doubtful on {#d}": "słyszalna w {k} z {n} słuchawek, w {d} wątpliwa",
  "{~heard}, though its own hiss covers it": "{heard}, choć zakrywa ją własny szum",
  "the amplifier itself": "sam wzmacniacz",
  "pick-up of the building's field": "zbieranie z pola budynku",
  "distortion of the building's mains": "zniekształcenie sieci budynku",
  "The recordings leave {&causes} possible: {~missing}": "Nagrania zostawiają możliwe: {causes}; {missing}",
  "no recording was made on a supply at another frequency than the building's":
    "nie ma nagrania na zasilaniu o innej częstotliwości niż sieć budynku",
  "no recording was made on a clean supply": "nie ma nagrania na czystym zasilaniu",
  "{&causes} was never exchanged": "{causes}: nigdy nie wymieniono",
  "{&causes} were never exchanged": "{causes}: nigdy nie wymieniono",
  "not separable: {~cause} and {&names} came and went together":
    "nie do rozdzielenia: {cause} oraz {names} pojawiały się i znikały razem",
  "No one cause stands out enough among {&causes}": "Żadna przyczyna nie wyróżnia się dość wśród: {causes}",
  "{&causes} is likely, but not surely more than half of the hum":
    "{causes}: prawdopodobne, ale nie na pewno więcej niż połowa przydźwięku",
  "{number} causes together: {~parts}; none of them is surely more than half":
    "Kilka przyczyn razem: {parts}; żadna z nich nie jest na pewno ponad połową",
  "{~cause} ({#a} to {#b} % of the hum), {~rest}": "{cause} (od {a} do {b} % przydźwięku), {rest}",
  "{~cause} ({#a} to {#b} % of the hum) and {~rest}": "{cause} (od {a} do {b} % przydźwięku) i {rest}",
  "{~cause} ({#a} to {#b} % of the hum)": "{cause} (od {a} do {b} % przydźwięku)",
  "Still possible in {~channel}: {~causes}": "Wciąż możliwe ({channel}): {causes}",
  "In {~channel}, a supply at {#f} Hz parts what follows the unit's supply from the building's field and from what the building's mains bring in":
    "Zasilanie {f} Hz oddziela ({channel}) to, co idzie za zasilaniem urządzenia, od pola budynku i od tego, co wnosi jego sieć",
  "In {~channel}, the building's own mains show what they bring in": "Sama sieć budynku pokaże ({channel}), co wnosi",
  "{~what} at {position} in place of {valve}, everything else as it was: hum that falls was the valve's, hum that stays was not":
    "{what} na {position} zamiast {valve}, reszta jak była: przydźwięk, który spadnie, był lampy, który zostanie, nie był",
  "fit {id}": "włóż {id}",
  "fit {a} or {b}": "włóż {a} lub {b}",
  "fit another valve from the shelf": "włóż inną lampę z półki",
  "fit another valve from the shelf, other than {tried}": "włóż inną lampę z półki, nie {tried}",
  "Of {#n} ways on it tells most for its {#m} minutes": "Z {n} dróg ta mówi najwięcej za swoje {m} min",
  "{lines} They lie close together; a second offset frequency, with a mains reference channel and a longer recording, reads them apart once more":
    "{lines} Leżą blisko siebie; druga częstotliwość odstrojona, z kanałem sieci i dłuższym nagraniem, rozdzieli je jeszcze raz",
  "{id}: its supply was not sound ({~why}). That lowers HT, and a hum that falls with it is not cured: its lines stand, but it decides nothing":
    "{id}: zasilanie nie było zdrowe ({why}). To obniża napięcie anodowe, a przydźwięk, który z nim spada, nie jest wyleczony: linie zostają, ale niczego nie rozstrzygają",
  "{id}: in {~channel} the hum moved by {#a} dB since {other}, its hiss by {#b} dB. That is how a changed gain looks (another valve, the volume control, the recorder), so it decides nothing there":
    "{id}: od {other} przydźwięk ({channel}) zmienił się o {a} dB, szum o {b} dB. Tak wygląda zmienione wzmocnienie (inna lampa, potencjometr, rejestrator), więc tam niczego nie rozstrzyga",
  "{id}: in {~channel} the hum moved by {#a} dB since {other}, its hiss by {#b} dB and the building's lines by {#c} dB. That is how a changed gain looks (another valve, the volume control, the recorder), so it decides nothing there":
    "{id}: od {other} przydźwięk ({channel}) zmienił się o {a} dB, szum o {b} dB, a linie budynku o {c} dB. Tak wygląda zmienione wzmocnienie (inna lampa, potencjometr, rejestrator), więc tam niczego nie rozstrzyga",
  "{valve} at {position} was not exchanged on an offset supply, so a lead laid otherwise meanwhile would look the same in {~channel}: put it back and hear the hum return before it is laid aside":
    "{valve} na {position} nie wymieniono przy odstrojonym zasilaniu, więc inaczej ułożony przewód wyglądałby ({channel}) tak samo: włóż ją z powrotem i usłysz, że przydźwięk wraca, zanim ją odłożysz",
  "{#n} faint lines were not weighed, to answer in time; their causes stand as open. More seconds granted weigh them too":
    "{n} słabych linii nie zważono, by odpowiedzieć na czas; ich przyczyny stoją otwarte. Więcej sekund zważy i je",
  "{id}: {&channels} clipped; its lines are not to be trusted":
    "{id}: {channels} przesterowane; jego liniom nie można ufać",
  "{id}: the file is cut short; {#s} s of it were used": "{id}: plik jest urwany; użyto {s} s",
  "{id}: {#s} s is short; {#t} s part near lines better": "{id}: {s} s to krótko; {t} s lepiej rozdziela bliskie linie",
  "{id}: its input was {~given}, not {~closed}; its lines stand, but it decides nothing":
    "{id}: wejście było {given}, nie {closed}; linie zostają, ale niczego nie rozstrzygają",
  open: "otwarte",
  terminated: "zamknięte oporem",
  "Only the first {#s} s of {~which} were read, to answer in time; more seconds granted read more":
    "Odczytano tylko pierwsze {s} s ({which}), by odpowiedzieć na czas; więcej sekund odczyta więcej",
  "each recording": "każdego nagrania",
  "{#a} of {#b} recordings": "{a} z {b} nagrań",
  "feeds names {position}, which no recording has a valve at":
    "podano {position}, gdzie w żadnym nagraniu nie ma lampy",
  "No tap stands out of the noise: tap harder, or raise the gain":
    "Żadne stuknięcie nie wystaje z szumu: stukaj mocniej albo podnieś wzmocnienie",
  "no tap stands out of the noise; tap harder, or raise the gain":
    "żadne stuknięcie nie wystaje z szumu; stukaj mocniej albo podnieś wzmocnienie",
  "Tapped, nothing in it rings for longer than any valve does":
    "Po stuknięciu nic w nim nie dzwoni dłużej niż każda lampa",
  "{#f} Hz for {#t} ms": "{f} Hz przez {t} ms",
  "Valve {valve} in {position} is microphonic: tapped, it rings at {~note}; with another valve in its place nothing does. No hum recording shows it":
    "Lampa {valve} na {position} mikrofonuje: po stuknięciu dzwoni z {note}; z inną na jej miejscu nie dzwoni nic. Żadne nagranie przydźwięku tego nie pokazuje",
  "Tapped, it rings at {~note}, and with no one valve: look at sockets and wiring":
    "Po stuknięciu dzwoni z {note}, i z żadną określoną lampą: obejrzyj podstawki i okablowanie",
  "Tapped, it rings at {~note}. Exchange {valves} and tap again: a ring that leaves with the valve is the valve's":
    "Po stuknięciu dzwoni z {note}. Wymień {valves} i stuknij znowu: dzwonienie, które znika z lampą, jest jej",
  "what rings is too weak against the noise; tap harder, or raise the gain":
    "to, co dzwoni, jest za słabe wobec szumu; stukaj mocniej albo podnieś wzmocnienie",
  "the taps leave no resonance that stands out of the noise":
    "stuknięcia nie zostawiają rezonansu, który wystaje z szumu",
  "{name}: the recorder was driven beyond its range (clipped); {~rest}": "{name}: rejestrator przesterowano; {rest}",
  "peaks read low": "szczyty odczytano za nisko",
  "its level reads low": "jego poziom odczytano za nisko",
  "turn it down and record again": "ścisz i nagraj ponownie",
  "distortion is not the amplifier's alone": "zniekształcenia nie są tylko wzmacniacza",
  "harmonics are not the amplifier's alone": "harmoniczne nie są tylko wzmacniacza",
  "products are not the amplifier's alone": "produkty nie są tylko wzmacniacza",
  "Only the channel {name} is judged": "Oceniany jest tylko kanał {name}",
  "Of this long recording {#a} to {#b} s are judged, where taps were hardest":
    "Z tego długiego nagrania ocenia się od {a} do {b} s, gdzie stukano najmocniej",
  "Of {#a} taps the {#b} in a row that were struck hardest are judged":
    "Z {a} stuknięć ocenia się {b} najmocniejszych z rzędu",
  "More may ring than was looked for in the time: cut the recording to fewer taps, or grant more seconds":
    "Może dzwonić więcej, niż dało się w tym czasie znaleźć: przytnij do mniej stuknięć albo daj więcej sekund",
  "Nearly every resonance rings after one tap alone: music, or different things struck, rather than one":
    "Prawie każdy rezonans dzwoni po jednym tylko stuknięciu: raczej muzyka lub różne rzeczy niż jedna",
  "A steady line at {#f} Hz does not go with the taps and is left out":
    "Stała linia przy {f} Hz nie idzie za stuknięciami i jest pominięta",
  "Something rings near {#f} Hz, too weak to say for how long":
    "Coś dzwoni koło {f} Hz, za słabo, by powiedzieć jak długo",
  "what was played is not on record, so nothing can be judged": "nie zapisano, co grano, więc nic nie da się ocenić",
  "nothing played": "nic nie grano",
  "input {~input}": "wejście {input}",
  "input {~input}, {~rest}": "wejście {input}, {rest}",
  "nothing played, {~rest}": "nic nie grano, {rest}",
  "on the building's mains at {#f} Hz": "na sieci budynku {f} Hz",
  "on clean supply at {#f} Hz": "na czystym zasilaniu {f} Hz",
  "{~channel} driven alone": "wysterowany tylko {channel}",
  "{~channel} driven alone, {~rest}": "wysterowany tylko {channel}, {rest}",
  "volume at {volume}": "głośność na {volume}",
  "volume at {volume}, {~rest}": "głośność na {volume}, {rest}",
  "into {#o} Ω": "na {o} Ω",
  "into {#o} Ω, {~rest}": "na {o} Ω, {rest}",
  "{#f} Hz, {~rest}": "{f} Hz, {rest}",
  "{#f} Hz at {#v} V peak, {~rest}": "{f} Hz o {v} V szczyt., {rest}",
  "{#f} and {#g} Hz for {~products}, {~rest}": "{f} i {g} Hz dla {products}, {rest}",
  "{#f} and {#g} Hz for {~products} at {#v} V peak, {~rest}": "{f} i {g} Hz dla {products} o {v} V szczyt., {rest}",
  modulation: "modulacji",
  difference: "tonu różnicowego",
  "sweep from {#a} Hz to {#b} Hz in {#s} s, {~rest}": "przemiatanie od {a} Hz do {b} Hz w {s} s, {rest}",
  "sweep from {#a} Hz to {#b} Hz in {#s} s at {#v} V peak, {~rest}":
    "przemiatanie od {a} Hz do {b} Hz w {s} s o {v} V szczyt., {rest}",
  "Some rounds change with the setting, others do not": "Niektóre rundy zmieniają się z ustawieniem, inne nie",
  "Left and right part by {#n} dB over the settings, with either set of valves alike: the tracks of the volume control differ. The valves are not at fault":
    "Lewy i prawy rozchodzą się w ustawieniach o {n} dB, z oboma zestawami lamp jednakowo: ścieżki potencjometru się różnią. Lampy nie są winne",
  "The error changes with the setting and, by {#n} dB, with the valves too: look for both":
    "Błąd zmienia się z ustawieniem i, o {n} dB, także z lampami: szukaj obu",
  "Left and right are alike at every setting, within a tenth of a decibel":
    "Lewy i prawy są jednakowe w każdym ustawieniu, do dziesiątej decybela",
  "Left over right stays at {~n} at every setting: it is not the control. Exchange the valves and record again: an error that goes with them is theirs, one that stays is the circuit's":
    "Lewy do prawego zostaje w każdym ustawieniu {n}: to nie potencjometr. Zamień lampy i nagraj znowu: błąd, który idzie z nimi, jest ich, który zostaje, układu",
  "Left over right is {~a} with {x} and {~b} with {y}, alike at every setting: it goes with the valves. The volume control is not at fault":
    "Lewy do prawego to {a} z {x} i {b} z {y}, jednakowo w każdym ustawieniu: idzie z lampami. Potencjometr nie jest winny",
  "Left over right stays at {~n} at every setting and with either set of valves: it is neither the control nor a valve, so look at the parts of the two channels":
    "Lewy do prawego zostaje {n} w każdym ustawieniu i z oboma zestawami lamp: to ani potencjometr, ani lampa, więc obejrzyj części obu kanałów",
  "{~reason} Exchange the valves and record the same settings again: an error that stays is the control's":
    "{reason} Zamień lampy i nagraj te same ustawienia znowu: błąd, który zostaje, jest potencjometru",
  "The difference moves by {#n} dB over the positions, more than its doubt: the control's tracks differ. What valves add stays alike at every position":
    "Różnica zmienia się w ustawieniach o {n} dB, więcej niż jej niepewność: ścieżki potencjometru się różnią. To, co dodają lampy, jest w każdym ustawieniu jednakowe",
  "The difference stays at {#n} dB at every position: it is not the control but valves or circuit":
    "Różnica zostaje w każdym ustawieniu {n} dB: to nie potencjometr, lecz lampy lub układ",
  "The positions differ by {#n} dB with a doubt of {#d} dB; record for longer or at a higher level":
    "Ustawienia różnią się o {n} dB przy niepewności {d} dB; nagrywaj dłużej albo głośniej",
  "Noise figures cover {#a} Hz to {#b} kHz with sharp edges; lines are found at a chance of {#p} in 100 a channel that noise alone is named":
    "Wartości szumu obejmują od {a} Hz do {b} kHz z ostrymi krawędziami; linie znajduje się z szansą {p} na 100 na kanał, że nazwano sam szum",
  "The mains frequency moved during the recording and was followed; its mean is given":
    "Częstotliwość sieci zmieniała się podczas nagrania i była śledzona; podano średnią",
  "No mains lines stand out of the noise; the mains frequency given is [the|a] nominal, not measured":
    "Żadne linie sieci nie wystają z szumu; podana częstotliwość sieci jest znamionowa, nie zmierzona",
  "{name}: the level is not steady: music, handling or a fault that comes and goes. Doubts hold for steady noise":
    "{name}: poziom nie jest stały: muzyka, dotykanie lub usterka, która przychodzi i odchodzi. Niepewności są dla stałego szumu",
  "{name}: digital silence or nothing but a constant voltage; check that the channel was connected":
    "{name}: cisza cyfrowa lub samo napięcie stałe; sprawdź, czy kanał był podłączony",
  "At {#r} samples a second nothing above {#f} Hz is included":
    "Przy {r} próbkach na sekundę nic powyżej {f} Hz nie jest ujęte",
  "The quasi-peak meter needs about a second to rise; a longer recording reads it better":
    "Miernik quasi-szczytowy potrzebuje około sekundy na wzrost; dłuższe nagranie odczyta go lepiej",
  "Read in {#n} stretches of {#s} s: levels are r.m.s. over all of them, frequencies means, and a mains line must stand out within a stretch":
    "Odczytano w {n} odcinkach po {s} s: poziomy są skuteczne po wszystkich, częstotliwości średnie, a linia sieci musi wystawać w odcinku",
  "Distortion has the noise that each harmonic holds taken off; figures that a noise floor hides are limits, with a doubt as large as themselves":
    "Od zniekształceń odjęto szum w każdej harmonicznej; wartości zakryte szumem są granicami o tak samo dużej niepewności",
  "{name}: no tone stands out of the noise, so this channel has no figures":
    "{name}: żaden ton nie wystaje z szumu, więc ten kanał nie ma wartości",
  "{name}: no two tones stand out of the noise, so this channel has no figures":
    "{name}: dwa tony nie wystają z szumu, więc ten kanał nie ma wartości",
  "{name}: distortion lies in the noise; it is at most {#p} %":
    "{name}: zniekształcenia leżą w szumie; wynoszą najwyżej {p} %",
  "{name}: intermodulation lies in the noise; it is at most {#p} %":
    "{name}: intermodulacja leży w szumie; wynosi najwyżej {p} %",
  "{name}: crosstalk lies in the noise; it is at most {#d} dB":
    "{name}: przesłuch leży w szumie; wynosi najwyżej {d} dB",
  "{name}: harmonics above {#n} lie beyond half the sample rate and are not counted":
    "{name}: harmoniczne powyżej {n}. leżą poza połową próbkowania i nie są liczone",
  "{name}: the tone is not alone: {#p} % of its level is something else. One steady tone is expected":
    "{name}: ton nie jest sam: {p} % jego poziomu to coś innego. Oczekiwany jest jeden stały ton",
  "{name}: the tone drifted against the recorder's clock and was followed":
    "{name}: ton płynął względem zegara rejestratora i był śledzony",
  "{name}: the tones drifted against the recorder's clock and were followed":
    "{name}: tony płynęły względem zegara rejestratora i były śledzone",
  "{name}: the two tones are not alone: {#v} V of something else is in the recording":
    "{name}: dwa tony nie są same: {v} V czegoś innego jest w nagraniu",
  "{name}: the tones stand {#a} to {#b}, low to high; {#c} to {#d} is usual for this kind":
    "{name}: tony stoją {a} do {b}, niski do wysokiego; zwykle {c} do {d}",
  "{name}: the {other} channel holds no tone that stands out of the noise; is it driven?":
    "{name}: kanał {other} nie ma tonu, który wystaje z szumu; czy jest wysterowany?",
  "{name}: the tone in the {other} channel is not alone; one steady tone is expected, not music or noise":
    "{name}: ton w kanale {other} nie jest sam; oczekiwany jest jeden stały ton, nie muzyka ani szum",
  "{name}: {a} is said to be driven but {b} is louder by {#d} dB; the channels seem exchanged":
    "{name}: wysterowany ma być {a}, ale {b} jest głośniejszy o {d} dB; kanały wydają się zamienione",
  "phase_deg is free of the delay to the sweep's start, found as what is left beside the phase that goes with the gain":
    "Faza jest wolna od opóźnienia do początku przemiatania",
  "gain_dB is the level in dB over 1 V peak, as no level_Vpk was given":
    "Wzmocnienie to poziom w dB nad 1 V szczyt., bo nie podano napięcia na wejściu",
  "The recording holds the sweep from {#a} Hz to {#b} Hz only; the rest was not recorded":
    "Nagranie zawiera przemiatanie tylko od {a} Hz do {b} Hz; reszty nie nagrano",
  "Mains lines were fitted and taken out": "Linie sieci dopasowano i wyjęto",
  "The player's clock runs {#a} ± {#b} ppm against the recorder's; it is allowed for":
    "Zegar odtwarzacza idzie {a} ± {b} ppm względem rejestratora; uwzględniono to",
  "The sweep goes beyond half the sample rate; what lies there is not seen":
    "Przemiatanie wychodzi poza połowę próbkowania; tego, co tam leży, nie widać",
  "Channel {#n}: {#p} % of the power is not explained by the sweep; noise, or another sound":
    "Kanał {n}: {p} % mocy nie tłumaczy przemiatanie; szum lub inny dźwięk",
  "{name}: start the recorder a second or more before switching on":
    "{name}: włącz rejestrator co najmniej sekundę przed włączeniem",
  "no pulse stands out of the noise; its figures are limits":
    "żaden impuls nie wystaje z szumu; jego wartości są granicami",
  "the recording begins after the switch, so where zero lies is not known":
    "nagranie zaczyna się po przełączeniu, więc nie wiadomo, gdzie leży zero",
  "the recorder is not known to pass direct voltage, so the rest is not told":
    "nie wiadomo, czy rejestrator przepuszcza napięcie stałe, więc spoczynku nie podano",
  "the recorder was driven beyond its range: the pulse is higher than it reads":
    "rejestrator przesterowano: impuls jest wyższy, niż odczytano",
  "it had not come within {#m} mV of its rest when the record ended":
    "na końcu nagrania nie doszło do spoczynku na {m} mV",
  "The two levels differ by {#p} %, too little against their doubt; take loads that lie further apart":
    "Oba poziomy różnią się o {p} %, za mało wobec niepewności; weź obciążenia dalsze od siebie",
  "{name}: the tone stands within {#d} dB of full scale, where some recorders bend; {#a} to {#b} dB lower is better":
    "{name}: ton leży {d} dB poniżej pełnego wysterowania, gdzie niektóre rejestratory są krzywe; lepiej o {a} do {b} dB niżej",
  "{name}: the tone stands {#d} dB under full scale; a louder one calibrates better":
    "{name}: ton leży {d} dB poniżej pełnego wysterowania; głośniejszy kalibruje lepiej",
  "The samples come in steps of {#n} bits: between recorder and file something may have cut them down; nothing finer can be seen":
    "Próbki mają skok {n} bitów: między rejestratorem a plikiem coś mogło je obciąć; nic drobniejszego nie widać",
  "Without a record of silence the recorder's own noise is not known":
    "Bez nagrania ciszy nie znamy własnego szumu rejestratora",
  "Distortion and noise are those of player and recorder together: the recorder alone has at most as much":
    "Zniekształcenia i szum są odtwarzacza i rejestratora razem: sam rejestrator ma najwyżej tyle",
  "The recording holds the sweep from {#a} to {#b} Hz only; the rest was not recorded":
    "Nagranie zawiera przemiatanie tylko od {a} do {b} Hz; reszty nie nagrano",
  "The loop-back shows a high-pass at {shown}; as the recorder is said to pass direct voltage, it is the player's":
    "Pętla pokazuje filtr górnoprzepustowy przy {shown}; skoro rejestrator ma przepuszczać napięcie stałe, jest on odtwarzacza",
  "The recorder passes no direct voltage: the resting voltage at the jack is not seen. Read it with a meter":
    "Rejestrator nie przepuszcza napięcia stałego: napięcia spoczynkowego na gnieździe nie widać. Zmierz je miernikiem",
  "The recorder is not known to pass direct voltage: the resting voltage at the jack is not seen. Read it with a meter":
    "Nie wiadomo, czy rejestrator przepuszcza napięcie stałe: napięcia spoczynkowego na gnieździe nie widać. Zmierz je miernikiem",
  "How slow a pulse it can follow is not known: slow ones read low and end too soon. Give the recorder's loop-back":
    "Nie wiadomo, za jak wolnym impulsem nadąża: wolne czyta za nisko i kończy za wcześnie. Podaj pętlę rejestratora",
  "Its loop-back shows a high-pass at {shown}, the player's included: a pulse that lasts more than {#t} ms reads low by a tenth or more. What undoing it changes is in the doubt":
    "Jego pętla pokazuje filtr górnoprzepustowy przy {shown}, z odtwarzaczem: impuls dłuższy niż {t} ms czyta się o dziesiątą część lub więcej za nisko. To, co zmienia odwrócenie, jest w niepewności",
  "audible for certain on none of {#n} headphones": "w żadnych z {n} słuchawek na pewno niesłyszalna",
  "the same valves": "tymi samymi lampami",
  "what was sent": "to, co wysłano",
};
