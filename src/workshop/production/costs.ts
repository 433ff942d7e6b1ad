import type { Evidence } from "../../claims/evidence.ts";
import { modelKey, type Shop } from "../../claims/index.ts";
import { tQuantile } from "../../maths/statistics/index.ts";
import type { UnitCost } from "../../production/index.ts";
import type { Calculate } from "../calculate.ts";
import { groupBy } from "../groupBy.ts";
import { type Records, recordsOf } from "./records.ts";
import type { CostsView, ModelCostView, OptionCostView } from "./views.ts";

/** What a unit of each model costs, what is left of each open order's price, and what each choice really costs. */
export async function costsView(
  shop: Shop,
  calculate: Calculate,
  records: Records = recordsOf(shop),
): Promise<CostsView> {
  const { rates, ledger } = shop;
  const accounts = ledger.ofKind("account").filter(({ id }) => ledger.supersederOf(id) === undefined);
  const byModel = groupBy(accounts, ({ body }) => shop.orderedAs(body.unit)?.model ?? "");
  const missing: { model: string; why: string }[] = [];
  const models: ModelCostView[] = [];
  for (const { body: model } of newestOf(shop)) {
    const bill = shop.bills.get(modelKey(model.model, model.revision))?.body;
    if (!rates || !bill) {
      missing.push({
        model: model.model,
        why: rates ? "its bill of parts is not written down" : "no rates are written down",
      });
      continue;
    }
    const without = model.build.find(
      ({ skill }) => skill !== undefined && rates.hour_cents[skill] === undefined,
    )?.skill;
    if (without !== undefined) {
      missing.push({ model: model.model, why: `no rate for ${without} is written down` });
      continue;
    }
    const cost = await calculate<UnitCost>("production.cost", {
      parts: bill.parts,
      steps: stepsOf(model, records, rates.hour_cents),
      hour_cents: rates.hour_cents,
      price_cents: bill.price_cents,
      currency: rates.currency,
      seed: 1,
    });
    const own = byModel.get(model.model) ?? [];
    const real = meanOf(own.map((account) => centsOf(account, rates.hour_cents)));
    models.push({
      model: model.model,
      revision: model.revision,
      price_cents: bill.price_cents,
      cost: cost.cost,
      parts: cost.parts,
      work: cost.work,
      rework: cost.rework,
      scrap: cost.scrap,
      margin: cost.margin!,
      bySkill: cost.bySkill,
      accounts: own.length,
      ...(real && { real }),
    });
  }
  const options = rates ? await optionsOf(accounts, shop, rates.hour_cents, rates.currency, calculate) : undefined;
  return {
    ...(rates && { currency: rates.currency }),
    rates: rates?.hour_cents ?? {},
    models,
    missing,
    options: options?.choices ?? [],
    untold: options?.untold ?? [],
    accounts: accounts.length,
    orders: [...shop.orders.values()]
      .filter(({ body }) => body.units.some((unit) => !shop.isReleased(unit)))
      .flatMap(({ body }) => {
        const found = models.find(({ model }) => model === body.model);
        if (!found) return [];
        const n = body.units.length;
        // Units of an order share little of their luck, so their spread grows as the root of their number.
        const reach = (q: number) =>
          Math.round(n * found.margin.mean_cents + Math.sqrt(n) * (q - found.margin.mean_cents));
        return [
          {
            order: body.order,
            model: body.model,
            units: n,
            margin_cents: n * found.margin.mean_cents,
            low_cents: reach(found.margin.p05_cents),
            high_cents: reach(found.margin.p95_cents),
          },
        ];
      }),
  };
}

function newestOf(shop: Shop): readonly Evidence<"model">[] {
  return [...groupBy([...shop.models.values()], ({ body }) => body.model)].map(([, all]) =>
    all.reduce((a, b) => (b.seq > a.seq ? b : a)),
  );
}

/**
 * Build steps and checks as they cost hands, each with the odds of doing it again and what that takes, by what the shop
 * found there. What is found at a step without hands is put right by those of the step before.
 */
function stepsOf(model: Evidence<"model">["body"], records: Records, hour_cents: Readonly<Record<string, number>>) {
  const none = { fast: 0, usual: 0, slow: 0 };
  let before = model.build.find(({ skill }) => skill !== undefined)?.skill;
  const built = model.build.flatMap(({ step, skill = before, hours, unattended, failOdds = 0 }) => {
    if (skill === undefined) return [];
    before = skill;
    const hands = unattended ? none : hours;
    return [
      { step, skill, hours: hands, rework: records.reworkAt(model, step, { odds: failOdds, hours: hands.usual / 2 }) },
    ];
  });
  const checked = model.claims.flatMap(({ claim, check }) => {
    const { skill, hands_min, failOdds, repair_h } = check;
    if (hour_cents[skill] === undefined) return [];
    const hands_h = hands_min / 60;
    return [
      {
        step: claim,
        skill,
        hours: { fast: hands_h * 0.75, usual: hands_h, slow: hands_h * 1.75 },
        rework: records.reworkAt(model, claim, { odds: failOdds, hours: repair_h }),
      },
    ];
  });
  return [...built, ...checked];
}

/** Whole cents that a unit took. */
function centsOf({ body }: Evidence<"account">, hour_cents: Readonly<Record<string, number>>): number {
  const hands = Object.entries(body.hours).reduce((sum, [skill, h]) => sum + h * (hour_cents[skill] ?? 0), 0);
  return Math.round(body.parts_cents + body.scrap_cents + hands);
}

function meanOf(values: readonly number[]): ModelCostView["real"] {
  const n = values.length;
  if (n < 3) return undefined;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1));
  const reach = (tQuantile(0.975, n - 1) * sd) / Math.sqrt(n);
  return { mean_cents: Math.round(mean), low_cents: Math.round(mean - reach), high_cents: Math.round(mean + reach) };
}

interface Options {
  readonly choices: readonly OptionCostView[];
  readonly untold: CostsView["untold"];
}

async function optionsOf(
  accounts: readonly Evidence<"account">[],
  shop: Shop,
  hour_cents: Readonly<Record<string, number>>,
  currency: string,
  calculate: Calculate,
): Promise<Options | undefined> {
  const told = accounts.filter(({ body }) => Object.keys(body.options).length > 0);
  if (told.length < 12) return undefined;
  // The model is an option of its own, so that a dear model is not taken for a dear timber.
  const found = await calculate<Options>("production.options", {
    units: told.map((account) => ({
      unit: account.body.unit,
      options: { ...account.body.options, model: shop.orderedAs(account.body.unit)?.model ?? "unknown" },
      cost_cents: centsOf(account, hour_cents),
    })),
    currency,
  });
  return { ...found, choices: found.choices.filter(({ option }) => option !== "model") };
}
