import type { ClaimView } from "../../workshop/views.ts";
import { spoken } from "../languages/spoken.ts";

const people = (count: number, one: string, many: string) => (count === 1 ? `1 ${one}` : `${count} ${many}`);

export const sheetNames: Readonly<Record<ClaimView["sheet"], string>> = spoken("unit", "sheetNames", {
  valves: "Valves",
  voltages: "Voltages",
  sound: "Sound",
  hum: "Hum",
  timber: "Timber",
  supply: "Supply",
  safety: "Safety",
});

export const words = spoken("unit", "words", {
  what: (unit: string) => `the folder of unit ${unit}`,
  title: (unit: string) => `Unit ${unit}`,
  model: (model: string, revision: string) => `${model}, revision ${revision}`,
  order: "Order",
  destination: "Goes to",
  due: "Due",
  noDue: "No date asked for",
  released: "Released. The figures and verdicts below are those it left with.",
  mayLeave: "Every proof is in the folder. It may be released.",
  mayNotLeave: (count: number) => `It may not leave: ${people(count, "proof is", "proofs are")} missing.`,
  seeHum: "Hum hearing",
  seeProbe: "Probe card",
  seeBench: "Bench sheet",
  seeCase: "Case through the year",
  dossier: "Dossier, for printing",
  label: "Label",
  toProposal: "Proposed exchange",
  toReadings: "Enter readings",
  toRelease: "Release",
  toHistory: "History",
  fitted: "Valves fitted",
  noFitted: "No valve is fitted yet.",
  pile: "Sheets in this folder",
  closed: (count: number, all: number) => (count === all ? "closed" : `${count} of ${all} closed`),
  verdicts: { use: "use", hold: "hold back", reject: "reject" } as const,
  safety: "A safety proof. It can’t be conceded.",
  decide: "Would decide it:",
  how: "How it is checked",
  hands: (time: string) => `${time} of hands`,
  wait: (hours: number) => `then ${hours} h by itself`,
  skill: (skill: string) => `by ${skill}`,
  notRead: "not read yet",
  noLonger: "no longer counts",
  tightest: (count: number, figure: string) => `tightest of ${count}: ${figure}`,
  moreMissing: (count: number) => `and ${count} more`,
  read: (instrument: string) => `read with ${instrument}`,
  computed: "computed",
  cautions: "Before you touch it",
  emptyTitle: "An empty folder",
  empty: "The model declares no claim for this unit, so there is nothing to prove and nothing to release on.",
});

export const exchange = spoken("unit", "exchange", {
  title: (out: string, into: string) => `Take ${out} out, put ${into} in`,
  eyebrow: (position: string) => `Proposed for ${position}`,
  balance: "Balance then, as predicted",
  considered: (count: number) => `Best of ${people(count, "valve", "valves")} looked at.`,
  voids: "What this voids",
  noVoids: "It voids no proof.",
  retests: "Checks to make again, in this order",
  promise: "What it does to the date",
  promised: "promised",
  before: "now, 80 in 100 by",
  after: "after it, 80 in 100 by",
  short: { promised: "promised", before: "now", after: "after it" },
  blue: "In blue the day by which the order is done in 80 of 100 runs.",
  heldBy: (what: string) => `Held by ${what}.`,
  why: "Why",
  whyDefault: (out: string, into: string, position: string) => `${out} replaced by ${into} in ${position}, as proposed`,
  record: "Record the exchange",
  recordNote: "Record it once the valve is in. The proofs named above are void from that moment.",
  recorded: (into: string, position: string) =>
    `Recorded: ${into} now stands in ${position}. The proofs it touched are void.`,
});

export const readings = spoken("unit", "readings", {
  title: "Enter readings",
  lead: "In the order that finds a fault soonest. A comma or a point both serve.",
  none: "No check waits for a reading.",
  value: "Reading",
  doubt: "Doubt, give or take",
  instrument: "Instrument",
  instrumentHint: "Its name as it stands on trial each morning",
  write: "Write it down",
  written: (title: string) => `Written down for “${title}”.`,
  nothing: "Nothing is typed yet. Enter at least one reading.",
  negative: "A doubt is 0 or more.",
  mend: "Some fields can’t be read. What you typed is kept.",
  recording: "Or bring in a recording, from which it is computed",
});

export const desk = spoken("unit", "desk", {
  title: "Release",
  ask: (unit: string) => `Release unit ${unit}`,
  lead: "Asks the ledger. It answers with the release or with all that is missing.",
  refused: (count: number) => `Not released. ${people(count, "proof stands", "proofs stand")} in the way:`,
  granted: (unit: string) => `Released. Unit ${unit} may leave.`,
  concede: "Concede a claim in writing",
  concedeNote: "For the owner alone. A safety claim can’t be conceded.",
  claim: "Claim",
  reason: "Reason, in a sentence",
  reasonShort: "Give the reason in at least eight letters.",
  owner: "I am the owner and put my name to it",
  ownerOnly: "Only the owner concedes. Tick that you are the owner, or ask them.",
  conceding: "Write the concession",
  conceded: (title: string) => `Conceded in writing: ${title}.`,
});

export const history = spoken("unit", "history", {
  title: "History",
  none: "Nothing has been written down for this unit.",
  more: (count: number) => `${people(count, "older entry", "older entries")}`,
});
