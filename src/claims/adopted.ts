import { isRoutine } from "../safety/index.ts";
import type { BodyOf, Evidence, Model, Requirement } from "./evidence.ts";

type Limit = BodyOf<"safety-limits">["limits"][number];

/**
 * The model as it is judged for one destination: the safety limits that were adopted for that market take the place of
 * the model's own, and so do those of the other routine tests (a warm surface, direct voltage at the jack). A limit without a point holds for every point of its quantity, one with a point goes before it.
 *
 * @param adopted  newest entry of each market
 */
export function withAdoptedLimits(model: Model, adopted: Iterable<Evidence<"safety-limits">>, place: string): Model {
  const limits = [...adopted].filter(({ body }) => body.places.includes(place)).flatMap(({ body }) => body.limits);
  if (limits.length === 0) return model;
  const put = (requirement: Requirement): Requirement => {
    const found = limitFor(limits, requirement);
    if (!found) return requirement;
    const { low: _low, high: _high, ...rest } = requirement;
    return {
      ...rest,
      ...(found.low !== undefined && { low: found.low }),
      ...(found.high !== undefined && { high: found.high }),
    };
  };
  return {
    ...model,
    claims: model.claims.map((claim) => ({
      ...claim,
      requires: claim.requires.map((one) => (claim.safety || isRoutine(one.quantity) ? put(one) : one)),
    })),
  };
}

export function limitFor(limits: readonly Limit[], { quantity, point }: Pick<Requirement, "quantity" | "point">) {
  const same = limits.filter((limit) => limit.quantity === quantity);
  return same.find((limit) => limit.point === point) ?? same.find((limit) => limit.point === undefined);
}
