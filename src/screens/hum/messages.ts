import { spoken } from "../languages/spoken.ts";

const ordinal = (n: number) => {
  const tail = n % 100 > 10 && n % 100 < 14 ? "th" : (["th", "st", "nd", "rd"][n % 10] ?? "th");
  return `${n}${tail}`;
};

export const words = spoken("hum", "words", {
  what: (unit: string) => `the hum hearing of unit ${unit}`,
  whatSpectrum: "the spectra",
  title: (unit: string) => `Hum hearing of unit ${unit}`,
  back: (unit: string) => `Folder of unit ${unit}`,
  channel: (channel: string) => `${channel.charAt(0).toUpperCase()}${channel.slice(1)} channel`,
  quiet: "Quiet: no line stands out of the floor.",
  decided: (cause: string, odds: string) => `Most of it is ${cause}. Odds ${odds}.`,
  undecided: (reason: string) => `Can’t tell yet: ${reason}`,
  candidates: (causes: string) => `Still possible: ${causes}.`,
  causes: {
    mains: "brought in by the house mains",
    "pick-up": "picked up from this building’s field",
    amplifier: "the amplifier itself",
    valve: "a valve",
  } as Readonly<Record<string, string>>,
  valve: (valve: string | undefined, position: string | undefined) =>
    [valve ? `valve ${valve}` : "a valve", position ? `in ${position}` : ""].filter(Boolean).join(" "),
  short: { mains: "house mains", "pick-up": "pick-up", amplifier: "amplifier", valve: "valve" } as Readonly<
    Record<string, string>
  >,
  key: "How the bars are drawn",
  keyDoubt: "could belong to the neighbour",
  keyThin: "A thin bar is a line heard on none of the headphones here.",
  family: (order: number, of: "supply" | "building", coincide: boolean) =>
    coincide
      ? `${ordinal(order)} of the mains`
      : of === "supply"
        ? `${ordinal(order)} of its own supply`
        : `${ordinal(order)} of the building’s mains`,
  notTold: "not told apart:",
  share: (cause: string, share: string, low: string, high: string) => `${cause} ${share} (${low} to ${high})`,
  between: (low: string, high: string) => `(${low} to ${high})`,
  line: "Line",
  causesHead: "Made by, of 100 parts of its power",
  heardHead: "Heard on which headphones",
  heard: "heard on",
  perhaps: "perhaps on",
  masked: "under its own hiss",
  perhapsMasked: "perhaps under its own hiss",
  notOn: (count: number, all: number) =>
    count === all
      ? all === 1
        ? "not on the one here"
        : `on none of the ${all}`
      : count === 1
        ? "not on the other"
        : `not on the other ${count}`,
  noHeadphones: "no headphones in the ledger to judge by",
  conditions: (source: string, frequency: string, input: string) =>
    `${source === "building" ? "on the building’s mains" : "on clean supply"} at ${frequency} Hz, input ${input}`,
  recordingName: (name: string) => `Recording ${name}`,
  seconds: (s: string) => `${s} s`,
  truncated: "cut short, used as far as it goes",
  noLines: "No line stands out of the floor in this recording.",
  folded: (count: number, isJudged: boolean) =>
    `${count} fainter ${count === 1 ? "line" : "lines"}${isJudged ? ", heard on none" : ""}`,
  foldedAt: (frequencies: string) => `${frequencies} Hz`,
  nextTitle: "Next recording to make",
  nextSupply: (source: string, frequency: string) =>
    source === "building"
      ? `Run it from the building’s mains, ${frequency} Hz.`
      : `Run it from clean supply at ${frequency} Hz.`,
  upward:
    "Offset upward only: a transformer’s core carries more flux the lower the frequency, and below its rated one it saturates.",
  nextMinutes: (minutes: string) => `About ${minutes}.`,
  nextValves: "With these valves in",
  changed: (valve: string) => `instead of ${valve}`,
  noNextTitle: "No further recording is needed",
  noNext: "Every channel is decided or quiet.",
  noNextOpenTitle: "No recording is named",
  noNextOpen: "A channel is undecided still, and none of the recordings that can be made here would decide it.",
  bringIt: "Bring it in",
  spectrum: "The spectrum behind it",
  spectrumChannel: "Channel shown",
  spectrumAlt: (name: string, channel: string) => `Spectrum of recording ${name}, ${channel} channel`,
  frequency: "frequency, Hz",
  level: "level, dBV",
  resolution: (hz: string) => `Each point takes in ${hz} Hz. Named lines are those that stand out of the floor.`,
  notes: "What to bear in mind",
  emptyTitle: "No recording yet",
  empty:
    "Bring in a recording of this unit made with its input shorted. The first on the building’s own mains says what is there; the next on clean supply says whose it is.",
});

