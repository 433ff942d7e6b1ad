import type { Amplifier } from "./caseAsk.ts";
import { conductivity_W_mK } from "./heat.ts";

export interface Wall {
  /** Of the inner face, over the room. */
  readonly rise_K: number;
  readonly low_K: number;
  readonly high_K: number;
}

/** From a case's outside to the room, W/(m²K), convection and radiation together; low and high hold 95 %. */
const passage = { low: 7, usual: 10, high: 13 } as const;

/**
 * How much warmer than the room the inner face of a case's wall gets.
 *
 *     q = P·(1 − vented)/A,     rise = q/h + q·L/k
 *
 * @remarks A whole case at one temperature; a panel right above a valve is hotter: measure it there. The vented share is
 *   the weakest figure, doubted by 0.2 either way.
 */
export function wallOver(amplifier: Amplifier, thickness_mm: number, density_kg_m3 = 650): Wall {
  const { dissipation_W, area_m2, ventedShare = 0.6 } = amplifier;
  const k = conductivity_W_mK(density_kg_m3 / 1120, 8);
  const rise = (vented: number, h: number) =>
    ((dissipation_W * (1 - Math.min(1, Math.max(0, vented)))) / area_m2) * (1 / h + thickness_mm / 1000 / k);
  return {
    rise_K: rise(ventedShare, passage.usual),
    low_K: rise(ventedShare + 0.2, passage.high),
    high_K: rise(ventedShare - 0.2, passage.low),
  };
}
