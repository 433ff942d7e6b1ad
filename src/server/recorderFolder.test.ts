import {
  appendFileSync,
  createReadStream,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { expect, test, vi } from "vitest";
import { temporaryFolder } from "../../tests/helpers.ts";
import { encodeWav } from "../bench/encodeWav.ts";
import { openWorkshop } from "../workshop/workshop.ts";
import { existingFolder, watchRecorderFolder } from "./recorderFolder.ts";

const wav = (level: number) =>
  encodeWav(
    48_000,
    [0, 1].map(() => new Float64Array(4800).fill(level)),
    { encoding: "pcm24" },
  );
const every_ms = 20;

async function setUp() {
  const folder = temporaryFolder();
  const [card, data] = [join(folder, "card"), join(folder, "data")];
  mkdirSync(card);
  mkdirSync(data);
  const workshop = await openWorkshop(data, { write: true });
  const list = workshop.waitingFiles;
  const watch = () =>
    watchRecorderFolder({
      folder: card,
      every_ms,
      most_bytes: 1e6,
      take: (name, path, madeAt) => list.take(name, createReadStream(path), { madeAt, now: workshop.now }),
    });
  const names = () => list.waiting().map(({ name }) => name);
  return { card, data, workshop, list, watch, names };
}

test("a recorder's file waits once it has come to rest, and is left where it is", async () => {
  const { card, data, workshop, list, watch, names } = await setUp();
  const bytes = wav(0.25);
  writeFileSync(join(card, "T001.WAV"), bytes.subarray(0, 1000));
  const watched = watch();
  // Still growing, at every look: not taken, and not refused as cut short either.
  for (let at = 1000; at < bytes.length; at += 4000) {
    await new Promise((resolve) => setTimeout(resolve, every_ms / 2));
    appendFileSync(join(card, "T001.WAV"), bytes.subarray(at, at + 4000));
    expect(names()).toEqual([]);
  }
  await vi.waitFor(() => expect(names()).toEqual(["T001.WAV"]));
  expect(watched.refused()).toEqual([]);
  const [file] = list.waiting();
  expect(file).toMatchObject({ rate_Hz: 48_000, channels: 2, duration_s: 0.1 });
  expect(Buffer.compare(readFileSync(join(card, "T001.WAV")), bytes)).toBe(0);
  expect(Buffer.compare(readFileSync(join(data, "recordings", `${file!.file_sha256}.wav`)), bytes)).toBe(0);
  watched.stop();
  await workshop.close();
});

test("the same content never comes twice: renamed, copied, set aside, or with the program started again", async () => {
  const { card, data, workshop, list, watch, names } = await setUp();
  mkdirSync(join(card, "DAY1"));
  writeFileSync(join(card, "DAY1", "a.wav"), wav(0.1));
  writeFileSync(join(card, "b.wav"), wav(0.2));
  let watched = watch();
  await vi.waitFor(() => expect(names().sort()).toEqual([join("DAY1", "a.wav"), "b.wav"].sort()));
  list.setAside(list.waiting().find(({ name }) => name === "b.wav")!.file_sha256);
  expect(() => list.setAside("0".repeat(64))).toThrow(/a file that waits/);
  renameSync(join(card, "b.wav"), join(card, "c.wav"));
  writeFileSync(join(card, "a again.wav"), wav(0.1));
  await new Promise((resolve) => setTimeout(resolve, 6 * every_ms));
  expect(names()).toEqual([join("DAY1", "a.wav")]);
  watched.stop();
  await workshop.close();

  const again = await openWorkshop(data, { write: true });
  watched = watchRecorderFolder({
    folder: card,
    every_ms,
    take: (name, path, madeAt) => again.waitingFiles.take(name, createReadStream(path), { madeAt, now: again.now }),
  });
  await new Promise((resolve) => setTimeout(resolve, 6 * every_ms));
  expect(again.waitingFiles.waiting().map(({ name }) => name)).toEqual([join("DAY1", "a.wav")]);
  watched.stop();
  await again.close();
});

test("what is no recording, and what is too large, is named, and forgotten when it goes; a card may be pulled", async () => {
  const { card, workshop, watch, names } = await setUp();
  writeFileSync(join(card, "notes.wav"), "not a recording at all");
  writeFileSync(join(card, "long.wav"), new Uint8Array(2e6));
  writeFileSync(join(card, ".hidden.wav"), wav(0.3));
  writeFileSync(join(card, "readme.txt"), "nothing for us");
  const watched = watch();
  await vi.waitFor(() =>
    expect(
      watched
        .refused()
        .map(({ name }) => name)
        .sort(),
    ).toEqual(["long.wav", "notes.wav"]),
  );
  expect(watched.refused().find(({ name }) => name === "long.wav")!.why).toMatch(/at most 1 MiB/);
  rmSync(join(card, "notes.wav"));
  await vi.waitFor(() => expect(watched.refused()).toHaveLength(1));
  rmSync(card, { recursive: true });
  await vi.waitFor(() => expect(watched.isThere()).toBe(false));
  mkdirSync(card);
  writeFileSync(join(card, "later.wav"), wav(0.4));
  await vi.waitFor(() => expect(names()).toEqual(["later.wav"]));
  expect(watched.isThere()).toBe(true);
  expect(existsSync(join(card, "later.wav"))).toBe(true);
  watched.stop();
  await workshop.close();
  expect(() => existingFolder(join(card, "nowhere"))).toThrow(/a folder that is there/);
});
