import { type Cause, type CauseName, type CauseShare, causeInWords, sameCause } from "./cause.ts";
import { type Design, inseparable } from "./design.ts";
import type { LineSamples } from "./linePosterior.ts";

export type Verdict =
  | (Cause & {
      readonly state: "decided";
      readonly odds: number;
      readonly share: number;
      readonly low: number;
      readonly high: number;
    })
  | {
      readonly state: "undecided";
      readonly reason: string;
      readonly candidates: readonly CauseName[];
      /** The candidates by name, most likely first, each with its odds. */
      readonly possible: readonly (Cause & { readonly odds: number })[];
      /** Two or three causes that surely make the hum together, none of them surely more than half of it. */
      readonly together?: readonly CauseShare[];
    }
  | { readonly state: "quiet" };

/** What one line says of its sources, with its weight in the verdict. */
export interface WeighedLine {
  readonly samples: LineSamples;
  /** A-weighting of power times the square of the level the samples are relative to. */
  readonly weight: number;
}

/** Odds before a cause is named: a wrong name costs a good valve, or a day's search. */
export const oddsToDecide = 0.95;
/** Causes are said to hum together where each surely makes this share, and others hardly ever lead. */
const leastTogether = 0.1;
const oddsTogether = 0.97;
/** A cause less likely than this is no longer a candidate. */
export const oddsToDrop = 0.01;

/**
 * The cause of most of a channel's A-weighted hum, or why it cannot be told.
 *
 * Powers are summed over lines sample by sample, so odds are the share of samples in which one cause has more than
 * half. Odds alone never decide: the recordings must hold the contrast that the cause needs.
 *
 * @param design  of the channel
 * @param lines   at least one
 */
export function verdictOf(design: Design, lines: readonly WeighedLine[]): Verdict {
  const draws = lines[0]!.samples.length;
  const most = new Map<number, number>();
  const leading = new Map<number, number>();
  const shares = new Map<number, number[]>(design.fitted.map((s) => [s, []]));
  for (let i = 0; i < draws; i++) {
    const powers = design.fitted.map((s) => lines.reduce((sum, line) => sum + line.weight * line.samples[i]![s]!, 0));
    const total = powers.reduce((sum, p) => sum + p, 0);
    let top = 0;
    for (const [n, s] of design.fitted.entries()) {
      shares.get(s)!.push(powers[n]! / total);
      if (powers[n]! > powers[top]!) top = n;
    }
    const leader = design.fitted[top]!;
    leading.set(leader, (leading.get(leader) ?? 0) + 1 / draws);
    if (powers[top]! > total / 2) most.set(leader, (most.get(leader) ?? 0) + 1 / draws);
  }

  const ranked = design.fitted.toSorted((a, b) => (leading.get(b) ?? 0) - (leading.get(a) ?? 0));
  const best = ranked[0]!;
  const odds = most.get(best) ?? 0;
  const missing = missingContrast(design, best);
  if (!missing && odds >= oddsToDecide) {
    const { share, low, high } = interval(shares.get(best)!);
    return { state: "decided", ...design.sources[best]!, odds, share, low, high };
  }

  const told = ranked
    .map((s): CauseShare => ({ ...design.sources[s]!, ...interval(shares.get(s)!), leads: leading.get(s) ?? 0 }))
    .filter((_, n) => !missingContrast(design, ranked[n]!));
  const together = togetherOf(told);
  const possible = ranked.filter((s) => (leading.get(s) ?? 0) >= oddsToDrop || inseparable(design, s, best));
  return {
    state: "undecided",
    reason: together ? togetherWords(together) : reasonFor(design, possible, missing),
    candidates: [...new Set(possible.map((s) => design.sources[s]!.cause))],
    possible: possible.map((s) => ({ ...design.sources[s]!, odds: leading.get(s) ?? 0 })),
    ...(together && { together }),
  };
}

/**
 * The two or three causes that hum together, the greatest share first: each surely has a tenth, and the odds that any
 * other leads are less than 3 in 100.
 *
 * @returns undefined where there is no such set, or one cause is enough for it
 */
export function togetherOf<T extends Pick<CauseShare, "share" | "low" | "leads">>(
  causes: readonly T[],
): readonly T[] | undefined {
  const sure = causes.filter(({ low }) => low >= leastTogether).toSorted((a, b) => b.share - a.share);
  const led = sure.reduce((sum, { leads }) => sum + leads, 0);
  return sure.length >= 2 && sure.length <= 3 && led >= oddsTogether ? sure : undefined;
}

function togetherWords(together: readonly CauseShare[]): string {
  const pct = (share: number) => (100 * share).toFixed(0);
  const parts = together.map(
    (cause) => `${causeInWords(cause)} (${pct(cause.low)} to ${pct(cause.high)} % of the hum)`,
  );
  const number = parts.length === 2 ? "Two" : "Three";
  return `${number} causes together: ${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}; none of them is surely more than half.`;
}

