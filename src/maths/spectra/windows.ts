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
  const window = new Float64Array(length);
  // Cosines of multiples by Chebyshev's recurrence; the second half mirrors the first.
  for (let j = 0; 2 * j <= length; j++) {
    const cosine = Math.cos((2 * Math.PI * j) / length);
    let value = terms[0]!;
    let before = 1;
    let multiple = cosine;
    for (let i = 1; i < terms.length; i++) {
      value += (i % 2 ? -1 : 1) * terms[i]! * multiple;
      [before, multiple] = [multiple, 2 * cosine * multiple - before];
    }
    window[j] = value;
    if (j > 0) window[length - j] = value;
  }
  return window;
}

/**
 * Flat in the middle, a half cosine over `taper` of the length in all, half of it at each end.
 * Equivalent noise bandwidth (1 − 5·taper/8)/(1 − taper/2)² bins, so 1.04 at 0.1.
 */
export function taperedWindow(length: number, taper: number): Float64Array {
  const edge = (taper * length) / 2;
  const window = new Float64Array(length).fill(1);
  for (let j = 0; j + 0.5 < edge; j++) {
    const value = 0.5 - 0.5 * Math.cos((Math.PI * (j + 0.5)) / edge);
    window[j] = value;
    window[length - 1 - j] = value;
  }
  return window;
}
