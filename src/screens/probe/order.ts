import type {
  ProbeCardView,
  ProbeKind,
  ProbePointView,
  ProbeReadingView,
  ProbeSuspectsView,
  ProbeWindowsView,
  Window,
} from "../../workshop/views.ts";

import { windowStanding } from "../../workshop/windowStanding.ts";

/** A reading to be taken: where, of what kind. */
export interface Probe {
  readonly kind: ProbeKind;
  readonly point: string;
}

export type ReadState = "inside" | "outside" | "undecided" | "unjudged" | "unread";

/** Above this a direct voltage can kill, whatever the room (common practice: 60 V, extra-low voltage's usual end). */
const harmless_V = 60;

/** Where a reading lies against what good units give, by its doubt. */
export function stateOf(
  reading: Pick<ProbeReadingView, "value" | "doubt" | "fallen"> | undefined,
  window: Window | undefined,
): ReadState {
  if (!reading || reading.fallen !== undefined) return "unread";
  if (!window) return "unjudged";
  return windowStanding(reading, window);
}

export function readingAt(point: ProbePointView, kind: ProbeKind): ProbeReadingView | undefined {
  return point.readings.find((reading) => reading.kind === kind && reading.fallen === undefined);
}

export function windowAt(windows: ProbeWindowsView | undefined, { kind, point }: Probe): Window | undefined {
  return windows?.[kind][point];
}

/** A point whose voltage can kill, or is not known not to. */
export function isLethal(point: string, windows: ProbeWindowsView | undefined): boolean {
  const window = windows?.dc[point];
  return window === undefined || Math.max(Math.abs(window.low), Math.abs(window.high)) > harmless_V;
}

/** Points read with the circuit dead: those that have a window there, or all while none is known. */
export function deadPoints(
  { points }: ProbeCardView,
  windows: ProbeWindowsView | undefined,
): readonly ProbePointView[] {
  const known = Object.keys(windows?.resistance ?? {});
  return known.length === 0 ? points : points.filter(({ point }) => known.includes(point));
}

/** How every kind of reading stands at a point, worst first: what its mark on the drawing shows. */
export function markOf(point: ProbePointView, windows: ProbeWindowsView | undefined): ReadState {
  const all = (["resistance", "dc", "gain"] as const).map((kind) =>
    stateOf(readingAt(point, kind), windowAt(windows, { kind, point: point.point })),
  );
  return (["outside", "undecided", "inside", "unjudged"] as const).find((state) => all.includes(state)) ?? "unread";
}

/** Points whose dead-circuit reading lies outside its window: no power before that is explained. */
export function deadOutside(card: ProbeCardView, windows: ProbeWindowsView | undefined): readonly string[] {
  return card.points
    .filter((point) => stateOf(readingAt(point, "resistance"), windows?.resistance[point.point]) === "outside")
    .map(({ point }) => point);
}

/**
 * The reading to take next. While all is well the card is gone through in order: dead circuit, voltages from the supply
 * on, gains at the outputs. Once something is outside, the probe that tells the suspects apart soonest comes first.
 */
export function nextProbe(
  card: ProbeCardView,
  windows: ProbeWindowsView | undefined,
  suspects: ProbeSuspectsView | undefined,
): Probe | undefined {
  const isOdd = suspects?.state === "faulty" || card.points.some((point) => markOf(point, windows) === "outside");
  const told = suspects?.nextProbe;
  if (isOdd && told && card.points.some(({ point }) => point === told.point)) return told;
  const unread = (kind: ProbeKind, points: readonly ProbePointView[]) =>
    points.filter((point) => readingAt(point, kind) === undefined).map(({ point }): Probe => ({ kind, point }))[0];
  // A unit whose every voltage was read has long been powered; the dead circuit is then read only when asked for.
  const wasPowered = unread("dc", card.points) === undefined;
  return (
    (wasPowered ? undefined : unread("resistance", deadPoints(card, windows))) ??
    unread("dc", card.points) ??
    unread(
      "gain",
      card.points.filter(({ isOutput, input }) => isOutput && input !== undefined),
    )
  );
}
