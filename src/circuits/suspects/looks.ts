import { costsOf, degreesLooked, type Effort, fewestLooked } from "./effort.ts";
import { factorSymmetric, solveSymmetric, spreadOf } from "./evidence.ts";
import { type Explanation, glance } from "./explain.ts";
import type { Fault } from "./fault.ts";
import type { Bench, Seen } from "./inspect.ts";
import type { Reading } from "./probes.ts";
import { type Sketch, sketch, yardstickOf } from "./sketch.ts";
import type { Pattern } from "./specimen.ts";

export interface Looks {
  /** The best look of every fault that some reading feels, and the second best, each best first. */
  readonly felt: readonly Explanation[];
  readonly second: readonly Explanation[];
  /** Faults that leave every reading where a good unit has it. */
  readonly unseen: readonly Fault[];
  /** Of a large unit: faults that a sketch showed to be far from the readings, and how far. */
  readonly far: readonly Sketch[];
}

/** A fault counts as unseen up to this distance from a good unit's readings, in its spreads, squared. */
const unseenDistance = 4;

/** A first look at every fault: in full where that comes in time, else at those whose sketch is nearest to the readings. */
export function lookAt(
  pattern: Pattern,
  bench: Bench,
  faults: readonly Fault[],
  readings: readonly Reading[],
  good: Explanation,
  effort: Effort,
): Looks {
  const plain = glance(pattern, bench, undefined, 0, readings) ?? good;
  const cover = spreadOf(plain.seen, plain.variances, readings);
  factorSymmetric(cover, readings.length);
  const kinds = new Set(readings.map(({ probe }) => probe.kind));
  const mayFeel = ({ felt }: Fault): boolean =>
    (kinds.has("volts") && felt.steady) || (kinds.has("gain") && felt.signal) || (kinds.has("ohms") && felt.dead);
  const silent = faults.filter((fault) => !mayFeel(fault));
  const { wanted, unseen, far } = worthLooks(pattern, bench, faults.filter(mayFeel), readings, plain, effort);
  const felt: Explanation[] = [];
  const second: Explanation[] = [];
  for (const { fault, starts } of wanted) {
    const look = (severity: number): readonly Explanation[] =>
      [glance(pattern, bench, fault, severity, readings)].filter((one) => one !== undefined);
    // What moves nothing at either end of its range moves nothing between.
    const looks = [...look(starts[0]!), ...(starts.length > 1 ? look(starts.at(-1)!) : [])];
    if (looks.length > 0 && looks.every(({ seen }) => standsStill(seen, plain.seen))) {
      unseen.add(fault);
      continue;
    }
    looks.push(...starts.slice(1, -1).flatMap(look));
    if (looks.length === 0) continue;
    const moves = looks.some(({ seen }) => {
      const gap = seen.values.map((value, i) => value - plain.seen.values[i]!);
      const weighted = solveSymmetric(cover, readings.length, gap);
      return gap.reduce((sum, value, i) => sum + value * weighted[i]!, 0) > unseenDistance;
    });
    if (!moves) unseen.add(fault);
    looks.sort((a, b) => b.evidence.logLikelihood - a.evidence.logLikelihood);
    felt.push(looks[0]!);
    if (looks.length > 1) second.push(looks[1]!);
  }
  for (const list of [felt, second]) list.sort((a, b) => b.evidence.logLikelihood - a.evidence.logLikelihood);
  return { felt, second, unseen: [...silent, ...unseen], far };
}

function standsStill(a: Seen, b: Seen): boolean {
  return a.values.every((value, i) => Math.abs(value - b.values[i]!) < 1e-6 * (1 + Math.abs(value)));
}

interface Worth {
  readonly wanted: readonly { readonly fault: Fault; readonly starts: readonly number[] }[];
  readonly unseen: Set<Fault>;
  readonly far: readonly Sketch[];
}

function worthLooks(
  pattern: Pattern,
  bench: Bench,
  faults: readonly Fault[],
  readings: readonly Reading[],
  plain: Explanation,
  effort: Effort,
): Worth {
  const costs = costsOf(pattern, faults, readings);
  if (costs.full_ns + costs.after_ns <= effort.full_ns) {
    return { wanted: faults.map((fault) => ({ fault, starts: fault.starts })), unseen: new Set(), far: [] };
  }
  const most = Math.max(
    fewestLooked,
    Math.floor((effort.full_ns - costs.sketched_ns - costs.after_ns) / (degreesLooked * costs.look_ns)),
  );
  const yardstick = yardstickOf(plain, readings);
  const nearest = nearestKept(most);
  const unseen = new Set<Fault>();
  const sketched = faults.flatMap((fault): (readonly Sketch[])[] => {
    const enough = { distance: nearest.farthest(), moved: unseenDistance };
    const sketches = fault.starts.flatMap(
      (severity) => sketch(pattern, bench, fault, severity, yardstick, enough) ?? [],
    );
    if (sketches.every(({ moved }) => moved <= unseenDistance)) unseen.add(fault);
    if (sketches.length === 0) return [];
    sketches.sort((a, b) => a.distance - b.distance);
    nearest.add(sketches[0]!.distance);
    return [sketches];
  });
  sketched.sort(([a], [b]) => a!.distance - b!.distance);
  return {
    wanted: sketched.slice(0, most).map((sketches) => ({
      fault: sketches[0]!.fault,
      starts: sketches.slice(0, degreesLooked).map(({ severity }) => severity),
    })),
    unseen,
    far: sketched.slice(most).flatMap(([best]) => (unseen.has(best!.fault) ? [] : [best!])),
  };
}

/** The smallest few of many distances. */
function nearestKept(most: number): { add(distance: number): void; farthest(): number } {
  const kept: number[] = [];
  return {
    add(distance) {
      if (kept.length === most && distance >= kept[most - 1]!) return;
      let at = kept.length;
      while (at > 0 && kept[at - 1]! > distance) at--;
      kept.splice(at, 0, distance);
      if (kept.length > most) kept.pop();
    },
    farthest: () => (kept.length < most ? Number.POSITIVE_INFINITY : kept[most - 1]!),
  };
}
