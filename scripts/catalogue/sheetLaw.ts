import type { Scale } from "../../src/valves/fit/parameters.ts";
import { PENTODE_NAMES, TRIODE_NAMES, toModel } from "../../src/valves/fit/parameters.ts";
import type { ValveModel } from "../../src/valves/valveModel.ts";

/** What is believed of a type's curve before its sheet is read; narrower than of one valve's readings, for it must stand alone. */
export interface SheetBelief {
  readonly centre: number;
  readonly sd: number;
  readonly low: number;
  readonly high: number;
}

/**
 * What stands where a sheet says nothing: a judgement from published curves, kept apart from what a fit of readings
 * believes, so that the catalogue moves only when the sheets or this table do. Order as `TRIODE_NAMES` and
 * `PENTODE_NAMES`, but softness of cut-off by its two parts at the sheet's own scale, since a sheet tells neither.
 */
export function sheetBelief(kind: ValveModel["kind"], current_A: number, mu: number): SheetBelief[] {
  const rows: [centre: number, sd: number, low: number, high: number][] = [
    [Math.log(current_A), 3, -40, 5],
    [Math.log(mu), 2, Math.log(0.5), Math.log(500)],
    [1.4, 0.12, 1, 2],
    [0, 0.25 + 4 / mu, -30, 30],
    [0.05, 0.12, -0.4, 0.7],
    kind === "triode" ? [60, 250, 0, 2500] : [0, 1, 0, 0],
    [Math.log(0.06), 1.2, -9, 1],
    [Math.log(0.08), 1.2, -9, 1],
    [Math.log(mu * 30), 1.2, Math.log(mu * 1.5), Math.log(1e6)],
    [Math.log(0.12), 0.8, Math.log(0.002), Math.log(0.6)],
    [Math.log(15), 0.9, Math.log(0.5), Math.log(200)],
    [0.4, 0.6, 0, 8],
    [1.4, 0.4, 1.05, 4],
    [0.4, 0.5, 0, 2],
  ];
  const count = (kind === "triode" ? TRIODE_NAMES : PENTODE_NAMES).length;
  return rows.slice(0, count).map(([centre, sd, low, high]) => ({ centre, sd, low, high }));
}

/** The model of a sheet's parameters. */
export function sheetModel(kind: ValveModel["kind"], p: Float64Array, scale: Scale): ValveModel {
  const softness_V = Math.exp(p[6]!) * scale.drive_V;
  const softness = (Math.exp(p[7]!) * scale.drive_V) / scale.electrode_V;
  return { ...toModel(kind, p, scale), softness_V, softness };
}
