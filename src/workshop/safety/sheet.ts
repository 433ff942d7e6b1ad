import { limitFor } from "../../claims/adopted.ts";
import type { Evidence, Model } from "../../claims/evidence.ts";
import { type ClaimState, instrumentStanding, modelKey, type Shop } from "../../claims/index.ts";
import { guard } from "../../measurement/index.ts";
import {
  atTheJack,
  isRoutine,
  judgeAll,
  mustPrecede,
  routineOrder,
  routineRank,
  safetyCautions,
  touchGuides,
} from "../../safety/index.ts";
import type { AdoptedLimitsView, SafetyFigureView, SafetyLimitsView, SafetySheetView } from "./views.ts";

/** Every safety test of a unit in the order that protects the tester, each against the limit that holds where it goes. */
export function safetySheet(shop: Shop, unit: string, states: readonly ClaimState[]): SafetySheetView {
  const state = shop.units.get(unit)!;
  const model = shop.modelOf(unit)!;
  const destination = shop.orders.get(state.order)?.body.destination;
  const market = [...shop.safetyLimits.values()].find(({ body }) => body.places.includes(destination?.place ?? ""));
  const own = shop.models.get(modelKey(state.model, state.revision))!.body;
  const figures = figuresOf(model, own, states, market?.body.limits ?? [], { ledger: shop.ledger, unit });
  const read = figures.find(({ quantity, value }) => quantity === "jack_mV" && value !== undefined);
  return {
    unit,
    model: model.model,
    ...(destination && {
      place: destination.place,
      supply: { nominal_V: destination.nominal_V, frequency_Hz: destination.frequency_Hz },
    }),
    ...(market && {
      market: { market: market.body.market, edition: market.body.edition, by: market.by, at: market.at },
    }),
    state: stateOfAll(figures),
    figures,
    instruments: [...shop.instruments.values()].map(({ body }) => ({
      instrument: body.instrument,
      title: body.title,
      quantity: body.trial.quantity,
      state: instrumentStanding(shop.ledger, body.instrument).state,
    })),
    headphones: read
      ? [...shop.headphones.values()].map(({ body }) => {
          const { dc_mW } = atTheJack({ dc_V: read.value! / 1000, greatest_Vrms: 1, headphone: body });
          return {
            headphone: body.headphone,
            impedance_ohm: body.impedance_ohm,
            at80_Vrms: 10 ** ((80 - body.sensitivity_dB_per_V) / 20),
            at100_Vrms: 10 ** ((100 - body.sensitivity_dB_per_V) / 20),
            dc_mW,
          };
        })
      : [],
    greatest_Vrms: greatestAtJack(shop, unit),
    stores: storesOf(model),
    touch: touchGuides,
    cautions: safetyCautions,
  };
}

function figuresOf(
  model: Model,
  own: Model,
  states: readonly ClaimState[],
  limits: readonly Evidence<"safety-limits">["body"]["limits"][number][],
  ledger: Book,
): readonly SafetyFigureView[] {
  const specOf = new Map(model.claims.map((spec) => [spec.claim, spec]));
  const found = states.flatMap((claim) =>
    claim.figures.flatMap((figure): SafetyFigureView[] => {
      const spec = specOf.get(claim.claim)!;
      const isOwnTest = claim.safety || isRoutine(figure.quantity);
      if (!isOwnTest) return [];
      const { point, channel } = figure.subject;
      const adopted = limitFor(limits, { quantity: figure.quantity, ...(point !== undefined && { point }) });
      const order = routineOrder.find(({ quantity }) => quantity === figure.quantity);
      const { low, high, value, doubt } = figure;
      const judged =
        value === undefined || doubt === undefined || (low === undefined && high === undefined)
          ? undefined
          : guard({ value, doubt, ...(low !== undefined && { low }), ...(high !== undefined && { high }) });
      return [
        {
          claim: claim.claim,
          title: claim.title,
          quantity: figure.quantity,
          ...(point !== undefined && { point }),
          ...(channel !== undefined && { channel }),
          test: order?.name ?? claim.title,
          how: spec.check.how,
          ...(order && { caution: order.caution }),
          danger: spec.check.danger,
          ...(low !== undefined && { low }),
          ...(high !== undefined && { high }),
          limit: adopted
            ? { source: adopted.source, seen: adopted.seen }
            : { source: `model ${own.model} ${own.revision}`, seen: "model" },
          state: figure.state,
          because: figure.why,
          ...(value !== undefined && { value }),
          ...(doubt !== undefined && { doubt }),
          ...(figure.instrument !== undefined && { instrument: figure.instrument }),
          ...(figure.at !== undefined && { at: figure.at }),
          ...(doubt !== undefined && high !== undefined && { acceptance: high - doubt }),
          ...(doubt !== undefined && high === undefined && low !== undefined && { acceptance: low + doubt }),
          ...(judged && { riskFalseAccept: judged.riskFalseAccept }),
          waitsFor: [],
          outOfTurn: [],
        },
      ];
    }),
  );
  const sorted = found.toSorted((a, b) => routineRank(a.quantity) - routineRank(b.quantity));
  const quantities = [...new Set(sorted.map(({ quantity }) => quantity))];
  const isProven = (quantity: string) =>
    sorted.filter((figure) => figure.quantity === quantity).every(({ state }) => state === "proven");
  return sorted.map((figure) => ({
    ...figure,
    outOfTurn: outOfTurn(figure, sorted, ledger),
    waitsFor: mustPrecede(figure.quantity, quantities)
      .filter((quantity) => !isProven(quantity))
      .map((quantity) => routineOrder.find((test) => test.quantity === quantity)!.name),
  }));
}

