import Table from "cli-table3";
import type { KeptView, LookBackView, OrderingView, WhatIfView } from "../workshop/promises/views.ts";
import { dayWords } from "./words.ts";

/** Plain text for a terminal: what the pages of promises show, in the same words. */

export function whatIfWords(view: WhatIfView): string {
  return [
    `If ${view.changes.join(", and ")}:`,
    view.words,
    ...(view.orders.length > 0
      ? [
          "",
          table(
            ["order", "model", "promised", "80 % now", "80 % then", "by"],
            view.orders.map((one) => [
              one.order,
              one.model,
              one.promised ? dayWords(one.promised) : "–",
              one.before_p80 ? dayWords(one.before_p80) : "–",
              dayWords(one.after_p80),
              one.shift_h === undefined ? "new" : shiftWords(one),
            ]),
          ),
        ]
      : []),
    `${view.still} ${view.still === 1 ? "order does" : "orders do"} not move.`,
  ].join("\n");
}

/** `2.0 days sooner (1.6 to 2.4)` */
export function shiftWords({ shift_h, low_h, high_h }: { shift_h?: number; low_h?: number; high_h?: number }): string {
  const days = (hours: number) => (hours / 24).toFixed(1);
  const sign = (shift_h ?? 0) < 0 ? -1 : 1;
  const ends = [sign * (low_h ?? 0), sign * (high_h ?? 0)].sort((a, b) => a - b).map(days);
  return `${days(Math.abs(shift_h ?? 0))} days ${sign < 0 ? "sooner" : "later"} (${ends.join(" to ")})`;
}

export function orderingWords(view: OrderingView): string {
  if (view.parts.length === 0 && view.valves.length === 0) return "Nothing is to be ordered for the open orders.";
  return [
    ...view.parts.map(({ part, order, by, isNow }) => `${isNow ? "now" : `by ${dayWords(by)}`}: ${part}, for ${order}`),
    ...view.valves.map(({ type, model, sets, buy, chance, by, reason }) =>
      buy === undefined
        ? `${type} for ${model}: ${sets} sets; ${reason ?? "undecided"}`
        : `${by ? `by ${dayWords(by)}` : "no date yet"}: ${buy} valves ${type}, for ${sets} sets of ${model} (enough ${Math.round(100 * (chance ?? 0))} times in 100)`,
    ),
    "",
    ...view.notes,
  ].join("\n");
}

export function keptWords(view: KeptView): string {
  return [
    ...view.groups.map(({ group, words }) => `${group}: ${words}`),
    "",
    ...view.orders
      .slice(0, 12)
      .map(
        ({ order, promised, left, days, otherwise }) =>
          `${order}: promised ${dayWords(promised)}, left ${dayWords(left)}${days > 0 ? `, ${days} days late` : ""}${otherwise.length > 0 ? `; ${otherwise.join("; ")}` : ""}`,
      ),
    ...(view.orders.length === 0 ? [view.words] : []),
    ...view.notes,
  ].join("\n");
}

export function lookBackWords(view: LookBackView): string {
  const title = (stage: string) => view.rungs.find((rung) => rung.stage === stage)?.title ?? stage;
  return [
    `${view.faults} faults on ${view.units} units that left, ${view.late} of them found later than they could have been; ${view.returns.count} units came back, ${view.returns.without} with nothing wrong.`,
    "",
    table(
      ["found at", "could be found at", "fault", "how many", "spent", "found there"],
      view.arrows.map((arrow) => [
        title(arrow.found),
        title(arrow.possible),
        arrow.fault,
        String(arrow.faults),
        `${arrow.spent_h.toFixed(0)} h, ${Math.round(arrow.spent_cents / 100)} ${view.currency}`,
        arrow.words,
      ]),
      [18, 18, 16, 6, 14, 44],
    ),
    "",
    ...view.plate,
    ...view.suggested.map(({ title: what, because }) => `Worth a what-if: ${what}. ${because}`),
  ].join("\n");
}

function table(head: readonly string[], rows: readonly (readonly string[])[], widths?: readonly number[]): string {
  const drawn = new Table({
    head: [...head],
    ...(widths && { colWidths: [...widths] }),
    wordWrap: true,
    style: { head: [], border: [] },
  });
  drawn.push(...rows.map((row) => [...row]));
  return drawn.toString();
}
