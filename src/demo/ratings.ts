import type { BodyOf } from "../claims/evidence.ts";
import { shown } from "./entry.ts";

/** What each model draws from the mains, about; invented, as the models are. */
const draws_W: Readonly<Record<string, number>> = { Ebb: 68, Neap: 36, Flood: 118, Bore: 92 };
/** Rated currents of cartridge fuses, ampere. source: IEC 60127-2, preferred values; from memory */
const fuses_A = [0.315, 0.4, 0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5];
/** Watts over volt-amperes of a transformer that charges a reservoir. */
const powerFactor = 0.9;

/**
 * Puts beside the reading of the fuse what was read with it: the fuse's own rating, and the power that the unit draws
 * at its tap, as the ratio read says.
 */
export function besideFuse(model: string, nominal_V: number, reading: BodyOf<"reading">): BodyOf<"reading"> {
  if (reading.quantity !== "fuseOverCurrent") return reading;
  const wanted_A = (reading.value * draws_W[model]!) / (nominal_V * powerFactor);
  const fuse_A = fuses_A.reduce((best, one) =>
    Math.abs(Math.log(one / wanted_A)) < Math.abs(Math.log(best / wanted_A)) ? one : best,
  );
  const mains_W = shown((fuse_A / reading.value) * nominal_V * powerFactor, 0);
  return { ...reading, conditions: { ...reading.conditions, fuse_A, fuseKind: "T", mains_W } };
}
