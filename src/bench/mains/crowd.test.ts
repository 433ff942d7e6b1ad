import { expect, test } from "vitest";
import { randomStream } from "../../maths/random.ts";
import { floorNear, runningFloor } from "../../maths/spectra/noiseFloor.ts";
import { averagedPeriodogram } from "../../maths/spectra/welch.ts";
import { fitMains } from "../mains.ts";

const rate_Hz = 8000;
const seconds = 6;
const frames = rate_Hz * seconds;

function noise(seed: number): Float64Array {
  const chance = randomStream(seed);
  return new Float64Array(frames).map(() => chance.normal());
}

// source: white noise of unit variance has density 2/rate on one side (Parseval)
test("plain noise is no crowd: its floor stays its density", () => {
  for (const seed of [1, 2, 3]) {
    const density = averagedPeriodogram(noise(seed), rate_Hz, frames);
    const floor = runningFloor(density, () => 12);
    const mean = floor.slice(400, -400).reduce((sum, value) => sum + value, 0) / (floor.length - 800);
    expect(mean * (rate_Hz / 2)).toBeGreaterThan(0.9);
    expect(mean * (rate_Hz / 2)).toBeLessThan(1.1);
  }
});

// source: the line put in stands 60 dB over the noise; a floor that followed it would too
test("a few strong lines over noise leave the floor where it was", () => {
  const signal = noise(5).map(
    (value, i) => value + [50, 57, 100, 114].reduce((sum, f) => sum + 3 * Math.sin((2 * Math.PI * f * i) / rate_Hz), 0),
  );
  const density = averagedPeriodogram(signal, rate_Hz, frames);
  expect(floorNear(density, 57, 20, 1) * (rate_Hz / 2)).toBeLessThan(2);
});

// A generator of poor quality: its noise comes round again after 5233 samples, a line every 9.17 Hz at 48 kHz.
test("noise that repeats itself is not taken for hum, and hum over it is read at its own frequency", () => {
  const loop = randomStream(11);
  const once = Float64Array.from({ length: 5233 }, () => 1e-5 * loop.normal());
  const rate = 48_000;
  const quiet = new Float64Array(6 * rate).map((_, i) => once[i % once.length]!);
  expect(fitMains([quiet], rate, [50])[0]).toMatchObject({ found: false });
  const hum = quiet.map(
    (value, i) =>
      value + 1e-3 * Math.sin((2 * Math.PI * 50 * i) / rate) + 5e-4 * Math.sin((2 * Math.PI * 100 * i) / rate),
  );
  const [fit] = fitMains([hum], rate, [50]);
  expect(fit!.found).toBe(true);
  // source: the frequency put in
  expect(Math.abs(fit!.frequency_Hz - 50)).toBeLessThan(0.001);
});
