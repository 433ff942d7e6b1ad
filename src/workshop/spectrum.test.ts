import { readdirSync, writeFileSync } from "node:fs";
import { getPriority } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { temporaryFolder } from "../../tests/helpers.ts";
import { encodeWav } from "../bench/encodeWav.ts";
import { BadInput } from "../maths/badInput.ts";
import { randomStream } from "../maths/random.ts";
import { readWavFile } from "../store/wavFile.ts";
import { CalculatingRoom } from "./calculate.ts";
import { levelSpectrum, mostSamples, readBand, spectrumColumns } from "./spectrum.ts";
import { spectrumInThread } from "./spectrumInThread.ts";

const rate_Hz = 48_000;

/** A million points: noise, and two lines far under what a column of the whole axis holds. */
const record = (() => {
  const chance = randomStream("spectrum");
  return Float64Array.from(
    { length: 2 ** 20 },
    (_, n) =>
      1e-4 * chance.normal() +
      1e-2 * Math.SQRT2 * Math.sin((2 * Math.PI * 1000.01 * n) / rate_Hz) +
      1e-3 * Math.SQRT2 * Math.sin((2 * Math.PI * 1003 * n) / rate_Hz),
  );
})();

const levels = levelSpectrum(record, rate_Hz, 2);

test("a million points are drawn in 600 columns, and no line among them is lost or shortened", () => {
  const { columns, whole_Hz } = spectrumColumns(levels);
  expect(columns.length).toBeLessThanOrEqual(600);
  expect(whole_Hz).toEqual([10, 24_000]);
  const top = columns.reduce((a, b) => (b.high_dBV > a.high_dBV ? b : a));
  // source: by hand, 0.01 of 2 V is 20 mV r.m.s., −33.98 dBV; a Blackman-Harris window loses up to 0.83 dB between bins
  expect(top.high_dBV).toBeGreaterThan(-34.9);
  expect(top.high_dBV).toBeLessThan(-33.9);
  expect(Math.abs(top.frequency_Hz / 1000.01 - 1)).toBeLessThan(0.007);
});

test("closer in, lines three hertz apart stand apart, each where it is", () => {
  const { columns } = spectrumColumns(levels, [995, 1008]);
  const peaks = columns.filter(
    ({ high_dBV }, i) =>
      high_dBV > -70 && high_dBV >= (columns[i - 1]?.high_dBV ?? -999) && high_dBV > (columns[i + 1]?.high_dBV ?? -999),
  );
  expect(peaks.map(({ frequency_Hz }) => Math.round(frequency_Hz * 10) / 10)).toEqual([1000, 1003]);
  expect(peaks[0]!.high_dBV - peaks[1]!.high_dBV).toBeCloseTo(20, -0.3);
});

test("a band narrower than the bins is widened, one beyond the ends is kept within", () => {
  const short = levelSpectrum(record.subarray(0, 4800), rate_Hz, 2);
  const narrow = spectrumColumns(short, [1000, 1000.5]).columns;
  expect(narrow.length).toBeGreaterThan(20);
  expect(narrow[0]!.frequency_Hz).toBeGreaterThan(800);
  const wide = spectrumColumns(short, [1, 1e6]).columns;
  expect(wide.at(-1)!.frequency_Hz).toBeLessThanOrEqual(24_000);
  expect(() => readBand("400,40")).toThrow(/two rising frequencies/);
  expect(() => readBand("a,b")).toThrow(/band|two rising/);
  expect(readBand("40,400")).toEqual([40, 400]);
});

// source: resolution of a record of N samples goes as 1/N, by the transform's own spacing
test("of a longer record the beginning is drawn, and the resolution says so", () => {
  const path = join(temporaryFolder(), "long.wav");
  const chance = randomStream("long");
  const right = Float64Array.from({ length: mostSamples + 4096 }, () => 0.1 * chance.normal());
  writeFileSync(path, encodeWav(rate_Hz, [new Float64Array(right.length), right], { encoding: "pcm16" }));
  const drawn = spectrumInThread({ path, given: "long", channel: 1, fullScale_Vpk: 2 });
  if (!drawn.ok) throw new Error(drawn.error.message);
  expect(drawn.levels.resolution_Hz / levels.resolution_Hz).toBeCloseTo(record.length / mostSamples, 9);
  const read = readWavFile(path, "long", "recording").samples[1]!;
  const { level_dBV, ...scale } = levelSpectrum(read.subarray(0, mostSamples), rate_Hz, 2);
  expect(drawn.levels).toMatchObject(scale);
  // A million levels, bit by bit; a general comparison takes half a minute over them.
  expect(Buffer.from(drawn.levels.level_dBV.buffer).equals(Buffer.from(level_dBV.buffer))).toBe(true);
});

test("a recording that is gone is told in the words of whoever asked, out of the thread too", async () => {
  const folder = temporaryFolder();
  const room = new CalculatingRoom({ folder });
  const gone = { path: join(folder, "gone.wav"), given: "0417-2", channel: 0, fullScale_Vpk: 2 };
  await expect(room.levelSpectrum(gone)).rejects.toMatchObject({ path: "recording" });
  await expect(room.levelSpectrum(gone)).rejects.toBeInstanceOf(BadInput);
  await room.close();
});

// Linux alone lowers a single thread, and tells it of each.
test.runIf(process.platform === "linux")("threads beside a server give way, those of a command do not", async () => {
  const lowered = () =>
    readdirSync("/proc/self/task").filter((thread) => getPriority(Number(thread)) === getPriority() + 5).length;
  const question = { path: join(temporaryFolder(), "none.wav"), given: "none", channel: 0, fullScale_Vpk: 2 };
  for (const [isServed, expected] of [
    [false, 0],
    [true, 1],
  ] as const) {
    const room = new CalculatingRoom({ folder: temporaryFolder() });
    if (isServed) room.giveWay();
    await expect(room.levelSpectrum(question)).rejects.toBeInstanceOf(BadInput);
    expect(lowered()).toBe(expected);
    await room.close();
  }
});
