import { BadInput } from "../maths/badInput.ts";
import { periodogram } from "../maths/spectra/welch.ts";
import { cosineWindow } from "../maths/spectra/windows.ts";
import type { SpectrumView } from "./views.ts";

const mostColumns = 600;
const lowest_Hz = 10;
/** A picture of fewer bins than these is a picture of the window. */
const fewestBins = 24;
/** At or below this a bin is only rounding; the picture needs no deeper floor. */
const floor_dBV = -220;
/** Four-term Blackman-Harris: equivalent noise bandwidth in bins of the unpadded record (Harris 1978, table 1). */
const noiseBandwidth_bins = 2.0044;

/** Levels of all bins of a record; what every picture of it is drawn from. */
export interface LevelSpectrum {
  readonly level_dBV: Float32Array;
  readonly step_Hz: number;
  readonly resolution_Hz: number;
  readonly highest_Hz: number;
}

/** A picture takes no more of a long recording than this: half a minute or so, in about a second. */
export const mostSamples = 2 ** 21;

/** A steady line stands at its r.m.s. level; noise depends on the resolution, which is given beside it. */
export function levelSpectrum(samples: Float64Array, rate_Hz: number, fullScale_Vpk: number): LevelSpectrum {
  const { V2_per_Hz, step_Hz } = periodogram(samples, rate_Hz, cosineWindow("blackmanHarris", samples.length));
  const resolution_Hz = (noiseBandwidth_bins * rate_Hz) / samples.length;
  const toVolts = fullScale_Vpk ** 2 * resolution_Hz;
  return {
    level_dBV: Float32Array.from(V2_per_Hz, (density) => Math.max(floor_dBV, 10 * Math.log10(density * toVolts))),
    step_Hz,
    resolution_Hz,
    highest_Hz: Math.min(rate_Hz / 2, 24_000),
  };
}

/** Part of the frequency axis, `20,2000`. @throws BadInput  at `band` */
export function readBand(band: string | undefined): readonly [number, number] | undefined {
  if (band === undefined || band === "") return undefined;
  const [from_Hz, to_Hz, ...more] = band.split(",").map(Number);
  if (from_Hz !== undefined && to_Hz !== undefined && more.length === 0 && from_Hz > 0 && to_Hz > from_Hz)
    return [from_Hz, to_Hz];
  throw new BadInput("band", band.slice(0, 60), "two rising frequencies in Hz over zero", "write band=40,400");
}

/**
 * A picture of part of a spectrum: in each column of a log frequency axis the lowest and the highest level, so that no
 * line is lost however long the recording.
 *
 * @param band  frequencies to draw between; widened where it would hold too few bins, and kept within the recording
 */
export function spectrumColumns(
  { level_dBV, step_Hz, resolution_Hz, highest_Hz }: LevelSpectrum,
  band?: readonly [number, number],
): Pick<SpectrumView, "columns" | "resolution_Hz" | "whole_Hz"> {
  const least_Hz = Math.max(lowest_Hz, 2 * step_Hz);
  const middle_Hz = band ? Math.min(highest_Hz, Math.max(least_Hz, Math.sqrt(band[0] * band[1]))) : least_Hz;
  const half_Hz = (fewestBins / 2) * step_Hz;
  const from = band ? Math.max(least_Hz, Math.min(band[0], middle_Hz - half_Hz)) : least_Hz;
  const to = band ? Math.min(highest_Hz, Math.max(band[1], from + 2 * half_Hz)) : highest_Hz;
  const edges = Array.from({ length: mostColumns + 1 }, (_, i) => from * (to / from) ** (i / mostColumns));
  const columns = edges.slice(0, -1).flatMap((from_Hz, i) => {
    const first = Math.ceil(from_Hz / step_Hz);
    const last = Math.min(level_dBV.length - 1, Math.ceil(edges[i + 1]! / step_Hz) - 1);
    if (last < first) return [];
    let low_dBV = Number.POSITIVE_INFINITY;
    let high_dBV = Number.NEGATIVE_INFINITY;
    for (let bin = first; bin <= last; bin++) {
      const level = level_dBV[bin]!;
      if (level < low_dBV) low_dBV = level;
      if (level > high_dBV) high_dBV = level;
    }
    // A column with one bin stands where the bin is, so that a line far in does not move.
    const frequency_Hz = first === last ? first * step_Hz : Math.sqrt(from_Hz * edges[i + 1]!);
    return [{ frequency_Hz, low_dBV, high_dBV }];
  });
  return { columns, resolution_Hz, whole_Hz: [least_Hz, highest_Hz] };
}
