import type { Sentences } from "../../sentences/phrasebook.ts";

/** What trays, sets and the buying of valves say, in German. */
export const sentences: Sentences = {
  "{place}: Section {s}: {~rest}": "{place}: System {s}: {rest}",
  "{place}: Sections' spread {~rest}": "{place}: Unterschied der Systeme {rest}",
  "{place}: Sections' spread: {~rest}": "{place}: Unterschied der Systeme: {rest}",
  "Section {s}: {~rest}": "System {s}: {rest}",
  "Sections' spread: {~rest}": "Unterschied der Systeme: {rest}",
  "{~what}: inside": "{what}: innerhalb",
  "{~what}: outside by more than the doubt": "{what}: um mehr als die Unsicherheit außerhalb",
  "{~what}: nearer the limit than the doubt; {~decides}": "{what}: näher an der Grenze als die Unsicherheit; {decides}",
  "the mean of {#n} readings {~where}, and as many of the reference valve, would decide if it stays there":
    "das Mittel aus {n} Messungen {where} und ebenso vielen der Vergleichsröhre würde entscheiden, wenn es dort bleibt",
  "before and after": "vorher und nachher",
  "of both sections": "beider Systeme",
  "of grid current": "des Gitterstroms",
  "of heater-cathode leakage": "des Leckstroms Heizung–Kathode",
  "of grid current and gm": "von Gitterstrom und Steilheit",
  "of gm": "der Steilheit",
  "at both heater voltages": "bei beiden Heizspannungen",
  "it stands on the limit: more readings will hardly decide, a longer heat run may":
    "es steht auf der Grenze: Weitere Messungen werden kaum entscheiden, ein längerer Einbrennlauf vielleicht",
  "drift {#v} % ± {#d} % over the heat run ({#a} to {#b} mA, tester put right), limit ±{#l} %":
    "Drift {v} % ± {d} % im Einbrennlauf ({a} auf {b} mA, Prüfgerät berichtigt), Grenze ±{l} %",
  "Sections' spread {#v} % ± {#d} % after the heat run ({readings} mA), limit {#l} %":
    "Unterschied der Systeme {v} % ± {d} % nach dem Einbrennlauf ({readings} mA), Grenze {l} %",
  "{#v} % ± {#d} % after the heat run ({readings} mA), limit {#l} %":
    "{v} % ± {d} % nach dem Einbrennlauf ({readings} mA), Grenze {l} %",
  "a section was not read after the heat run; take that reading":
    "ein System wurde nach dem Einbrennlauf nicht gemessen; diese Messung nachholen",
  "no section carries plate current; check heater and contacts":
    "kein System führt Anodenstrom; Heizung und Kontakte prüfen",
  "grid current": "Gitterstrom",
  "heater-cathode leakage": "Leckstrom Heizung–Kathode",
  "{~what} {#v} ± {#d} µA, limit {#l} µA": "{what} {v} ± {d} µA, Grenze {l} µA",
  "{~what} has a limit but was not read after the heat run; read it":
    "{what} hat eine Grenze, wurde aber nach dem Einbrennlauf nicht gemessen; messen",
  "{~missing}, so its drift is not known; {~do}": "{missing}, deshalb ist seine Drift nicht bekannt; {do}",
  "no reading before the heat run": "keine Messung vor dem Einbrennlauf",
  "no reading after the heat run": "keine Messung nach dem Einbrennlauf",
  "no plate current before the heat run": "kein Anodenstrom vor dem Einbrennlauf",
  "take that reading": "diese Messung nachholen",
  "check heater and contacts, then read again": "Heizung und Kontakte prüfen, dann noch einmal messen",
  "No limit of drift was given": "Für die Drift ist keine Grenze angegeben",
  "gm has a limit but was not read after the heat run; read it":
    "Die Steilheit hat eine Grenze, wurde aber nach dem Einbrennlauf nicht gemessen; messen",
  "gm is limited in per cent of print, but the catalogue has no gm for {type}; judge it by its sheet":
    "Die Steilheit ist in Prozent des Datenblatts begrenzt, aber das Verzeichnis kennt keine für {type}; nach ihrem Blatt beurteilen",
  "gm {#v} mS is {#p} % ± {#d} % of the {#n} mS printed, at least {#l} % wanted":
    "Steilheit {v} mS, das sind {p} % ± {d} % der gedruckten {n} mS, verlangt mindestens {l} %",
  "grid current was not read after the heat run, so its shift of bias in {place} is not known; read it":
    "Der Gitterstrom wurde nach dem Einbrennlauf nicht gemessen, deshalb ist die Verschiebung der Gittervorspannung in {place} nicht bekannt; messen",
  "none of the sections {sections} it uses was read; read them":
    "Keines der benutzten Systeme {sections} wurde gemessen; messen",
  "{#i} µA of grid current in {#r} kΩ moves the bias by {#v} V, {#p} ± {#d} {~what}, limit {#l} {unit}":
    "{i} µA Gitterstrom in {r} kΩ verschieben die Gittervorspannung um {v} V, {p} ± {d} {what}, Grenze {l} {unit}",
  "{#i} µA of grid current in {#r} kΩ moves the bias by {#v} V and the plate current by {#m} mA, {#p} ± {#d} {~what}, limit {#l} {unit}":
    "{i} µA Gitterstrom in {r} kΩ verschieben die Gittervorspannung um {v} V und den Anodenstrom um {m} mA, {p} ± {d} {what}, Grenze {l} {unit}",
  "{#i} µA of grid current in {#r} kΩ moves the bias by {#v} V; what that does to the plate current is not known without gm and a reading after the heat run":
    "{i} µA Gitterstrom in {r} kΩ verschieben die Gittervorspannung um {v} V; was das am Anodenstrom ändert, ist ohne Steilheit und eine Messung nach dem Einbrennlauf nicht bekannt",
  "% of plate current": "% des Anodenstroms",
  "V of bias": "V Gittervorspannung",
  "its grid leak of {#a} kΩ is above the {#b} kΩ that the sheet of the {type} allows under fixed bias":
    "sein Gitterableitwiderstand von {a} kΩ liegt über den {b} kΩ, die das Blatt der {type} bei fester Vorspannung erlaubt",
  "its grid leak of {#a} kΩ is above the {#b} kΩ that the sheet of the {type} allows under cathode bias":
    "sein Gitterableitwiderstand von {a} kΩ liegt über den {b} kΩ, die das Blatt der {type} bei Kathodenvorspannung erlaubt",
  "its grid current moves the bias there by {#v} ± {#d} V":
    "sein Gitterstrom verschiebt dort die Vorspannung um {v} ± {d} V",
  "Only one of the type's two sections was read: their spread was not judged":
    "Nur eines der beiden Systeme wurde gemessen: ihr Unterschied ist nicht beurteilt",
  "no reading at a lowered heater (heater_pct below {#n}), so its emission is not known; take one":
    "keine Messung mit gesenkter Heizung (unter {n} %), deshalb ist die Emission nicht bekannt; eine machen",
  "no reading at full heat in the same phase to hold the lowered one against; take one":
    "keine Messung bei voller Heizung in derselben Phase zum Vergleich; eine machen",
  "plate current falls by {#v} % ± {#d} % at {#h} % heater, limit {#l} %":
    "der Anodenstrom fällt bei {h} % Heizung um {v} % ± {d} %, Grenze {l} %",
  "fewer than three readings after the heat run began at different times, so whether it has settled is not known; read again":
    "weniger als drei Messungen zu verschiedenen Zeiten nach Beginn des Einbrennlaufs, deshalb ist nicht bekannt, ob es sich beruhigt hat; noch einmal messen",
  "{#v} ± {#d} mA expected in the end, {#p} ± {#e} % still to come, limit {#l} %":
    "am Ende {v} ± {d} mA zu erwarten, noch {p} ± {e} % vor sich, Grenze {l} %",
  "{~what}: settled": "{what}: beruhigt",
  "{~what}: not settled yet; read again after {#h} h more":
    "{what}: noch nicht beruhigt; nach weiteren {h} h noch einmal messen",
  "{~what}: the readings do not tell yet; read again after {#h} h more":
    "{what}: Die Messungen sagen es noch nicht; nach weiteren {h} h noch einmal messen",
  "Inside every limit of the tray, but serves none of the places asked: {~why}":
    "Innerhalb jeder Grenze der Lade, dient aber an keinem der gefragten Plätze: {why}",
  "Settling was left out: more than {#n} sections with three hot readings or more, times the places and one more. Judge the valves in several trays to have it":
    "Das Einlaufen wurde weggelassen: mehr als {n} Systeme mit drei oder mehr heißen Messungen, mal die Plätze und einen mehr. Für mehr die Röhren in mehreren Laden beurteilen",
  "The reference valve was read at one time only: a drift of the tester between readings cannot be seen, and would look like a drift of the valves":
    "Die Vergleichsröhre wurde nur zu einer Zeit gemessen: Eine Drift des Prüfgeräts zwischen den Messungen ist nicht zu sehen und sähe wie eine Drift der Röhren aus",
  "Some readings were taken outside the reference valve's ({#a} to {#b} h); its nearest reading was used for them. Read it first and last":
    "Einige Messungen liegen außerhalb derer der Vergleichsröhre ({a} bis {b} h); für sie galt deren nächste. Die Vergleichsröhre zuerst und zuletzt messen",
  "{valve} {s}: a reading marked cold ({#a} h) is later than the last marked hot ({#b} h); check the marks":
    "{valve} {s}: Eine als kalt bezeichnete Messung ({a} h) liegt nach der letzten heißen ({b} h); die Bezeichnungen prüfen",
  "gm_min_pct counts from the gm printed in the catalogue at the type's published working point; gm readings taken elsewhere cannot be compared with it":
    "Die Grenze der Steilheit zählt ab der gedruckten am veröffentlichten Arbeitspunkt; anderswo gemessene lassen sich damit nicht vergleichen",
  "Doubt counts the scatter of the valve's and the reference valve's readings; a limit is met or missed only by at least the doubt":
    "Die Unsicherheit zählt die Streuung der Messungen von Röhre und Vergleichsröhre; eine Grenze gilt nur als eingehalten oder verfehlt, wenn mindestens um die Unsicherheit",
  "No test point or limits of the {type} are on record. Set them first; then its valves can be read":
    "Für die {type} sind weder Messpunkt noch Grenzen eingetragen. Erst diese setzen; dann lassen sich ihre Röhren messen",
  "No valve of this tray was read yet. Begin with the reference valve, then read each section cold":
    "Noch keine Röhre dieser Lade ist gemessen. Mit der Vergleichsröhre beginnen, dann jedes System kalt messen",
  "The reference valve of the {type} was never read, so nobody knows what the tester was worth. Read it now, then the tray is judged":
    "Die Vergleichsröhre der {type} wurde nie gemessen, deshalb weiß niemand, was das Prüfgerät taugte. Jetzt messen, dann wird die Lade beurteilt",
  "No valve here may be used and stands nowhere. Valves are proven by reading them before and after the heat run":
    "Keine Röhre hier darf verwendet werden und ist noch frei. Röhren werden belegt, indem man sie vor und nach dem Einbrennlauf misst",
  "No model on record has a place for valves of this type":
    "Kein eingetragenes Modell hat einen Platz für Röhren dieses Typs",
  "No open order waits for valves of this type": "Kein offener Auftrag wartet auf Röhren dieses Typs",
  "Found by: {~how}": "Gefunden durch: {how}",
  "best matching of all pairs": "beste Paarung aller Paare",
  "each valve tried alone": "jede Röhre einzeln versucht",
  "all runs along the one feature tried": "alle Folgen entlang des einen Merkmals versucht",
  "every set that could matter weighed": "jeder Satz, auf den es ankommen kann, gewogen",
  "sets priced and regrouped region by region": "Sätze bewertet und Gegend für Gegend neu gebildet",
  "sets of near neighbours weighed, and exchanges": "Sätze naher Nachbarn gewogen, und Tausche",
  "gains added up, sets priced and searched": "Verstärkungen addiert, Sätze bewertet und durchsucht",
  "{#n} unit[s] cannot have valves: no way to make more sets within the limit from these valves":
    "{n} {n|Gerät bekommt|Geräte bekommen} keine Röhren: Aus diesen lassen sich innerhalb der Grenze nicht mehr Sätze bilden",
  "{#n} unit[s] left without valves": "{n} {n|Gerät bleibt|Geräte bleiben} ohne Röhren",
  "Not proven best: the total cannot be less than {#n}":
    "Nicht als beste bewiesen: Die Summe kann nicht unter {n} liegen",
  "Not proven best: the total cannot be less than {#n}, and whether one more unit could have valves is not proven":
    "Nicht als beste bewiesen: Die Summe kann nicht unter {n} liegen, und ob ein weiteres Gerät Röhren haben könnte, ist nicht bewiesen",
  "Every set weighed was solved in the circuit": "Jeder gewogene Satz wurde in der Schaltung gelöst",
  "Gains were added up from single exchanges to choose, and the sets chosen solved in the circuit: the two differ by up to {#n} dB":
    "Zum Auswählen wurden Verstärkungen aus einzelnen Tauschen addiert und die gewählten Sätze in der Schaltung gelöst: Beides weicht um bis zu {n} dB ab",
  "Gains were added up from single exchanges to choose, and the sets chosen solved in the circuit: the two differ by up to {#n} dB, which the bound behind gap allows for":
    "Zum Auswählen wurden Verstärkungen aus einzelnen Tauschen addiert und die gewählten Sätze in der Schaltung gelöst: Beides weicht um bis zu {n} dB ab, was die Schranke berücksichtigt",
  "gap is the whole cost: the only bound known is {#n} dB":
    "die Lücke ist der ganze Aufwand: Die einzige bekannte Schranke ist {n} dB",
  "doubt_dB counts {~what}; parts of the circuit are taken at their net list values":
    "Die Unsicherheit zählt {what}; die Teile der Schaltung gelten mit ihren Werten der Netzliste",
  "the doubt given with the curves, and where none is given {#n} % in current and in mu ({#p} %)":
    "die mit den Kennlinien angegebene Unsicherheit und, wo keine angegeben ist, {n} % im Strom und im Verstärkungsfaktor ({p} %)",
  "{#n} % in current and in mu ({#p} %)": "{n} % im Strom und im Verstärkungsfaktor ({p} %)",
  "no valve is named": "keine Röhre genannt",
  "“{valve}” is not in this tray": "„{valve}“ ist nicht in dieser Lade",
  "Even {#n} valves give {sets} sets with a chance of {#p} only, since so few passed or so few were tested; test more valves, or ask for less confidence":
    "Selbst {n} Röhren geben {sets} Sätze nur mit einer Chance von {p}, weil so wenige bestanden oder geprüft wurden; mehr Röhren prüfen oder weniger Sicherheit verlangen",
  "Even {#n} valves give {sets} sets with a chance of {#p} only, since so few passed or so few were tested, or so few are alike within the limit; {~mend}":
    "Selbst {n} Röhren geben {sets} Sätze nur mit einer Chance von {p}, weil so wenige bestanden, geprüft wurden oder innerhalb der Grenze gleich sind; {mend}",
  "allow a higher limit, test more valves, or ask for less confidence":
    "eine höhere Grenze erlauben, mehr Röhren prüfen oder weniger Sicherheit verlangen",
  "test more valves, or ask for less confidence": "mehr Röhren prüfen oder weniger Sicherheit verlangen",
  "no batch of this type was ever tested": "von diesem Typ wurde noch keine Lieferung geprüft",
  "“{a}” is neither cold nor hot": "„{a}“ ist weder kalt noch heiß",
  "“{a}” is not a number": "„{a}“ ist keine Zahl",
  "“{a}” is no section of these valves; they have {list}": "„{a}“ ist kein System dieser Röhren; sie haben {list}",
  "{a} mA: a plate current is {#n} or more": "{a} mA: Ein Anodenstrom ist {n} oder mehr",
  "no plate current is given": "kein Anodenstrom angegeben",
};
