import { type ClaimState, instrumentStanding, type Shop } from "../../claims/index.ts";
import { judgeTrial } from "../../claims/trust.ts";
import type { Calculate } from "../calculate.ts";
import type { InstrumentsView, InstrumentView } from "./views.ts";

/** Trials that the limits are drawn from, at most. */
const mostBaseline = 30;
/** Trials drawn, the newest. */
const mostShown = 90;

interface Chart {
  readonly centre: number;
  readonly low: number;
  readonly high: number;
  readonly sd: number;
  readonly signals: readonly { readonly index: number; readonly rule: "outside" | "run" }[];
  readonly weighted?: readonly number[];
}

/** Every instrument with its trials on a chart, and the proofs that stand or fell with it. */
export async function instrumentsView(
  shop: Shop,
  now: string,
  statesOf: (unit: string) => readonly ClaimState[],
  trialsOf: (instrument: string) => Promise<Trials>,
): Promise<InstrumentsView> {
  const states = shop.openUnits.flatMap(({ unit }) => statesOf(unit).map((state) => ({ unit, state })));
  const instruments = await Promise.all(
    [...shop.instruments.values()].map(async ({ body }): Promise<InstrumentView> => {
      const { instrument, title, trial } = body;
      const named = (text: string | undefined) => text?.split(", ").includes(instrument) ?? false;
      return {
        instrument,
        title,
        trial,
        ...(await trialsOf(instrument)),
        restsOnIt: states.filter(
          ({ state }) => state.state === "proven" && state.figures.some((figure) => named(figure.instrument)),
        ).length,
        reopened: states.flatMap(({ unit, state }) =>
          state.figures
            .filter((figure) => figure.state === "void" && figure.why.includes(`its instrument ${instrument} `))
            .slice(0, 1)
            .map(({ why }) => ({ unit, claim: state.claim, title: state.title, why })),
        ),
      };
    }),
  );
  return { now, instruments };
}

/** What an instrument's own trials say of it. */
export type Trials = Pick<InstrumentView, "standing" | "trials" | "chart">;

export async function trialsOf({ ledger }: Shop, instrument: string, calculate: Calculate): Promise<Trials> {
  const made = ledger
    .about("trial", instrument)
    .filter(({ id }) => ledger.supersederOf(id) === undefined)
    .slice(-mostShown);
  const values = made.map((entry) => entry.body.value);
  return {
    standing: instrumentStanding(ledger, instrument),
    trials: made.map((entry) => ({
      at: entry.at,
      value: entry.body.value,
      doubt: entry.body.doubt,
      state: judgeTrial(ledger, entry),
    })),
    ...(await chartOf(values, calculate)),
  };
}

async function chartOf(values: readonly number[], calculate: Calculate): Promise<Pick<InstrumentView, "chart">> {
  if (values.length < 8) return {};
  const baseline = Math.min(mostBaseline, values.length);
  const single = await calculate<Chart>("measurement.chart", { values, kind: "individuals", baseline });
  if (!(single.sd > 0)) return {};
  const slow = await calculate<Chart>("measurement.chart", {
    values,
    kind: "weighted",
    weight: 0.2,
    baseline,
    centre: single.centre,
    sd: single.sd,
  });
  const weighted = slow.weighted ?? [];
  const last = weighted.at(-1) ?? single.centre;
  return {
    chart: {
      centre: single.centre,
      low: single.low,
      high: single.high,
      baseline,
      signals: single.signals,
      weighted,
      weightedLow: slow.low,
      weightedHigh: slow.high,
      drifts: last < slow.low || last > slow.high,
    },
  };
}
