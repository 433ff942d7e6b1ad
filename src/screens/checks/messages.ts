import { spoken } from "../languages/spoken.ts";

export const words = spoken("checks", "words", {
  what: "where checks belong",
  title: "Where checks belong",
  lead: (units: number, faults: number) =>
    `From ${units} units and the ${faults} faults found in them: where each was found, where it could have been, and what each stage adds to its cost.`,
  none: "No fault is written down yet. Write each down as it is found, with the first stage at which it could have been.",
  today: (cents: string) => `Faults and checks cost ${cents} a unit today.`,
  saves: "What the records say to change",
  noSaves: "No check to add or to move saves by its whole interval yet.",
  asToday: "That is an answer: keep what is done today.",
  at: (money: string) => `at ${money}`,
  kinds: {
    add: (check: string, to: string) => `Add at ${to}: ${check}`,
    move: (check: string, from: string, to: string) => `Move from ${from} to ${to}: ${check}`,
    drop: (check: string) => `Do without: ${check.charAt(0).toLowerCase()}${check.slice(1)}`,
  },
  dear: "Dearer than what they found",
  dearLead:
    "By these records these checks cost more than the faults they found would have cost later. What they keep hands from doing wrong, and what was found and never written down, is not in the records: the owner decides, and each stays a claim until then. A shorter look is the smaller step.",
  per: "a unit",
  perPiece: "a piece",
  past: (count: number) =>
    count === 0
      ? "none of the faults on record would have got past"
      : count === 1
        ? "one fault on record would have got past"
        : `${count} faults on record would have got past`,
  units: (count: number) =>
    count === 1 ? "one unit would have gone otherwise" : `${count} units would have gone otherwise`,
  interval: (saving: string, low: string, high: string) => `saves ${saving} a unit, between ${low} and ${high}`,
  between: (low: string, high: string) => `${low} to ${high}`,
  silent: "Not told by these records",
  silentLead: "Their interval holds naught. More units will tell; until then nothing is proposed.",
  soaks: "How long a check or a soak pays",
  soaksLead: "From the hours at which pieces failed or cracked; those that came out good count as good until then.",
  toSoaks: "Hours on record",
  soakKinds: {
    shorten: (what: string, from: string, to: string) => `Shorten from ${from} h to ${to} h: ${what}`,
    lengthen: (what: string, from: string, to: string) => `Lengthen from ${from} h to ${to} h: ${what}`,
  },
  soakSilent: (told: string) => `${told} (not told by these hours)`,
  soakPieces: (pieces: number, failures: number) => `${pieces} pieces, ${failures} failed.`,
  sorts: "Where faults were found",
  sort: "Fault",
  possible: "Could show at",
  found: "Was found at",
  order: "Order of checks",
  orderLead:
    "What a unit’s checks cost in hands on average when work stops at the first fault, in the model’s order and in the cheapest one allowed. What protects the tester keeps its place.",
  minutes: (now: string, best: string) => `${now} min as listed, ${best} min in the cheapest order`,
  proven: "No allowed order costs less.",
  notProven: "The cheapest found, not proven.",
  show: (model: string) => `The cheapest order of ${model}`,
  toCosts: "What a unit costs",
  toMorning: "Morning card",
});
