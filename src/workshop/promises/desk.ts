import { z } from "zod";
import { refusal } from "../../calculations/refusal.ts";
import type { BodyOf, Evidence } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import type { Calculate } from "../calculate.ts";
import { crackRecord } from "../timber/crackRecord.ts";
import type { CrackLookBackView } from "../timber/views.ts";
import type { ValveVerdict } from "../valveTable.ts";
import { type Given, promiseToGive } from "./give.ts";
import { kept } from "./kept.ts";
import { lookBackView } from "./lookBack.ts";
import { ordering } from "./ordering.ts";
import { type Bookkeeping, promiseQuestion } from "./question.ts";
import { suggestedChanges } from "./suggestions.ts";
import type { KeptView, LookBackView, OrderingView, WhatIfOptionsView, WhatIfView } from "./views.ts";
import { whatIf, whatIfOptions } from "./whatIf.ts";

/** What the promise desk asks of the rest of the workshop. */
export interface PromiseDeskAsks {
  shop(): Shop;
  book(): Bookkeeping;
  promises(): readonly Evidence<"promise">[];
  cracks(): Promise<CrackLookBackView>;
  verdicts(type: string): Promise<readonly ValveVerdict[]>;
  readonly calculate: Calculate;
}

const given = z.object({
  date: z.iso.datetime({ offset: true }).optional(),
  share_pct: z.union([z.literal(50), z.literal(80), z.literal(95)]).default(80),
  assumptions: z.string().max(4000).optional(),
});

/** Everything about dates beyond the book itself: what a change does, what to order, what was kept, what was learnt. */
export class PromiseDesk {
  constructor(private readonly asks: PromiseDeskAsks) {}

  async options(): Promise<WhatIfOptionsView> {
    return whatIfOptions(this.asks.book(), await this.suggested());
  }

  whatIf(question: unknown, signal?: AbortSignal): Promise<WhatIfView> {
    return whatIf(this.asks.book(), question, this.asks.calculate, signal);
  }

  ordering(): Promise<OrderingView> {
    const { book, verdicts, calculate } = this.asks;
    const { shop } = book();
    return ordering(shop, promiseQuestion(book()), verdicts, calculate);
  }

  kept(): Promise<KeptView> {
    return kept(this.asks.shop(), this.asks.promises(), this.asks.calculate);
  }

  async lookBack(): Promise<LookBackView> {
    const shop = this.asks.shop();
    return lookBackView(shop, crackRecord(shop.timber).words, await this.suggested(), this.asks.calculate);
  }

  /** The promise that would be written down for an order. */
  toGive(order: string, question: unknown): Promise<BodyOf<"promise">> {
    const parsed = given.safeParse(question ?? {});
    if (!parsed.success) throw refusal(parsed.error, question);
    return promiseToGive(this.asks.book(), { order, ...parsed.data } satisfies Given, this.asks.calculate);
  }

  private async suggested(): Promise<WhatIfOptionsView["suggested"]> {
    return suggestedChanges(this.asks.shop(), await this.asks.cracks());
  }
}
