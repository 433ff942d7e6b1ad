import type { HumHearingView, HumLineView } from "../../workshop/views.ts";
import { words } from "./messages.ts";

export type Cause = HumLineView["causes"][number];
export type Verdict = HumHearingView["verdict"][string];

export interface Segment {
  readonly cause: Cause;
  readonly from: number;
  readonly to: number;
  /** The part that surely belongs to this cause; what lies outside may belong to the neighbour. */
  readonly sureFrom: number;
  readonly sureTo: number;
}

const smallest = 0.01;

/** The causes worth naming, the greatest first: those with a hundredth of the power, or that may yet have a twentieth. */
export function namedCauses(causes: readonly Cause[]): readonly Cause[] {
  const named = causes.filter((cause) => cause.share >= smallest || cause.high >= 5 * smallest);
  return [...(named.length > 0 ? named : causes)].sort((a, b) => b.share - a.share);
}

/**
 * Lays a line's causes end to end, and in each marks the part that its lower bound still grants it. The unsure part
 * lies at the ends that meet a neighbour, at the right end where there is none.
 */
export function segmentsOf(causes: readonly Cause[]): readonly Segment[] {
  const total = causes.reduce((sum, cause) => sum + cause.share, 0) || 1;
  let from = 0;
  return causes.map((cause, i) => {
    const share = cause.share / total;
    const unsure = Math.min(share, Math.max(0, share - cause.low / total));
    const hasLeft = i > 0;
    const hasRight = i < causes.length - 1;
    const left = hasLeft ? (hasRight ? unsure / 2 : unsure) : 0;
    const to = from + share;
    const segment = { cause, from, to, sureFrom: from + left, sureTo: to - (unsure - left) };
    from = to;
    return segment;
  });
}

export function causeWords(cause: {
  readonly cause: string;
  readonly valve?: string;
  readonly position?: string;
}): string {
  if (cause.cause === "valve") return words.valve(cause.valve, cause.position);
  return words.causes[cause.cause] ?? cause.cause;
}

export function shortCause(cause: {
  readonly cause: string;
  readonly valve?: string;
  readonly position?: string;
}): string {
  if (cause.cause === "valve")
    return [cause.position, cause.valve].filter(Boolean).join(", ") || (words.short.valve ?? cause.cause);
  return words.short[cause.cause] ?? cause.cause;
}

/** What of a line's causes may be named, where it is not one alone. */
export function originWords({ origin, causes }: HumLineView): string | undefined {
  if (!origin || causes.length < 2) return undefined;
  return origin.state === "not told apart" ? words.notTold : undefined;
}

export type Hearing = "yes" | "doubtful" | "no";

export function hearingOf(line: HumLineView): Hearing {
  if (line.heardOn.some((on) => on.audible === "yes")) return "yes";
  return line.heardOn.some((on) => on.audible === "doubtful") ? "doubtful" : "no";
}

/** Without headphones to judge by, the strongest lines stand open. */
const openUnjudged = 6;

const margin = (line: HumLineView) => Math.max(Number.NEGATIVE_INFINITY, ...line.heardOn.map((on) => on.margin_dB));
const rank: Readonly<Record<Hearing, number>> = { yes: 0, doubtful: 1, no: 2 };
const mostHeard = (a: HumLineView, b: HumLineView) =>
  rank[hearingOf(a)] - rank[hearingOf(b)] ||
  (margin(b) > margin(a) ? 1 : margin(b) < margin(a) ? -1 : 0) ||
  b.level_Vrms - a.level_Vrms;

/** The lines that someone hears or may hear, the most audible first; what no headphone makes audible is folded. */
export function shownLines(lines: readonly HumLineView[]): {
  readonly shown: readonly HumLineView[];
  readonly folded: readonly HumLineView[];
} {
  const isJudged = lines.some((line) => line.heardOn.length > 0);
  const sorted = [...lines].sort(mostHeard);
  const open = isJudged ? sorted.filter((line) => hearingOf(line) !== "no").length : openUnjudged;
  return {
    shown: sorted.slice(0, open),
    folded: sorted.slice(open).sort((a, b) => a.frequency_Hz - b.frequency_Hz),
  };
}
