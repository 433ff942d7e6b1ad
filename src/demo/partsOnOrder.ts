import type { BodyOf } from "../claims/evidence.ts";
import type { Random } from "../maths/random.ts";
import { on, workingDays } from "./days.ts";
import type { ModelName } from "./models/models.ts";
import type { OrderPlan } from "./orders.ts";

type Part = BodyOf<"part">;
type Lead = Part["lead_days"];

/** Parts that work in hand waits for. */
const inHand: readonly Part[] = [
  {
    kind: "part",
    part: "Ebb mains transformer",
    model: "Ebb",
    step: "chassis",
    lead_days: { fast: 14, usual: 20, slow: 34 },
    ordered: on("2027-02-15", "10:00"),
  },
  {
    kind: "part",
    part: "Flood output transformers",
    model: "Flood",
    step: "wiring",
    lead_days: { fast: 21, usual: 30, slow: 45 },
    ordered: on("2027-02-22", "15:00"),
  },
  {
    kind: "part",
    part: "Flood ash boards",
    model: "Flood",
    step: "case",
    lead_days: { fast: 6, usual: 9, slow: 16 },
    ordered: on("2027-02-26", "09:30"),
  },
];

/** What is kept on the shelf and was running out: the next units of the model wait for it too. */
const shelf: readonly (readonly [part: string, model: ModelName, step: string, lead: Lead])[] = [
  ["Ebb film capacitors", "Ebb", "wiring", { fast: 3, usual: 5, slow: 9 }],
  ["Ebb jacks", "Ebb", "wiring", { fast: 2, usual: 4, slow: 7 }],
  ["Neap volume controls", "Neap", "wiring", { fast: 14, usual: 20, slow: 30 }],
  ["Neap chassis plates", "Neap", "chassis", { fast: 9, usual: 13, slow: 20 }],
  ["Neap sockets", "Neap", "wiring", { fast: 5, usual: 9, slow: 15 }],
  ["Flood chokes", "Flood", "wiring", { fast: 16, usual: 22, slow: 34 }],
  ["Flood binding posts", "Flood", "wiring", { fast: 4, usual: 7, slow: 12 }],
  ["Bore stator sockets", "Bore", "wiring", { fast: 10, usual: 16, slow: 28 }],
  ["Bore high-voltage capacitors", "Bore", "wiring", { fast: 12, usual: 18, slow: 30 }],
  ["Bore chassis plates", "Bore", "chassis", { fast: 9, usual: 13, slow: 20 }],
  ["Bore wire, 3 kV", "Bore", "wiring", { fast: 6, usual: 9, slow: 15 }],
];

/** What is bought for one order: its iron, for the mains it goes to, and its timber. */
const iron: Readonly<Record<ModelName, { readonly part: string; readonly step: string; readonly lead: Lead }>> = {
  Ebb: { part: "mains transformer", step: "chassis", lead: { fast: 14, usual: 20, slow: 34 } },
  Neap: { part: "mains transformer", step: "chassis", lead: { fast: 14, usual: 19, slow: 30 } },
  Flood: { part: "output and mains transformers", step: "chassis", lead: { fast: 21, usual: 30, slow: 48 } },
  Bore: { part: "mains transformer, 800 V", step: "chassis", lead: { fast: 28, usual: 38, slow: 60 } },
};
const boards: Lead = { fast: 7, usual: 12, slow: 24 };
/** Of what is bought for an order, so much is not ordered yet. */
const notYet = 0.35;

/** Seventy parts on order or to be ordered. */
export function partsOnOrder(ahead: readonly OrderPlan[], chance: Random): readonly Part[] {
  const days = workingDays("2027-02-08", "2027-03-02");
  const someDay = (draw: Random) => on(days[draw.integer(days.length)]!, "11:30");
  return [
    ...inHand,
    ...shelf.map(
      ([part, model, step, lead_days]): Part => ({
        kind: "part",
        part,
        model,
        step,
        lead_days,
        ordered: someDay(chance.fork(part)),
      }),
    ),
    ...ahead.flatMap(({ order, model, taken }): Part[] => {
      const buy = (part: string, step: string, lead_days: Lead): Part => {
        const draw = chance.fork(`${order} ${part}`);
        const ordered = someDay(draw);
        const isOrdered = draw.uniform() >= notYet && ordered.slice(0, 10) > taken;
        return {
          kind: "part",
          part: `${part} for ${order}`,
          model,
          step,
          lead_days,
          ...(isOrdered && { ordered }),
          orders: [order],
        };
      };
      const { part, step, lead } = iron[model];
      return [buy(`${model} ${part}`, step, lead), buy("Boards", "plate", boards)];
    }),
  ];
}
