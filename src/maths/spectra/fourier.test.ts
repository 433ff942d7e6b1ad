import { describe, expect, test } from "vitest";
import { complexSpectrum, realFromSpectrum, realSpectrum } from "./fourier.ts";

// source: the transform of one sample at n₀ is e^{−2πi·k·n₀/N}, of a real one likewise; by definition
describe.each([8, 1024, 2 ** 19, 2 ** 20])("transform of %i numbers", (size) => {
  const at = Math.floor(0.37 * size);
  const checked = (length: number) => Array.from({ length: 60 }, (_, i) => Math.floor((i * (length - 1)) / 59));

  test("of one complex sample", () => {
    const signal = new Float64Array(2 * size);
    signal[2 * at] = 0.6;
    signal[2 * at + 1] = -0.8;
    const forward = complexSpectrum(signal);
    const backward = complexSpectrum(signal, "inverse");
    for (const k of checked(size)) {
      const turns = ((k * at) % size) / size;
      const [c, s] = [Math.cos(2 * Math.PI * turns), Math.sin(2 * Math.PI * turns)];
      expect(
        Math.hypot(forward[2 * k]! - (0.6 * c - 0.8 * s), forward[2 * k + 1]! - (-0.8 * c - 0.6 * s)),
      ).toBeLessThan(2e-15);
      expect(
        Math.hypot(size * backward[2 * k]! - (0.6 * c + 0.8 * s), size * backward[2 * k + 1]! - (0.6 * s - 0.8 * c)),
      ).toBeLessThan(2e-15);
    }
  });

  test("of one real sample, and back", () => {
    const signal = new Float64Array(size);
    signal[at] = 1;
    const spectrum = realSpectrum(signal);
    for (const k of checked(size / 2 + 1)) {
      const turns = ((k * at) % size) / size;
      const error = Math.hypot(
        spectrum[2 * k]! - Math.cos(2 * Math.PI * turns),
        spectrum[2 * k + 1]! + Math.sin(2 * Math.PI * turns),
      );
      expect(error).toBeLessThan(4e-15);
    }
    const back = realFromSpectrum(spectrum);
    const worst = back.reduce((most, value, n) => Math.max(most, Math.abs(value - (n === at ? 1 : 0))), 0);
    expect(worst).toBeLessThan(1e-15);
  });
});
