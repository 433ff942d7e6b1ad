import { periodogram } from "../maths/spectra/welch.ts";
import { cosineWindow } from "../maths/spectra/windows.ts";
import type { SpectrumView } from "./views.ts";

const columns = 600;
const lowest_Hz = 10;
/** At or below this a bin is only rounding; the picture needs no deeper floor. */
const floor_dBV = -220;
/** Four-term Blackman-Harris: equivalent noise bandwidth in bins of the unpadded record (Harris 1978, table 1). */
const noiseBandwidth_bins = 2.0044;

/**
 * The level spectrum of a recording for a picture: in each column of a log frequency axis the lowest and the highest
 * level, so that no line is lost however long the recording.
 *
 * A steady line stands at its r.m.s. level; noise depends on the resolution, which is given beside it.
 */
export function spectrumColumns(
  samples: Float64Array,
  rate_Hz: number,
  fullScale_Vpk: number,
): Pick<SpectrumView, "columns" | "resolution_Hz"> {
  const { V2_per_Hz, step_Hz } = periodogram(samples, rate_Hz, cosineWindow("blackmanHarris", samples.length));
  const resolution_Hz = (noiseBandwidth_bins * rate_Hz) / samples.length;
  const highest_Hz = Math.min(rate_Hz / 2, 24_000);
  const edges = Array.from({ length: columns + 1 }, (_, i) => lowest_Hz * (highest_Hz / lowest_Hz) ** (i / columns));
  const level_dBV = (bin: number) => {
    const level_Vrms = fullScale_Vpk * Math.sqrt(V2_per_Hz[bin]! * resolution_Hz);
    return Math.max(floor_dBV, 20 * Math.log10(level_Vrms));
  };
  const drawn = edges.slice(0, -1).flatMap((from_Hz, i) => {
    const first = Math.ceil(from_Hz / step_Hz);
    const last = Math.min(V2_per_Hz.length - 1, Math.ceil(edges[i + 1]! / step_Hz) - 1);
    if (last < first) return [];
    let low_dBV = Number.POSITIVE_INFINITY;
    let high_dBV = Number.NEGATIVE_INFINITY;
    for (let bin = first; bin <= last; bin++) {
      const level = level_dBV(bin);
      low_dBV = Math.min(low_dBV, level);
      high_dBV = Math.max(high_dBV, level);
    }
    return [{ frequency_Hz: Math.sqrt(from_Hz * edges[i + 1]!), low_dBV, high_dBV }];
  });
  return { columns: drawn, resolution_Hz };
}
