import { type Bell, bellAbout, overDegrees } from "./degrees.ts";
import type { Edit } from "./edit.ts";
import { type Evidence, logAdded, weighEvidence } from "./evidence.ts";
import type { Fault } from "./fault.ts";
import { type Bench, inspect, type Seen } from "./inspect.ts";
import type { Reading } from "./probes.ts";
import type { Pattern } from "./specimen.ts";

/** How well one fault (or none) explains the readings, with the unit that explains them best. */
export interface Explanation {
  readonly fault: Fault | undefined;
  readonly severity: number;
  readonly off: Float64Array;
  readonly seen: Seen;
  readonly evidence: Evidence;
  /** Prior variances of the values while this fault is held. */
  readonly variances: Float64Array;
}

const noFault: Edit = {};

/** What a fault does at a severity; nothing for a good unit. */
export function editOf(fault: Fault | undefined, severity: number): Edit {
  return fault === undefined ? noFault : fault.edit(severity);
}

function variancesOf(pattern: Pattern, severitySd: number): Float64Array {
  const variances = new Float64Array(pattern.values.length + 1);
  pattern.values.forEach(({ sd }, i) => {
    variances[i] = sd * sd;
  });
  variances[pattern.values.length] = severitySd * severitySd;
  return variances;
}

/** A normal with the same height at its middle as even odds over the range, for the steps of the search. */
function evenSd(range: readonly [number, number]): number {
  return (range[1] - range[0]) / Math.sqrt(2 * Math.PI);
}

/** First look: the unit as the net list has it, the fault at each severity it may begin from. */
export function glance(
  pattern: Pattern,
  bench: Bench,
  fault: Fault | undefined,
  severity: number,
  readings: readonly Reading[],
): Explanation | undefined {
  const probes = readings.map(({ probe }) => probe);
  const seen = inspect(pattern, bench, editOf(fault, severity), probes);
  return seen && weighed(pattern, fault, severity, new Float64Array(pattern.values.length), seen, readings);
}

function weighed(
  pattern: Pattern,
  fault: Fault | undefined,
  severity: number,
  off: Float64Array,
  seen: Seen,
  readings: readonly Reading[],
): Explanation {
  const fixed = variancesOf(pattern, 0);
  const held = weighEvidence(seen, off, fixed, readings);
  if (fault?.range === undefined) return { fault, severity, off, seen, variances: fixed, evidence: held };
  const variances = variancesOf(pattern, evenSd(fault.range));
  const free = weighEvidence(seen, off, variances, readings);
  const logLikelihood = overDegrees(fault.range, bellAbout(severity, seen, variances, held, free));
  // At the end of its range a fault explains only what it shows there.
  return pushesOut(fault, severity, free.shift[pattern.values.length]!)
    ? { fault, severity, off, seen, variances: fixed, evidence: { ...held, logLikelihood } }
    : { fault, severity, off, seen, variances, evidence: { ...free, logLikelihood } };
}

/** A range is looked at in so many places. */
const places = 8;

/**
 * The same explanation with the readings' density taken over the whole range of its severity, one parabola about each
 * of several places. One alone takes what is flat at a range's end for flat throughout.
 */
export function overRange(
  pattern: Pattern,
  bench: Bench,
  settled: Explanation,
  readings: readonly Reading[],
): Explanation {
  const { fault, off, evidence } = settled;
  if (fault?.range === undefined) return settled;
  const probes = readings.map(({ probe }) => probe);
  const variances = variancesOf(pattern, evenSd(fault.range));
  const fixed = variancesOf(pattern, 0);
  const [low, high] = fault.range;
  const apart = (high - low) / places;
  const elsewhere = Array.from({ length: places }, (_, k) => low + (k + 0.5) * apart).filter(
    (severity) => Math.abs(severity - settled.severity) > apart / 2,
  );
  const bells = [settled.severity, ...elsewhere]
    .sort((a, b) => a - b)
    .flatMap((severity): Bell[] => {
      const seen =
        severity === settled.severity
          ? settled.seen
          : inspect(pattern, bench, editOf(fault, severity), probes, off, settled.seen.x);
      if (seen === undefined) return [];
      const held = weighEvidence(seen, off, fixed, readings);
      return [bellAbout(severity, seen, variances, held, weighEvidence(seen, off, variances, readings))];
    });
  const logs = bells.map((bell, k) => {
    const from = k === 0 ? low : (bells[k - 1]!.severity + bell.severity) / 2;
    const to = k === bells.length - 1 ? high : (bell.severity + bells[k + 1]!.severity) / 2;
    return overDegrees([from, to], bell) + Math.log((to - from) / (high - low));
  });
  return { ...settled, evidence: { ...evidence, logLikelihood: logs.reduce(logAdded) } };
}

