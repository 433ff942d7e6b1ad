import { z } from "zod";
import { refusal } from "../../calculations/refusal.ts";
import type { Shop } from "../../claims/index.ts";
import { BadInput, quote } from "../../maths/badInput.ts";
import type { Calculate } from "../calculate.ts";
import { endOfDay } from "./days.ts";
import {
  type Bookkeeping,
  openOrders,
  openUnits,
  type PromiseQuestion,
  promisedFor,
  promiseQuestion,
} from "./question.ts";
import type { AskedChange, WhatIfOptionsView, WhatIfOrderView, WhatIfView } from "./views.ts";

const name = z.string().min(1).max(200);
const date = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, "a date, 2027-03-08");
const asked = z.object({
  changes: z
    .array(
      z.discriminatedUnion("kind", [
        z.object({
          kind: z.literal("place"),
          place: name,
          slots: z.number().optional(),
          cycle_h: z.number().optional(),
        }),
        z.object({ kind: z.literal("holiday"), date }),
        z.object({ kind: z.literal("rush"), model: name, units: z.int().min(1).max(100), due: date }),
        z.object({ kind: z.literal("fail"), unit: name, step: name }),
        z.object({ kind: z.literal("late"), part: name, days: z.number() }),
        z.object({ kind: z.literal("away"), person: name, from: date, to: date }),
        z.object({ kind: z.literal("hands"), like: name }),
      ]),
    )
    .min(1)
    .max(20),
});

interface Answer {
  readonly orders: readonly {
    readonly id: string;
    readonly before?: { readonly p80: string };
    readonly after: { readonly p80: string };
    readonly shift_h?: number;
    readonly low_h?: number;
    readonly high_h?: number;
    readonly moves: WhatIfOrderView["moves"];
  }[];
  readonly earlier: readonly string[];
  readonly later: readonly string[];
  readonly overall?: WhatIfView["overall"];
  readonly notes: readonly string[];
}

/**
 * What a change of the shop does to the dates of all open orders, run against run with the same luck.
 *
 * @param signal  ends the work when nobody waits for it any more
 * @throws BadInput  a question that is none, or a change of something the shop has not
 */
export async function whatIf(
  book: Bookkeeping,
  question: unknown,
  calculate: Calculate,
  signal?: AbortSignal,
): Promise<WhatIfView> {
  const parsed = asked.safeParse(question);
  if (!parsed.success) throw refusal(parsed.error, question);
  const shop = promiseQuestion(book);
  if (!shop) {
    throw new BadInput(
      "changes",
      "no open order",
      "a workshop with open orders and people",
      "take an order down first",
    );
  }
  const changes = parsed.data.changes.map((change, i) => asChange(change, book, shop, `changes[${i}]`));
  const answer = await calculate<Answer>("production.whatif", { ...shop, changes }, undefined, signal);
  const orders = answer.orders.map(({ id, before, after, moves, shift_h, low_h, high_h }): WhatIfOrderView => {
    const order = book.shop.orders.get(id)?.body;
    const rush = order === undefined ? parsed.data.changes.find((change) => change.kind === "rush") : undefined;
    const promised = order ? promisedFor(book.shop, id) : rush?.due;
    const isLate = (at: string) => promised !== undefined && Date.parse(at) > Date.parse(endOfDay(promised));
    return {
      order: id,
      model: order?.model ?? rush?.model ?? "",
      units: order ? openUnits(book.shop, order) : [],
      ...(promised !== undefined && { promised }),
      ...(before && { before_p80: before.p80, lateBefore: isLate(before.p80) }),
      after_p80: after.p80,
      lateAfter: isLate(after.p80),
      ...(shift_h !== undefined && { shift_h, low_h: low_h!, high_h: high_h! }),
      moves,
    };
  });
  const moved = orders.filter(({ moves }) => moves !== "silent");
  const saved = moved.filter(({ lateBefore, lateAfter }) => lateBefore === true && !lateAfter);
  const lost = moved.filter(({ lateBefore, lateAfter }) => lateBefore === false && lateAfter);
  const ids = (list: readonly WhatIfOrderView[]) => list.map(({ order }) => order);
  return {
    changes: parsed.data.changes.map((change) => changeWords(change)),
    orders: moved.toSorted((a, b) => Date.parse(a.after_p80) - Date.parse(b.after_p80)),
    still: orders.length - moved.length,
    of: orders.filter(({ moves }) => moves !== "new").length,
    ...(answer.overall && { overall: answer.overall }),
    earlier: answer.earlier,
    later: answer.later,
    saved: ids(saved),
    lost: ids(lost),
    danger: ids(orders.filter(({ lateAfter }) => lateAfter)),
    words: summaryWords(answer, orders, ids(saved), ids(lost)),
    notes: answer.notes,
  };
}

function summaryWords(
  { earlier, later, overall }: Answer,
  orders: readonly WhatIfOrderView[],
  saved: readonly string[],
  lost: readonly string[],
): string {
  const of = orders.filter(({ moves }) => moves !== "new").length;
  const count = (n: number, what: string) => `${n} of ${of} dates ${n === 1 ? "moves" : "move"} ${what}`;
  const danger = orders.filter(({ lateAfter }) => lateAfter).map(({ order }) => order);
  const moved = earlier.length + later.length > 0;
  return [
    ...(moved ? [] : ["No date moves that can be told from chance."]),
    ...(earlier.length > 0 ? [`${count(earlier.length, "in")}.`] : []),
    ...(later.length > 0 ? [`${count(later.length, "out")}.`] : []),
    ...(moved && overall ? [`Over all orders ${overallWords(overall)}.`] : []),
    ...(saved.length > 0 ? [`No longer in danger: ${saved.join(", ")}.`] : []),
    ...(lost.length > 0 ? [`Newly in danger: ${lost.join(", ")}.`] : []),
    danger.length === 0
      ? "Then no promise is in danger."
      : `In danger then: ${danger.length} of ${orders.length}, ${danger.join(", ")}.`,
  ].join(" ");
}

