import type { Model } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import type { Calculate } from "../calculate.ts";
import type { LookBackView, WhatIfOptionsView } from "./views.ts";

interface Answer extends Pick<LookBackView, "faults" | "late" | "notes"> {
  readonly arrows: readonly Omit<LookBackView["arrows"][number], "words">[];
  readonly rungs: readonly {
    readonly stage: string;
    readonly found: number;
    readonly possible: number;
    readonly spent_h: number;
  }[];
}

/** The ladder of stages with arrows from where faults were found to where they could have been. */
export async function lookBackView(
  shop: Shop,
  plate: readonly string[],
  suggested: WhatIfOptionsView["suggested"],
  calculate: Calculate,
): Promise<LookBackView> {
  const models = [...shop.models.values()].map(({ body }) => body);
  const { faults } = shop;
  const hour_cents = meanHour(shop);
  const answer = await calculate<Answer>("production.lookback", {
    stages: stagesInOrder(models),
    ...(hour_cents !== undefined && { hour_cents }),
    faults: faults.map(({ body: { unit, fault, possible, found, repair_h, cost_cents } }) => ({
      unit,
      fault,
      possible,
      found,
      repair_h,
      cost_cents,
    })),
  });
  const titles = new Map(models.flatMap(({ claims }) => claims.map(({ claim, title }) => [claim, title] as const)));
  const left = [...shop.orders.values()].flatMap(({ body }) => body.units).filter((unit) => shop.isReleased(unit));
  const back = new Set(shop.returns.map(({ body }) => body.unit));
  const atCustomer = new Set(faults.filter(({ body }) => body.found === "customer").map(({ body }) => body.unit));
  return {
    rungs: answer.rungs
      .filter(({ found, possible }) => found + possible > 0)
      .map((rung) => ({ ...rung, title: titles.get(rung.stage) ?? rung.stage })),
    arrows: answer.arrows.map((arrow) => ({ ...arrow, words: arrowWords(arrow, shop.shop?.currency ?? "") })),
    currency: shop.shop?.currency ?? "",
    units: left.length,
    faults: answer.faults,
    late: answer.late,
    returns: { count: back.size, of: left.length, without: [...back].filter((unit) => !atCustomer.has(unit)).length },
    plate,
    suggested,
    notes: answer.notes,
  };
}

/** An hour of hands on the mean over the shop's skills. */
function meanHour(shop: Shop): number | undefined {
  const hours = Object.values(shop.rates?.hour_cents ?? {});
  return hours.length === 0 ? undefined : hours.reduce((sum, one) => sum + one, 0) / hours.length;
}

/** Build steps of all models, then claims, then the customer; what only one model has stands after what it follows there. */
function stagesInOrder(models: readonly Model[]): readonly string[] {
  const merged = (lists: readonly (readonly string[])[]) => {
    const order: string[] = [];
    for (const list of lists) {
      let after = -1;
      for (const stage of list) {
        const known = order.indexOf(stage);
        if (known >= 0) after = Math.max(after, known);
        else order.splice(++after, 0, stage);
      }
    }
    return order;
  };
  return [
    ...merged(models.map(({ build }) => build.map(({ step }) => step))),
    ...merged(models.map(({ claims }) => claims.map(({ claim }) => claim))),
    "customer",
  ];
}

function arrowWords(arrow: Answer["arrows"][number], currency: string): string {
  const money = (cents: number) => `${Math.round(cents / 100)} ${currency}`.trim();
  switch (arrow.state) {
    case "saves": {
      const hours = `${arrow.saved_h!.toFixed(0)} h (${Math.max(0, arrow.savedLow_h!).toFixed(0)} to ${arrow.savedHigh_h!.toFixed(0)})`;
      const cost = `${money(arrow.saved_cents!)} (${money(Math.max(0, arrow.savedLow_cents!))} to ${money(arrow.savedHigh_cents!)})`;
      return `Found there, they would have taken ${hours} and ${cost} less.`;
    }
    case "silent":
      return "What finding them there would have saved can’t be told from chance.";
    case "undecided":
      return `Of this sort only ${arrow.early} ${arrow.early === 1 ? "was" : "were"} found there: what it would have saved is undecided.`;
  }
}
