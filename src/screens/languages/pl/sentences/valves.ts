import type { Sentences } from "../../sentences/phrasebook.ts";

/** What trays, sets and the buying of valves say, in Polish. */
export const sentences: Sentences = {
  "{place}: Section {s}: {~rest}": "{place}: system {s}: {rest}",
  "{place}: Sections' spread {~rest}": "{place}: różnica systemów {rest}",
  "{place}: Sections' spread: {~rest}": "{place}: różnica systemów: {rest}",
  "Section {s}: {~rest}": "System {s}: {rest}",
  "Sections' spread: {~rest}": "Różnica systemów: {rest}",
  "{~what}: inside": "{what}: w granicy",
  "{~what}: outside by more than the doubt": "{what}: poza granicą o więcej niż niepewność",
  "{~what}: nearer the limit than the doubt; {~decides}": "{what}: bliżej granicy niż niepewność; {decides}",
  "the mean of {#n} readings {~where}, and as many of the reference valve, would decide if it stays there":
    "średnia z {n} odczytów {where} i tylu samo lampy wzorcowej rozstrzygnęłaby, jeśli tam zostanie",
  "before and after": "przed i po",
  "of both sections": "obu systemów",
  "of grid current": "prądu siatki",
  "of heater-cathode leakage": "upływu grzejnik–katoda",
  "of grid current and gm": "prądu siatki i nachylenia",
  "of gm": "nachylenia",
  "at both heater voltages": "przy obu napięciach żarzenia",
  "it stands on the limit: more readings will hardly decide, a longer heat run may":
    "stoi na granicy: dalsze odczyty raczej nie rozstrzygną, dłuższe wygrzewanie może",
  "drift {#v} % ± {#d} % over the heat run ({#a} to {#b} mA, tester put right), limit ±{#l} %":
    "dryf {v} % ± {d} % przy wygrzewaniu (z {a} na {b} mA, tester poprawiony), granica ±{l} %",
  "Sections' spread {#v} % ± {#d} % after the heat run ({readings} mA), limit {#l} %":
    "Różnica systemów {v} % ± {d} % po wygrzewaniu ({readings} mA), granica {l} %",
  "{#v} % ± {#d} % after the heat run ({readings} mA), limit {#l} %":
    "{v} % ± {d} % po wygrzewaniu ({readings} mA), granica {l} %",
  "a section was not read after the heat run; take that reading":
    "jednego systemu nie zmierzono po wygrzewaniu; zrób ten odczyt",
  "no section carries plate current; check heater and contacts":
    "żaden system nie przewodzi prądu anodowego; sprawdź żarzenie i styki",
  "grid current": "prąd siatki",
  "heater-cathode leakage": "upływ grzejnik–katoda",
  "{~what} {#v} ± {#d} µA, limit {#l} µA": "{what} {v} ± {d} µA, granica {l} µA",
  "{~what} has a limit but was not read after the heat run; read it":
    "{what} ma granicę, ale nie zmierzono go po wygrzewaniu; zmierz",
  "{~missing}, so its drift is not known; {~do}": "{missing}, więc jego dryf nie jest znany; {do}",
  "no reading before the heat run": "brak odczytu przed wygrzewaniem",
  "no reading after the heat run": "brak odczytu po wygrzewaniu",
  "no plate current before the heat run": "brak prądu anodowego przed wygrzewaniem",
  "take that reading": "zrób ten odczyt",
  "check heater and contacts, then read again": "sprawdź żarzenie i styki, potem zmierz znowu",
  "No limit of drift was given": "Nie podano granicy dryfu",
  "gm has a limit but was not read after the heat run; read it":
    "Nachylenie ma granicę, ale nie zmierzono go po wygrzewaniu; zmierz",
  "gm is limited in per cent of print, but the catalogue has no gm for {type}; judge it by its sheet":
    "Nachylenie ma granicę w procentach druku, ale katalog nie zna go dla {type}; oceń według jej karty",
  "gm {#v} mS is {#p} % ± {#d} % of the {#n} mS printed, at least {#l} % wanted":
    "nachylenie {v} mS to {p} % ± {d} % drukowanych {n} mS, wymagane co najmniej {l} %",
  "grid current was not read after the heat run, so its shift of bias in {place} is not known; read it":
    "prądu siatki nie zmierzono po wygrzewaniu, więc przesunięcie polaryzacji w {place} nie jest znane; zmierz",
  "none of the sections {sections} it uses was read; read them":
    "żadnego z używanych systemów {sections} nie zmierzono; zmierz",
  "{#i} µA of grid current in {#r} kΩ moves the bias by {#v} V, {#p} ± {#d} {~what}, limit {#l} {unit}":
    "{i} µA prądu siatki w {r} kΩ przesuwa polaryzację o {v} V, {p} ± {d} {what}, granica {l} {unit}",
  "{#i} µA of grid current in {#r} kΩ moves the bias by {#v} V and the plate current by {#m} mA, {#p} ± {#d} {~what}, limit {#l} {unit}":
    "{i} µA prądu siatki w {r} kΩ przesuwa polaryzację o {v} V, a prąd anodowy o {m} mA, {p} ± {d} {what}, granica {l} {unit}",
  "{#i} µA of grid current in {#r} kΩ moves the bias by {#v} V; what that does to the plate current is not known without gm and a reading after the heat run":
    "{i} µA prądu siatki w {r} kΩ przesuwa polaryzację o {v} V; co to robi z prądem anodowym, nie wiadomo bez nachylenia i odczytu po wygrzewaniu",
  "% of plate current": "% prądu anodowego",
  "V of bias": "V polaryzacji",
  "its grid leak of {#a} kΩ is above the {#b} kΩ that the sheet of the {type} allows under fixed bias":
    "jego opornik siatkowy {a} kΩ przekracza {b} kΩ, na które karta {type} pozwala przy stałej polaryzacji",
  "its grid leak of {#a} kΩ is above the {#b} kΩ that the sheet of the {type} allows under cathode bias":
    "jego opornik siatkowy {a} kΩ przekracza {b} kΩ, na które karta {type} pozwala przy polaryzacji katodowej",
  "its grid current moves the bias there by {#v} ± {#d} V": "jego prąd siatki przesuwa tam polaryzację o {v} ± {d} V",
  "Only one of the type's two sections was read: their spread was not judged":
    "Zmierzono tylko jeden z dwóch systemów: ich różnicy nie oceniono",
  "no reading at a lowered heater (heater_pct below {#n}), so its emission is not known; take one":
    "brak odczytu przy obniżonym żarzeniu (poniżej {n} %), więc emisja nie jest znana; zrób go",
  "no reading at full heat in the same phase to hold the lowered one against; take one":
    "brak odczytu przy pełnym żarzeniu w tej samej fazie do porównania; zrób go",
  "plate current falls by {#v} % ± {#d} % at {#h} % heater, limit {#l} %":
    "prąd anodowy spada o {v} % ± {d} % przy {h} % żarzenia, granica {l} %",
  "fewer than three readings after the heat run began at different times, so whether it has settled is not known; read again":
    "mniej niż trzy odczyty o różnych porach od początku wygrzewania, więc nie wiadomo, czy się ustaliło; zmierz znowu",
  "{#v} ± {#d} mA expected in the end, {#p} ± {#e} % still to come, limit {#l} %":
    "na końcu oczekiwane {v} ± {d} mA, przed nim jeszcze {p} ± {e} %, granica {l} %",
  "{~what}: settled": "{what}: ustalone",
  "{~what}: not settled yet; read again after {#h} h more":
    "{what}: jeszcze nieustalone; zmierz znowu po dalszych {h} h",
  "{~what}: the readings do not tell yet; read again after {#h} h more":
    "{what}: odczyty jeszcze tego nie mówią; zmierz znowu po dalszych {h} h",
  "Inside every limit of the tray, but serves none of the places asked: {~why}":
    "W każdej granicy tacy, ale nie służy w żadnym z pytanych miejsc: {why}",
  "Settling was left out: more than {#n} sections with three hot readings or more, times the places and one more. Judge the valves in several trays to have it":
    "Ustalanie pominięto: ponad {n} systemów z trzema lub więcej gorącymi odczytami, razy miejsca i jedno więcej. Oceń lampy w kilku tacach, by je mieć",
  "The reference valve was read at one time only: a drift of the tester between readings cannot be seen, and would look like a drift of the valves":
    "Lampę wzorcową zmierzono tylko raz: dryfu testera między odczytami nie widać i wyglądałby jak dryf lamp",
  "Some readings were taken outside the reference valve's ({#a} to {#b} h); its nearest reading was used for them. Read it first and last":
    "Niektóre odczyty zrobiono poza odczytami lampy wzorcowej (od {a} do {b} h); użyto dla nich najbliższego. Mierz ją na początku i na końcu",
  "{valve} {s}: a reading marked cold ({#a} h) is later than the last marked hot ({#b} h); check the marks":
    "{valve} {s}: odczyt oznaczony jako zimny ({a} h) jest późniejszy niż ostatni gorący ({b} h); sprawdź oznaczenia",
  "gm_min_pct counts from the gm printed in the catalogue at the type's published working point; gm readings taken elsewhere cannot be compared with it":
    "Granica nachylenia liczy się od drukowanego w opublikowanym punkcie pracy; zmierzonych gdzie indziej nie da się z nim porównać",
  "Doubt counts the scatter of the valve's and the reference valve's readings; a limit is met or missed only by at least the doubt":
    "Niepewność liczy rozrzut odczytów lampy i lampy wzorcowej; granica jest dotrzymana lub przekroczona tylko o co najmniej niepewność",
  "No test point or limits of the {type} are on record. Set them first; then its valves can be read":
    "Nie zapisano punktu pomiarowego ani granic {type}. Najpierw je ustaw; potem można mierzyć jej lampy",
  "No valve of this tray was read yet. Begin with the reference valve, then read each section cold":
    "Żadnej lampy tej tacy jeszcze nie zmierzono. Zacznij od lampy wzorcowej, potem zmierz każdy system na zimno",
  "The reference valve of the {type} was never read, so nobody knows what the tester was worth. Read it now, then the tray is judged":
    "Lampy wzorcowej {type} nigdy nie zmierzono, więc nikt nie wie, ile wart był tester. Zmierz ją teraz, a taca zostanie oceniona",
  "No valve here may be used and stands nowhere. Valves are proven by reading them before and after the heat run":
    "Żadna lampa tutaj nie jest wolna i dopuszczona. Lampy dowodzi się odczytem przed wygrzewaniem i po nim",
  "No model on record has a place for valves of this type": "Żaden zapisany model nie ma miejsca dla lamp tego typu",
  "No open order waits for valves of this type": "Żadne otwarte zamówienie nie czeka na lampy tego typu",
  "Found by: {~how}": "Znaleziono tak: {how}",
  "best matching of all pairs": "najlepsze skojarzenie wszystkich par",
  "each valve tried alone": "każdą lampę próbowano osobno",
  "all runs along the one feature tried": "próbowano wszystkich ciągów wzdłuż jednej cechy",
  "every set that could matter weighed": "zważono każdy zestaw, który może się liczyć",
  "sets priced and regrouped region by region": "zestawy wyceniano i układano na nowo obszar po obszarze",
  "sets of near neighbours weighed, and exchanges": "ważono zestawy bliskich sąsiadów i zamiany",
  "gains added up, sets priced and searched": "sumowano wzmocnienia, wyceniano i przeszukiwano zestawy",
  "{#n} unit[s] cannot have valves: no way to make more sets within the limit from these valves":
    "{n} {n|urządzenie|urządzenia|urządzeń} bez lamp: z tych lamp nie da się w granicy ułożyć więcej zestawów",
  "{#n} unit[s] left without valves": "{n} {n|urządzenie zostaje|urządzenia zostają|urządzeń zostaje} bez lamp",
  "Not proven best: the total cannot be less than {#n}":
    "Niedowiedzione, że najlepsze: suma nie może być mniejsza niż {n}",
  "Not proven best: the total cannot be less than {#n}, and whether one more unit could have valves is not proven":
    "Niedowiedzione, że najlepsze: suma nie może być mniejsza niż {n}, a czy jeszcze jedno urządzenie mogłoby mieć lampy, nie dowiedziono",
  "Every set weighed was solved in the circuit": "Każdy ważony zestaw rozwiązano w układzie",
  "Gains were added up from single exchanges to choose, and the sets chosen solved in the circuit: the two differ by up to {#n} dB":
    "Do wyboru sumowano wzmocnienia z pojedynczych zamian, a wybrane zestawy rozwiązano w układzie: różnią się o najwyżej {n} dB",
  "Gains were added up from single exchanges to choose, and the sets chosen solved in the circuit: the two differ by up to {#n} dB, which the bound behind gap allows for":
    "Do wyboru sumowano wzmocnienia z pojedynczych zamian, a wybrane zestawy rozwiązano w układzie: różnią się o najwyżej {n} dB, co granica uwzględnia",
  "gap is the whole cost: the only bound known is {#n} dB": "luka to cały koszt: jedyna znana granica to {n} dB",
  "doubt_dB counts {~what}; parts of the circuit are taken at their net list values":
    "Niepewność liczy {what}; części układu przyjęto z wartościami z listy połączeń",
  "the doubt given with the curves, and where none is given {#n} % in current and in mu ({#p} %)":
    "niepewność podaną z charakterystykami, a gdzie jej nie ma, {n} % w prądzie i współczynniku wzmocnienia ({p} %)",
  "{#n} % in current and in mu ({#p} %)": "{n} % w prądzie i współczynniku wzmocnienia ({p} %)",
  "no valve is named": "nie nazwano lampy",
  "“{valve}” is not in this tray": "„{valve}” nie ma w tej tacy",
  "Even {#n} valves give {sets} sets with a chance of {#p} only, since so few passed or so few were tested; test more valves, or ask for less confidence":
    "Nawet {n} lamp daje {sets} zestawów tylko z szansą {p}, bo tak mało przeszło lub zbadano; zbadaj więcej lamp albo żądaj mniejszej pewności",
  "Even {#n} valves give {sets} sets with a chance of {#p} only, since so few passed or so few were tested, or so few are alike within the limit; {~mend}":
    "Nawet {n} lamp daje {sets} zestawów tylko z szansą {p}, bo tak mało przeszło, zbadano lub jest jednakowych w granicy; {mend}",
  "allow a higher limit, test more valves, or ask for less confidence":
    "pozwól na wyższą granicę, zbadaj więcej lamp albo żądaj mniejszej pewności",
  "test more valves, or ask for less confidence": "zbadaj więcej lamp albo żądaj mniejszej pewności",
  "no batch of this type was ever tested": "nie zbadano jeszcze żadnej partii tego typu",
  "“{a}” is neither cold nor hot": "„{a}” nie jest ani zimne, ani gorące",
  "“{a}” is not a number": "„{a}” nie jest liczbą",
  "“{a}” is no section of these valves; they have {list}": "„{a}” nie jest systemem tych lamp; mają {list}",
  "{a} mA: a plate current is {#n} or more": "{a} mA: prąd anodowy to {n} lub więcej",
  "no plate current is given": "nie podano prądu anodowego",
};
