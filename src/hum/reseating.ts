import type { Design } from "./design.ts";
import { type Scatter, usualScatter } from "./linePosterior.ts";

/** One line as one sight read it. */
export interface SightReading {
  readonly sight: number;
  readonly order: number;
  readonly level_Vrms: number;
  /** 95 % half-width. */
  readonly doubt_Vrms: number;
}

/** Repeats that the usual scatter counts for, against those in the recordings. */
const belief = 4;
/** Lines known better than this share show contacts rather than noise. */
const sharp = 0.02;
const least = 0.02;
const most = 0.3;

/** What repeats say of one kind of scatter: squares of ln(level) about their means, and how many repeats they came from. */
interface Spread {
  readonly squares: number;
  readonly repeats: number;
}

/** Spreads of one channel, by what moved. */
export type Repeats = Readonly<Record<keyof Scatter, Spread>>;

/**
 * What recordings that repeat one another show: the same sources on the same supply, taken out and put back or only
 * switched on again.
 *
 * s² is the variance of ln(level) over the n repeats, the median over lines, for contacts move all orders of a source
 * together; squares are Σ (n − 1) s².
 */
export function repeatsIn(design: Design, readings: readonly SightReading[]): Repeats {
  const groups = new Map<string, SightReading[]>();
  for (const reading of readings) {
    if (!(reading.level_Vrms > 0) || reading.doubt_Vrms > sharp * reading.level_Vrms) continue;
    const { sources, supply } = design.sights[reading.sight]!;
    const key = `${sources.join()} ${sources.some((s) => design.own.has(s)) ? supply : ""}`;
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  const sums = { contact: { squares: 0, repeats: 0 }, building: { squares: 0, repeats: 0 } };
  for (const [, group] of groups) {
    const sights = [...new Set(group.map(({ sight }) => sight))];
    if (sights.length < 2) continue;
    const variances = [...new Set(group.map(({ order }) => order))].flatMap((order) => {
      const logs = group.filter((one) => one.order === order).map(({ level_Vrms }) => Math.log(level_Vrms));
      if (logs.length < sights.length) return [];
      const mean = logs.reduce((sum, log) => sum + log, 0) / logs.length;
      return [logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / (logs.length - 1)];
    });
    if (variances.length === 0) continue;
    const ofBuilding = design.sights[sights[0]!]!.sources.every((s) => !design.own.has(s));
    const sum = sums[ofBuilding ? "building" : "contact"];
    sum.repeats += sights.length - 1;
    sum.squares += (sights.length - 1) * variances.toSorted((a, b) => a - b)[variances.length >> 1]!;
  }
  return sums;
}

/**
 * How far sources move between recordings for no cause of their own, from the repeats of all channels: whatever moved
 * one between recordings, a unit still warming or a lead laid otherwise, may have moved the others.
 *
 *     σ² = (ν₀σ₀² + Σ (n − 1) s²) / (ν₀ + Σ (n − 1))
 *
 * σ₀ is what is usual, counted as ν₀ = 4 repeats.
 *
 * @returns standard deviations, relative, from 2 % to 30 %
 */
export function scatterFrom(channels: readonly Repeats[]): Scatter {
  const sd = (kind: keyof Scatter) => {
    const squares = channels.reduce((sum, repeats) => sum + repeats[kind].squares, 0);
    const repeats = channels.reduce((sum, own) => sum + own[kind].repeats, 0);
    const variance = (belief * usualScatter[kind] ** 2 + squares) / (belief + repeats);
    return Math.min(most, Math.max(least, Math.sqrt(variance)));
  };
  return { contact: sd("contact"), building: sd("building") };
}
