import { realSpectrum } from "../../src/maths/spectra/fourier.ts";
import { median_ms, python_ms, type Row } from "./row.ts";

export function rows(): Row[] {
  const signal = new Float64Array(2 ** 20).map((_, i) => Math.sin(i * 0.1) + 0.1 * Math.sin(i * 1.7));
  return [
    {
      what: "spectrum of 2^20 real samples",
      ours_ms: median_ms(() => realSpectrum(signal)),
      reference: "numpy.fft.rfft",
      reference_ms: python_ms("import numpy as np\nx=np.random.randn(2**20)", "np.fft.rfft(x)"),
    },
  ];
}
