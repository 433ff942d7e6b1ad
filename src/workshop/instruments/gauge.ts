import type { Model, Requirement } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import { type WindowShare, windowShare } from "../../measurement/index.ts";
import type { Calculate } from "../calculate.ts";
import type { GaugeView, WindowView } from "./views.ts";

type Result = GaugeView["studies"][number]["result"];

/** Gauge studies on record with what each leaves of the windows it is used for, the newest first. */
export async function gaugeView(shop: Shop, calculate: Calculate): Promise<GaugeView> {
  const windows = windowsOf(shop);
  const studies = await Promise.all(
    shop.gaugeStudies.map(async ({ id, at, by, body }) => {
      const { instrument, quantity, what, readings } = body;
      const result = await calculate<Result>("measurement.gauge", { readings });
      const { gauge_sd: held } = result.interval;
      return {
        id,
        at,
        by,
        instrument,
        title: shop.instruments.get(instrument)?.body.title ?? instrument,
        quantity,
        what,
        readings,
        result,
        windows: windows
          .filter((window) => window.quantity === quantity)
          .map((window) => ({
            ...window,
            ...windowShare(result.gauge_sd, window.low, window.high),
            ...ends(windowShare(held.low, window.low, window.high), windowShare(held.high, window.low, window.high)),
          })),
      };
    }),
  );
  return {
    instruments: [...shop.instruments.values()].map(({ body: { instrument, title, trial } }) => ({
      instrument,
      title,
      quantity: trial.quantity,
    })),
    windows,
    studies: studies.toSorted((a, b) => Date.parse(b.at) - Date.parse(a.at)),
  };
}

function ends({ eaten_pct: least_pct }: WindowShare, { eaten_pct: most_pct }: WindowShare) {
  return least_pct === undefined || most_pct === undefined ? {} : { least_pct, most_pct };
}

/** Limits that the newest revision of each model sets, alike ones of several channels or points told once. */
function windowsOf(shop: Shop): readonly WindowView[] {
  const newest = new Map<string, Model>();
  for (const { body } of shop.models.values()) newest.set(body.model, body);
  const seen = new Map<string, WindowView>();
  for (const model of newest.values()) {
    for (const { title, requires } of model.claims) {
      for (const required of requires) {
        if (required.counted || (required.low === undefined && required.high === undefined)) continue;
        const key = [model.model, required.quantity, required.low, required.high].join(" ");
        if (!seen.has(key)) seen.set(key, windowOf(model.model, title, required));
      }
    }
  }
  return [...seen.values()];
}

function windowOf(model: string, title: string, { quantity, low, high, point }: Requirement): WindowView {
  return {
    model,
    title,
    quantity,
    ...(point !== undefined && { point }),
    ...(low !== undefined && { low }),
    ...(high !== undefined && { high }),
  };
}
