import type { BodyOf } from "../claims/evidence.ts";
import { friday, on } from "./days.ts";
import { type DemoEntry, entry } from "./entry.ts";
import type { ModelName } from "./models/models.ts";
import { destinations, roles } from "./shop.ts";

export interface OrderPlan {
  readonly order: string;
  readonly customer: string;
  readonly model: ModelName;
  readonly units: readonly string[];
  readonly taken: string;
  readonly due: string;
  readonly to: keyof typeof destinations;
  /** What the owner said when the date was given. */
  readonly assumptions: string;
}

/** Orders whose units are in hand, or next. */
export const plans: readonly OrderPlan[] = [
  {
    order: "Q-229",
    customer: "c-06",
    model: "Flood",
    units: ["0588"],
    taken: "2027-01-11",
    due: on("2027-03-16", "17:00"),
    to: "australia",
    assumptions: "Transformers on the shelf; one unit on the audio bench at a time",
  },
  {
    order: "Q-231",
    customer: "c-05",
    model: "Ebb",
    units: ["0417"],
    taken: "2027-01-18",
    due: friday,
    to: "alps",
    assumptions: "All parts on the shelf; the carrier collects on Friday at five",
  },
  {
    order: "Q-232",
    customer: "c-07",
    model: "Ebb",
    units: ["0418"],
    taken: "2027-01-20",
    due: on("2027-03-12", "17:00"),
    to: "denmark",
    assumptions: "All parts on the shelf",
  },
  {
    order: "Q-233",
    customer: "c-04",
    model: "Ebb",
    units: ["0419"],
    taken: "2027-01-25",
    due: on("2027-03-15", "17:00"),
    to: "singapore",
    assumptions: "All parts on the shelf; case not dried further than the harbour dries it",
  },
  {
    order: "Q-234",
    customer: "c-03",
    model: "Ebb",
    units: ["0420"],
    taken: "2027-02-02",
    due: on("2027-03-24", "17:00"),
    to: "japan",
    assumptions: "100 V transformer on the shelf",
  },
  {
    order: "Q-235",
    customer: "c-02",
    model: "Ebb",
    units: ["0421"],
    taken: "2027-02-10",
    due: on("2027-04-09", "17:00"),
    to: "desert",
    assumptions: "Mains transformer within three weeks",
  },
  {
    order: "Q-236",
    customer: "c-07",
    model: "Flood",
    units: ["0589"],
    taken: "2027-01-27",
    due: on("2027-03-19", "17:00"),
    to: "denmark",
    assumptions: "All parts on the shelf",
  },
  {
    order: "Q-237",
    customer: "c-01",
    model: "Flood",
    units: ["0590"],
    taken: "2027-02-08",
    due: on("2027-04-06", "17:00"),
    to: "canada",
    assumptions: "Ash boards dry by the middle of March",
  },
  {
    order: "Q-238",
    customer: "c-05",
    model: "Flood",
    units: ["0591", "0592"],
    taken: "2027-02-22",
    due: on("2027-05-07", "17:00"),
    to: "alps",
    assumptions: "Output transformers within five weeks",
  },
  {
    order: "Q-239",
    customer: "c-07",
    model: "Ebb",
    units: ["0422"],
    taken: "2027-02-15",
    due: on("2027-04-16", "17:00"),
    to: "denmark",
    assumptions: "All parts on the shelf; valves from the batch now on its heat run",
  },
];

export const revisions = { Ebb: "C", Neap: "A", Flood: "B", Bore: "A" } as const satisfies Record<ModelName, string>;

/** Orders as they were taken, each with the date that was given for it. */
export function orderBook(orders: readonly OrderPlan[] = plans): readonly DemoEntry[] {
  return orders.flatMap(({ order, customer, model, units, taken, due, to, assumptions }) => {
    const body: BodyOf<"order"> = {
      kind: "order",
      order,
      customer,
      model,
      revision: revisions[model],
      units: [...units],
      due,
      released: on(taken, "12:00"),
      destination: destinations[to],
    };
    return [
      entry(on(taken, "11:40"), roles.owner, body),
      entry(on(taken, "11:50"), roles.owner, { kind: "promise", order, date: due, share_pct: 80, assumptions }),
    ];
  });
}

export function orderOf(unit: string): { readonly order: string; readonly nominal_V: number } {
  const plan = plans.find(({ units }) => units.includes(unit));
  if (!plan) throw new RangeError(`nobody ordered unit ${unit}`);
  return { order: plan.order, nominal_V: destinations[plan.to].nominal_V };
}
