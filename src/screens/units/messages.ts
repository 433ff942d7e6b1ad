import { spoken } from "../languages/spoken.ts";

export const words = spoken("units", "words", {
  what: "the units",
  title: "Units",
  orders: "Orders, and how to take one",
  find: "Find by serial or model",
  found: (count: number, all: number) =>
    count === all ? (all === 1 ? "One unit" : `${all} units`) : `${count} of ${all} units`,
  none: (typed: string) => `No unit has “${typed}” in its serial or model.`,
  emptyTitle: "No unit yet",
  empty: "Each unit has its folder here once its order is written down.",
});
