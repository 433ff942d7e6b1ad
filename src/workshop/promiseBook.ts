import type { Calculate } from "./calculate.ts";
import { endOfDay } from "./promises/days.ts";
import { type Bookkeeping, openUnits, promisedFor, promiseQuestion } from "./promises/question.ts";
import type { PromiseView } from "./views.ts";

export type { Bookkeeping } from "./promises/question.ts";

export interface OrderDates {
  readonly id: string;
  readonly p50: string;
  readonly p80: string;
  readonly p95: string;
  readonly heldBy: string;
  readonly heldShare: number;
  readonly onTime?: number;
}

/** Simulated dates of every open order, from what is left to do on each of its units. */
export async function orderDates(book: Bookkeeping, calculate: Calculate): Promise<readonly OrderDates[]> {
  const question = promiseQuestion(book);
  if (!question) return [];
  const answer = await calculate<{ orders: OrderDates[] }>("production.promise", question);
  return answer.orders;
}

/** The promise book: a line per open order, with the date given and the date the simulation now gives. */
export async function promiseBook(book: Bookkeeping, calculate: Calculate): Promise<readonly PromiseView[]> {
  const dates = await orderDates(book, calculate);
  return dates.map((found): PromiseView => {
    const order = book.shop.orders.get(found.id)!.body;
    const promised = promisedFor(book.shop, found.id);
    const given = book.shop.promises.get(found.id);
    const late = promised !== undefined && Date.parse(found.p80) > Date.parse(endOfDay(promised));
    return {
      order: found.id,
      model: order.model,
      units: openUnits(book.shop, order),
      ...(promised !== undefined && { promised }),
      ...(given && { given: { at: given.at, share_pct: given.body.share_pct } }),
      p50: found.p50,
      p80: found.p80,
      p95: found.p95,
      heldBy: found.heldBy,
      ...(found.onTime !== undefined && { onTime: found.onTime }),
      late,
      words: late
        ? `Four runs in five are done by then, after the date given; it waits longest for ${found.heldBy}.`
        : `Four runs in five are done by then; it waits longest for ${found.heldBy}.`,
    };
  });
}