/**
 * What the recordings lack before a cause may be named, in words; nothing when they hold the contrast.
 *
 * Pick-up needs an offset supply. Mains distortion needs a clean supply. The amplifier needs an offset supply and
 * every valve that feeds the channel exchanged. A valve needs to have been exchanged, and apart from any other.
 */
export function missingContrast(design: Design, source: number): string | undefined {
  const cause = design.sources[source]!;
  const offset = design.sights.some((sight) => sight.family === "supply");
  const twins = [...design.sources.keys()].filter((s) => s !== source && inseparable(design, s, source));
  switch (cause.cause) {
    case "pick-up":
      return offset ? undefined : "no recording was made on a supply at another frequency than the building's";
    case "mains":
      if (design.sights.every((sight) => sight.sources.includes(source)))
        return "no recording was made on a clean supply";
      break;
    case "amplifier": {
      if (!offset) return "no recording was made on a supply at another frequency than the building's";
      const kept = design.sources.filter((other, s) => other.cause === "valve" && alone(design, s));
      if (kept.length > 0)
        return `${kept.map(causeInWords).join(" and ")} ${kept.length > 1 ? "were" : "was"} never exchanged`;
      break;
    }
    case "valve":
      if (alone(design, source)) return `${causeInWords(cause)} was never exchanged`;
  }
  if (twins.length === 0) return undefined;
  const names = twins.map((s) => causeInWords(design.sources[s]!)).join(" and ");
  return `not separable: ${causeInWords(cause)} and ${names} came and went together`;
}

/** How many contrasts the recordings lack before a cause may be named; 0 when they hold all. */
export function contrastLacking(design: Design, cause: Cause): number {
  const source = design.sources.findIndex((other) => sameCause(other, cause));
  if (source < 0) return 0;
  const offset = design.sights.some((sight) => sight.family === "supply");
  const twins = [...design.sources.keys()].filter((s) => s !== source && inseparable(design, s, source)).length;
  switch (cause.cause) {
    case "pick-up":
      return offset ? 0 : 1;
    case "mains":
      return (design.sights.every((sight) => sight.sources.includes(source)) ? 1 : 0) + twins;
    case "amplifier":
      return (offset ? 0 : 1) + design.sources.filter((_, s) => alone(design, s)).length;
    case "valve":
      return (alone(design, source) ? 1 : 0) + twins;
  }
}

/** The only valve ever seen at its position. */
function alone(design: Design, source: number): boolean {
  const cause = design.sources[source]!;
  if (cause.cause !== "valve") return false;
  return !design.sources.some(
    (other, s) => s !== source && other.cause === "valve" && other.position === cause.position,
  );
}

function reasonFor(design: Design, possible: readonly number[], missing: string | undefined): string {
  const names = possible.map((s) => causeInWords(design.sources[s]!));
  const list = names.length > 1 ? `${names.slice(0, -1).join(", ")} and ${names.at(-1)}` : names.join("");
  if (missing) return `The recordings leave ${list} possible: ${missing}.`;
  if (possible.length > 1) return `No one cause stands out enough among ${list}.`;
  return `${list} is likely, but not surely more than half of the hum.`;
}

/** A share is told no finer than this: contacts scatter by as much. */
const grain = 0.01;
/** What lies outside on each side; the samples of a line are fewer and more alike than as many drawn singly. */
const tail = 0.015;

/** Mean of the sampled shares, and bounds that hold the true share in 95 % of lines. */
export function interval(shares: readonly number[]): { share: number; low: number; high: number } {
  const sorted = Float64Array.from(shares).sort();
  const last = sorted.length - 1;
  const share = shares.reduce((sum, x) => sum + x, 0) / shares.length;
  const low = sorted[Math.floor(tail * last)]! - grain;
  const high = sorted[Math.ceil((1 - tail) * last)]! + grain;
  return { share, low: Math.max(0, Math.min(share, low)), high: Math.min(1, Math.max(share, high)) };
}

export function sharesIn(samples: LineSamples, present: readonly number[], design: Design): CauseShare[] {
  const perSource = present.map((): number[] => []);
  const leads = present.map(() => 0);
  for (const sample of samples) {
    const powers = present.map((s) => sample[s]!);
    leads[powers.indexOf(Math.max(...powers))]! += 1 / samples.length;
    const total = present.reduce((sum, s) => sum + sample[s]!, 0);
    for (const [n, s] of present.entries()) perSource[n]!.push(total > 0 ? sample[s]! / total : 1 / present.length);
  }
  const alone = present.length === 1;
  return present.map((s, n) => ({
    ...design.sources[s]!,
    ...(alone ? { share: 1, low: 1, high: 1, leads: 1 } : { ...interval(perSource[n]!), leads: leads[n]! }),
  }));
}
