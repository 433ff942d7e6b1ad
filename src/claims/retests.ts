import { dangerRank, forerunners } from "./checkOrder.ts";
import type { ClaimSpec, Model } from "./evidence.ts";

/**
 * The checks to be made again, in the order hands should make them.
 *
 * What must come first comes first; of what may come next, the safety tests that protect the tester, then what such
 * a test waits for, then the least danger, then the least time of hands.
 *
 * @param claims  names of the claims to prove again; names that the model does not have are passed over
 */
export function retests(model: Pick<Model, "claims">, claims: Iterable<string>): readonly ClaimSpec[] {
  const asked = new Set(claims);
  const before = forerunners(model);
  const order: ClaimSpec[] = [];
  let waiting = model.claims.filter(({ claim }) => asked.has(claim));

  while (waiting.length > 0) {
    const isFree = ({ claim }: ClaimSpec) => !waiting.some((other) => before.get(claim)?.has(other.claim));
    const free = waiting.filter(isFree);
    const protects = (spec: ClaimSpec) =>
      spec.safety ? 0 : waiting.some((other) => other.safety && before.get(other.claim)?.has(spec.claim)) ? 1 : 2;
    // A circle in `after` is refused at entry; were there one, the checks in it still appear.
    const next = (free.length > 0 ? free : waiting).toSorted(
      (a, b) =>
        protects(a) - protects(b) ||
        dangerRank(a.check.danger) - dangerRank(b.check.danger) ||
        a.check.hands_min - b.check.hands_min,
    )[0]!;
    order.push(next);
    waiting = waiting.filter((spec) => spec !== next);
  }
  return order;
}
