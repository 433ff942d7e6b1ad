import type { Words } from "../catalogue.ts";
import { ile } from "./forms/ile.ts";

/** What an input was, as recordings say it. */
const wejscie: Readonly<Record<string, string>> = { shorted: "zwarte", open: "otwarte" };

/** The hum hearing in Polish. */
export const said: Words<"hum"> = {
  words: {
    what: (unit) => `Badanie przydźwięku ${unit}`,
    whatSpectrum: "Widma",
    title: (unit) => `Badanie przydźwięku urządzenia ${unit}`,
    back: (unit) => `Teczka urządzenia ${unit}`,
    channel: (channel) => `Kanał ${{ left: "lewy", right: "prawy" }[channel] ?? channel}`,
    quiet: "Cicho: żadna linia nie wystaje z szumu.",
    decided: (cause, odds) => `Głównie: ${cause}. Szansa ${odds}.`,
    undecided: (reason) => `Jeszcze nie wiadomo: ${reason}`,
    candidates: (causes) => `Wciąż możliwe: ${causes}.`,
    causes: {
      mains: "wnosi go sieć domowa",
      "pick-up": "zbierany z pola tego budynku",
      amplifier: "sam wzmacniacz",
      valve: "lampa",
    },
    valve: (valve, position) =>
      [valve ? `lampa ${valve}` : "lampa", position ? `na ${position}` : ""].filter(Boolean).join(" "),
    short: { mains: "sieć domowa", "pick-up": "pole", amplifier: "wzmacniacz", valve: "lampa" },
    key: "Jak rysowane są paski",
    keyDoubt: "może należeć do sąsiada",
    keyThin: "Cienki pasek to linia, której nie słychać w żadnych słuchawkach tutaj.",
    family: (order, of, coincide) =>
      coincide
        ? `${order}. harm. sieci`
        : of === "supply"
          ? `${order}. harm. własnego zasilania`
          : `${order}. harm. sieci budynku`,
    notTold: "nie do odróżnienia:",
    share: (cause, share, low, high) => `${cause} ${share} (od ${low} do ${high})`,
    between: (low, high) => `(od ${low} do ${high})`,
    line: "Linia",
    causesHead: "Skąd, na 100 części jej mocy",
    heardHead: "W których słuchawkach słychać",
    heard: "słychać w",
    perhaps: "może w",
    masked: "pod własnym szumem",
    perhapsMasked: "może pod własnym szumem",
    notOn: (count, all) =>
      count === all
        ? all === 1
          ? "w jedynych tutaj nie"
          : `w żadnych z ${all}`
        : count === 1
          ? "w drugich nie"
          : `w pozostałych ${count} nie`,
    noHeadphones: "w księdze nie ma słuchawek, według których można orzec",
    conditions: (source, frequency, input) =>
      `${source === "building" ? "na sieci budynku" : "na czystym zasilaniu"}, ${frequency} Hz, wejście ${wejscie[input] ?? input}`,
    recordingName: (name) => `Nagranie ${name}`,
    seconds: (s) => `${s} s`,
    truncated: "urwane, użyte, dokąd sięga",
    noLines: "W tym nagraniu żadna linia nie wystaje z szumu.",
    folded: (count, isJudged) =>
      `${ile(count, "słabsza linia", "słabsze linie", "słabszych linii")}${isJudged ? ", w żadnych nie słychać" : ""}`,
    foldedAt: (frequencies) => `${frequencies} Hz`,
    nextTitle: "Następne nagranie",
    nextSupply: (source, frequency) =>
      source === "building" ? `Zasil z sieci budynku, ${frequency} Hz.` : `Zasil czystym zasilaniem, ${frequency} Hz.`,
    upward:
      "Odstrajaj tylko w górę: rdzeń transformatora niesie tym większy strumień, im niższa częstotliwość, a poniżej znamionowej nasyca się.",
    nextMinutes: (minutes) => `Około ${minutes}.`,
    nextValves: "Z tymi lampami",
    changed: (valve) => `zamiast ${valve}`,
    noNextTitle: "Więcej nagrań nie trzeba",
    noNext: "Każdy kanał jest rozstrzygnięty albo cichy.",
    noNextOpenTitle: "Nie ma co zaproponować",
    noNextOpen: "Jeden kanał jest wciąż nierozstrzygnięty, a żadne nagranie możliwe tutaj by go nie rozstrzygnęło.",
    bringIt: "Wczytaj",
    spectrum: "Widmo za tym stojące",
    spectrumChannel: "Pokazany kanał",
    spectrumAlt: (name, channel) => `Widmo nagrania ${name}, kanał ${channel}`,
    frequency: "częstotliwość, Hz",
    level: "poziom, dBV",
    resolution: (hz) => `Każdy punkt obejmuje ${hz} Hz. Nazwane są linie, które wystają z szumu.`,
    notes: "O czym pamiętać",
    emptyTitle: "Nie ma jeszcze nagrania",
    empty:
      "Wczytaj nagranie tego urządzenia ze zwartym wejściem. Pierwsze, na sieci budynku, mówi, co jest; następne, na czystym zasilaniu, mówi, skąd.",
  },
  underWayWords: {
    title: (unit) => `Badanie przydźwięku urządzenia ${unit}`,
    opening: "Otwierane są nagrania.",
    doing: (what) => `W toku: ${what}.`,
    part: (pct) => `gotowe w ${pct} %`,
    why: "Czyta się każdą linię każdego nagrania i waży jej przyczyny. To trwa raz kilka sekund; odpowiedź zostaje, dopóki nie przyjdzie następne nagranie.",
  },
  bring: {
    title: "Wczytaj nagranie",
    again: "Wczytaj następne nagranie",
    lead: "Plik WAV i warunki, w jakich powstał. Zostaje przechowany taki, jaki jest.",
    file: "Plik WAV",
    noFile: "Wybierz plik WAV.",
    name: "Nazwa nagrania",
    fullScale: "Pełne wysterowanie rejestratora",
    channels: "Co jest na którym kanale",
    channelsHint: "Po kolei, na przykład: left, right, mains (lewy, prawy, sieć)",
    source: "Urządzenie zasilała",
    building: "sieć budynku",
    regenerated: "czysta sieć",
    supply: "Częstotliwość zasilania",
    buildingHz: "Sieć budynku",
    input: "Wejście",
    inputHint: "shorted (zwarte), open (otwarte) albo co było podłączone",
    instrument: "Rejestrator",
    regenerator: "Regenerator sieci",
    regeneratorHint: "Żeby jego próby za niego mówiły",
    ht: "Napięcie anodowe wtedy",
    htHint: "Jeśli był na nim miernik",
    htDoubt: "Napięcie anodowe, niepewność ±",
    htMeter: "Miernik napięcia anodowego",
    valve: (position) => `Lampa na ${position}`,
    send: "Wczytaj",
    brought: (name) => `Wczytano nagranie ${name}. Odtąd liczy się w badaniu.`,
    mend: "Niektórych pól nie da się odczytać. To, co wpisano, zostaje.",
    positive: "Jest większe od 0.",
  },
  supplyWords: {
    title: "Czy czyste zasilanie było czyste?",
    lead: "Regenerator, który ścina szczyty lub siada, obniża napięcie anodowe; przydźwięk, który z nim znika, nie jest usunięty.",
    recording: (name) => `Nagranie ${name}`,
    states: {
      believed: "Wiarygodne",
      "not believed": "Niewiarygodne i nieporównywane",
      untried: "Niesprawdzone: nic nie mówi za ani przeciw",
    },
    trial: "Jego próby z tych dni",
    trials: { good: "przeszedł", failed: "nie przeszedł", undecided: "nic nie rozstrzygnęły" },
    shape: "Jego przebieg pod tym urządzeniem",
    sine: "współczynnik szczytu; sinus ma 1,414",
    beside: "Nagrane obok, na kanale sieci",
    level: "wobec sieci budynku",
    ht: "Napięcie anodowe na nim i na sieci budynku",
    htValue: (here, building) => `${here} V, ${building} V:`,
    unknown: "nie zapisano",
    against: "Przemawia przeciw:",
  },
  tapWords: {
    title: "Opukane",
    recording: (name) => `Nagranie ${name}`,
    taps: (count) => ile(count, "puknięcie", "puknięcia", "puknięć"),
    nothing: "Nic nie dzwoni dłużej niż w każdej lampie.",
    lasts: (ms) => `spada do jednej trzeciej w ${ms} ms`,
    peak: "w szczycie",
    decayAlt: (hz, ms) => `Dzwonienie przy ${hz} Hz, spada do jednej trzeciej w ${ms} ms`,
  },
  zoomWords: {
    legend: "Przyjrzyj się",
    closer: "Bliżej",
    wider: "Szerzej",
    lower: "Niżej",
    higher: "Wyżej",
    whole: "Całość",
    keys: "Gdy widmo jest wybrane: + i − albo strzałki w górę i w dół: bliżej i szerzej, strzałki w bok: niżej i wyżej, 0: całość.",
    between: (from, to) => `od ${from} do ${to} Hz`,
  },
};
