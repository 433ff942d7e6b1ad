import { mkdtempSync, rmSync, truncateSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { createWavFile, openWavFile, readWavFile } from "./wavFile.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "stillglow-wav-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const samples = [0, 1].map((c) =>
  new Float64Array(1000).map((_, n) => (Math.round(2 ** 14 * Math.sin(n + c)) + 0) / 2 ** 15),
);

function written(name: string, largeFrom_B?: number): string {
  const path = join(folder, name);
  const writer = createWavFile(path, {
    rate_Hz: 48_000,
    channels: 2,
    encoding: "pcm16",
    ...(largeFrom_B !== undefined && { largeFrom_B }),
  });
  for (const from of [0, 300, 600])
    writer.write(samples.map((of) => of.subarray(from, from === 600 ? 1000 : from + 300)));
  writer.close();
  return path;
}

// source: what was written; 16 bits hold it exactly
test.each([
  ["RIFF", undefined],
  ["RF64", 1000],
] as const)("a file written piece by piece as %s is read whole and in stretches", (kind, largeFrom_B) => {
  const path = written(`${kind}.wav`, largeFrom_B);
  expect(readWavFile(path, path, "recording").samples).toEqual(samples);
  const stream = openWavFile(path, path, "recording");
  const into = [new Float64Array(10), new Float64Array(10)];
  stream.read(595, into);
  expect(into).toEqual(samples.map((of) => of.slice(595, 605)));
});

test("a file that is cut while it is read is refused, named by its field", () => {
  const path = written("cut.wav");
  const stream = openWavFile(path, path, "recording");
  truncateSync(path, 2000);
  expect(() => stream.read(0, [new Float64Array(10), new Float64Array(10)])).toThrow(
    expect.objectContaining({ path: "recording", message: expect.stringMatching(/changed while it was read/) }),
  );
});

test("a file that is there already is not written over", () => {
  written("once.wav");
  expect(() => written("once.wav")).toThrow(/EEXIST/);
});
