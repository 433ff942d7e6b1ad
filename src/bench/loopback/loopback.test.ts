import { expect, test } from "vitest";
import { randomStream } from "../../maths/random.ts";
import { encodeWav, type WavEncoding } from "../encodeWav.ts";
import { bytesInMemory, readWav } from "../wav.ts";
import { grainBits } from "./grain.ts";
import { analyseLoopback } from "./loopback.ts";

const rate_Hz = 48_000;
const chance = randomStream("loop-back");

function looped(peak: number, seconds = 3, third = 0): Float64Array {
  return new Float64Array(seconds * rate_Hz).map((_, n) => {
    const phase = (2 * Math.PI * 997.3 * n) / rate_Hz + 0.7;
    return peak * (Math.cos(phase) + third * Math.cos(3 * phase)) + 1e-5 * chance.normal();
  });
}

const stored = (samples: readonly Float64Array[], encoding: WavEncoding) =>
  readWav(bytesInMemory(encodeWav(rate_Hz, samples, { encoding })));

// source: what was synthesised: full scale 2 V peak, a third harmonic of 0.02 %, white noise of 1e-5 of full scale
test("full scale, distortion and noise of a recorder come out as they were put in", () => {
  const fullScale_Vpk = 2;
  const peak = 0.4;
  const quiet = [new Float64Array(3 * rate_Hz).map(() => 1e-5 * chance.normal())];
  const report = analyseLoopback({
    tone: stored([looped(peak, 3, 2e-4)], "pcm24"),
    quiet: stored(quiet, "pcm24"),
    applied_Vrms: (peak * fullScale_Vpk) / Math.SQRT2,
    appliedDoubt_Vrms: 0.002,
  });
  const [channel] = report.channels;
  expect(channel!.fullScale_Vpk).toBeCloseTo(fullScale_Vpk, 4);
  expect(channel!.doubt_Vpk).toBeCloseTo((fullScale_Vpk * 0.002) / ((peak * fullScale_Vpk) / Math.SQRT2), 4);
  expect(Math.abs(channel!.thd_pct - 0.02)).toBeLessThan(0.001);
  // White noise up to 24 kHz, of which the band 20 Hz to 20 kHz holds 19980/24000.
  expect(channel!.noise_Vrms! / (1e-5 * fullScale_Vpk * Math.sqrt(19_980 / 24_000))).toBeCloseTo(1, 1);
  expect(report.grain_bits).toBe(24);
});

test("the grain is that of the samples, not of the file", () => {
  const coarse = stored([looped(0.3, 1)], "pcm16");
  const inFloat = stored(coarse.samples, "float32");
  expect(grainBits(inFloat.samples)).toBe(16);
  expect(grainBits(stored([looped(0.3, 1)], "float32").samples)).toBe(25);
  const report = analyseLoopback({ tone: inFloat, applied_Vrms: 0.2, appliedDoubt_Vrms: 0.001 });
  expect(report.notes.join(" ")).toMatch(/16 bits/);
  expect(report.notes.join(" ")).toMatch(/own noise is not known/);
});

test("a tone out of range or a silence at another rate is refused, with the mend", () => {
  const clipped = looped(1.3, 1).map((value) => Math.max(-1, Math.min(1, value)));
  expect(() => analyseLoopback({ tone: stored([clipped], "pcm24"), applied_Vrms: 1, appliedDoubt_Vrms: 0.01 })).toThrow(
    /out of range.*turn the player down/,
  );
  const quiet = readWav(bytesInMemory(encodeWav(44_100, [new Float64Array(44_100).map(() => 1e-5 * chance.normal())])));
  expect(() =>
    analyseLoopback({ tone: stored([looped(0.3, 1)], "pcm24"), quiet, applied_Vrms: 1, appliedDoubt_Vrms: 0.01 }),
  ).toThrow(/44100 Hz beside a tone at 48000 Hz/);
});