export const underWayWords = spoken("hum", "underWayWords", {
  title: (unit: string) => `Hum hearing of unit ${unit}`,
  opening: "Opening its recordings.",
  doing: (what: string) => `At work on: ${what}.`,
  part: (pct: number) => `${pct} % done`,
  why: "Every line of every recording is read and its causes weighed. That takes some seconds once; the answer is kept until another recording comes in.",
} as const);

export const bring = spoken("hum", "bring", {
  title: "Bring in a recording",
  again: "Bring in another recording",
  lead: "A WAV file and the conditions it was made under. It is kept as it is.",
  file: "WAV file",
  noFile: "Choose the WAV file.",
  name: "Name of the recording",
  fullScale: "Full scale of the recorder",
  channels: "What each channel holds",
  channelsHint: "In order, say: left, right, mains",
  source: "The unit ran on",
  building: "the building’s mains",
  regenerated: "clean supply",
  supply: "Frequency of its supply",
  buildingHz: "Mains of the building",
  input: "Input",
  inputHint: "shorted, open, or what was joined",
  instrument: "Recorder",
  regenerator: "Regenerator",
  regeneratorHint: "So that its trials speak for it",
  ht: "HT meanwhile",
  htHint: "If a meter stood on it",
  htDoubt: "HT, give or take",
  htMeter: "Meter on the HT",
  valve: (position: string) => `Valve in ${position}`,
  send: "Bring it in",
  brought: (name: string) => `Brought in: recording ${name}. The hearing counts it from now.`,
  mend: "Some fields can’t be read. What you typed is kept.",
  positive: "This is more than 0.",
});

export const supplyWords = spoken("hum", "supplyWords", {
  title: "Was the clean supply clean?",
  lead: "A regenerator that cuts its peaks or sags lowers the HT, and a hum that goes with it is not cured.",
  recording: (name: string) => `Recording ${name}`,
  states: {
    believed: "Believed",
    "not believed": "Not believed, and not compared",
    untried: "Not tried: nothing speaks for it or against it",
  },
  trial: "Its trials about that day",
  trials: { good: "passed", failed: "failed", undecided: "decided nothing" },
  shape: "Its shape under this unit",
  sine: "crest factor; a sine has 1.414",
  beside: "Recorded beside it, in its supply channel",
  level: "against the building’s mains",
  ht: "HT on it, and on the building’s mains",
  htValue: (here: string, building: string) => `${here} V, ${building} V:`,
  unknown: "not on record",
  against: "Against it:",
} as const);

export const tapWords = spoken("hum", "tapWords", {
  title: "Tapped",
  recording: (name: string) => `Recording ${name}`,
  taps: (count: number) => (count === 1 ? "one tap" : `${count} taps`),
  nothing: "Nothing rings for longer than in any valve.",
  lasts: (ms: string) => `falls to a third in ${ms} ms`,
  peak: "at its peak",
  decayAlt: (hz: string, ms: string) => `A ring at ${hz} Hz, falling to a third in ${ms} ms`,
} as const);

export const zoomWords = spoken("hum", "zoomWords", {
  legend: "Look closer",
  closer: "Closer",
  wider: "Wider",
  lower: "Lower",
  higher: "Higher",
  whole: "Whole",
  keys: "With a spectrum in focus: + and − or the upright arrows for closer and wider, the level arrows for lower and higher, 0 for the whole.",
  between: (from: string, to: string) => `${from} to ${to} Hz`,
} as const);
