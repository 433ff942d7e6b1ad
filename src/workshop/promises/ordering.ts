import type { Shop } from "../../claims/index.ts";
import type { Calculate } from "../calculate.ts";
import type { ValveVerdict } from "../valveTable.ts";
import { openOrders, openUnits, type PromiseQuestion } from "./question.ts";
import type { OrderingView } from "./views.ts";

/** Days from ordering valves to their arrival where the shop has no record of it; common practice, no source. */
const valveLead_days = { fast: 7, usual: 16, slow: 35 } as const;
const day_ms = 86_400_000;

interface Answer {
  readonly orderBy: readonly { readonly part: string; readonly order: string; readonly by: string }[];
  readonly valvesToBuy?: OrderingView["valves"];
  readonly notes: readonly string[];
}

/**
 * What is still to be ordered for the open orders and by when: parts, and valves beyond those on the shelf.
 *
 * @param verdicts  all valves of a type, as their heat runs left them
 */
export async function ordering(
  shop: Shop,
  question: PromiseQuestion | undefined,
  verdicts: (type: string) => Promise<readonly ValveVerdict[]>,
  calculate: Calculate,
): Promise<OrderingView> {
  if (!question) return { parts: [], valves: [], notes: [] };
  const valves = await valvesWanted(shop, question, verdicts);
  const answer = await calculate<Answer>("production.promise", { ...question, ...(valves.length > 0 && { valves }) });
  const bought = new Set(valves.map(({ type, model }) => `${type} valves for ${model}`));
  const soonest = new Map<string, Answer["orderBy"][number]>();
  for (const one of answer.orderBy) {
    const known = soonest.get(one.part);
    if (!bought.has(one.part) && (!known || Date.parse(one.by) < Date.parse(known.by))) soonest.set(one.part, one);
  }
  return {
    parts: [...soonest.values()]
      .toSorted((a, b) => Date.parse(a.by) - Date.parse(b.by))
      .map((one) => ({ ...one, isNow: Date.parse(one.by) - Date.parse(question.now) < day_ms })),
    valves: answer.valvesToBuy ?? [],
    notes: [
      ...answer.notes.filter((note) => note.startsWith("orderBy") || note.startsWith("Valves")),
      ...(valves.length > 0
        ? [
            `Valves are taken to come within ${valveLead_days.fast} to ${valveLead_days.slow} days; how many passed of each past tray says how many to buy.`,
          ]
        : []),
    ],
  };
}

/** For each model, the earliest date first, what its open units want of each type beyond what lies proven on the shelf. */
async function valvesWanted(
  shop: Shop,
  { orders }: PromiseQuestion,
  verdicts: (type: string) => Promise<readonly ValveVerdict[]>,
) {
  const free = new Map<string, number>();
  const past = new Map<string, { tested: number; passed: number }[]>();
  for (const type of shop.valveLimits.keys()) {
    const judged = await verdicts(type);
    const good = judged.filter(({ verdict }) => verdict === "use");
    free.set(type, good.filter(({ id }) => !shop.fittedIn.has(id)).length);
    const batches = new Map<string, { tested: number; passed: number }>();
    for (const { id, verdict } of judged) {
      const batch = shop.valves.get(id)?.batch ?? "";
      const counted = batches.get(batch) ?? { tested: 0, passed: 0 };
      batches.set(batch, { tested: counted.tested + 1, passed: counted.passed + (verdict === "use" ? 1 : 0) });
    }
    past.set(type, [...batches.values()]);
  }
  const byDue = openOrders(shop).toSorted((a, b) => due(orders, a.order) - due(orders, b.order));
  const models = [...new Map(byDue.map((order) => [order.model, order])).values()];
  return models.flatMap((order) => {
    const units = byDue.filter(({ model }) => model === order.model).flatMap((one) => openUnits(shop, one));
    const model = [...shop.models.values()].findLast(({ body }) => body.model === order.model)!.body;
    const step = model.build.at(-1)?.step;
    if (step === undefined) return [];
    return [...new Set(model.positions.map(({ type }) => type))].flatMap((type) => {
      const perSet = model.positions.filter((position) => position.type === type).length;
      const wanted = units.filter((unit) => Object.keys(shop.units.get(unit)?.fitted ?? {}).length === 0).length;
      const batches = past.get(type) ?? [];
      if (wanted === 0 || batches.length === 0) return [];
      const inHand = Math.min(wanted, Math.floor((free.get(type) ?? 0) / perSet));
      free.set(type, (free.get(type) ?? 0) - inHand * perSet);
      const heatRun_h = shop.valveLimits.get(type)?.body.heatRun_h;
      return [
        {
          type,
          model: order.model,
          step,
          perSet,
          inHand,
          past: batches,
          lead_days: valveLead_days,
          ...(heatRun_h !== undefined && { heatRun_h }),
        },
      ];
    });
  });
}

function due(orders: PromiseQuestion["orders"], id: string): number {
  return Date.parse(orders.find((order) => order.id === id)?.due ?? "") || Number.POSITIVE_INFINITY;
}
