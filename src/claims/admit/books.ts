import { BadInput, quote } from "../../maths/badInput.ts";
import { isRoutine } from "../../safety/index.ts";
import type { BodyOf, Model } from "../evidence.ts";
import { standingAt } from "../people/rights.ts";
import type { Shop } from "../shop.ts";
import { requireDistinct, requireKnown } from "./refuse.ts";
import { requireUnit } from "./unit.ts";

/** A fault is found at a stage the model knows, and not before the first at which it could have been. */
export function admitFault(fault: BodyOf<"fault">, shop: Shop): void {
  const stages = stagesOf(shop.orderedAs(fault.unit) ?? requireUnit(fault.unit, shop));
  for (const field of ["arose", "possible", "found"] as const) {
    const stage = fault[field];
    if (stage !== undefined) requireKnown(field, stage, stages, `stage of unit ${fault.unit}`);
  }
  const at = (stage: string) => stages.indexOf(stage);
  if (at(fault.possible) > at(fault.found)) {
    throw new BadInput(
      "possible",
      quote(fault.possible),
      `a stage up to ${fault.found}, where it was found`,
      "name the first stage at which a check could have shown it",
    );
  }
  if (fault.arose !== undefined && at(fault.arose) > at(fault.possible)) {
    throw new BadInput(
      "arose",
      quote(fault.arose),
      `a stage up to ${fault.possible}`,
      "it can't show before it is there",
    );
  }
}

/** Build steps, then claims, then the customer. */
export function stagesOf(model: Pick<Model, "build" | "claims">): readonly string[] {
  return [...model.build.map(({ step }) => step), ...model.claims.map(({ claim }) => claim), "customer"];
}

export function admitBill({ model, revision, parts, currency }: BodyOf<"bill">, shop: Shop): void {
  requireKnown("model", model, new Set([...shop.models.values()].map(({ body }) => body.model)), "model");
  const revisions = [...shop.models.values()]
    .filter(({ body }) => body.model === model)
    .map(({ body }) => body.revision);
  requireKnown("revision", revision, revisions, `revision of ${model}`);
  requireDistinct(
    "parts",
    parts.map(({ part }) => part),
    "part",
  );
  requireCurrency(currency, shop);
}

export function admitAccount(account: BodyOf<"account">, shop: Shop): void {
  if (shop.orderedAs(account.unit) === undefined) requireUnit(account.unit, shop);
  requireCurrency(account.currency, shop);
  const spent = Object.values(account.hours).reduce((sum, h) => sum + h, 0);
  if (account.rework_h > spent + 1e-9) {
    throw new BadInput("rework_h", quote(account.rework_h), `at most the ${spent} h in all`, "count the hours again");
  }
}

export function requireCurrency(currency: string, shop: Shop): void {
  const kept = shop.shop?.currency;
  if (kept === undefined || kept === currency) return;
  throw new BadInput("currency", quote(currency), `this shop keeps its books in ${kept}`, `give whole ${kept} cents`);
}

/** Limits are adopted by somebody who has the skill, over quantities of safety claims, each with at least one end. */
export function admitSafetyLimits(entry: BodyOf<"safety-limits"> & { readonly by: string }, shop: Shop): void {
  const person = shop.shop?.people.find(({ id }) => id === entry.by);
  // Where people sign in, their mark decides, and it was asked for already.
  const isMarked = standingAt(shop.ledger, entry.by)?.answersForSafety ?? false;
  if (shop.shop && !isMarked && !person?.skills.includes("safety")) {
    const able = shop.shop.people.filter(({ skills }) => skills.includes("safety")).map(({ id }) => id);
    throw new BadInput(
      "by",
      quote(entry.by),
      `limits are adopted by somebody with the skill safety: ${able.join(", ") || "nobody yet"}`,
      "let that person enter and answer for them",
    );
  }
  const required = [...shop.models.values()].flatMap(({ body }) =>
    body.claims.flatMap(({ safety, requires }) => requires.filter(({ quantity }) => safety || isRoutine(quantity))),
  );
  for (const [i, { quantity, low, high }] of entry.limits.entries()) {
    const path = `limits[${i}]`;
    requireKnown(`${path}.quantity`, quantity, new Set(required.map((one) => one.quantity)), "safety quantity");
    if (low === undefined && high === undefined) {
      throw new BadInput(`${path}.high`, "neither low nor high", "at least one", "give the limit adopted");
    }
    if (low !== undefined && high !== undefined && low > high) {
      throw new BadInput(`${path}.low`, quote(low), `at or below high, ${quote(high)}`, "exchange the two");
    }
  }
  requireDistinct(
    "limits",
    entry.limits.map(({ quantity, point }) => `${quantity} ${point ?? ""}`.trim()),
    "limit",
  );
}
