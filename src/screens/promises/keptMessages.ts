import { spoken } from "../languages/spoken.ts";

export const words = spoken("kept", "words", {
  what: "the promises of before",
  title: "Were they kept?",
  lead: "Every date that was given, against the day the order left. A date said to hold 80 times in 100 should hold about so often, no less and no more.",
  none: "No promised order has left yet",
  noneWords: "Dates are held against what happened as soon as the first promised order leaves.",
  all: "All together",
  said: "said",
  group: (share: string, low: string, high: string) => `${share} kept, 95 % interval ${low} to ${high}`,
  strip: "Each stroke is an order: left of the line it left in time, right of it late.",
  stripLabel: (kept: number, all: number) => `${kept} of ${all} orders left by the day given`,
  days: (days: number) =>
    days === 0
      ? "on the day"
      : `${Math.abs(days)} ${Math.abs(days) === 1 ? "day" : "days"} ${days < 0 ? "early" : "late"}`,
  early: "early",
  late: "late",
  orders: "Latest orders",
  promised: (day: string) => `promised ${day}`,
  left: (day: string) => `left ${day}`,
  otherwise: "Otherwise than taken for granted:",
  notes: "What these figures rest on",
});
