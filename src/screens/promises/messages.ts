import { oneStop, spoken } from "../languages/spoken.ts";

export const words = spoken("promises", "words", {
  what: "the promise book",
  title: "Promise book",
  lead: "Dates come from running the shop’s coming weeks many times over, failures and repairs included. Each ribbon is as thick as the share of runs in which the order is still here.",
  scale: "Nearer days are drawn wider than far ones.",
  promised: (date: string) => `Promised ${date}.`,
  promisedMark: "promised",
  noPromise: "No date was given.",
  late: (promised: string, by: string) => `In danger: promised ${promised}, but 80 in 100 only by ${by}.`,
  lateOnes: (orders: readonly string[]) =>
    orders.length === 1
      ? `${orders[0]} is in danger of missing its promise.`
      : `${orders.length} orders are in danger of missing their promise: ${orders.join(", ")}.`,
  heldBy: "Held by",
  orders: "Orders",
  whatIf: "What if",
  ordering: "What to order",
  kept: "Were they kept?",
  lookBack: "Look-back",
  onTime: (share: string) => `Kept in ${share} of 100 runs.`,
  nearlyAll: "over 99",
  hardlyAny: "under 1",
  give: "Give a date",
  giveShare: "A day that holds",
  giveIt: "Write the promise down",
  inHundred: (share: number) => `${share} in 100`,
  given: (order: string, date: string) => `${order} is promised for ${date}.`,
  units: (units: readonly string[]) => (units.length === 1 ? "Unit" : "Units"),
  today: "today",
  emptyTitle: "No open order",
  empty: "Nothing is promised to anyone. An order appears here as soon as it is written down.",
  odds: {
    p50: (date: string) => `even odds by ${date}`,
    p80: (date: string) => `80 in 100 by ${date}`,
    p95: (date: string) => `95 in 100 by ${date}`,
  },
});

const shares = ["p50", "p80", "p95"] as const;

/** The three dates in a sentence; where they fall on one day only the surest is said. */
export function softDates(
  promise: { readonly p50: string; readonly p80: string; readonly p95: string },
  inWords: (instant: string) => string,
): string {
  const dates = shares.map((share) => ({ share, date: inWords(promise[share]) }));
  const said = dates
    .filter(({ date }, i) => dates[i + 1]?.date !== date)
    .map(({ share, date }) => words.odds[share](date))
    .join(", ");
  return oneStop(`${said.charAt(0).toUpperCase()}${said.slice(1)}.`);
}
