import { spawn } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { backupsIn, restoreBackup, takeBackup, thinBackups, verifyBackup } from "./backup.ts";
import { headphone, noon } from "./testing/entries.ts";
import { freshFolder, openFor } from "./testing/folder.ts";

const wav = (byte: number) => Uint8Array.from({ length: 3000 }, (_, i) => (i * byte) % 256);

async function workshopWith(count: number) {
  const folder = freshFolder();
  const store = await openFor(folder);
  await store.putRecording(wav(7));
  for (let i = 0; i < count; i += 1) await store.append([headphone(`h${i}`)]);
  writeFileSync(join(folder, "workshop.json"), '{"title":"A test"}');
  return { folder, store };
}

const day = (at: string, count: number) => new Date(Date.parse(at) - count * 86_400_000).toISOString();

describe("a copy", () => {
  test("is taken while the workshop is open, reads back whole, and restores to the same chain and files", async () => {
    const { folder, store } = await workshopWith(20);
    const into = join(freshFolder(), "copies");
    const taken = await takeBackup(folder, into, noon);
    await store.append([headphone("after")]);
    expect(taken).toMatchObject({ name: "2026-03-01T120000Z", entries: 20 });
    expect(await verifyBackup(into)).toEqual(taken);

    const back = join(freshFolder(), "back");
    expect(await restoreBackup(into, back)).toEqual(taken);
    const restored = await openFor(back);
    expect(restored.evidence()).toEqual(store.evidence().slice(0, 20));
    expect(restored.head()).toBe(taken.head);
    expect(readFileSync(join(back, "workshop.json"), "utf8")).toBe('{"title":"A test"}');
    expect(readdirSync(join(back, "recordings"))).toEqual(readdirSync(join(folder, "recordings")));
    expect(await restored.append([headphone("goes on")])).toHaveLength(1);
  });

  test("of a folder that a killed writer left holds all that was acknowledged", async () => {
    const folder = freshFolder();
    await (await openFor(folder)).close();
    const writer = spawn(
      process.execPath,
      ["--import", "tsx", join(import.meta.dirname, "testing", "writer.ts"), folder, "0"],
      { stdio: ["ignore", "pipe", "inherit"] },
    );
    let said = "";
    const into = freshFolder();
    const taken = await new Promise<Awaited<ReturnType<typeof takeBackup>>>((resolve, reject) => {
      writer.stdout.on("data", (bytes: Buffer) => {
        const before = said;
        said += bytes;
        // Once under way, a copy is taken in the middle of the writing; then the writer is killed.
        if (before.split("\n").length <= 30 && said.split("\n").length > 30) {
          takeBackup(folder, into, noon)
            .then(resolve, reject)
            .finally(() => writer.kill("SIGKILL"));
        }
      });
    });
    expect(taken.entries).toBeGreaterThanOrEqual(30);
    const back = join(freshFolder(), "back");
    await restoreBackup(into, back);
    expect((await openFor(back)).evidence()).toHaveLength(taken.entries);
  });

  test("shares recordings with the copies before it", async () => {
    const { folder, store } = await workshopWith(1);
    const into = freshFolder();
    await takeBackup(folder, into, day(noon, 1));
    await store.putRecording(wav(11));
    const second = await takeBackup(folder, into, noon);
    expect(second.recordings).toHaveLength(2);
    expect(readdirSync(join(into, "recordings"))).toHaveLength(2);
    expect(backupsIn(into).map(({ recordings }) => recordings.length)).toEqual([1, 2]);
  });
});

describe("what is wrong is said, and nothing is overwritten", () => {
  const named = (name: string, message: RegExp) =>
    expect.objectContaining({ name, message: expect.stringMatching(message) });

  test("a copy whose ledger or recording was changed is refused, before anything is put back", async () => {
    const { folder } = await workshopWith(5);
    const into = freshFolder();
    const { name } = await takeBackup(folder, into, noon);
    const back = join(freshFolder(), "back");
    const recording = join(into, "recordings", readdirSync(join(into, "recordings"))[0]!);
    const sound = readFileSync(recording);
    writeFileSync(recording, sound.subarray(1));
    await expect(restoreBackup(into, back)).rejects.toThrow(named("StoreCorrupted", /missing or was changed/));
    writeFileSync(recording, sound);
    const ledger = join(into, name, "stillglow.db");
    const bytes = readFileSync(ledger);
    bytes[bytes.length - 100]! ^= 1;
    writeFileSync(ledger, bytes);
    await expect(restoreBackup(into, back)).rejects.toThrow(named("StoreCorrupted", /was changed since it was taken/));
    expect(existsSync(back)).toBe(false);
  });

  test("a folder with something in it is not restored into; a name that is not there is told with those that are", async () => {
    const { folder } = await workshopWith(2);
    const into = freshFolder();
    await takeBackup(folder, into, noon);
    await expect(restoreBackup(into, folder)).rejects.toThrow(/nothing is overwritten/);
    await expect(verifyBackup(into, "1999")).rejects.toThrow(named("StoreMissing", /2026-03-01T120000Z/));
    await expect(verifyBackup(join(into, "nowhere"))).rejects.toThrow(named("StoreMissing", /no backup here/));
  });

  test("a workshop whose own recording was changed is not copied over the good copy of it", async () => {
    const { folder } = await workshopWith(1);
    const into = freshFolder();
    const [file] = readdirSync(join(folder, "recordings"));
    writeFileSync(join(folder, "recordings", file!), "not what it was");
    await expect(takeBackup(folder, into, noon)).rejects.toThrow(named("StoreCorrupted", /no longer fits its name/));
    expect(backupsIn(into)).toEqual([]);
  });

  test("a copy that was cut short is no copy", async () => {
    const { folder } = await workshopWith(2);
    const into = freshFolder();
    const { name } = await takeBackup(folder, into, day(noon, 1));
    cpSync(join(into, name), join(into, ".2026-03-01T120000Z.half"), { recursive: true });
    rmSync(join(into, ".2026-03-01T120000Z.half", "backup.json"));
    expect(backupsIn(into).map((one) => one.name)).toEqual([name]);
  });
});

test("old copies are thinned to days, weeks, months and years, and files that none needs go with them", async () => {
  const { folder } = await workshopWith(1);
  const into = freshFolder();
  const first = await takeBackup(folder, into, day(noon, 1000));
  // The same copy under other dates stands for three years of daily ones.
  const note = JSON.parse(readFileSync(join(into, first.name, "backup.json"), "utf8"));
  for (let back = 0; back < 1000; back += 1) {
    const made = day(noon, back);
    const name = made.replace(/\.\d+/, "").replaceAll(":", "");
    mkdirSync(join(into, name));
    writeFileSync(
      join(into, name, "backup.json"),
      JSON.stringify({ ...note, made, ...(back < 3 && { recordings: [] }) }),
    );
  }
  const gone = thinBackups(into, noon);
  const left = backupsIn(into).map(({ made }) => made.slice(0, 10));
  expect(left.length + gone.length).toBe(1001);
  expect(left.slice(-14)).toEqual(Array.from({ length: 14 }, (_, i) => day(noon, 13 - i).slice(0, 10)));
  expect(left.length).toBeLessThanOrEqual(14 + 8 + 25 + 4);
  expect(new Set(left.map((one) => one.slice(0, 4)))).toEqual(new Set(["2023", "2024", "2025", "2026"]));
  expect(readdirSync(join(into, "recordings"))).toHaveLength(1);
  expect(thinBackups(into, noon)).toEqual([]);
});
