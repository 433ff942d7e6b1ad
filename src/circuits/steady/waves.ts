import { complexSpectrum } from "../../maths/spectra/fourier.ts";

/**
 * Periodic waves by their harmonics, and by samples over one period.
 *
 *     x(t) = X₀ + Σ Re(X_k · e^{jkωt}),  k = 1 … harmonics
 *
 * A wave's harmonics stand as X₀, Re X₁, Im X₁, Re X₂, …; several waves one after another.
 */
export interface WaveGrid {
  readonly harmonics: number;
  /** Numbers of one wave: 2·harmonics + 1. */
  readonly width: number;
  readonly samples: number;
}

/** To each period of the highest harmonic: what a bend makes folds back onto a kept one only from seven times as high. */
const samplesPerHarmonic = 8;

/** @param harmonics  a power of two */
export function waveGrid(harmonics: number): WaveGrid {
  return { harmonics, width: 2 * harmonics + 1, samples: samplesPerHarmonic * harmonics };
}

/** Samples of waves `count` of which stand in `spectra`. Two real waves go through one complex transform. */
export function toSamples(grid: WaveGrid, spectra: Float64Array, count: number, into: Float64Array): void {
  const { harmonics, width, samples } = grid;
  const packed = new Float64Array(2 * samples);
  for (let wave = 0; wave < count; wave += 2) {
    const one = wave * width;
    const two = wave + 1 < count ? one + width : -1;
    packed.fill(0);
    packed[0] = samples * spectra[one]!;
    packed[1] = two < 0 ? 0 : samples * spectra[two]!;
    for (let k = 1; k <= harmonics; k++) {
      const a = (samples / 2) * spectra[one + 2 * k - 1]!;
      const b = (samples / 2) * spectra[one + 2 * k]!;
      const c = two < 0 ? 0 : (samples / 2) * spectra[two + 2 * k - 1]!;
      const d = two < 0 ? 0 : (samples / 2) * spectra[two + 2 * k]!;
      const mirror = 2 * (samples - k);
      packed[2 * k] = a - d;
      packed[2 * k + 1] = b + c;
      packed[mirror] = a + d;
      packed[mirror + 1] = c - b;
    }
    const time = complexSpectrum(packed, "inverse");
    const at = wave * samples;
    for (let n = 0; n < samples; n++) {
      into[at + n] = time[2 * n]!;
      if (two >= 0) into[at + samples + n] = time[2 * n + 1]!;
    }
  }
}

/** Harmonics of sampled waves; those above the grid's are left out. */
export function toHarmonics(grid: WaveGrid, samplesOf: Float64Array, count: number, into: Float64Array): void {
  const { harmonics, width, samples } = grid;
  const packed = new Float64Array(2 * samples);
  for (let wave = 0; wave < count; wave += 2) {
    const at = wave * samples;
    const hasTwo = wave + 1 < count;
    for (let n = 0; n < samples; n++) {
      packed[2 * n] = samplesOf[at + n]!;
      packed[2 * n + 1] = hasTwo ? samplesOf[at + samples + n]! : 0;
    }
    const bins = complexSpectrum(packed);
    const one = wave * width;
    into[one] = bins[0]! / samples;
    if (hasTwo) into[one + width] = bins[1]! / samples;
    for (let k = 1; k <= harmonics; k++) {
      const mirror = 2 * (samples - k);
      const [p, q, r, s] = [bins[2 * k]!, bins[2 * k + 1]!, bins[mirror]!, bins[mirror + 1]!];
      into[one + 2 * k - 1] = (p + r) / samples;
      into[one + 2 * k] = (q - s) / samples;
      if (!hasTwo) continue;
      into[one + width + 2 * k - 1] = (q + s) / samples;
      into[one + width + 2 * k] = (r - p) / samples;
    }
  }
}
