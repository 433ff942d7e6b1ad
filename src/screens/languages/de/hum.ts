import type { Words } from "../catalogue.ts";
import { menge } from "./forms/menge.ts";

/** What an input was, as recordings say it. */
const eingang: Readonly<Record<string, string>> = { shorted: "kurzgeschlossen", open: "offen" };

/** The hum hearing in German. */
export const said: Words<"hum"> = {
  words: {
    what: (unit) => `Die Brummuntersuchung von Gerät ${unit}`,
    whatSpectrum: "Die Spektren",
    title: (unit) => `Brumm\u00aduntersuchung von Gerät ${unit}`,
    back: (unit) => `Mappe von Gerät ${unit}`,
    channel: (channel) => `Kanal ${{ left: "links", right: "rechts" }[channel] ?? channel}`,
    quiet: "Ruhig: Keine Linie ragt aus dem Rauschen.",
    decided: (cause, odds) => `Das meiste: ${cause}. Chance ${odds}.`,
    undecided: (reason) => `Noch nicht zu sagen: ${reason}`,
    candidates: (causes) => `Noch möglich: ${causes}.`,
    causes: {
      mains: "kommt mit dem Hausnetz herein",
      "pick-up": "Einstreuung aus dem Feld dieses Gebäudes",
      amplifier: "der Verstärker selbst",
      valve: "eine Röhre",
    },
    valve: (valve, position) =>
      [valve ? `Röhre ${valve}` : "eine Röhre", position ? `in ${position}` : ""].filter(Boolean).join(" "),
    short: { mains: "Hausnetz", "pick-up": "Einstreuung", amplifier: "Verstärker", valve: "Röhre" },
    key: "Wie die Balken gezeichnet sind",
    keyDoubt: "könnte zum Nachbarn gehören",
    keyThin: "Ein dünner Balken ist eine Linie, die hier auf keinem Kopfhörer zu hören ist.",
    family: (order, of, coincide) =>
      coincide
        ? `${order}. Harm. des Netzes`
        : of === "supply"
          ? `${order}. Harm. der eigenen Versorgung`
          : `${order}. Harm. des Hausnetzes`,
    notTold: "nicht zu unterscheiden:",
    share: (cause, share, low, high) => `${cause} ${share} (${low} bis ${high})`,
    between: (low, high) => `(${low} bis ${high})`,
    line: "Linie",
    causesHead: "Woher, von 100 Teilen ihrer Leistung",
    heardHead: "Auf welchen Kopfhörern hörbar",
    heard: "zu hören auf",
    perhaps: "vielleicht auf",
    masked: "unter dem eigenen Rauschen",
    perhapsMasked: "vielleicht unter dem eigenen Rauschen",
    notOn: (count, all) =>
      count === all
        ? all === 1
          ? "auf dem einen hier nicht"
          : `auf keinem der ${all}`
        : count === 1
          ? "auf dem anderen nicht"
          : `auf den ${count} anderen nicht`,
    noHeadphones: "kein Kopfhörer im Hauptbuch, an dem zu urteilen wäre",
    conditions: (source, frequency, input) =>
      `${source === "building" ? "am Hausnetz" : "an sauberer Versorgung"} mit ${frequency} Hz, Eingang ${eingang[input] ?? input}`,
    recordingName: (name) => `Aufnahme ${name}`,
    seconds: (s) => `${s} s`,
    truncated: "abgeschnitten, so weit genutzt, wie sie reicht",
    noLines: "In dieser Aufnahme ragt keine Linie aus dem Rauschen.",
    folded: (count, isJudged) =>
      `${menge(count, "schwächere Linie", "schwächere Linien")}${isJudged ? ", auf keinem zu hören" : ""}`,
    foldedAt: (frequencies) => `${frequencies} Hz`,
    nextTitle: "Nächste Aufnahme",
    nextSupply: (source, frequency) =>
      source === "building"
        ? `Gerät am Hausnetz betreiben, ${frequency} Hz.`
        : `Gerät an sauberer Versorgung betreiben, mit ${frequency} Hz.`,
    upward:
      "Nur nach oben verstimmen: Der Kern eines Transformators führt umso mehr Fluss, je tiefer die Frequenz, und unter der Nennfrequenz sättigt er.",
    nextMinutes: (minutes) => `Etwa ${minutes}.`,
    nextValves: "Mit diesen Röhren bestückt",
    changed: (valve) => `anstelle von ${valve}`,
    noNextTitle: "Keine weitere Aufnahme nötig",
    noNext: "Jeder Kanal ist entschieden oder ruhig.",
    noNextOpenTitle: "Keine Aufnahme vorgeschlagen",
    noNextOpen: "Ein Kanal ist noch unentschieden, und keine Aufnahme, die hier möglich ist, würde ihn entscheiden.",
    bringIt: "Einlesen",
    spectrum: "Das Spektrum dahinter",
    spectrumChannel: "Gezeigter Kanal",
    spectrumAlt: (name, channel) => `Spektrum der Aufnahme ${name}, Kanal ${channel}`,
    frequency: "Frequenz, Hz",
    level: "Pegel, dBV",
    resolution: (hz) => `Jeder Punkt fasst ${hz} Hz zusammen. Benannt sind Linien, die aus dem Rauschen ragen.`,
    notes: "Was zu bedenken ist",
    emptyTitle: "Noch keine Aufnahme",
    empty:
      "Lesen Sie eine Aufnahme dieses Geräts mit kurzgeschlossenem Eingang ein. Die erste am Hausnetz sagt, was da ist; die nächste an sauberer Versorgung sagt, woher es kommt.",
  },
  underWayWords: {
    title: (unit) => `Brumm\u00aduntersuchung von Gerät ${unit}`,
    opening: "Die Aufnahmen werden geöffnet.",
    doing: (what) => `In Arbeit: ${what}.`,
    part: (pct) => `${pct} % fertig`,
    why: "Jede Linie jeder Aufnahme wird gelesen, und ihre Ursachen werden abgewogen. Das dauert einmal einige Sekunden; die Antwort bleibt, bis eine weitere Aufnahme kommt.",
  },
  bring: {
    title: "Aufnahme einlesen",
    again: "Weitere Aufnahme einlesen",
    lead: "Eine WAV-Datei und die Bedingungen, unter denen sie entstand. Sie wird aufbewahrt, wie sie ist.",
    file: "WAV-Datei",
    noFile: "Wählen Sie die WAV-Datei.",
    name: "Name der Aufnahme",
    fullScale: "Vollaussteuerung des Recorders",
    channels: "Was auf welchem Kanal ist",
    channelsHint: "Der Reihe nach, etwa: left, right, mains (links, rechts, Netz)",
    source: "Das Gerät lief an",
    building: "Hausnetz",
    regenerated: "sauberer Versorgung",
    supply: "Frequenz seiner Versorgung",
    buildingHz: "Hausnetz",
    input: "Eingang",
    inputHint: "shorted (kurzgeschlossen), open (offen) oder was angeschlossen war",
    instrument: "Recorder",
    regenerator: "Netzregenerator",
    regeneratorHint: "Damit seine Kontrollen für ihn sprechen",
    ht: "Anodenspannung dabei",
    htHint: "Wenn ein Messgerät dranhing",
    htDoubt: "Anodenspannung, Unsicherheit ±",
    htMeter: "Messgerät für die Anodenspannung",
    valve: (position) => `Röhre in ${position}`,
    send: "Einlesen",
    brought: (name) => `Aufnahme ${name} ist da. Von jetzt an wird mit ihr gerechnet.`,
    mend: "Einige Felder sind nicht lesbar. Was Sie getippt haben, bleibt stehen.",
    positive: "Das ist mehr als 0.",
  },
  supplyWords: {
    title: "War die saubere Versorgung sauber?",
    lead: "Ein Netzregenerator, der die Spitzen kappt oder einbricht, senkt die Anodenspannung; ein Brumm, der damit verschwindet, ist nicht behoben.",
    recording: (name) => `Aufnahme ${name}`,
    states: {
      believed: "Glaubwürdig",
      "not believed": "Nicht glaubwürdig und nicht verglichen",
      untried: "Nicht geprüft: Nichts spricht dafür oder dagegen",
    },
    trial: "Seine Kontrollen um diesen Tag",
    trials: { good: "bestanden", failed: "durchgefallen", undecided: "unentschieden" },
    shape: "Seine Kurvenform unter diesem Gerät",
    sine: "Scheitelfaktor; ein Sinus hat 1,414",
    beside: "Daneben aufgenommen, auf dem Netzkanal",
    level: "gegenüber dem Hausnetz",
    ht: "Anodenspannung daran und am Hausnetz",
    htValue: (here, building) => `${here} V, ${building} V:`,
    unknown: "nicht eingetragen",
    against: "Dagegen spricht:",
  },
  tapWords: {
    title: "Angeklopft",
    recording: (name) => `Aufnahme ${name}`,
    taps: (count) => (count === 1 ? "ein Klopfen" : `${count}-mal geklopft`),
    nothing: "Nichts klingt länger nach als in jeder Röhre.",
    lasts: (ms) => `fällt in ${ms} ms auf ein Drittel`,
    peak: "in der Spitze",
    decayAlt: (hz, ms) => `Ein Nachklingen bei ${hz} Hz, das in ${ms} ms auf ein Drittel fällt`,
  },
  zoomWords: {
    legend: "Näher ansehen",
    closer: "Näher",
    wider: "Weiter",
    lower: "Tiefer",
    higher: "Höher",
    whole: "Ganz",
    keys: "Wenn ein Spektrum gewählt ist: + und − oder Pfeil auf und ab für näher und weiter, Pfeil links und rechts für tiefer und höher, 0 für das Ganze.",
    between: (from, to) => `${from} bis ${to} Hz`,
  },
};
