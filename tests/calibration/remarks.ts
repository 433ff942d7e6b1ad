import { calibrations } from "./calibrations.ts";
import { estimatesNothing } from "./estimatesNothing.ts";
import type { Remarks } from "./page.ts";

/** Draws in the suite where nothing else is said. */
export const usualDraws = 200;

export function remarks(): Remarks {
  const fewer = calibrations.filter(({ suite = usualDraws }) => suite < usualDraws);
  return {
    drawn: Object.fromEntries(calibrations.map(({ of, drawn }) => [of, drawn])),
    fewer: Object.fromEntries(fewer.map(({ of, suite, why }) => [of, `${suite}; ${why}`])),
    estimatesNothing,
  };
}