interface Book {
  readonly ledger: Shop["ledger"];
  readonly unit: string;
}

/** Tests that protect this one and had never been read when it was. */
function outOfTurn(
  { quantity, at }: SafetyFigureView,
  all: readonly SafetyFigureView[],
  { ledger, unit }: Book,
): readonly string[] {
  if (at === undefined) return [];
  const own = [...new Set(all.map((figure) => figure.quantity))];
  return mustPrecede(quantity, own)
    .filter((first) => ["bond_ohm", "resistance_Mohm"].includes(first))
    .filter((first) => !ledger.figures("unit", unit, first).some((figure) => Date.parse(figure.at) <= Date.parse(at)))
    .map((first) => routineOrder.find((test) => test.quantity === first)!.name);
}

/** The greatest steady level read at the jack, where somebody did. */
function greatestAtJack({ ledger }: Shop, unit: string): number | undefined {
  return ledger
    .figures("unit", unit, "greatest_Vrms")
    .filter(({ id }) => ledger.supersederOf(id) === undefined)
    .at(-1)?.body.value;
}

/** Capacitors of the net list that stand on a supply, each with the resistor straight across it. */
function storesOf({ netlist }: Model): SafetySheetView["stores"] {
  const parts = (Array.isArray(netlist.parts) ? netlist.parts : []) as readonly {
    readonly id?: string;
    readonly kind?: string;
    readonly between?: readonly string[];
    readonly uF?: number;
    readonly ohm?: number;
    readonly supply?: string;
    readonly tolerance?: number;
  }[];
  const across = (part: (typeof parts)[number]) => [...(part.between ?? [])].sort().join("\n");
  return parts.flatMap((part) => {
    if (part.kind !== "capacitor" || part.supply === undefined || part.uF === undefined) return [];
    const bleeder = parts.find((other) => other.kind === "resistor" && across(other) === across(part));
    return [
      {
        part: part.id ?? "",
        capacitance_uF: part.uF * (1 + (part.tolerance ?? 0.2)),
        ...(bleeder?.ohm !== undefined && { bleeder: bleeder.id ?? "", bleeder_ohm: bleeder.ohm }),
      },
    ];
  });
}

function stateOfAll(figures: readonly SafetyFigureView[]): SafetySheetView["state"] {
  const states = figures.map(({ state }) => state);
  if (states.includes("refuted")) return "refuted";
  if (states.some((state) => state === "open" || state === "void")) return "open";
  return judgeAll(states as ("proven" | "undecided")[]);
}

/** Limits as they were adopted for each market, and the destinations that nobody adopted any for. */
export function safetyLimitsView(shop: Shop): SafetyLimitsView {
  const required = [...shop.models.values()].flatMap(({ body }) =>
    body.claims.flatMap(({ safety, requires }) => requires.filter(({ quantity }) => safety || isRoutine(quantity))),
  );
  const quantities = [...new Map(required.map((one) => [one.quantity, one])).values()].toSorted(
    (a, b) => routineRank(a.quantity) - routineRank(b.quantity),
  );
  const covered = new Set([...shop.safetyLimits.values()].flatMap(({ body }) => body.places));
  const open = [...shop.orders.values()].filter(({ body }) => body.units.some((unit) => !shop.isReleased(unit)));
  return {
    markets: [...shop.safetyLimits.values()].map(adoptedView),
    uncovered: [...new Set(open.map(({ body }) => body.destination.place))].filter((place) => !covered.has(place)),
    able: (shop.shop?.people ?? []).filter(({ skills }) => skills.includes("safety")).map(({ id }) => id),
    quantities: quantities.map(({ quantity, low, high }) => ({
      quantity,
      test: testName(quantity),
      ...(low !== undefined && { low }),
      ...(high !== undefined && { high }),
    })),
  };
}

const testName = (quantity: string) => routineOrder.find((test) => test.quantity === quantity)?.name ?? quantity;

function adoptedView({ id, at, by, body }: Evidence<"safety-limits">): AdoptedLimitsView {
  const { market, places, edition, limits } = body;
  return {
    id,
    at,
    by,
    market,
    places,
    edition,
    limits: limits.map((limit) => ({ ...limit, test: testName(limit.quantity) })),
  };
}
