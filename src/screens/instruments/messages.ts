import { spoken } from "../languages/spoken.ts";

export const words = spoken("instruments", "words", {
  what: "the instruments",
  title: "Instruments on trial",
  lead: "Each is read on a thing whose value is known. One that fails takes back every verdict that rested on it since its last good trial.",
  none: "No instrument is written down. Until one is, no reading can count.",
  states: { good: "Good", failed: "Failed: stop using it", undecided: "Undecided", untried: "Not tried" } as const,
  against: (reference: string, truth: string, limit: string, unit: string) =>
    `Tried on ${reference}: ${truth} within ${limit} ${unit}`.trim(),
  rests: (count: number) =>
    count === 0
      ? "No proof of an open unit rests on it."
      : count === 1
        ? "One proof of an open unit rests on it."
        : `${count} proofs of open units rest on it.`,
  reopened: (count: number) => (count === 1 ? "One proof fell with it:" : `${count} proofs fell with it:`),
  drifts: "Its trials lean to one side by more than their scatter explains: it is drifting, though still inside.",
  before: "The slow mean shows since when it leaned.",
  steady: "Its trials scatter about their own mean as they should.",
  signals: (count: number) =>
    count === 1 ? "One trial stood out of its own scatter." : `${count} trials stood out of their own scatter.`,
  few: "Too few trials for a chart; eight make one.",
  chart: (title: string, count: number) =>
    `${count} trials of ${title}: each reading against the true value, its limits, and the slow mean`,
  enter: "Enter a trial",
  reading: "It reads",
  doubt: "Doubt of that reading",
  doubtHint: "95 % half-width; without one a trial can only fail",
  by: "Read by",
  write: "Write the trial down",
  written: (title: string) => `The trial of ${title} is written down.`,
  limit: "limit",
  mean: "slow mean",
  toMorning: "Morning card",
  toLimits: "Safety limits",
});