function pushesOut(fault: Fault | undefined, severity: number, step: number): boolean {
  if (fault?.range === undefined) return false;
  return (severity >= fault.range[1] && step > 0) || (severity <= fault.range[0] && step < 0);
}

/** The same explanation as this bench sees it, which may reckon with a load that a first look took as straight. */
export function seenBy(
  pattern: Pattern,
  bench: Bench,
  look: Explanation,
  readings: readonly Reading[],
): Explanation | undefined {
  const { fault, severity, off } = look;
  const probes = readings.map(({ probe }) => probe);
  const seen = inspect(pattern, bench, editOf(fault, severity), probes, off, look.seen.x);
  return seen && weighed(pattern, fault, severity, off, seen, readings);
}

const mostRounds = 8;
/** A step that betters likelihood and fit by no more than this was along a way that the readings do not feel. */
const nothingGained = 0.01;

/**
 * The same explanation looked at again and again from where the values most likely lie, until that stays put: this
 * follows the bend of the curves, as a linear look from the net list's own values does not.
 *
 * @source Gauss-Newton to the posterior mode, then Laplace's approximation about it (remembered)
 */
export function settleExplanation(
  pattern: Pattern,
  bench: Bench,
  from: Explanation,
  readings: readonly Reading[],
): Explanation {
  const probes = readings.map(({ probe }) => probe);
  let now = from;
  let misfit = misfitOf(pattern, now, readings);
  for (let round = 0; round < mostRounds; round++) {
    let taken: Explanation | undefined;
    const before = misfit;
    for (let share = 1; share > 0.05; share /= 3) {
      const [severity, off] = stepped(pattern, now, share);
      const seen = inspect(pattern, bench, editOf(now.fault, severity), probes, off, now.seen.x);
      if (seen === undefined) continue;
      const next = weighed(pattern, now.fault, severity, off, seen, readings);
      const nextMisfit = misfitOf(pattern, next, readings);
      if (nextMisfit <= misfit + 1e-3 * misfit + 0.02) {
        taken = next;
        misfit = nextMisfit;
        break;
      }
    }
    if (taken === undefined) return now;
    const moved = distanceMoved(pattern, now, taken);
    const gained = Math.abs(taken.evidence.logLikelihood - now.evidence.logLikelihood) + Math.abs(misfit - before);
    now = taken;
    if (moved < 0.03 || gained < nothingGained) break;
  }
  return now;
}

function stepped(
  pattern: Pattern,
  { fault, severity, off, evidence }: Explanation,
  share: number,
): [number, Float64Array] {
  const next = off.map((own, i) => {
    const target = Math.max(-0.95, Math.min(4, evidence.shift[i]!));
    return own + share * (target - own);
  });
  // Held in before it is shared out, or a far aim would make the same step at every share.
  const step = share * Math.max(-3, Math.min(3, evidence.shift[pattern.values.length]!));
  const [low, high] = fault?.range ?? [severity, severity];
  return [Math.min(high, Math.max(low, severity + step)), next];
}

/** Readings against this very specimen, and its values against the spread they should have. */
function misfitOf(pattern: Pattern, { seen, off, variances }: Explanation, readings: readonly Reading[]): number {
  let sum = 0;
  readings.forEach(({ value, sd }, i) => {
    sum += (value - seen.values[i]!) ** 2 / (sd * sd + seen.grain[i]! ** 2);
  });
  pattern.values.forEach((_, i) => {
    if (variances[i]! > 0) sum += off[i]! ** 2 / variances[i]!;
  });
  return sum;
}

/** Largest move of a value in its own spreads, or of the severity. */
function distanceMoved(pattern: Pattern, a: Explanation, b: Explanation): number {
  let most = Math.abs(a.severity - b.severity);
  pattern.values.forEach(({ sd }, i) => {
    most = Math.max(most, Math.abs(a.off[i]! - b.off[i]!) / sd);
  });
  return most;
}
