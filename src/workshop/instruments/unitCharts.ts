import type { Model } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import type { ClaimState, FigureState } from "../../claims/state.ts";
import type { Capability, Chart } from "../../measurement/index.ts";
import type { Calculate } from "../calculate.ts";
import { groupBy } from "../groupBy.ts";
import type { UnitChartsView, UnitChartView } from "./views.ts";

/** Fewer units than these make no chart. */
const fewest = 6;
/** Units that the limits are drawn from, at most: the first ones. */
const mostBaseline = 25;
/** Units drawn, the newest. */
const mostShown = 80;
/** Units of a model that are looked through for them: not every unit has every figure. */
const mostRead = 160;

const { compare: bySerial } = new Intl.Collator("en", { numeric: true });

export interface Birth {
  readonly unit: string;
  readonly model: string;
  readonly value: number;
  readonly doubt: number;
  readonly hasLeft: boolean;
  readonly claim: string;
  readonly title: string;
  readonly figure: Pick<FigureState, "quantity" | "low" | "high">;
  /** Channel, valve position and section, test point; without which bottle stood there. */
  readonly where: string;
}

/** Each figure that units of a model left with, charted over their serial numbers. */
export async function unitChartsView(
  shop: Shop,
  statesOf: (unit: string) => readonly ClaimState[],
  calculate: Calculate,
  birthsKept: (unit: string, births: () => readonly Birth[]) => readonly Birth[] = (_, births) => births(),
): Promise<UnitChartsView> {
  const newest = [...groupBy(shop.units.values(), ({ model }) => model).values()].flatMap((units) =>
    units.toSorted((a, b) => bySerial(a.unit, b.unit)).slice(-mostRead),
  );
  const births = groupBy(
    newest.flatMap(({ unit }) => birthsKept(unit, () => birthsOf(shop, unit, statesOf))),
    ({ model, claim, figure, where }) => [model, claim, figure.quantity, where].join("\n"),
  );
  const charts = await Promise.all([...births.values()].map((units) => chartOf(units, calculate)));
  const told = charts.filter((chart) => chart !== undefined);
  return {
    models: [...new Set(told.map(({ model }) => model))].sort(),
    charts: told.toSorted((a, b) => b.signals.length - a.signals.length || b.units.length - a.units.length),
    few: charts.length - told.length,
  };
}

const claimsOf = (model: Model | undefined) => new Map(model?.claims.map((claim) => [claim.claim, claim]));

/** The figures a unit left with, or those that are proven of it now. */
function birthsOf(shop: Shop, unit: string, statesOf: (unit: string) => readonly ClaimState[]): readonly Birth[] {
  const release = shop.ledger.about("release", unit)[0]?.body;
  const specs = claimsOf(shop.modelOf(unit));
  const model = shop.unit(unit)!.model;
  const claims: readonly { readonly claim: string; readonly figures: readonly object[] }[] =
    release?.claims ?? statesOf(unit).filter(({ state }) => state === "proven");
  return claims.flatMap(({ claim, figures }) => {
    const spec = specs.get(claim);
    return (figures as readonly Partial<FigureState>[]).flatMap(
      ({ quantity, value, doubt, low, high, where }): Birth[] => {
        const isCounted = spec?.requires.some((one) => one.quantity === quantity && one.counted) ?? false;
        if (quantity === undefined || value === undefined || isCounted) return [];
        return [
          {
            unit,
            model,
            value,
            doubt: doubt ?? 0,
            hasLeft: release !== undefined,
            claim,
            title: spec?.title ?? claim,
            figure: {
              quantity,
              ...(low !== undefined && { low }),
              ...(high !== undefined && { high }),
            },
            where: (where ?? "")
              .replaceAll(`unit ${unit}`, "")
              .replace(/ \([^()]*\)$/, "")
              .trim(),
          },
        ];
      },
    );
  });
}

async function chartOf(all: readonly Birth[], calculate: Calculate): Promise<UnitChartView | undefined> {
  // A figure that a unit has twice is told of neither.
  if (new Set(all.map(({ unit }) => unit)).size < all.length) return undefined;
  const units = all.slice(-mostShown);
  if (units.length < fewest) return undefined;
  const values = units.map(({ value }) => value);
  const { model, claim, title, figure, where } = units.at(-1)!;
  const { centre, low, high, sd, signals } = await calculate<Chart>("measurement.chart", {
    values,
    kind: "individuals",
    baseline: Math.min(mostBaseline, values.length),
  });
  if (!(sd > 0)) return undefined;
  const limits = {
    ...(figure.low !== undefined && { low: figure.low }),
    ...(figure.high !== undefined && { high: figure.high }),
  };
  const hasLimit = figure.low !== undefined || figure.high !== undefined;
  const room = hasLimit
    ? await calculate<Capability>("measurement.capability", { mean: centre, sd, n: values.length, ...limits })
    : undefined;
  return {
    model,
    claim,
    title,
    quantity: figure.quantity,
    where,
    window: limits,
    units: units.map(({ unit, value, doubt, hasLeft }) => ({ unit, value, doubt, hasLeft })),
    centre,
    low,
    high,
    signals: signals.filter(({ index, rule }) => rule === "run" || isOutside(units[index]!, low, high)),
    ...(room && { room: room.cpk }),
  };
}

/** A unit whose own doubt reaches back into the others' scatter may well belong to it. */
function isOutside({ value, doubt }: Pick<Birth, "value" | "doubt">, low: number, high: number): boolean {
  return value - doubt > high || value + doubt < low;
}
