import { chiSquaredCdf } from "../../maths/statistics/index.ts";
import { type DeadSources, deadSourceRules } from "../resistance/deadNetwork.ts";
import { glance } from "./explain.ts";
import type { Fault } from "./fault.ts";
import type { Bench } from "./inspect.ts";
import type { Reading } from "./probes.ts";
import type { Pattern } from "./specimen.ts";

/** Resistances of good units lie as far out as this in one of three hundred. */
const fitsLeast = 1 / 300;
/** Squared distance that another rule must save before the labels are doubted. */
const doubted = 9;

/**
 * What the sources are once the unit is off: the rule by which the resistances read are those of a good unit; where by
 * none they are, that by which some single fault comes nearest to them.
 *
 * A fault may well read, by the rule that holds, farther from a good unit than by one that does not: a good unit alone
 * must not choose.
 */
export function deadRule(
  pattern: Pattern,
  bench: Bench,
  faults: readonly Fault[],
  dead: readonly Reading[],
): DeadSources {
  if (dead.length === 0) return bench.dead;
  const ofGood = deadSourceRules.map((rule) => ({
    rule,
    distance: distanceOf(pattern, { ...bench, dead: rule }, dead),
  }));
  const best = nearest(ofGood);
  if (1 - chiSquaredCdf(best.distance, dead.length) >= fitsLeast) return best.rule;
  const felt = faults.filter((fault) => fault.felt.dead);
  return nearest(
    ofGood.map(({ rule, distance }) => {
      const by = { ...bench, dead: rule };
      const faulted = felt.flatMap((fault) => fault.starts.map((start) => distanceOf(pattern, by, dead, fault, start)));
      return { rule, distance: faulted.reduce((least, own) => Math.min(least, own), distance) };
    }),
  ).rule;
}

interface Fit {
  readonly rule: DeadSources;
  readonly distance: number;
}

/** The first is the usual rule, and left only for one that does clearly better. */
function nearest(fits: readonly Fit[]): Fit {
  return fits.reduce((best, fit) => (fit.distance < best.distance - doubted ? fit : best));
}

function distanceOf(pattern: Pattern, bench: Bench, dead: readonly Reading[], fault?: Fault, severity = 0): number {
  return glance(pattern, bench, fault, severity, dead)?.evidence.distance ?? Number.POSITIVE_INFINITY;
}
