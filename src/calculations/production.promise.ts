import { z } from "zod";
import { randomStream } from "../maths/random.ts";
import { type PromiseInput, promiseWork } from "../production/index.ts";
import { howManyToBuy } from "../valves/index.ts";
import { calculation } from "./calculation.ts";
import { days, instant, name, promiseInput } from "./promiseInput.ts";
import { takenInTurns } from "./takenInTurns.ts";

const count = z.int().min(0).max(1_000_000);
/** Chance wanted that the valves bought suffice, where none is given. */
const usualConfidence = 0.9;
/** No new batch is drawn after so long. */
const longestDraw_ms = 1500;

const valves = z.object({
  type: name.describe("Type of the valves, 6SN7GT."),
  model: name,
  step: name.describe("Step for which a unit's valves must be there."),
  perSet: z.int().min(1).max(100).describe("Valves of the type in a unit."),
  inHand: count.optional().describe("Sets that are on the shelf already."),
  past: z
    .array(z.object({ tested: count.min(1), passed: count }))
    .min(1)
    .max(300)
    .describe("Past batches of the type, as valves.buy takes them."),
  confidence: z.number().min(0.01).max(0.999).optional().describe("Chance wanted of having all sets; 0.9 if left out."),
  lead_days: days.describe("Days of 24 hours from ordering to arrival."),
  heatRun_h: z.number().min(0).max(10_000).optional().describe("Hours that a new batch runs before it is proven."),
  ordered: instant.optional(),
});

export default calculation({
  name: "production.promise",
  title: "Dates that each open order will keep, what holds it, and when to order parts",
  input: promiseInput.extend({
    valves: z
      .array(valves)
      .max(200)
      .optional()
      .describe("Types to be bought for open units, with how many and by when."),
  }),
  output: z.object({
    orders: z.array(
      z.object({
        id: z.string(),
        p50: z.string().describe("The instant by which half of the runs have the order done."),
        p80: z.string(),
        p95: z.string(),
        heldBy: z.string().describe("Person, place or part most often the longest wait; else the longest step."),
        heldShare: z.number().describe("Share of the runs in which it was."),
        onTime: z.number().optional().describe("Share of the runs done by the due date."),
        doubt_h: z.object({ p50: z.number(), p80: z.number(), p95: z.number() }),
      }),
    ),
    orderBy: z.array(z.object({ part: z.string(), order: z.string(), by: z.string() })),
    valvesToBuy: z
      .array(
        z.object({
          type: z.string(),
          model: z.string(),
          sets: z.int().describe("Sets that the open units still want, less those in hand."),
          buy: z.int().optional().describe("The fewest valves that reach the confidence; see valves.buy."),
          chance: z.number().optional(),
          by: z.string().optional().describe("The latest instant of ordering, over all orders that want them."),
          order: z.string().optional().describe("The order that wants them first."),
          state: z.literal("undecided").optional(),
          reason: z.string().optional(),
        }),
      )
      .optional(),
    load: z.array(z.object({ place: z.string(), share: z.number() })),
    hands: z.array(z.object({ person: z.string(), share: z.number() })),
    notes: z.array(z.string()),
  }),
  async compute({ valves: wanted = [], ...input }, surroundings) {
    const buying = wanted.map((one) => ({ ...one, sets: setsWanted(one, input) }));
    const lacking = buying.filter(({ sets }) => sets > 0);
    const parts = [...(input.parts ?? []), ...lacking.map(asPart)];
    const work = promiseWork({ ...input, parts });
    await takenInTurns(work, surroundings, "letting the shop run");
    const result = work.answer();
    return {
      orders: result.orders.map((order) => ({ ...order })),
      orderBy: [...result.orderBy],
      ...(wanted.length > 0 && { valvesToBuy: lacking.map((one) => toBuy(one, result.orderBy)) }),
      load: [...result.load],
      hands: [...result.hands],
      notes: [
        ...result.notes,
        ...(lacking.length > 0
          ? ["Valves to buy are held to be proven when their batch has come and had its heat run, and to suffice."]
          : []),
      ],
    };
  },
  formula: ["pNN = k-th earliest of the n dates of an order, k = ⌈n·NN/100⌉"],
  sources: [
    "Discrete-event simulation of a job shop with people, batch places and rework: common practice",
    "Valves to buy: valves.buy on the same past batches",
    "Doubt of a quantile from order statistics of a binomial count: H. A. David and H. N. Nagaraja, Order Statistics (from memory)",
  ],
  validity:
    "Greedy work by urgency: at each instant all that ends is ended first, then waiting units begin, most urgent first. Times and delays from triangles, all luck independent. At most 20 years ahead. Sickness, new orders and returns are not foreseen.",
  cautions: ["A date gives nobody the right to hurry a safety test: what voids a proof adds its retest to the route."],
  example: {
    now: "2026-11-25T08:00:00+01:00",
    timeZone: "Europe/Paris",
    calendars: {
      bench: {
        week: {
          mon: ["08:00-12:00", "13:00-17:00"],
          tue: ["08:00-12:00", "13:00-17:00"],
          wed: ["08:00-12:00", "13:00-17:00"],
          thu: ["08:00-12:00", "13:00-17:00"],
          fri: ["08:00-12:00"],
        },
        closed: ["2026-12-25", "2027-01-01"],
      },
    },
    people: [
      { id: "builder", skills: ["wire", "case"], calendar: "bench" },
      { id: "tester", skills: ["test", "wire"], calendar: "bench" },
    ],
    places: [
      { id: "heat rack", kind: "batch", capacity: 4, cycle_h: 48 },
      { id: "audio bench", kind: "single" },
    ],
    routes: {
      Preamplifier: [
        { step: "wire", skill: "wire", hours: { fast: 6, usual: 8, slow: 14 } },
        { step: "heat run", place: "heat rack", hours: { fast: 48, usual: 48, slow: 48 } },
        {
          step: "measure",
          skill: "test",
          place: "audio bench",
          hours: { fast: 1, usual: 1.5, slow: 3 },
          failOdds: 0.12,
          onFail: { back: "heat run", repair_h: 2 },
        },
        { step: "case", skill: "case", hours: { fast: 3, usual: 4, slow: 6 } },
      ],
    },
    parts: [
      {
        id: "output transformers",
        model: "Preamplifier",
        step: "wire",
        lead_days: { fast: 7, usual: 10, slow: 21 },
        ordered: "2026-11-18T09:00:00+01:00",
      },
      { id: "case plates", model: "Preamplifier", step: "case", lead_days: { fast: 4, usual: 5, slow: 9 } },
    ],
    orders: [
      { id: "order 12", model: "Preamplifier", units: 1, due: "2026-12-18T17:00:00+01:00" },
      { id: "order 13", model: "Preamplifier", units: 2 },
    ],
    runs: 1000,
    seed: 12,
  },
});

