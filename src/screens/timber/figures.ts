import { planning as words } from "./messages.ts";

/** How fine a board's figure is, as it is chosen. */
export const figures = [
  { value: "", label: words.notJudged },
  ...words.figures.map((label, value) => ({ value: String(value), label })),
];

export const figureOf = (typed: string) => (typed === "" ? {} : { figure: Number(typed) });
