import type { Shop } from "../../claims/index.ts";
import { meanOdds } from "../../production/index.ts";

/** Odds that a unit of a model fails at a stage, given what the model says of it. */
export type StageOdds = (model: string, stage: string, guess: number) => number;

/**
 * From the shop's own book of faults: units of the model that failed there, of all that have left, the model's own odds
 * counting as ten units. A model of which no fault was ever written down keeps its own odds.
 */
export function stageOdds(shop: Shop): StageOdds {
  const left = new Map<string, number>();
  const modelOf = new Map<string, string>();
  for (const { body } of shop.orders.values()) {
    for (const unit of body.units) {
      modelOf.set(unit, body.model);
      if (shop.isReleased(unit)) left.set(body.model, (left.get(body.model) ?? 0) + 1);
    }
  }
  const failed = new Map<string, Map<string, Set<string>>>();
  for (const { body } of shop.faults) {
    const model = modelOf.get(body.unit);
    if (model === undefined || !shop.isReleased(body.unit)) continue;
    const stages = failed.get(model) ?? new Map<string, Set<string>>();
    failed.set(model, stages);
    stages.set(body.found, (stages.get(body.found) ?? new Set()).add(body.unit));
  }
  return (model, stage, guess) => {
    const stages = failed.get(model);
    if (!stages) return guess;
    return meanOdds({ found: stages.get(stage)?.size ?? 0, of: left.get(model) ?? 0, guess });
  };
}
