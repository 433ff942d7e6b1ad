import { randomStream } from "../maths/random.ts";
import { halves, tosses } from "../maths/tosses.ts";
import { later, on } from "./days.ts";
import { type DemoEntry, entry } from "./entry.ts";
import { roles } from "./shop.ts";

const listeners = Array.from({ length: 12 }, (_, i) => `listener ${i + 1}`);

/** Odds that the first playing is taken of two that are alike: what is heard first sets the measure. */
const likingForTheFirst = 1.7;

/**
 * Two blind series of the last days: one closed, in which the first playing is liked for being first, and one that is
 * still running.
 */
export function blindSeries(): readonly DemoEntry[] {
  return [...preference(), ...running()];
}

const closed = {
  series: "Ebb C or E",
  lot: "6b1f0c4a97d2e83351a0c7f4be926d18",
  at: on("2027-03-01", "17:05"),
  trials: 8,
  /** Share that takes E where both are played as often first. */
  takesE: 0.54,
} as const;

function preference(): readonly DemoEntry[] {
  const { series, lot, at, trials, takesE } = closed;
  const chance = randomStream("Quarrin Ness, C or E");
  const answers = listeners.flatMap((listener, l) => {
    const draw = chance.fork(listener);
    const taste = Math.log(takesE / (1 - takesE)) + draw.normal(0, 0.4);
    return halves(trials, randomStream(lot).fork(listener)).map((isFirst, i) => {
      // Of the two, C is the first and E the second.
      const towardsFirstPlaying = Math.log(likingForTheFirst) + (isFirst ? -taste : taste);
      const takes = draw.uniform() < 1 / (1 + Math.exp(-towardsFirstPlaying)) ? "first" : "second";
      return entry(later(at, 5 + l * 3 + i / 4), listener, {
        kind: "listening-answer",
        series,
        listener,
        trial: i + 1,
        answer: takes,
      });
    });
  });
  return [
    entry(at, roles.owner, {
      kind: "listening-series",
      series,
      model: "Ebb",
      versions: ["C", "E"],
      asked: "preference",
      listeners,
      trials,
      lot,
      through: "Fulmar open",
      source: "piano, then a voice",
      match: { first_dB: -0.02, second_dB: 0.01, doubt_dB: 0.05, shared_dB: 0.04, within_dB: 0.1 },
    }),
    ...answers,
    entry(later(at, 60), roles.owner, { kind: "listening-close", series }),
  ];
}

const open = {
  series: "Neap A or C",
  lot: "d04e7a21c95b6f38e21790ab5cd3468f",
  at: on("2027-03-02", "16:45"),
  trials: 23,
  listeners: ["listener 2", "listener 3", "listener 8", "listener 11"],
} as const;

function running(): readonly DemoEntry[] {
  const { series, lot, at, trials, listeners: asked } = open;
  const chance = randomStream("Quarrin Ness, A or C");
  const answers = asked.slice(0, 2).flatMap((listener, l) => {
    const draw = chance.fork(listener);
    const made = l === 0 ? trials : 9;
    return tosses(trials, randomStream(lot).fork(listener))
      .slice(0, made)
      .map((isFirst, i) => {
        const isRight = draw.uniform() < (l === 0 ? 0.55 : 0.8);
        return entry(later(at, 4 + l * 12 + i / 2), listener, {
          kind: "listening-answer",
          series,
          listener,
          trial: i + 1,
          answer: isFirst === isRight ? "first" : "second",
        });
      });
  });
  return [
    entry(at, roles.owner, {
      kind: "listening-series",
      series,
      model: "Neap",
      versions: ["A", "C"],
      asked: "difference",
      listeners: [...asked],
      trials,
      design: { heard: 0.75, falseAlarm: 0.05, power: 0.8 },
      lot,
      through: "Fulmar open",
      source: "a quiet string quartet",
    }),
    ...answers,
  ];
}

type Heard = Extract<DemoEntry, { kind: "listener-note" }>["heard"];
type Speaks = Extract<DemoEntry, { kind: "listener-note" }>["speaks"];

/** Notes that came by letter from listeners with a prototype at home: what, of which version, how strong, blind or not. */
const letters: readonly (readonly [
  date: string,
  version: string,
  tester: string,
  heard: Heard,
  speaks: Speaks,
  strength: number,
  isBlind: boolean,
  against: string,
  through: string,
  says: string,
])[] = [
  [
    "2027-01-12",
    "A",
    "tester 1",
    "hiss",
    "against",
    3,
    false,
    "",
    "Fulmar open",
    "Heard between movements, at the volume I use",
  ],
  [
    "2027-01-14",
    "A",
    "tester 4",
    "hiss",
    "against",
    4,
    true,
    "C",
    "Fulmar open",
    "The one with more hiss, six times of six",
  ],
  ["2027-01-15", "A", "tester 2", "bass", "for", 2, false, "", "Oystercatcher closed", "Fuller than what I had"],
  ["2027-01-19", "B", "tester 1", "hiss", "neither", 2, false, "A", "Fulmar open", "A little less, I believe"],
  ["2027-01-22", "C", "tester 4", "hiss", "for", 4, true, "A", "Fulmar open", "Quiet now"],
  ["2027-01-25", "C", "tester 3", "hiss", "for", 3, true, "A", "Fulmar open", ""],
  [
    "2027-01-26",
    "C",
    "tester 5",
    "heat",
    "against",
    3,
    false,
    "",
    "Oystercatcher closed",
    "The top is hot to the hand after an evening",
  ],
  [
    "2027-01-29",
    "C",
    "tester 2",
    "heat",
    "against",
    4,
    false,
    "B",
    "Oystercatcher closed",
    "Hotter than B, I moved it off the shelf",
  ],
  [
    "2027-02-03",
    "C",
    "tester 6",
    "ringing",
    "against",
    2,
    false,
    "",
    "Fulmar open",
    "Knocks on the table come through, faintly",
  ],
  ["2027-02-23", "D", "tester 3", "treble", "for", 2, false, "C", "Fulmar open", "More air, knowing which it was"],
  ["2027-02-24", "D", "tester 1", "treble", "neither", 1, true, "C", "Fulmar open", "Could not say which was which"],
  ["2027-02-26", "E", "tester 2", "heat", "for", 3, false, "C", "Oystercatcher closed", "I can leave my hand on it"],
  ["2027-02-27", "E", "tester 5", "heat", "for", 4, false, "C", "Oystercatcher closed", ""],
];

export function lettersOfTesters(): readonly DemoEntry[] {
  return letters.map(([date, version, tester, heard, speaks, strength, isBlind, against, through, says]) =>
    entry(on(date, "12:10"), roles.owner, {
      kind: "listener-note",
      model: "Ebb",
      version,
      tester,
      heard,
      speaks,
      strength,
      isBlind,
      ...(against !== "" && { against }),
      through,
      says,
    }),
  );
}
