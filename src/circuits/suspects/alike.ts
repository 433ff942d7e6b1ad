import type { Explanation } from "./explain.ts";
import type { Reading } from "./probes.ts";

/**
 * Up to this difference, ln of the likelihood, the readings speak for neither: a factor of 3.2, "not worth more than a
 * bare mention" (Jeffreys, Theory of Probability, appendix B; remembered).
 */
const nearly = Math.log(10 ** 0.5);

/**
 * Whether no reading given tells two explanations apart: both fit as well as each other, and what they show differs
 * by less than the meter's doubt.
 */
function areAlike(a: Explanation, b: Explanation, readings: readonly Reading[]): boolean {
  if (Math.abs(a.evidence.logLikelihood - b.evidence.logLikelihood) > nearly) return false;
  let apart = 0;
  readings.forEach(({ sd }, i) => {
    const gap = a.seen.values[i]! - b.seen.values[i]!;
    apart += (gap * gap) / (sd * sd + a.seen.grain[i]! ** 2 + b.seen.grain[i]! ** 2);
  });
  return apart < 4;
}

/** Groups of explanations that are alike to the best of each group, in the order given. */
export function grouped<T extends { readonly explanation: Explanation }>(
  ranked: readonly T[],
  readings: readonly Reading[],
): T[][] {
  const groups: T[][] = [];
  for (const one of ranked) {
    const home = groups.find(([leader]) => areAlike(leader!.explanation, one.explanation, readings));
    if (home === undefined) groups.push([one]);
    else home.push(one);
  }
  return groups;
}
