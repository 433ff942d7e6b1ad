/**
 * Names of the trade in German: quantities by their names, and phrases that the program or the invented workshop writes
 * into a model. What a shop calls otherwise stands as the shop wrote it.
 */
export const tradeInGerman: Readonly<Record<string, string>> = {
  drift_pct: "Drift im Einbrennlauf",
  sectionSpread_pct: "Unterschied der Systeme",
  level_V: "Spannung",
  level_Vrms: "Wechselspannung",
  outputImpedance_ohm: "Ausgangswiderstand",
  inputImpedance_ohm: "Eingangswiderstand",
  jack_mV: "Gleichspannung an der Buchse",
  balance_dB: "Links über rechts",
  gain_dB: "Verstärkung",
  hum_margin_dB: "Brumm über der Hörschwelle",
  hum_uVrms: "Brumm",
  response_dB: "Frequenzgang",
  hissA_uVrms: "Rauschen, A-bewertet",
  noiseA_uVrms: "Rauschen mit Linien, A-bewertet",
  thd_pct: "Klirrfaktor",
  flux_T: "Flussdichte im Kern",
  fuseOverCurrent: "Sicherung über Primärstrom",
  labelDifference_V: "Typenschild gegen Anzapfung",
  moistureDifference_pct: "Holzfeuchte gegen den Bestimmungsort",
  moisture_pct: "Holzfeuchte",
  panelsAtRisk: "Gefährdete Platten",
  gap_mm: "Spalt",
  temperature_C: "Temperatur",
  cracks: "Risse",
  bond_ohm: "Schutzleiterwiderstand",
  resistance_Mohm: "Isolationswiderstand",
  resistance_ohm: "Widerstand",
  touch_mA: "Berührungsstrom",
  discharge_s: "Entladezeit",
  biasShort_mA: "Kurzschlussstrom der Vorspannung",
  ht_V: "Anodenspannung",
  mass_g: "Masse",
  plate_mA: "Anodenstrom",
  lines: "Linien",
  humidity_pct: "Luftfeuchte",
  crestFactor: "Scheitelfaktor",
  mains_W: "Leistungsaufnahme",

  "Headphone amplifier without an output transformer": "Kopfhörerverstärker ohne Ausgangsübertrager",
  "Preamplifier with a cathode follower": "Vorverstärker mit Kathodenfolger",
  "Single-ended power amplifier": "Eintakt-Endverstärker",
  "Balanced driver for electrostatic headphones": "Symmetrischer Treiber für elektrostatische Kopfhörer",

  "Every valve is steady through the heat run": "Jede Röhre bleibt im Einbrennlauf beständig",
  "Input stage: its test points lie in their windows": "Eingangsstufe: Ihre Messpunkte liegen im Fenster",
  "Output stage: its test points lie in their windows": "Ausgangsstufe: Ihre Messpunkte liegen im Fenster",
  "Gain stage: its test points lie in their windows": "Verstärkerstufe: Ihre Messpunkte liegen im Fenster",
  "Follower: its test points lie in their windows": "Kathodenfolger: Seine Messpunkte liegen im Fenster",
  "Input pair: its test points lie in their windows": "Eingangspaar: Seine Messpunkte liegen im Fenster",
  "Output pair: its test points lie in their windows": "Ausgangspaar: Seine Messpunkte liegen im Fenster",
  "No direct voltage at the jack": "Keine Gleichspannung an der Buchse",
  "No direct voltage at the output sockets": "Keine Gleichspannung an den Ausgangsbuchsen",
  "Left and right are alike, at the gain of the model": "Links und rechts sind gleich, mit der Verstärkung des Modells",
  "No hum of its own is heard on any of the shop's headphones":
    "Auf keinem Kopfhörer der Werkstatt ist ein eigener Brumm zu hören",
  "Hum at the sockets stays far under the hiss of the amplifier behind it":
    "Der Brumm an den Buchsen bleibt weit unter dem Rauschen des Verstärkers dahinter",
  "Hum at the terminals is inaudible from the listening chair": "Der Brumm an den Klemmen ist am Hörplatz unhörbar",
  "Hum at the stators stays under what electrostatic headphones let hear":
    "Der Brumm an den Statoren bleibt unter dem, was elektrostatische Kopfhörer hören lassen",
  "The ends of the band are where the model puts them": "Der Frequenzgang endet, wo das Modell es vorsieht",
  "The hiss of the first stage stays low": "Das Rauschen der ersten Stufe bleibt klein",
  "Heaters get their voltage at the destination": "Die Heizungen bekommen am Bestimmungsort ihre Spannung",
  "HT is inside its window at the destination": "Die Anodenspannung liegt am Bestimmungsort im Fenster",
  "The supply's points are inside their windows at the destination":
    "Die Messpunkte der Versorgung liegen am Bestimmungsort im Fenster",
  "The core keeps clear of saturation at the destination": "Der Kern bleibt am Bestimmungsort von der Sättigung fern",
  "The fuse suits the tap": "Die Sicherung passt zur Anzapfung",
  "The rating label says what the tap is set to": "Das Typenschild sagt, worauf die Anzapfung steht",
  "The case is as dry as its destination": "Das Gehäuse ist so trocken wie sein Bestimmungsort",
  "The case will stay whole at its destination": "Das Gehäuse bleibt am Bestimmungsort heil",
  "Lid and panels keep their gaps under the finish": "Deckel und Platten behalten unter der Oberfläche ihre Spalte",
  "The closed case stands the heat": "Das geschlossene Gehäuse hält die Wärme aus",
  "Every touchable metal part is bonded to earth": "Jedes berührbare Metallteil ist geerdet",
  "Mains is insulated from the chassis": "Das Netz ist vom Chassis isoliert",
  "No more than a harmless current reaches a hand": "Nicht mehr als ein harmloser Strom erreicht eine Hand",
  "The HT falls below 60 V in time after unplugging":
    "Die Anodenspannung fällt nach dem Ausstecken rechtzeitig unter 60 V",
  "The bias stands where the headphone wants it": "Die Vorspannung steht, wo der Kopfhörer sie braucht",
  "The bias can drive no harmful current through a hand":
    "Die Vorspannung kann keinen schädlichen Strom durch eine Hand treiben",

  "Read every section on the valve tester cold, run the valve 48 h at working heat, read it again":
    "Jedes System auf dem Röhrenprüfer kalt messen, die Röhre 48 h betriebswarm laufen lassen, wieder messen",
  "Probe the test points of the input stage with one hand, after a night of idling":
    "Die Messpunkte der Eingangsstufe nach einer Nacht Leerlauf mit einer Hand messen",
  "Probe the test points of the output stage with one hand, after a night of idling":
    "Die Messpunkte der Ausgangsstufe nach einer Nacht Leerlauf mit einer Hand messen",
  "Probe the test points of the input stage with one hand, after a night of idling. Plus and minus 400 V stand 800 V apart, the bias 580 V over the chassis; one hand, probe clipped on with the mains off, meter and lead rated for 1000 V":
    "Die Messpunkte der Eingangsstufe nach einer Nacht Leerlauf mit einer Hand messen. Zwischen plus und minus 400 V liegen 800 V, die Vorspannung liegt 580 V über dem Chassis; eine Hand, Tastkopf bei ausgeschaltetem Netz anklemmen, Messgerät und Leitung für 1000 V",
  "Probe the test points of the output stage with one hand, after a night of idling. Plus and minus 400 V stand 800 V apart, the bias 580 V over the chassis; one hand, probe clipped on with the mains off, meter and lead rated for 1000 V":
    "Die Messpunkte der Ausgangsstufe nach einer Nacht Leerlauf mit einer Hand messen. Zwischen plus und minus 400 V liegen 800 V, die Vorspannung liegt 580 V über dem Chassis; eine Hand, Tastkopf bei ausgeschaltetem Netz anklemmen, Messgerät und Leitung für 1000 V",
  "Bias at its reservoir and at the socket, which a meter of 10 Mohm pulls down to two thirds. Plus and minus 400 V stand 800 V apart, the bias 580 V over the chassis; one hand, probe clipped on with the mains off, meter and lead rated for 1000 V":
    "Vorspannung am Ladekondensator und an der Buchse, die ein Messgerät mit 10 MΩ auf zwei Drittel zieht. Zwischen plus und minus 400 V liegen 800 V, die Vorspannung liegt 580 V über dem Chassis; eine Hand, Tastkopf bei ausgeschaltetem Netz anklemmen, Messgerät und Leitung für 1000 V",
  "Input shorted, through the bench's 1000 V probe, 8 s on the building's mains and 8 s on clean supply. Plus and minus 400 V stand 800 V apart, the bias 580 V over the chassis":
    "Eingang kurzgeschlossen, durch den 1000-V-Tastkopf des Messplatzes, 8 s am Hausnetz und 8 s an reiner Versorgung. Zwischen plus und minus 400 V liegen 800 V, die Vorspannung liegt 580 V über dem Chassis",
  "Current from the bias pin of the socket to earth. Plus and minus 400 V stand 800 V apart, the bias 580 V over the chassis; a shock from the rails is lethal long after unplugging":
    "Strom vom Vorspannungsstift der Buchse nach Erde. Zwischen plus und minus 400 V liegen 800 V, die Vorspannung liegt 580 V über dem Chassis; ein Schlag aus der Versorgung ist noch lange nach dem Ausstecken tödlich",
  "Millivolts at the jack into 300 ohm, cold, at switching on and settled":
    "Millivolt an der Buchse an 300 Ω, kalt, beim Einschalten und eingelaufen",
  "Millivolts at the sockets into 47 kilohm, at switching on and settled":
    "Millivolt an den Buchsen an 47 kΩ, beim Einschalten und eingelaufen",
  "1 kHz, both channels driven, loop-back taken first": "1 kHz, beide Kanäle angesteuert, zuerst die Rückschleife",
  "After a day and a half of running in; input shorted, 8 s on the building's mains and 8 s regenerated":
    "Nach anderthalb Tagen Einlaufen; Eingang kurzgeschlossen, 8 s am Hausnetz und 8 s an reiner Versorgung",
  "Input shorted, all lines together on clean supply; 8 s on the building's mains beside it":
    "Eingang kurzgeschlossen, alle Linien zusammen an reiner Versorgung; daneben 8 s am Hausnetz",
  "Input shorted, 8 ohm loads, all lines together on clean supply; 8 s on the building's mains beside it":
    "Eingang kurzgeschlossen, Lasten von 8 Ω, alle Linien zusammen an reiner Versorgung; daneben 8 s am Hausnetz",
  "Sweep from 10 Hz to 40 kHz into the rated load, against 1 kHz":
    "Gleitton von 10 Hz bis 40 kHz an der Nennlast, gegen 1 kHz",
  "Input shorted, hiss without lines, A-weighted": "Eingang kurzgeschlossen, Rauschen ohne Linien, A-bewertet",
  "True-RMS volts at each heater, the destination's mains set on the regulator":
    "Effektivwert an jeder Heizung, das Netz des Bestimmungsorts am Regler eingestellt",
  "HT at the reservoir, loaded, the destination's mains set":
    "Anodenspannung am Ladekondensator, belastet, das Netz des Bestimmungsorts eingestellt",
  "Magnetising current at 110 % of the destination's mains; flux from turns and area":
    "Magnetisierungsstrom bei 110 % des Netzes am Bestimmungsort; Fluss aus Windungen und Querschnitt",
  "Read the fuse's rating on its cap against the primary current measured":
    "Den Aufdruck der Sicherung gegen den gemessenen Primärstrom lesen",
  "Read the label aloud against the tap and the order": "Das Typenschild laut gegen Anzapfung und Auftrag lesen",
  "Moisture at three panels, less the middle of the destination's year":
    "Feuchte an drei Platten, weniger das Jahresmittel am Bestimmungsort",
  "Weigh the panels before they are joined, write down how each is held and its room to move":
    "Die Platten vor dem Fügen wiegen und eintragen, wie jedes gehalten ist und wie viel Luft es hat",
  "Feeler gauge round the lid after the last coat has hardened":
    "Fühlerlehre rund um den Deckel, wenn die letzte Schicht hart ist",
  "Closed and idling for a night on the soak shelf, then temperature and a look with the lens":
    "Geschlossen eine Nacht auf dem Regal für den Wärmelauf im Leerlauf, dann Temperatur und ein Blick durch die Lupe",
  "10 A for 3 s from the earth pin to chassis, jack and screws":
    "10 A für 3 s vom Schutzkontakt zu Chassis, Buchse und Schrauben",
  "500 V between both mains pins and earth for a minute, then discharge":
    "500 V zwischen beiden Netzstiften und Erde für eine Minute, dann entladen",
  "Touch current with the earth lifted, both ways round, at 110 % of the destination's mains":
    "Berührungsstrom bei getrennter Erde, Stecker in beiden Lagen, bei 110 % des Netzes am Bestimmungsort",
  "Unplug at full HT, clock the meter down to 60 V": "Bei voller Anodenspannung ausstecken, die Zeit bis 60 V nehmen",
  "Unplug at full HT, clock the meter down to 60 V at each store by itself: plus rail, minus rail, bias reservoir; one that is empty says nothing of the others":
    "Bei voller Anodenspannung ausstecken, die Zeit bis 60 V an jedem Speicher für sich nehmen: Plusschiene, Minusschiene, Ladekondensator der Vorspannung; dass einer leer ist, sagt nichts über die anderen",

  "Read every section on the valve tester cold, run the valve two days at working heat, read it again":
    "Jedes System auf dem Röhrenprüfer kalt messen, die Röhre zwei Tage betriebswarm laufen lassen, wieder messen",
  "… stage: its test points lie in their windows": "Stufe …: Ihre Messpunkte liegen im Fenster",
  "Probe the test points of the … stage with one hand, warmed up":
    "Die Messpunkte der Stufe … warmgelaufen mit einer Hand messen",
  "Output impedance is the model's": "Der Ausgangswiderstand ist der des Modells",
  "No direct voltage at the output": "Keine Gleichspannung am Ausgang",
  "Level at 1 kHz unloaded and loaded, one channel at a time":
    "Pegel bei 1 kHz unbelastet und belastet, ein Kanal nach dem anderen",
  "Millivolts at the output, at switching on and settled": "Millivolt am Ausgang, beim Einschalten und eingelaufen",
  "1 kHz…, all channels driven alike, loop-back taken first":
    "1 kHz…, alle Kanäle gleich angesteuert, zuerst die Rückschleife",
  "Sweep from 10 Hz to 40 kHz…, against 1 kHz": "Gleitton von 10 Hz bis 40 kHz…, gegen 1 kHz",
  "Input shorted, 8 s on the building's mains and 8 s regenerated":
    "Eingang kurzgeschlossen, 8 s am Hausnetz und 8 s an reiner Versorgung",
  "Supply points, loaded, the destination's mains set on the regulator":
    "Punkte der Versorgung, belastet, das Netz des Bestimmungsorts am Regler eingestellt",
  "10 A for 3 s from the earth pin to chassis, sockets and screws":
    "10 A für 3 s vom Schutzkontakt zu Chassis, Buchsen und Schrauben",
  "The high voltage falls below 60 V in time after unplugging":
    "Die Hochspannung fällt nach dem Ausstecken rechtzeitig unter 60 V",
  "Unplug at full voltage, clock the meter down to 60 V": "Bei voller Spannung ausstecken, die Zeit bis 60 V nehmen",

  "wood over the valves": "Holz über den Röhren",
  lid: "Deckel",
  "HT reservoir": "Ladekondensator der Anodenspannung",
  "heater lift": "Heizungsanhebung",
  "bias reservoir": "Ladekondensator der Vorspannung",
  bias: "Vorspannung",
  "grid bias": "Gittervorspannung",
  "plus rail": "Plusschiene",
  "minus rail": "Minusschiene",
  top: "Deckel",
  bottom: "Boden",
  side: "Seite",
  "left side": "linke Seite",
  "right side": "rechte Seite",
  front: "Front",
  back: "Rückwand",

  chassis: "Chassis",
  wiring: "Verdrahtung",
  plate: "Heizplatte",
  case: "Gehäuse",
  coats: "Anstriche",
  "heat run": "Einbrennlauf",
  owner: "Inhaber",
  "bench technician": "Messtechnik",
  woodworker: "Holzwerkstatt",
  hum: "Brumm",
  noise: "Rauschen",
  tone: "Ton",
  "two tones": "zwei Töne",
  sweep: "Gleitton",
  tap: "Klopfprobe",
  supply: "Versorgung",
  "switching on": "Einschalten",
  shorted: "kurzgeschlossen",
  driven: "angesteuert",
  fault: "Fehler gefunden",
  return: "zurückgekommen",
  account: "Aufwand eingetragen",
  "case-panels": "Platten des Gehäuses eingetragen",
  "finish-plan": "Anstriche geplant",
  "hardening oil": "härtendes Öl",
  "clear lacquer": "Klarlack",
  oil: "Öl",
  lacquer: "Lack",

  "sugar maple": "Zuckerahorn",
  "white ash": "Weißesche",
  "American elm": "Amerikanische Ulme",
  "black cherry": "Amerikanische Kirsche",
  doussié: "Doussié",

  "Audio recorder": "Tonaufzeichner",
  "Bench multimeter": "Multimeter des Messplatzes",
  "Wiring bench multimeter": "Multimeter des Verdrahtungsplatzes",
  "Earth-bond tester": "Schutzleiterprüfer",
  "Insulation tester": "Isolationsprüfer",
  "Touch-current meter": "Berührungsstrommesser",
  "Weighing balance": "Waage",
  "Timber moisture meter": "Holzfeuchtemesser",
  "Surface thermometer": "Oberflächenthermometer",
  "Feeler gauge": "Fühlerlehre",
  "Regenerator of the audio bench": "Netzregenerator des Messplatzes",
  Lens: "Lupe",
  "Valve tester": "Röhrenprüfer",
  "Logger of air": "Luftschreiber",
  "loop-back lead": "Rückschleife",
  "voltage reference": "Spannungsnormal",
  "known resistor": "bekannter Widerstand",
  "known link": "bekannte Brücke",
  "known high resistor": "bekannter hoher Widerstand",
  "known current": "bekannter Strom",
  "check weight": "Prüfgewicht",
  "check block": "Prüfblock",
  "melting ice": "schmelzendes Eis",
  "gauge block": "Endmaß",
  "card of hairlines": "Karte mit Haarlinien",
  "the bench's rectifier load": "Gleichrichterlast des Messplatzes",
  "jar of wet table salt": "Glas mit nassem Kochsalz",
};
