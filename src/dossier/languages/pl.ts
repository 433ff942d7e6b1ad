import type { DossierWords } from "./dossierWords.ts";
import { tradeInPolish } from "./plTrade.ts";
import { ilu } from "./plural.ts";
import { whole } from "./whole.ts";

const pairs = (record: Readonly<Record<string, string>>) =>
  Object.entries(record)
    .map(([position, valve]) => `${valve} w ${position}`)
    .join(", ");

export const pl: DossierWords = {
  locale: "pl",
  decimal: ",",
  sheets: {
    valves: "Lampy",
    voltages: "Napięcia",
    sound: "Dźwięk",
    hum: "Przydźwięk",
    supply: "Zasilanie",
    timber: "Drewno",
    safety: "Bezpieczeństwo",
  },
  states: {
    open: "otwarte",
    proven: "dowiedzione",
    refuted: "obalone",
    undecided: "nierozstrzygnięte",
    void: "unieważnione",
    conceded: "odstępstwo",
  },
  revision: (title, revision) => `${title}, wydanie ${revision}.`,
  releasedOn: (date, by) => `Zwolnione ${date} (${by}).`,
  notReleased: "Niezwolnione.",
  missing: (count, titles) =>
    `Niezwolnione. ${count === 1 ? "Brakuje jednego dowodu" : `Brakuje ${count} dowodów`}: ${titles}.`,
  builtFor: (place, volts, hertz) =>
    `Zbudowane na zamówienie; dokąd: ${place}; sieć ${volts} V, ${hertz} Hz. Wszystko poniżej zmierzono na tym właśnie egzemplarzu; każda wartość stoi ze swoją niepewnością, w której prawdziwa wartość mieści się w 95 przypadkach na 100.`,
  whatWasProven: "Czego dowiedziono",
  provenSoFar: "Czego dowiedziono do tej pory",
  nearest: "Karta po karcie wartość, która najbardziej zbliżyła się do granicy",
  measured: "Zmierzono",
  allowed: "Dozwolone",
  concededInWriting: "z pisemną zgodą na odstępstwo",
  provenFigures: (count) => `dowiedzione, ${ilu(count, "wartość", "wartości", "wartości")}`,
  notProven: "niedowiedzione",
  valves: "Lampy",
  valve: (type, valve) => `${type}, numer ${valve}`,
  beforeOpening: "Zanim otworzysz lub przestawisz",
  forItsOwner: [
    "Napięcia wewnątrz zabijają, jeszcze przez jakiś czas po wyjęciu wtyczki. Otwieranie zostaw fachowcowi; przyda mu się ta dokumentacja.",
    "Podłączaj tylko do gniazda z uziemieniem o napięciu z tabliczki i nie wkładaj innego bezpiecznika niż podany na tabliczce.",
    "Lampy i metal wokół nich parzą. Zostaw dookoła dłoń wolnego miejsca i daj urządzeniu ostygnąć, zanim je przestawisz.",
    "Ścisz, zanim włączysz lub podłączysz; głośne słuchanie godzinami trwale uszkadza słuch.",
  ],
  forTheWorkshop: "Za warsztat",
  proofs: (sheet) => `Dowody: ${sheet.toLowerCase()}`,
  allInside: (count) =>
    count === 1
      ? "Wartość leży wewnątrz granic o więcej niż swoja niepewność."
      : `Wszystkie wartości (${count}) leżą wewnątrz granic o więcej niż ich niepewność.`,
  concededOn: (date, reason) => `Zgoda właściciela na odstępstwo z ${date}: ${reason}`,
  stands: {
    open: "Czegoś jeszcze nie zmierzono.",
    refuted: "Wartość leży poza granicą o więcej niż swoja niepewność.",
    undecided:
      "Wartość leży bliżej granicy niż jej niepewność albo opiera się na przyrządzie, który sam nie jest dowiedziony.",
    void: "Odczytane, zanim późniejsza praca albo niezdana próba przyrządu zabrała ten dowód.",
  },
  ledgerSays: (sentence) => `Słowami księgi: „${sentence}”`,
  safetyProof: "Dowód bezpieczeństwa: nie ma dla niego zgody na odstępstwo.",
  howChecked: (how) => `Jak się to sprawdza: ${how}`,
  figureHead: ["Wielkość", "Zmierzono", "Dozwolone", "Stan", "Czym", "Kiedy", "Wpis"],
  computedBy: (calculation) => `przez ${calculation}`,
  exactly: (value) => `dokładnie ${value}`,
  between: (low, high) => `od ${low} do ${high}`,
  atLeast: (value) => `co najmniej ${value}`,
  atMost: (value) => `najwyżej ${value}`,
  where: { section: "system", channel: (channel) => `kanał ${channel}` },
  channels: { left: "lewy", right: "prawy" },
  pictures: "Wykresy",
  balance: {
    title: "Lewy kanał wobec prawego, w zależności od głośności",
    table: "Różnica kanałów przy każdym ustawieniu",
    head: ["Ustawienie", "Lewy nad prawym"],
    causes: {
      control: "Ścieżki regulatora głośności różnią się; to nie wina lamp.",
      valves: "Różnica idzie za lampami; to nie wina regulatora głośności.",
      circuit: "Różnica zostaje z każdym kompletem lamp i przy każdym ustawieniu: pochodzi z układu.",
      alike: "Lewy i prawy są jednakowe przy każdym ustawieniu, z dokładnością do dziesiątej części decybela.",
      undecided: "Skąd bierze się różnica, jest nierozstrzygnięte.",
    },
    spread: (spread) => `Między ustawieniami zmienia się o ${spread} dB.`,
  },
  builtFrom: "Z czego zbudowane",
  batch: "Partia",
  seller: "Od",
  verdict: "Orzeczenie po wygrzewaniu",
  verdicts: { use: "używać", hold: "wstrzymać", reject: "odrzucić" },
  sections: {
    title: "Prąd anodowy przed wygrzewaniem i po nim",
    head: ["System", "Przed", "Po", "Dryf"],
  },
  sectionSpread: "Różnica systemów po wygrzewaniu",
  supply: {
    title: "Zasilanie",
    tap: "Odczep transformatora sieciowego",
    mains: "Ustawione na",
    power: "Pobór z sieci",
    fuse: "Bezpiecznik",
    notRead: "niezmierzone",
  },
  steps: { title: "Jak je budowano", head: ["Krok", "Kto", "Kiedy", "Wpis"] },
  stepsBefore: (steps) => `Wykonane przed założeniem teczki: ${steps}.`,
  case: {
    title: "Obudowa",
    table: "Płyty obudowy przez rok w miejscu przeznaczenia",
    head: ["Płyta", "Deska", "Gatunek", "Wilgotność przy łączeniu", "Luz przez rok", ""],
    stands: { proven: "zachowuje luz", refuted: "luzu nie starcza", undecided: "nierozstrzygnięte" },
    coats: "Wykończenie",
    coat: (name, date) => `${name}, ${date}`,
  },
  instruments: {
    title: "Przyrządy",
    table: "Przyrządy, na których opierają się wartości",
    head: ["Przyrząd", "Co to jest", "Jego ostatnia próba"],
    never: "nigdy niepróbowany",
    notOnRecord: "brak w księdze",
    trial: (read, reference, date) => `${read}; wzorzec: ${reference}; ${date}`,
    states: { good: "zdana", failed: "niezdana", undecided: "niczego nie rozstrzyga", untried: "nigdy niepróbowany" },
  },
  history: {
    title: "Co zrobiono",
    conceded: (title) => `Zgoda na odstępstwo: ${title}`,
    concession: (reason, by, date) => `${reason} (${by}, ${date})`,
    table: "Wpisy księgi o tym urządzeniu, od najstarszego",
    head: ["Kiedy", "Kto", "Co", "Wpis"],
    entries: {
      unit: ({ model, revision, tap, fitted }, { trade }) =>
        `założone jako ${model}, wydanie ${revision}, odczep ${trade(tap)}, lampy ${pairs(fitted)}`,
      step: ({ step }, { trade }) => `${trade(step)}: gotowe`,
      reading: ({ quantity, where, value, doubt, instrument }, say) =>
        `${say.quantity(quantity)}${where === "" ? "" : `, ${say.trade(where)}`}: ${say.value(quantity, value, doubt)}, przyrząd ${whole(instrument)}`,
      finding: ({ quantity, where, value, doubt, calculation }, say) =>
        `${say.quantity(quantity)}${where === "" ? "" : `, ${say.trade(where)}`}: ${say.value(quantity, value, doubt)}, obliczenie ${calculation}`,
      recording: ({ recording, purpose, hertz, input, valves }, { trade }) =>
        `nagranie ${recording} (${trade(purpose)}), ${hertz === undefined ? "na sieci budynku" : `czyste zasilanie ${hertz} Hz`}, lampy ${pairs(valves)}, wejście ${trade(input)}`,
      rework: ({ why, fitted }) => `poprawka: ${why}${fitted ? ` (teraz ${pairs(fitted)})` : ""}`,
      coat: ({ coat }, { trade }) => `warstwa na obudowie: ${trade(coat)}`,
      machined: ({ piece }) => `obrobiono ${piece} z obudowy`,
      caseGiven: ({ case: given }) => `przydzielono obudowę ${given}`,
      meant: ({ pieces }) => `drewno odłożone dla niego: ${pieces}`,
      concession: ({ claim, reason }) => `zgoda na odstępstwo, ${claim}: ${reason}`,
      release: ({ claims, version }) =>
        `zwolnione na podstawie ${ilu(claims, "dowodu", "dowodów", "dowodów")}, obliczenia ${version}`,
      other: ({ name }, { trade }) => trade(name),
    },
  },
  signatures: {
    title: "Kto za to odpowiada",
    lead: "Każdy wpis mówi, kto go zrobił, i nie da się go później zmienić tak, by nie zmienił się także skrót poniżej.",
    table: "Kto pisał w księdze o tym urządzeniu",
    head: ["Kto", "Co", "Kiedy"],
    wrote: (entries) => ilu(entries, "wpis", "wpisy", "wpisów"),
    between: (from, to) => `od ${from} do ${to}`,
    released: (entry) => `zwolnienie, wpis ${entry}`,
    byHand: ["Sprawdził(a): nazwisko, miejsce i data", "Zwolnił(a): nazwisko, miejsce i data"],
  },
  cautions: {
    title: "Zanim otworzysz",
    dangers: {
      "high-voltage":
        "Wzmacniacze lampowe trzymają śmiertelne napięcie po wyjęciu wtyczki. Rozładuj, zmierz, że go nie ma, jedna ręka za plecami.",
      mains:
        "Części sieciowe są pod napięciem, dopóki wtyczka jest w gnieździe. Używaj transformatora separacyjnego i wyłącznika różnicowoprądowego.",
      hot: "Lampy i płyty parzą. Daj im ostygnąć, zanim dotkniesz.",
      dust: "Pył drewna liściastego uczula. Odciągaj go i noś maskę.",
    },
    always: "Granice tutaj to wskazówki: decydują przepisy miejscowe i osoba z uprawnieniami.",
  },
  checking: {
    title: "Jak sprawdzić tę dokumentację",
    text: "Każdy wpis księgi warsztatu niesie skrót poprzedniego, więc zmieniony lub brakujący wpis widać. Tę dokumentację wyciągnięto z księgi w stanie o skrócie podanym poniżej; te same wpisy drukują tę samą dokumentację, bajt w bajt.",
    head: "Księga stoi na",
    version: "Obliczono przez Stillglow",
    releasedBy: "Zwolnienie",
    release: (by, date, entry) => `${by}, ${date}, wpis ${entry}`,
    resting: "Jego wpisy stały wtedy na",
    judged: "Oceniono wtedy przez Stillglow",
  },
  mark: (unit) => `Znak dla skanera: ${unit}.`,
  foot: (shop, unit, head) => `${shop} · urządzenie ${unit} · księga ${head}`,
  pageOf: "z",
  plate: { number: "Nr", fuse: "Bezpiecznik" },
  drawings: {
    response: "Pasmo przenoszenia",
    responseAlt: (channels) => `Wzmocnienie w funkcji częstotliwości, względem 1 kHz: ${channels}.`,
    responseAt: (channel, points) => `${channel} ${points}`,
    at: (level, frequency) => `${level} dB przy ${frequency} Hz`,
    responseCaption: (recording) => `Względem 1 kHz. Obliczone z przemiatania ${recording}.`,
    noise: (channel) => `Szum, kanał ${channel}`,
    noiseAlt: (channel, recording, level, hertz) =>
      `Poziomy kanału ${channel} od 20 Hz do 20 kHz w nagraniu ${recording}; najwyższy, ${level} dBV, stoi przy ${hertz} Hz.`,
    noiseCaption: (recording, channel, hertz) =>
      `Nagranie ${recording}, kanał ${channel}, prążki co ${hertz} Hz; wartość skuteczna każdego.`,
    hum: "Przydźwięk, prążek po prążku",
    humAlt: (lines) => `Każdy prążek sieci ze swoją przyczyną: ${lines}.`,
    humCaption: "Każdy pasek to jeden prążek przydźwięku, podzielony według przyczyn.",
    humLine: (line, level, cause, heard) => `${line}, ${level}, głównie ${cause}, ${heard}`,
    heardOnNone: "niesłyszalny na żadnych",
    heardOn: (headphones) => `słychać na ${headphones}`,
    undecided: "nierozstrzygnięte",
    causes: { mains: "sieć", "pick-up": "pole budynku", amplifier: "wzmacniacz", valve: "lampa" },
    case: (place) => `Obudowa przez rok, ${place}`,
    caseAlt: (panels) => `Ruch płyt w poprzek włókien, miesiąc po miesiącu, względem wymiaru przy łączeniu: ${panels}.`,
    casePanel: (panel, low, high) => `${panel} od ${low} do ${high} mm`,
    caseCaption:
      "Względem wymiaru przy łączeniu; szerzej znaczy wyżej. Obliczone z ważeń samych płyt i tamtejszego klimatu.",
    months: ["S", "L", "M", "K", "M", "C", "L", "S", "W", "P", "L", "G"],
  },
  trade: tradeInPolish,
  parts: {
    left: "lewy",
    right: "prawy",
    plate: "anoda",
    cathode: "katoda",
    cathodes: "katody",
    grid: "siatka",
    output: "wyjście",
    heater: "żarzenie",
    stator: "stator",
    section: "system",
    HT: "napięcie anodowe",
  },
};
