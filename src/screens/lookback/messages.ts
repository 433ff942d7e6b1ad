import { spoken } from "../languages/spoken.ts";

export const words = spoken("lookback", "words", {
  what: "the look-back",
  title: "Look-back",
  lead: "Each rung is a stage of work. An arrow leads from where a fault was found down to the first stage that could have shown it; the thicker, the more hours it took.",
  sum: (faults: number, units: number, late: number) =>
    `${faults === 1 ? "1 fault" : `${faults} faults`} on ${units === 1 ? "1 unit" : `${units} units`} that left, ${late} of them found later than they could have been.`,
  returns: (count: number, without: number) =>
    `${count === 1 ? "1 unit" : `${count} units`} came back${without > 0 ? `; of ${without} no fault is written down` : ""}.`,
  none: "No fault on record",
  noneWords: "Write a fault down with where it was found and where it could have been, and the ladder fills.",
  found: (count: number) => `${count} found`,
  arrow: (fault: string, found: string, possible: string) =>
    `${fault}: found at ${found}, could have been at ${possible}`,
  arrows: "What each arrow cost",
  count: (faults: number, hours: string, money: string) => `${faults} times, ${hours} h, ${money}`,
  quiet: (count: number) => `${count} more that say nothing yet`,
  key: "A whole line: finding it earlier would surely have saved. Dashes: it can’t be told from chance. Dots: too few to tell.",
  plate: "The hot plate",
  tryIt: "Try it on every date",
  notes: "What these figures rest on",
  ladder: "Ladder of stages, the first at the foot",
});