function overallWords({ shift_h, low_h, high_h }: NonNullable<Answer["overall"]>): string {
  const days = (hours: number) => (Math.abs(hours) / 24).toFixed(1);
  if (low_h < 0 && high_h > 0) return "the mean date stays where it is, as far as can be told";
  const [near, far] = shift_h < 0 ? [high_h, low_h] : [low_h, high_h];
  return `the mean date comes ${days(shift_h)} days ${shift_h < 0 ? "sooner" : "later"} (${days(near)} to ${days(far)})`;
}

function asChange(change: AskedChange, book: Bookkeeping, shop: PromiseQuestion, path: string): object {
  switch (change.kind) {
    case "rush": {
      const { model, units, due } = change;
      const body = [...book.shop.models.values()].findLast((known) => known.body.model === model)?.body;
      if (!body) {
        const known = [...new Set([...book.shop.models.values()].map((one) => one.body.model))].map((one) =>
          quote(one),
        );
        throw new BadInput(
          `${path}.model`,
          quote(model),
          `models are ${known.join(", ") || "none yet"}`,
          "name one of them",
        );
      }
      if (Date.parse(endOfDay(`${due}T12:00:00Z`)) < Date.parse(book.now)) {
        throw new BadInput(
          `${path}.due`,
          `${quote(due)} for the rush order of ${units} ${model}`,
          `a day not before today, ${book.now.slice(0, 10)}`,
          "give the day on which the customer wants it",
        );
      }
      // A unit not begun takes the longest route of its model that is open, or else one like it is not known.
      const alike = shop.orders.filter((order) => order.model === model).flatMap(({ route }) => route);
      const route = alike.toSorted((a, b) => shop.routes[b]!.length - shop.routes[a]!.length)[0];
      if (route === undefined) {
        throw new BadInput(
          `${path}.model`,
          quote(model),
          "a model of which an order is open, whose work is known",
          "take the order down, and see its date in the book",
        );
      }
      const order = {
        id: rushName(shop),
        model,
        units,
        route: Array(units).fill(route),
        due: endOfDay(`${due}T12:00:00Z`),
      };
      return { kind: "rush", order };
    }
    case "fail": {
      const order = shop.orders.find((one) => one.route.includes(change.unit));
      if (!order) {
        const units = shop.orders.flatMap(({ route }) => route);
        throw new BadInput(
          `${path}.unit`,
          quote(change.unit),
          `units in hand or on order are ${units.slice(0, 20).join(", ")}${units.length > 20 ? ", …" : ""}`,
          "check the serial number",
        );
      }
      return { kind: "fail", order: order.id, unit: order.route.indexOf(change.unit), step: change.step };
    }
    case "hands": {
      const like = shop.people.find(({ id }) => id === change.like);
      if (!like) {
        const known = shop.people.map(({ id }) => quote(id)).join(", ");
        throw new BadInput(`${path}.like`, quote(change.like), `people are ${known}`, "name one of them");
      }
      return { kind: "hands", person: { ...like, id: `another ${like.id}` } };
    }
    default:
      return change;
  }
}

function rushName({ orders }: PromiseQuestion): string {
  let name = "rush order";
  while (orders.some(({ id }) => id === name)) name += "′";
  return name;
}

export function changeWords(change: AskedChange): string {
  switch (change.kind) {
    case "place":
      return [
        ...(change.slots ? [`${change.place}: ${Math.abs(change.slots)} ${change.slots > 0 ? "more" : "fewer"}`] : []),
        ...(change.cycle_h !== undefined ? [`${change.place}: runs of ${change.cycle_h} h`] : []),
      ].join(", ");
    case "holiday":
      return `nobody works on ${change.date}`;
    case "rush":
      return `a rush order of ${change.units} ${change.model} for ${change.due}`;
    case "fail":
      return `unit ${change.unit} fails at ${change.step}`;
    case "late":
      return `${change.part} comes ${change.days} days later`;
    case "away":
      return `${change.person} is away from ${change.from} to ${change.to}`;
    case "hands":
      return `another pair of hands like ${change.like}`;
  }
}

/** What can be asked in this shop. */
export function whatIfOptions(book: Bookkeeping, suggested: WhatIfOptionsView["suggested"]): WhatIfOptionsView {
  const question = promiseQuestion(book);
  const places = (question?.places ?? []).map(({ id, capacity = 1, cycle_h }) => ({
    place: id,
    slots: capacity,
    ...(cycle_h !== undefined && { cycle_h }),
  }));
  return {
    places,
    people: (question?.people ?? []).map(({ id }) => id),
    models: [...new Set(openModels(book.shop))],
    parts: (question?.parts ?? []).map(({ id, ordered }) => ({ part: id, isOrdered: ordered !== undefined })),
    units: openOrders(book.shop).flatMap((order) =>
      openUnits(book.shop, order).map((unit) => ({
        unit,
        order: order.order,
        steps: (question?.routes[unit] ?? []).map(({ step }) => step),
      })),
    ),
    suggested,
  };
}

function openModels(shop: Shop): readonly string[] {
  return openOrders(shop).map(({ model }) => model);
}
