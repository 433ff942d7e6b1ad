/**
 * Names of the trade in Polish: quantities by their names, and phrases that the program or the invented workshop writes
 * into a model. What a shop calls otherwise stands as the shop wrote it.
 */
export const tradeInPolish: Readonly<Record<string, string>> = {
  drift_pct: "dryf przy wygrzewaniu",
  sectionSpread_pct: "różnica systemów",
  level_V: "napięcie",
  level_Vrms: "napięcie zmienne",
  outputImpedance_ohm: "rezystancja wyjściowa",
  inputImpedance_ohm: "rezystancja wejściowa",
  jack_mV: "napięcie stałe na gnieździe",
  balance_dB: "lewy nad prawym",
  gain_dB: "wzmocnienie",
  hum_margin_dB: "przydźwięk nad progiem słyszenia",
  hum_uVrms: "przydźwięk",
  response_dB: "pasmo przenoszenia",
  hissA_uVrms: "szum, ważony A",
  noiseA_uVrms: "szum z prążkami, ważony A",
  thd_pct: "zniekształcenia nieliniowe",
  flux_T: "indukcja w rdzeniu",
  fuseOverCurrent: "bezpiecznik wobec prądu pierwotnego",
  labelDifference_V: "tabliczka wobec odczepu",
  moistureDifference_pct: "wilgotność drewna wobec miejsca przeznaczenia",
  moisture_pct: "wilgotność drewna",
  panelsAtRisk: "zagrożone płyty",
  gap_mm: "szczelina",
  temperature_C: "temperatura",
  cracks: "pęknięcia",
  bond_ohm: "rezystancja uziemienia",
  resistance_Mohm: "rezystancja izolacji",
  resistance_ohm: "rezystancja",
  touch_mA: "prąd dotykowy",
  discharge_s: "czas rozładowania",
  biasShort_mA: "prąd zwarcia polaryzacji",
  ht_V: "napięcie anodowe",
  mass_g: "masa",
  plate_mA: "prąd anodowy",
  lines: "linie",
  humidity_pct: "wilgotność powietrza",
  crestFactor: "współczynnik szczytu",
  mains_W: "pobór mocy",

  "Headphone amplifier without an output transformer": "Wzmacniacz słuchawkowy bez transformatora wyjściowego",
  "Preamplifier with a cathode follower": "Przedwzmacniacz z wtórnikiem katodowym",
  "Single-ended power amplifier": "Wzmacniacz mocy single-ended",
  "Balanced driver for electrostatic headphones": "Symetryczny wzmacniacz do słuchawek elektrostatycznych",

  "Every valve is steady through the heat run": "Każda lampa jest stała przez całe wygrzewanie",
  "Input stage: its test points lie in their windows": "Stopień wejściowy: punkty pomiarowe leżą w swoich oknach",
  "Output stage: its test points lie in their windows": "Stopień wyjściowy: punkty pomiarowe leżą w swoich oknach",
  "Gain stage: its test points lie in their windows": "Stopień wzmacniający: punkty pomiarowe leżą w swoich oknach",
  "Follower: its test points lie in their windows": "Wtórnik: punkty pomiarowe leżą w swoich oknach",
  "Input pair: its test points lie in their windows": "Para wejściowa: punkty pomiarowe leżą w swoich oknach",
  "Output pair: its test points lie in their windows": "Para wyjściowa: punkty pomiarowe leżą w swoich oknach",
  "No direct voltage at the jack": "Na gnieździe nie ma napięcia stałego",
  "No direct voltage at the output sockets": "Na gniazdach wyjściowych nie ma napięcia stałego",
  "Left and right are alike, at the gain of the model": "Lewy i prawy są jednakowe, o wzmocnieniu modelu",
  "No hum of its own is heard on any of the shop's headphones":
    "Na żadnych słuchawkach warsztatu nie słychać własnego przydźwięku",
  "Hum at the sockets stays far under the hiss of the amplifier behind it":
    "Przydźwięk na gniazdach zostaje daleko pod szumem wzmacniacza za nim",
  "Hum at the terminals is inaudible from the listening chair":
    "Przydźwięku na zaciskach nie słychać z miejsca odsłuchu",
  "Hum at the stators stays under what electrostatic headphones let hear":
    "Przydźwięk na statorach zostaje poniżej tego, co słychać w słuchawkach elektrostatycznych",
  "The ends of the band are where the model puts them": "Końce pasma są tam, gdzie przewiduje je model",
  "The hiss of the first stage stays low": "Szum pierwszego stopnia pozostaje mały",
  "Heaters get their voltage at the destination": "Żarzenie ma swoje napięcie w miejscu przeznaczenia",
  "HT is inside its window at the destination": "Napięcie anodowe leży w oknie w miejscu przeznaczenia",
  "The supply's points are inside their windows at the destination":
    "Punkty zasilacza leżą w swoich oknach w miejscu przeznaczenia",
  "The core keeps clear of saturation at the destination": "Rdzeń jest daleki od nasycenia w miejscu przeznaczenia",
  "The fuse suits the tap": "Bezpiecznik pasuje do odczepu",
  "The rating label says what the tap is set to": "Tabliczka mówi, na co ustawiony jest odczep",
  "The case is as dry as its destination": "Obudowa jest tak sucha jak miejsce przeznaczenia",
  "The case will stay whole at its destination": "Obudowa pozostanie cała w miejscu przeznaczenia",
  "Lid and panels keep their gaps under the finish": "Pokrywa i płyty zachowują szczeliny pod wykończeniem",
  "The closed case stands the heat": "Zamknięta obudowa znosi ciepło",
  "Every touchable metal part is bonded to earth": "Każda dostępna część metalowa jest uziemiona",
  "Mains is insulated from the chassis": "Sieć jest odizolowana od chassis",
  "No more than a harmless current reaches a hand": "Do ręki nie dociera więcej niż nieszkodliwy prąd",
  "The HT falls below 60 V in time after unplugging": "Napięcie anodowe spada w porę poniżej 60 V po wyjęciu wtyczki",
  "The bias stands where the headphone wants it": "Polaryzacja jest taka, jakiej potrzebują słuchawki",
  "The bias can drive no harmful current through a hand": "Polaryzacja nie przepuści przez rękę szkodliwego prądu",

  "Read every section on the valve tester cold, run the valve 48 h at working heat, read it again":
    "Każdy system odczytać na próbniku lamp na zimno, grzać lampę 48 h w temperaturze pracy, odczytać ponownie",
  "Probe the test points of the input stage with one hand, after a night of idling":
    "Zmierzyć jedną ręką punkty stopnia wejściowego, po nocy pracy bez sygnału",
  "Probe the test points of the output stage with one hand, after a night of idling":
    "Zmierzyć jedną ręką punkty stopnia wyjściowego, po nocy pracy bez sygnału",
  "Probe the test points of the input stage with one hand, after a night of idling. Plus and minus 400 V stand 800 V apart, the bias 580 V over the chassis; one hand, probe clipped on with the mains off, meter and lead rated for 1000 V":
    "Zmierzyć jedną ręką punkty stopnia wejściowego, po nocy pracy bez sygnału. Między plus i minus 400 V jest 800 V, polaryzacja stoi 580 V nad chassis; jedna ręka, sonda zapięta przy wyłączonej sieci, miernik i przewód na 1000 V",
  "Probe the test points of the output stage with one hand, after a night of idling. Plus and minus 400 V stand 800 V apart, the bias 580 V over the chassis; one hand, probe clipped on with the mains off, meter and lead rated for 1000 V":
    "Zmierzyć jedną ręką punkty stopnia wyjściowego, po nocy pracy bez sygnału. Między plus i minus 400 V jest 800 V, polaryzacja stoi 580 V nad chassis; jedna ręka, sonda zapięta przy wyłączonej sieci, miernik i przewód na 1000 V",
  "Bias at its reservoir and at the socket, which a meter of 10 Mohm pulls down to two thirds. Plus and minus 400 V stand 800 V apart, the bias 580 V over the chassis; one hand, probe clipped on with the mains off, meter and lead rated for 1000 V":
    "Polaryzacja na kondensatorze i na gnieździe, które miernik 10 MΩ obniża do dwóch trzecich. Między plus i minus 400 V jest 800 V, polaryzacja stoi 580 V nad chassis; jedna ręka, sonda zapięta przy wyłączonej sieci, miernik i przewód na 1000 V",
  "Input shorted, through the bench's 1000 V probe, 8 s on the building's mains and 8 s on clean supply. Plus and minus 400 V stand 800 V apart, the bias 580 V over the chassis":
    "Wejście zwarte, przez sondę 1000 V stanowiska, 8 s na sieci budynku i 8 s na czystym zasilaniu. Między plus i minus 400 V jest 800 V, polaryzacja stoi 580 V nad chassis",
  "Current from the bias pin of the socket to earth. Plus and minus 400 V stand 800 V apart, the bias 580 V over the chassis; a shock from the rails is lethal long after unplugging":
    "Prąd ze styku polaryzacji gniazda do ziemi. Między plus i minus 400 V jest 800 V, polaryzacja stoi 580 V nad chassis; porażenie z zasilania jest śmiertelne jeszcze długo po wyjęciu wtyczki",
  "Millivolts at the jack into 300 ohm, cold, at switching on and settled":
    "Miliwolty na gnieździe przy 300 Ω, na zimno, przy włączeniu i po ustaleniu",
  "Millivolts at the sockets into 47 kilohm, at switching on and settled":
    "Miliwolty na gniazdach przy 47 kΩ, przy włączeniu i po ustaleniu",
  "1 kHz, both channels driven, loop-back taken first": "1 kHz, oba kanały wysterowane, najpierw pętla zwrotna",
  "After a day and a half of running in; input shorted, 8 s on the building's mains and 8 s regenerated":
    "Po półtorej doby docierania; wejście zwarte, 8 s na sieci budynku i 8 s na czystym zasilaniu",
  "Input shorted, all lines together on clean supply; 8 s on the building's mains beside it":
    "Wejście zwarte, wszystkie prążki razem na czystym zasilaniu; obok 8 s na sieci budynku",
  "Input shorted, 8 ohm loads, all lines together on clean supply; 8 s on the building's mains beside it":
    "Wejście zwarte, obciążenia 8 Ω, wszystkie prążki razem na czystym zasilaniu; obok 8 s na sieci budynku",
  "Sweep from 10 Hz to 40 kHz into the rated load, against 1 kHz":
    "Przemiatanie od 10 Hz do 40 kHz przy obciążeniu znamionowym, względem 1 kHz",
  "Input shorted, hiss without lines, A-weighted": "Wejście zwarte, szum bez prążków, ważony A",
  "True-RMS volts at each heater, the destination's mains set on the regulator":
    "Wartość skuteczna na każdym żarzeniu, na regulatorze ustawiona sieć miejsca przeznaczenia",
  "HT at the reservoir, loaded, the destination's mains set":
    "Napięcie anodowe na kondensatorze, pod obciążeniem, ustawiona sieć miejsca przeznaczenia",
  "Magnetising current at 110 % of the destination's mains; flux from turns and area":
    "Prąd magnesujący przy 110 % sieci miejsca przeznaczenia; strumień ze zwojów i przekroju",
  "Read the fuse's rating on its cap against the primary current measured":
    "Odczytać wartość z kołpaka bezpiecznika wobec zmierzonego prądu pierwotnego",
  "Read the label aloud against the tap and the order": "Odczytać tabliczkę na głos wobec odczepu i zamówienia",
  "Moisture at three panels, less the middle of the destination's year":
    "Wilgotność trzech płyt, mniej środek roku w miejscu przeznaczenia",
  "Weigh the panels before they are joined, write down how each is held and its room to move":
    "Zważyć płyty przed łączeniem, zapisać, jak każda jest trzymana i ile ma luzu",
  "Feeler gauge round the lid after the last coat has hardened":
    "Szczelinomierz wokół pokrywy, gdy ostatnia warstwa stwardnieje",
  "Closed and idling for a night on the soak shelf, then temperature and a look with the lens":
    "Zamknięte, noc pracy bez sygnału na półce do wygrzewania, potem temperatura i oględziny z lupą",
  "10 A for 3 s from the earth pin to chassis, jack and screws":
    "10 A przez 3 s od styku ochronnego do chassis, gniazda i śrub",
  "500 V between both mains pins and earth for a minute, then discharge":
    "500 V między oboma stykami sieci a ziemią przez minutę, potem rozładować",
  "Touch current with the earth lifted, both ways round, at 110 % of the destination's mains":
    "Prąd dotykowy przy odłączonym uziemieniu, w obu położeniach wtyczki, przy 110 % sieci miejsca przeznaczenia",
  "Unplug at full HT, clock the meter down to 60 V":
    "Wyjąć wtyczkę przy pełnym napięciu anodowym, zmierzyć czas do 60 V",
  "Unplug at full HT, clock the meter down to 60 V at each store by itself: plus rail, minus rail, bias reservoir; one that is empty says nothing of the others":
    "Wyjąć wtyczkę przy pełnym napięciu anodowym, zmierzyć czas do 60 V na każdym zasobniku osobno: szyna dodatnia, szyna ujemna, kondensator polaryzacji; pusty jeden nic nie mówi o pozostałych",

  "Read every section on the valve tester cold, run the valve two days at working heat, read it again":
    "Każdy system odczytać na próbniku lamp na zimno, grzać lampę dwie doby w temperaturze pracy, odczytać ponownie",
  "… stage: its test points lie in their windows": "Stopień …: punkty pomiarowe leżą w swoich oknach",
  "Probe the test points of the … stage with one hand, warmed up":
    "Zmierzyć jedną ręką punkty stopnia …, po rozgrzaniu",
  "Output impedance is the model's": "Rezystancja wyjściowa jest taka jak w modelu",
  "No direct voltage at the output": "Na wyjściu nie ma napięcia stałego",
  "Level at 1 kHz unloaded and loaded, one channel at a time":
    "Poziom przy 1 kHz bez obciążenia i z obciążeniem, kanał po kanale",
  "Millivolts at the output, at switching on and settled": "Miliwolty na wyjściu, przy włączeniu i po ustaleniu",
  "1 kHz…, all channels driven alike, loop-back taken first":
    "1 kHz…, wszystkie kanały wysterowane jednakowo, najpierw pętla zwrotna",
  "Sweep from 10 Hz to 40 kHz…, against 1 kHz": "Przemiatanie od 10 Hz do 40 kHz…, względem 1 kHz",
  "Input shorted, 8 s on the building's mains and 8 s regenerated":
    "Wejście zwarte, 8 s na sieci budynku i 8 s na czystym zasilaniu",
  "Supply points, loaded, the destination's mains set on the regulator":
    "Punkty zasilacza, pod obciążeniem, na regulatorze ustawiona sieć miejsca przeznaczenia",
  "10 A for 3 s from the earth pin to chassis, sockets and screws":
    "10 A przez 3 s od styku ochronnego do chassis, gniazd i śrub",
  "The high voltage falls below 60 V in time after unplugging":
    "Wysokie napięcie spada w porę poniżej 60 V po wyjęciu wtyczki",
  "Unplug at full voltage, clock the meter down to 60 V": "Wyjąć wtyczkę przy pełnym napięciu, zmierzyć czas do 60 V",

  "wood over the valves": "drewno nad lampami",
  lid: "pokrywa",
  "HT reservoir": "kondensator napięcia anodowego",
  "heater lift": "podniesienie żarzenia",
  "bias reservoir": "kondensator polaryzacji",
  bias: "polaryzacja",
  "grid bias": "polaryzacja siatki",
  "plus rail": "szyna dodatnia",
  "minus rail": "szyna ujemna",
  top: "wierzch",
  bottom: "spód",
  side: "bok",
  "left side": "lewy bok",
  "right side": "prawy bok",
  front: "przód",
  back: "tył",

  chassis: "chassis",
  wiring: "montaż elektryczny",
  plate: "suszenie na płycie",
  case: "obudowa",
  coats: "powłoki",
  "heat run": "wygrzewanie",
  owner: "właściciel",
  "bench technician": "pomiarowiec",
  woodworker: "stolarz",
  hum: "przydźwięk",
  noise: "szum",
  tone: "ton",
  "two tones": "dwa tony",
  sweep: "przemiatanie",
  tap: "opukiwanie",
  supply: "zasilanie",
  "switching on": "włączenie",
  shorted: "zwarte",
  driven: "wysterowane",
  fault: "znaleziono usterkę",
  return: "wróciło",
  account: "zapisano nakład",
  "case-panels": "zapisano płyty obudowy",
  "finish-plan": "zaplanowano powłoki",
  "hardening oil": "olej twardniejący",
  "clear lacquer": "lakier bezbarwny",
  oil: "olej",
  lacquer: "lakier",

  "sugar maple": "klon cukrowy",
  "white ash": "jesion biały",
  "American elm": "wiąz amerykański",
  "black cherry": "czereśnia amerykańska",
  doussié: "doussié",

  "Audio recorder": "rejestrator dźwięku",
  "Bench multimeter": "multimetr stanowiska pomiarowego",
  "Wiring bench multimeter": "multimetr stanowiska montażu",
  "Earth-bond tester": "próbnik uziemienia",
  "Insulation tester": "próbnik izolacji",
  "Touch-current meter": "miernik prądu dotykowego",
  "Weighing balance": "waga",
  "Timber moisture meter": "wilgotnościomierz do drewna",
  "Surface thermometer": "termometr powierzchniowy",
  "Feeler gauge": "szczelinomierz",
  "Regenerator of the audio bench": "regenerator sieci stanowiska pomiarowego",
  Lens: "lupa",
  "Valve tester": "próbnik lamp",
  "Logger of air": "rejestrator powietrza",
  "loop-back lead": "pętla zwrotna",
  "voltage reference": "wzorzec napięcia",
  "known resistor": "znany rezystor",
  "known link": "znane połączenie",
  "known high resistor": "znany wysoki rezystor",
  "known current": "znany prąd",
  "check weight": "odważnik kontrolny",
  "check block": "klocek kontrolny",
  "melting ice": "topniejący lód",
  "gauge block": "płytka wzorcowa",
  "card of hairlines": "karta z włoskami",
  "the bench's rectifier load": "obciążenie prostownikowe stanowiska",
  "jar of wet table salt": "słoik z mokrą solą kuchenną",
};
