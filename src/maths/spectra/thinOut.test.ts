import { expect, test } from "vitest";
import { thinner, thinningFactor } from "./thinOut.ts";

// source: by hand: 20 kHz must stay clear of half the new rate by 7.5 %
test.each([
  [44_100, 1],
  [48_000, 1],
  [88_200, 2],
  [96_000, 2],
  [176_400, 4],
  [192_000, 4],
  [384_000, 8],
])("%i Hz is thinned out by %i", (rate_Hz, factor) => {
  expect(thinningFactor(rate_Hz, 20_000)).toBe(factor);
});

const thinned = (signal: Float64Array, factor: number, rate_Hz: number, cut: number) => {
  const low = thinner(signal.length, factor, rate_Hz, 20_000);
  for (let from = 0; from < signal.length; from += cut) low.push(signal.subarray(from, from + cut));
  return low.end();
};

// source: a sine within the passband keeps its samples, one beyond half the new rate leaves nothing; a level stays
test.each([
  [88_200, 2],
  [96_000, 2],
  [192_000, 4],
  [384_000, 8],
])("from %i Hz: what is within the band stays, what is not is gone", (rate_Hz, factor) => {
  const length = 12_001;
  const sine = (f: number) => new Float64Array(length).map((_, n) => Math.cos((2 * Math.PI * f * n) / rate_Hz + 1));
  const count = Math.floor((length - 1) / factor) + 1;
  for (const [f, gain] of [
    [0, 1],
    [997, 1],
    [19_990, 1],
    [rate_Hz / factor - 19_990, 0],
  ] as const) {
    const signal = sine(f);
    const low = thinned(signal, factor, rate_Hz, 777);
    expect(low).toHaveLength(count);
    let worst = 0;
    for (let i = 200; i < count - 200; i++) worst = Math.max(worst, Math.abs(low[i]! - gain * signal[i * factor]!));
    expect(worst).toBeLessThan(f === 0 ? 1e-14 : 1e-6);
    expect(thinned(signal, factor, rate_Hz, 4096)).toEqual(low);
    if (f === 0) expect(low[0]! - low[count - 1]!).toBeLessThan(1e-14);
  }
});
