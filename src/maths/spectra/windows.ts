/**
 * Cosine-sum windows in periodic form, w[j] = Σ (−1)^i·a[i]·cos(2πij/N).
 *
 * @source Heinzel, Rüdiger, Schilling, "Spectrum and spectral density estimation by the DFT" (2002), table 2; Harris
 *         (1978), table 1; read as constants in public code citing them.
 */
const cosineSums = {
  hann: [0.5, 0.5],
  blackmanHarris: [0.35875, 0.48829, 0.14128, 0.01168],
} as const;

export function cosineWindow(kind: keyof typeof cosineSums, length: number): Float64Array {
  const terms = cosineSums[kind];
  return new Float64Array(length).map((_, j) =>
    terms.reduce((sum, a, i) => sum + (i % 2 ? -a : a) * Math.cos((2 * Math.PI * i * j) / length), 0),
  );
}

/**
 * Flat in the middle, a half cosine over `taper` of the length in all, half of it at each end.
 * Equivalent noise bandwidth (1 − 5·taper/8)/(1 − taper/2)² bins, so 1.04 at 0.1.
 */
export function taperedWindow(length: number, taper: number): Float64Array {
  const edge = (taper * length) / 2;
  return new Float64Array(length).map((_, j) => {
    const inside = Math.min(j + 0.5, length - j - 0.5);
    return inside >= edge ? 1 : 0.5 - 0.5 * Math.cos((Math.PI * inside) / edge);
  });
}