type Wanted = z.output<typeof valves>;

/** Open units of the model that still have the step before them, less the sets in hand. */
function setsWanted({ model, step, inHand = 0 }: Wanted, { orders, routes }: PromiseInput): number {
  const units = orders
    .filter((order) => order.model === model)
    .flatMap((order) => order.route ?? Array.from({ length: Math.min(order.units, 20_000) }, () => order.model));
  return units.filter((route) => routes[route]?.some((known) => known.step === step)).length - inHand;
}

function partId({ type, model }: Wanted): string {
  return `${type} valves for ${model}`;
}

function asPart(wanted: Wanted) {
  const { model, step, lead_days, heatRun_h = 0, ordered } = wanted;
  const proven = (days: number) => days + heatRun_h / 24;
  const { fast, usual, slow } = lead_days;
  return {
    id: partId(wanted),
    model,
    step,
    lead_days: { fast: proven(fast), usual: proven(usual), slow: proven(slow) },
    ...(ordered !== undefined && { ordered }),
  };
}

function toBuy(
  wanted: Wanted & { readonly sets: number },
  orderBy: readonly { part: string; order: string; by: string }[],
) {
  const { type, model, sets, perSet, past, confidence = usualConfidence } = wanted;
  const end_ms = performance.now() + longestDraw_ms;
  const { buy, chance, state, reason } = howManyToBuy(
    { past, perSet, sets, confidence },
    { random: randomStream("valves.buy"), hasTime: () => performance.now() < end_ms },
  );
  const [first] = orderBy
    .filter(({ part }) => part === partId(wanted))
    .toSorted((a, b) => Date.parse(a.by) - Date.parse(b.by));
  return {
    type,
    model,
    sets,
    ...(buy !== undefined && { buy }),
    ...(chance !== undefined && { chance }),
    ...(first && { by: first.by, order: first.order }),
    ...(state !== undefined && { state }),
    ...(reason !== undefined && { reason }),
  };
}
