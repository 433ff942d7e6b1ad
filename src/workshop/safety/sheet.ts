import { limitFor } from "../../claims/adopted.ts";
import type { Evidence, Model } from "../../claims/evidence.ts";
import { type ClaimState, instrumentStanding, modelKey, type Shop } from "../../claims/index.ts";
import { guard } from "../../measurement/index.ts";
import { atTheJack, judgeAll, mustPrecede, routineOrder, routineRank, safetyCautions } from "../../safety/index.ts";
import type { AdoptedLimitsView, SafetyFigureView, SafetyLimitsView, SafetySheetView } from "./views.ts";

/** Tests of hands and ears that are no safety claim of the model but stand on the sheet. */
const alsoOnSheet = new Set(["jack_mV", "temperature_C"]);

/** Every safety test of a unit in the order that protects the tester, each against the limit that holds where it goes. */
export function safetySheet(shop: Shop, unit: string, states: readonly ClaimState[]): SafetySheetView {
  const state = shop.units.get(unit)!;
  const model = shop.modelOf(unit)!;
  const destination = shop.orders.get(state.order)?.body.destination;
  const market = [...shop.safetyLimits.values()].find(({ body }) => body.places.includes(destination?.place ?? ""));
  const own = shop.models.get(modelKey(state.model, state.revision))!.body;
  const figures = figuresOf(model, own, states, market?.body.limits ?? []);
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
    cautions: safetyCautions,
  };
}

function figuresOf(
  model: Model,
  own: Model,
  states: readonly ClaimState[],
  limits: readonly Evidence<"safety-limits">["body"]["limits"][number][],
): readonly SafetyFigureView[] {
  const specOf = new Map(model.claims.map((spec) => [spec.claim, spec]));
  const found = states.flatMap((claim) =>
    claim.figures.flatMap((figure): SafetyFigureView[] => {
      const spec = specOf.get(claim.claim)!;
      const isOwnTest = claim.safety || alsoOnSheet.has(figure.quantity);
      if (!isOwnTest) return [];
      const { point, channel } = figure.subject;
      const adopted = claim.safety
        ? limitFor(limits, { quantity: figure.quantity, ...(point !== undefined && { point }) })
        : undefined;
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
    waitsFor: mustPrecede(figure.quantity, quantities)
      .filter((quantity) => !isProven(quantity))
      .map((quantity) => routineOrder.find((test) => test.quantity === quantity)!.name),
  }));
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
    body.claims.filter(({ safety }) => safety).flatMap(({ requires }) => requires),
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
