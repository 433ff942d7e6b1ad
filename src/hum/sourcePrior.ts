import type { Random } from "../maths/random.ts";

/** Relative to the strongest reading of a line: what counts as nothing, and how far sources may cancel one another. */
const silence = 0.01;
export const loudest = 4;
const logRange = Math.log1p((loudest / silence) ** 2);

/**
 * What one source may put out at one order before anything was read: nothing with `silentOdds`, else an amplitude
 * even in its logarithm from 1 % to 4 times the strongest reading; any phase.
 */
export interface SourcePrior {
  readonly silentOdds: number;
  readonly spike: number;
  readonly slab: number;
}

export function sourcePrior(silentOdds: number): SourcePrior {
  return {
    silentOdds,
    spike: silentOdds / (2 * Math.PI * silence ** 2),
    slab: (1 - silentOdds) / (Math.PI * logRange),
  };
}

/** Logarithm of the density over the complex plane, by squared amplitude. */
export function logDensity(prior: SourcePrior, power: number): number {
  if (power > loudest * loudest) return Number.NEGATIVE_INFINITY;
  const spike = power > 60 * silence * silence ? 0 : prior.spike * Math.exp(-power / (2 * silence * silence));
  return Math.log(spike + prior.slab / (power + silence * silence));
}

/** Draws an amplitude; its phase is for the caller. */
export function drawAmplitude(prior: SourcePrior, random: Random): number {
  if (random.uniform() < prior.silentOdds) return silence * Math.sqrt(-2 * Math.log1p(-random.uniform()));
  return silence * Math.sqrt(Math.expm1(random.uniform() * logRange));
}

/** Odds that a source is stronger than a given relative amplitude. */
export function oddsAbove(prior: SourcePrior, amplitude: number): number {
  const spike = prior.silentOdds * Math.exp(-((amplitude / silence) ** 2) / 2);
  return spike + (1 - prior.silentOdds) * (1 - Math.log1p((amplitude / silence) ** 2) / logRange);
}

/** Density of the amplitude on a decibel scale, where it is well above silence. */
export function oddsPerDecibel(prior: SourcePrior, amplitude: number): number {
  const ratio2 = (amplitude / silence) ** 2;
  return ((1 - prior.silentOdds) * (Math.LN10 / 10) * (ratio2 / (1 + ratio2))) / logRange;
}
