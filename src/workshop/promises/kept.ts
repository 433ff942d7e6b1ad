import type { BodyOf, Evidence } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import type { Calculate } from "../calculate.ts";
import { endOfDay } from "./days.ts";
import type { KeptView } from "./views.ts";

const day_ms = 86_400_000;
/** Orders told one by one, the latest; the groups count all. */
const mostOrders = 200;

interface Answer {
  readonly groups: readonly Omit<KeptView["groups"][number], "words">[];
  readonly notes: readonly string[];
}

/**
 * Whether the dates given were kept as often as was said, by the half year in which they were given, and for each order
 * what went otherwise than was taken for granted.
 *
 * @param promises  all that were ever given, the earliest first; the first of an order is the one it is held to
 */
export async function kept(
  shop: Shop,
  promises: readonly Evidence<"promise">[],
  calculate: Calculate,
): Promise<KeptView> {
  const first = new Map<string, Evidence<"promise">>();
  for (const promise of promises) if (!first.has(promise.body.order)) first.set(promise.body.order, promise);
  const done = [...first.values()].flatMap((promise) => {
    const left = shop.deliveredAt(promise.body.order);
    return left === undefined ? [] : [{ promise, left }];
  });
  if (done.length === 0) {
    return { groups: [], orders: [], words: "No promised order has left yet.", notes: [] };
  }
  const ask = (group: (promise: Evidence<"promise">) => string) =>
    calculate<Answer>("production.kept", {
      promises: done.map(({ promise, left }) => ({
        order: promise.body.order,
        share_pct: promise.body.share_pct,
        date: endOfDay(promise.body.date),
        done: left,
        group: group(promise),
      })),
    });
  const [all, halves] = [await ask(() => "all"), await ask(({ at }) => halfYear(at))];
  const rows = [...halves.groups.toSorted((a, b) => (a.group < b.group ? -1 : 1)), ...all.groups];
  const taken = [...shop.orders.values()].map(({ at, body }): Taken => ({ at_ms: Date.parse(at), order: body }));
  const orders = done
    .toSorted((a, b) => Date.parse(b.left) - Date.parse(a.left))
    .slice(0, mostOrders)
    .map(({ promise, left }) => {
      const days = Math.round((Date.parse(left) - Date.parse(endOfDay(promise.body.date))) / day_ms);
      return {
        order: promise.body.order,
        model: shop.orders.get(promise.body.order)!.body.model,
        given: promise.at,
        promised: promise.body.date,
        left,
        days,
        kept: Date.parse(left) <= Date.parse(endOfDay(promise.body.date)),
        otherwise: otherwise(shop, taken, promise, left),
      };
    });
  return {
    groups: rows.map((row) => ({ ...row, words: rowWords(row) })),
    orders,
    words: all.groups.map((row) => rowWords(row)).join(" "),
    notes: all.notes,
  };
}

interface Taken {
  readonly at_ms: number;
  readonly order: BodyOf<"order">;
}

function halfYear(at: string): string {
  return `${at.slice(0, 4)}, ${Number(at.slice(5, 7)) <= 6 ? "first" : "second"} half`;
}

function rowWords({
  share_pct,
  made,
  kept: count,
  state,
  low_pct,
  high_pct,
  shift_days,
}: Answer["groups"][number]): string {
  const said = `${count} of ${made} dates said to hold ${Math.round(share_pct)} times in 100 were kept`;
  const range = `${Math.round(low_pct)} to ${Math.round(high_pct)} in 100`;
  const days = (n: number) => `${Math.abs(n).toFixed(0)} ${Math.abs(Math.round(n)) === 1 ? "day" : "days"}`;
  switch (state) {
    case "holds":
      return `${said}: as often as said (${range}).`;
    case "too early":
      return `${said}: fewer than said (${range}). ${days(shift_days)} more would have held.`;
    case "too late":
      return `${said}: more than said (${range}). Dates ${days(shift_days)} nearer would have held.`;
    case "undecided":
      return `${said}: undecided (${range}); more promises will tell.`;
  }
}

/** Parts that came later than was taken for granted, orders that went before, and repairs beyond those expected. */
function otherwise(
  shop: Shop,
  orders: readonly Taken[],
  { at, body }: Evidence<"promise">,
  left: string,
): readonly string[] {
  const { assumed } = body;
  if (!assumed) return [];
  const parts = assumed.parts.flatMap(({ part, by }) => {
    const came = shop.arrivals.get(part)?.at;
    const days = came === undefined ? 0 : Math.ceil((Date.parse(came) - Date.parse(by)) / day_ms);
    return days > 0 ? [`${part} came ${days} ${days === 1 ? "day" : "days"} later than four in five do`] : [];
  });
  const before = new Set(assumed.open);
  const [from_ms, to_ms] = [Date.parse(at), Date.parse(left)];
  const overtook = orders.filter(({ at_ms, order }) => {
    if (!(at_ms > from_ms && at_ms < to_ms) || before.has(order.order)) return false;
    const due = shop.promises.get(order.order)?.body.date ?? order.due;
    return due !== undefined && Date.parse(due) < Date.parse(body.date);
  });
  const units = new Set(shop.orders.get(body.order)?.body.units ?? []);
  const repairs = shop.faults.filter((fault) => units.has(fault.body.unit) && fault.body.found !== "customer").length;
  return [
    ...parts,
    ...(overtook.length > 0
      ? [`taken in since and promised sooner: ${overtook.map(({ order }) => order.order).join(", ")}`]
      : []),
    ...(repairs > Math.ceil(assumed.repairs)
      ? [`${repairs} repairs, where ${assumed.repairs.toFixed(1)} were to be expected`]
      : []),
  ];
}
