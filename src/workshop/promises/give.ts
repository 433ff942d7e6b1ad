import { createHash } from "node:crypto";
import type { BodyOf } from "../../claims/evidence.ts";
import { BadInput, quote } from "../../maths/badInput.ts";
import { triangleQuantile } from "../../maths/random.ts";
import type { Calculate } from "../calculate.ts";
import type { OrderDates } from "../promiseBook.ts";
import { version } from "../version.ts";
import { type Bookkeeping, type PromiseQuestion, promiseQuestion } from "./question.ts";

export interface Given {
  readonly order: string;
  /** Left out, the day by which `share_pct` of the runs are done. */
  readonly date?: string | undefined;
  readonly share_pct: 50 | 80 | 95;
  readonly assumptions?: string | undefined;
}

/**
 * A promise as it is written down: the date, how often it should hold, and what it was worked out from.
 *
 * @throws BadInput  an order that is not open, or a date before now
 */
export async function promiseToGive(
  book: Bookkeeping,
  { order, date, share_pct, assumptions }: Given,
  calculate: Calculate,
): Promise<BodyOf<"promise">> {
  const question = promiseQuestion(book);
  const asked = question?.orders.find(({ id }) => id === order);
  if (!question || !asked) {
    const open = question?.orders.map(({ id }) => quote(id)).join(", ") ?? "none";
    throw new BadInput("order", quote(order), `open orders are ${open}`, "name one of them");
  }
  if (date !== undefined && !(Date.parse(date) >= Date.parse(book.now))) {
    throw new BadInput("date", quote(date), `a day not before ${book.now}`, "give the day that the customer was told");
  }
  const answer = await calculate<{ orders: OrderDates[] }>("production.promise", question);
  const dates = answer.orders.find(({ id }) => id === order)!;
  const parts = partsOf(question, order);
  const day = date ?? dates[`p${share_pct}`];
  return {
    kind: "promise",
    order,
    date: day,
    share_pct,
    assumptions:
      assumptions ??
      `${question.runs} runs of the shop as it stood, ${question.orders.length} orders open, held by ${dates.heldBy}`,
    assumed: {
      now: question.now,
      version,
      runs: question.runs,
      seed: question.seed,
      question_sha256: createHash("sha256").update(JSON.stringify(question)).digest("hex"),
      p50: dates.p50,
      p80: dates.p80,
      p95: dates.p95,
      heldBy: dates.heldBy,
      open: question.orders.map(({ id }) => id),
      parts,
      repairs: repairsOf(question, order),
    },
  };
}

/** Parts that the order waits for, with the day by which four in five of such come: the 80 % point of its triangle. */
function partsOf(question: PromiseQuestion, order: string): { part: string; by: string }[] {
  const asked = question.orders.find(({ id }) => id === order)!;
  return question.parts
    .filter((part) => part.model === asked.model && (part.orders?.includes(order) ?? true))
    .map((part) => {
      const { fast, usual, slow } = part.lead_days;
      const days = triangleQuantile(0.8, fast, usual, slow);
      const by = new Date(Date.parse(part.ordered ?? question.now) + days * 86_400_000).toISOString();
      return { part: part.id, by };
    });
}

/** Repairs to expect on its units: p/(1 − p) for each step with odds p of failing, repeats of other steps left out. */
function repairsOf(question: PromiseQuestion, order: string): number {
  const { route } = question.orders.find(({ id }) => id === order)!;
  return route
    .flatMap((unit) => question.routes[unit] ?? [])
    .reduce((sum, { failOdds = 0 }) => sum + failOdds / (1 - failOdds), 0);
}
