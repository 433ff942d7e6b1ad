import { spoken } from "../languages/spoken.ts";

/** Words shared by the screens. */
export const common = spoken("common", "common", {
  waiting: (what: string) => `Fetching ${what} from the ledger …`,
  troubleTitle: "This could not be fetched",
  pageBroken: "This page could not be opened. What you typed is kept: ask again, or go on by the line above.",
  voltsPeak: "V peak",
  behind: "Being worked out anew. What stands here is still from before.",
  notFetched:
    "The workshop’s machine did not hand this part of the page out. It may be starting anew; what you typed is kept.",
  again: "Ask again",
  allUnits: "See which units there are",
  noUnitTitle: "No such unit here",
  howComputed: "How it is computed:",
  writing: "Being written down, and what follows from it computed …",
  by: "Who writes this down",
  byHint: "Your role, as it shall stand in the ledger",
  recalled: "What you had typed here is still here. It was not written down yet.",
  afresh: "Begin afresh",
  mend: "Something is missing or can’t be read: see beside the fields. Nothing you typed is lost.",
  needed: "This is needed.",
  inHundred: (count: number, side: "over" | "under" | "") => `${side} ${count} in 100`.trim(),
  takenOut: (valve: string) => `${valve}, taken out`,
  putIn: (valve: string) => `${valve}, put in`,
  to: (low: string, high: string) => `${low} to ${high}`,
  ruler: {
    unread: "not read yet",
    notUnder: (low: string) => `not under ${low}`,
    notOver: (high: string) => `not over ${high}`,
    noLimits: "no limits",
  },
  ambiguous: (typed: string) => `“${typed}” has both a comma and a point. Leave out the one that groups thousands.`,
  notANumber: (typed: string) => `“${typed}” is not a number. Write digits, with a comma or a point for decimals.`,
  dangers: {
    none: "",
    hot: "Hot glass and plates: they burn for minutes after switching off.",
    mains: "Mains voltage inside: unplug before you reach in.",
    "high-voltage": "Lethal voltage stays after unplugging: discharge and measure before you touch.",
    dust: "Hardwood dust: mask and extraction on.",
  } as Readonly<Record<string, string>>,
  dangerShort: {
    none: "",
    hot: "hot",
    mains: "mains",
    "high-voltage": "high voltage",
    dust: "dust",
  } as Readonly<Record<string, string>>,
  guide: "Limits here are guides. Local codes and a licensed practitioner decide.",
});

/** What the channels of a recording are called. */
export const channels = spoken("common", "channels", {
  left: "left",
  right: "right",
  mains: "mains",
} as Readonly<Record<string, string>>);

/** What a claim's state is called. */
export const states = spoken("common", "states", {
  open: "Open",
  proven: "Proven",
  refuted: "Refuted",
  undecided: "Undecided",
  void: "Void",
  conceded: "Conceded",
});

export const firstSteps = spoken("common", "firstSteps", {
  title: "What to do first",
  steps: [
    "The shop: its people, the places they work at and its hours.",
    "Its instruments, each with the check it is tried by every day.",
    "A model: its circuit, what must be proven of it within which limits, and how it is built.",
    "An order, its units and the valves that stand in them.",
  ],
  how: "Each is written down on its own page. A file of entries goes in at the terminal, one to a line:",
  command: "stillglow enter --in entries.jsonl",
  mend: "An entry that lacks something is refused with what it lacks, and nothing of it is kept.",
});

/** Steps of building that the program itself proposes; a shop's own stay as they were written. */
export const steps: Readonly<Record<string, string>> = spoken("common", "steps", {
  chassis: "chassis",
  wiring: "wiring",
  plate: "plate",
  case: "case",
  coats: "coats",
  "heat run": "heat run",
  soak: "soak",
  sanding: "sanding",
  oiling: "oiling",
  lid: "lid",
});

export const stepName = (step: string): string => (Object.hasOwn(steps, step) ? steps[step]! : step);
