import type { MainsFit, MainsLine } from "./mains.ts";

/** One line of the mains over a whole recording. */
export type OverallLine = Pick<
  MainsLine,
  "order" | "frequency_Hz" | "re" | "im" | "level_Vrms" | "doubt_Vrms" | "detected"
>;

/** One family of mains lines over a whole recording that was fitted stretch by stretch. */
export interface OverallMains {
  readonly nominal_Hz: number;
  readonly found: boolean;
  readonly frequency_Hz: number;
  readonly doubt_Hz: number;
  readonly wandering: boolean;
  /** Lines per signal: re and im as in the first stretch where the family was found, levels the mean over all. */
  readonly channels: readonly (readonly OverallLine[])[];
}

/** Chance that one stretch without mains is said to have a comb, and one with it to have a certain line too many. */
const falseComb = 0.005;
const falseLine = 0.01;

/**
 * Families over all stretches: the mean square of each line, the mean frequency. Found is what enough stretches found for
 * chance to stay as small as in one.
 *
 * @param fits  per stretch, the families in one order
 */
export function mainsOverall(fits: readonly (readonly MainsFit[])[]): OverallMains[] {
  return fits[0]!.map((_, family) => overallOf(fits.map((of) => of[family]!)));
}

function overallOf(fits: readonly MainsFit[]): OverallMains {
  const [first] = fits;
  if (fits.length === 1) return first!;
  const heard = fits.filter((fit) => fit.found);
  const found = heard.length >= leastOf(fits.length, falseComb, falseComb);
  const { nominal_Hz } = first!;
  const signals = first!.channels.length;
  const trials = signals * first!.channels[0]!.length;
  const least = leastOf(fits.length, falseLine / Math.max(1, trials), falseLine / Math.max(1, trials));
  const spoken = heard.length > 0 ? heard : fits;
  const frequency_Hz = spoken.reduce((sum, fit) => sum + fit.frequency_Hz, 0) / spoken.length;
  const doubt_Hz = Math.sqrt(spoken.reduce((sum, fit) => sum + fit.doubt_Hz ** 2, 0)) / spoken.length;
  const spread_Hz = Math.max(...spoken.map((fit) => Math.abs(fit.frequency_Hz - frequency_Hz)));
  return {
    nominal_Hz,
    found,
    frequency_Hz: found ? frequency_Hz : nominal_Hz,
    doubt_Hz: found ? doubt_Hz : first!.doubt_Hz,
    wandering: found && (heard.some((fit) => fit.wandering) || spread_Hz > 3 * Math.sqrt(fits.length) * doubt_Hz),
    channels: first!.channels.map((lines, s) =>
      lines.map((_, i) =>
        lineOver(
          spoken.map((fit) => fit.channels[s]![i]!),
          fits.length,
          frequency_Hz,
          found ? least : Number.POSITIVE_INFINITY,
        ),
      ),
    ),
  };
}

/** @param stretches  of the recording; those that heard no such comb have nothing of the line */
function lineOver(lines: readonly MainsLine[], stretches: number, frequency_Hz: number, least: number): OverallLine {
  const start = lines.find((line) => line.detected) ?? lines[0]!;
  const squares = lines.reduce((sum, { level_Vrms }) => sum + level_Vrms ** 2, 0);
  const level_Vrms = Math.sqrt(squares / stretches);
  const doubts = lines.reduce((sum, line) => sum + (line.level_Vrms * line.doubt_Vrms) ** 2, 0);
  return {
    order: start.order,
    frequency_Hz: start.order * frequency_Hz,
    re: start.re,
    im: start.im,
    level_Vrms,
    doubt_Vrms: level_Vrms > 0 ? Math.sqrt(doubts) / stretches / level_Vrms : start.doubt_Vrms,
    detected: lines.filter((line) => line.detected).length >= least,
  };
}

/** So many of `stretches` must agree for chance, `each` in one, to stay under `most`. */
function leastOf(stretches: number, each: number, most: number): number {
  let ways = 1;
  for (let k = 1; k <= stretches; k++) {
    ways *= ((stretches - k + 1) / k) * each;
    if (ways <= most * (1 + 1e-9)) return k;
  }
  return stretches;
}
