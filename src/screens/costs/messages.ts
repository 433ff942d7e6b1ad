import { spoken } from "../languages/spoken.ts";

export const words = spoken("costs", "words", {
  what: "the costs",
  title: "What a unit costs",
  lead: "Parts from the bill, hands at the shop’s own rates, and what is done twice or thrown away as often as the records say. Money is what it costs the shop, not what it sells for.",
  none: "Nothing can be told yet: write down rates (what an hour of each skill costs) and a bill of parts for each model.",
  missing: (model: string, why: string) => `${model}: ${why}.`,
  price: (price: string) => `price ${price}`,
  model: (model: string, revision: string) => `${model}, revision ${revision}`,
  cost: (mean: string, low: string, high: string) =>
    `Costs ${mean} on average; nine of ten units between ${low} and ${high}.`,
  margin: (mean: string) => `Leaves ${mean} of its price on average.`,
  loss: (share: string) => `${share} are sold at a loss.`,
  noLoss: "Hardly any is sold at a loss.",
  real: (count: number, mean: string, low: string, high: string) =>
    `${count} accounts of finished units say ${mean} (mean between ${low} and ${high}).`,
  noReal: "Fewer than three accounts: nothing to hold it against.",
  parts: "parts",
  work: "hands",
  rework: "done again",
  scrap: "thrown away",
  left: "left",
  drawn: (model: string, cost: string, price: string) =>
    `${model}: mean cost ${cost} of a price of ${price}, drawn in its parts`,
  bySkill: "Hours by skill",
  hours: (h: string) => `${h} h`,
  options: "What each choice really costs",
  optionsLead: (count: number) =>
    `From the accounts of ${count} finished units, all choices weighed together, each against the commonest.`,
  against: (choice: string, units: number) => `against ${choice}; ${units} units had it`,
  undecided: (more: number | undefined) =>
    more === undefined || more > 900 ? "not told by these records" : `not told yet: some ${more} more units would`,
  interval: (choice: string, more: string, low: string, high: string) =>
    `${choice}: ${more}, between ${low} and ${high}`,
  untold: (choice: string, why: string) => `${choice}: ${why}.`,
  noOptions: "Too few accounts with choices: a dozen makes a beginning.",
  orders: "Open orders",
  ordersLead: "What is left of the price at best guess, and in nine of ten cases.",
  order: "Order",
  units: "Units",
  leaves: "Leaves",
  between: "Nine of ten between",
  toChecks: "Where checks belong",
  toPromises: "Promises",
});
