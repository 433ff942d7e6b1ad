import { humidityAtWall_pct } from "./air.ts";
import { equilibriumMoisture_pct } from "./emc.ts";

/** Driest moisture of any usual room; a piece below it has gone too far. */
export const driestService_pct = 5;
/** So far below its target, percent of moisture, a piece is over-dried. */
export const tooFar_pct = 1;

/**
 * Moisture at which wood comes to rest in a chamber or on a plate fed with a room's air, its vapour unchanged.
 *
 * @example fedChamber_pct(20, 50, 45) // 2.6: below any home
 */
export function fedChamber_pct(room_C: number, humidity_pct: number, chamber_C: number): number {
  return equilibriumMoisture_pct(chamber_C, humidityAtWall_pct(room_C, humidity_pct, chamber_C));
}

/** The humidity at which a chamber would bring wood to a moisture and no further; by halving. */
export function humidityFor_pct(moisture_pct: number, temperature_C: number): number {
  let [low, high] = [0, 100];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (equilibriumMoisture_pct(temperature_C, middle) < moisture_pct) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
