import type { ProbeKind } from "../../workshop/views.ts";
import { spoken } from "../languages/spoken.ts";

const count = (n: number, one: string, many: string) => (n === 1 ? `1 ${one}` : `${n} ${many}`);

export const words = spoken("probe", "words", {
  what: (unit: string) => `the probe card of unit ${unit}`,
  title: (unit: string) => `Probe card of unit ${unit}`,
  model: (model: string, revision: string) => `${model}, revision ${revision}`,
  folder: (unit: string) => `Folder of unit ${unit}`,
  emptyTitle: "No test point in this model",
  empty:
    "A probe card shows the test points of the model’s net list. Give its net list testPoints, each with a name and a node, and if you like x_mm and y_mm from the front left corner; then the card draws itself.",
  fromBelow: "The chassis from below, its front edge towards you.",
  byStage: "The model names no places, so the points are laid out by stage and channel, not as they lie.",
  front: "front",
  back: "back",
  released: "Released. What is read here now is a new reading of a released unit.",
  windowsBusy: "Windows are being drawn from good units …",
  suspectsBusy: "What the readings speak for is being worked out …",
  windowsTrouble: "No windows: the circuit would not be solved.",
  ownCurves: (positions: string) => `Windows reckon with the valve that stands in ${positions}, by its own readings.`,
  typeCurves: "Windows reckon with any good valve of the type; none here has curve readings of its own.",
  step: { dead: "Dead circuit", live: "Under power" } as const,
  deadProgress: (read: number, all: number) => `${read} of ${all} read with the circuit dead`,
  liveProgress: (read: number, all: number) => `${read} of ${all} voltages read`,
  deadFirst: "Dead-circuit readings come first: they cost no danger, and find shorts before power does.",
  deadOpen: (left: number) =>
    `${count(left, "dead-circuit reading is", "dead-circuit readings are")} still missing. Finish them before the first power.`,
  deadOut: (points: string) => `Outside its window with the circuit dead: ${points}. Find out why before any power.`,
  cautions: {
    dead: "Unplug it. Discharge the reservoirs through a resistor, and read that they are gone, before an ohmmeter touches the circuit.",
    live: "Lethal voltages. One hand behind your back, clip the meter’s ground first, touch with the probe alone.",
    low: "The unit is under power: other points beside this one carry lethal voltage.",
  },
  guide: "Limits here are guides. Local codes and a licensed practitioner decide.",
  all: "All test points",
  key: "Numbers as on the drawing.",
});

export const kinds: Readonly<Record<ProbeKind, string>> = spoken("probe", "kinds", {
  resistance: "Resistance, dead",
  dc: "Direct voltage",
  gain: "Gain",
});

export const kindShort: Readonly<Record<ProbeKind, string>> = spoken("probe", "kindShort", {
  resistance: "dead",
  dc: "volts",
  gain: "gain",
});

export const units: Readonly<Record<ProbeKind, string>> = spoken("probe", "units", {
  resistance: "Ω",
  dc: "V",
  gain: "dB",
});

export const enter = spoken("probe", "enter", {
  title: "Enter a reading",
  next: "Next probe",
  chosen: "You chose",
  done: "Every point was read. Choose one on the drawing to read it again.",
  from: {
    resistance: (to: string) => `to ${to}`,
    dc: (to: string) => `to ${to}`,
    gain: (input: string) => `from ${input}, 1 kHz`,
  },
  ground: "ground",
  window: (range: string) => `Good units read ${range} here, 99 in 100 of them.`,
  noWindow: "No window is known for this reading.",
  reading: "Reading",
  doubt: "Give or take",
  meter: "Meter",
  meterLoad: "Its input resistance",
  what: "What is read",
  write: "Write it down",
  before: "Before",
  after: "After",
  replaces: (value: string) => `It takes the place of ${value}; the old reading stays in the ledger, struck out.`,
  written: (point: string, value: string) => `${point}: ${value} written down.`,
  negativeOhm: "A resistance is 0 or more.",
  negative: "A doubt is 0 or more.",
  notOhm: (typed: string) => `“${typed}” is not a resistance. Write 820, 4.7k, 4k7 or 1M.`,
  mend: "This can’t be read yet. What you typed is kept.",
  ohmHint: "820, 4.7k, 4k7 or 1M",
  unknownMeter: (name: string) =>
    `“${name}” is not on record yet. Say what it is tried by each day, and it is entered with this reading.`,
  triedBy: "Tried by",
  triedByHint: "A reference whose value you know",
  trueValue: "Its true value",
  limit: "May read off by at most",
  minutes: (minutes: string) => `About ${minutes}.`,
});

export const states = spoken("probe", "states", {
  inside: "inside",
  outside: "outside",
  undecided: "within its doubt of the edge",
  unjudged: "read",
  unread: "not read",
} as const);

export const suspects = spoken("probe", "suspects", {
  title: { unread: "Nothing probed yet", good: "Good", faulty: "Something is wrong", undecided: "Undecided" } as const,
  counted: (n: number) => `From ${count(n, "reading", "readings")} that count.`,
  list: "Suspects, the likeliest first",
  alike: (others: string) => `No reading tells it apart from ${others}.`,
  near: (points: string) => `Look by ${points}.`,
  other: "The odds left over are those of a good unit, of a reading taken down wrong, and of faults further back.",
  faults: {
    open: "open",
    short: "shorted",
    high: "too high",
    low: "too low",
    leaky: "leaky",
    weak: "weak",
    dead: "dead",
  } as Readonly<Record<string, string>>,
});

export const list = spoken("probe", "list", {
  fallen: (why: string) => `no longer counts: ${why}`,
  readHere: (point: string) => `Read ${point}`,
  button: "Read here",
});
