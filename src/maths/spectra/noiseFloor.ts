import type { Density } from "./welch.ts";

/** The k-th smallest of `values`, which it reorders (Hoare's selection). */
function select(values: Float64Array, k: number): number {
  let left = 0;
  let right = values.length - 1;
  while (left < right) {
    const pivot = values[(left + right) >> 1]!;
    let i = left;
    let j = right;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i <= j) {
        const swap = values[i]!;
        values[i++] = values[j]!;
        values[j--] = swap;
      }
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else break;
  }
  return values[k]!;
}

/** Upper median of `values`, which it reorders. */
export function medianInPlace(values: Float64Array): number {
  return select(values, values.length >> 1);
}

/**
 * Median over mean of an average of n independent periodogram values: ln 2 at n = 1, towards 1.
 *
 * @source chi-squared median by Wilson and Hilferty's cube, exact value at n = 1
 */
export function medianOverMean(averages: number): number {
  return averages <= 1 ? Math.LN2 : (1 - 1 / (9 * averages)) ** 3;
}

/**
 * Noise density about one frequency, whatever lines stand beside it: the median of the densities within `reach_Hz` on
 * both sides, those within `spare_Hz` of the frequency left out.
 */
export function floorNear(density: Density, frequency_Hz: number, reach_Hz: number, spare_Hz: number): number {
  const { step_Hz, V2_per_Hz } = density;
  const last = V2_per_Hz.length - 2;
  const bin = (f: number) => Math.round(f / step_Hz);
  const low = Math.max(1, bin(frequency_Hz - reach_Hz));
  const high = Math.min(last, bin(frequency_Hz + reach_Hz));
  const spareLow = bin(frequency_Hz - spare_Hz);
  const spareHigh = bin(frequency_Hz + spare_Hz);
  const kept = new Float64Array(Math.max(0, high - low + 1));
  let count = 0;
  for (let k = low; k <= high; k++) if (k < spareLow || k > spareHigh) kept[count++] = V2_per_Hz[k]!;
  if (count === 0) return V2_per_Hz[Math.min(last, Math.max(1, bin(frequency_Hz)))]!;
  const median = medianInPlace(kept.subarray(0, count)) / medianOverMean(density.averages);
  return atLeastCrowd(density, bin(frequency_Hz), median);
}

/** Half width over which a crowd of lines is looked for, and of what one line may cover. */
const crowdReach_Hz = 40;
const lineReach_Hz = 1.5;
/** So many lines may stand in the window and still be lines over a floor, and not the noise itself. */
const strayLines = 4;
/** Noise has no such excess of mean over median by chance. */
const crowdExcess = 6;

/**
 * The floor, unless what surrounds it is a crowd of lines with gaps between them (a noise source that repeats itself,
 * a switcher's dense spurs): a median then sees the gaps, and a line is one of many that mean nothing. The crowd's height,
 * its few strongest lines left out, is the floor that any line must stand out of.
 */
function atLeastCrowd({ step_Hz, V2_per_Hz }: Density, centre: number, median: number): number {
  const reach = Math.round(crowdReach_Hz / step_Hz);
  const low = Math.max(1, centre - reach);
  const high = Math.min(V2_per_Hz.length - 2, centre + reach);
  if (high <= low) return median;
  let whole = 0;
  for (let k = low; k <= high; k++) whole += V2_per_Hz[k]!;
  if (whole < crowdExcess * median * (high - low + 1)) return median;
  const rest = V2_per_Hz.slice(low, high + 1);
  const cover = Math.max(8, Math.round(lineReach_Hz / step_Hz));
  for (let line = 0; line < strayLines; line++) {
    let peak = 0;
    for (let k = 1; k < rest.length; k++) if (rest[k]! > rest[peak]!) peak = k;
    rest.fill(0, Math.max(0, peak - cover), peak + cover + 1);
  }
  let sum = 0;
  let count = 0;
  let highest = 0;
  for (const value of rest) {
    if (value === 0) continue;
    sum += value;
    count++;
    if (value > highest) highest = value;
  }
  return sum > crowdExcess * median * count ? highest : median;
}

/**
 * Noise density along the whole axis: running medians over ± reach, taken at steps of half the reach and joined
 * by straight lines in log density.
 *
 * @param reach_Hz  half width of the window at a frequency
 */
export function runningFloor(density: Density, reach_Hz: (frequency_Hz: number) => number): Float64Array {
  const { step_Hz, V2_per_Hz, averages } = density;
  const last = V2_per_Hz.length - 1;
  const floor = new Float64Array(V2_per_Hz.length);
  const median = medianOverMean(averages);
  const at = (k: number) => {
    const reach = Math.max(2, Math.round(reach_Hz(k * step_Hz) / step_Hz));
    // One-sided at the ends, so that the window keeps its count.
    const low = Math.max(1, Math.min(k - reach, last - 1 - 2 * reach));
    const high = Math.min(last - 1, Math.max(k + reach, 1 + 2 * reach));
    const floor = medianInPlace(V2_per_Hz.slice(low, Math.max(low + 1, high + 1))) / median;
    return atLeastCrowd(density, k, floor);
  };
  const tiny = Number.MIN_VALUE * 2 ** 60;
  let left = 0;
  let leftLog = Math.log(Math.max(tiny, at(0)));
  while (left < last) {
    const right = Math.min(last, left + Math.max(1, Math.round(reach_Hz(left * step_Hz) / step_Hz / 2)));
    const rightLog = Math.log(Math.max(tiny, at(right)));
    const rise = Math.exp((rightLog - leftLog) / (right - left));
    floor[left] = Math.exp(leftLog);
    for (let k = left + 1; k < right; k++) floor[k] = floor[k - 1]! * rise;
    floor[right] = Math.exp(rightLog);
    left = right;
    leftLog = rightLog;
  }
  return floor;
}
