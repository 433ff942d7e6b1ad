import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import Database from "libsql";
import { describe, expect, onTestFinished, test } from "vitest";
import { randomStream } from "../maths/random.ts";
import { takeBackup } from "./backup.ts";
import { sha256 } from "./chain.ts";
import { openStore } from "./store.ts";
import { headphone, noon } from "./testing/entries.ts";
import { freshFolder, openFor } from "./testing/folder.ts";

const named = (name: string, message: RegExp) =>
  expect.objectContaining({ name, message: expect.stringMatching(message) });
const ledger = (folder: string) => join(folder, "stillglow.db");
const page_bytes = 4096;

/** A workshop with a ledger of many pages, closed well, and the bytes of its file. */
async function written(): Promise<{ folder: string; bytes: Buffer; ids: readonly string[] }> {
  const folder = freshFolder();
  const store = await openFor(folder);
  for (let i = 0; i < 8; i += 1) {
    await store.append(Array.from({ length: 40 }, (_, k) => headphone(`h${i}-${k} ${"long name ".repeat(k % 12)}`)));
  }
  const ids = store.evidence().map(({ id }) => id);
  await store.close();
  return { folder, bytes: readFileSync(ledger(folder)), ids };
}

describe("a damaged ledger is found when it is opened", () => {
  test("whichever page was overwritten, unless that page held nothing", async () => {
    const { folder, bytes, ids } = await written();
    const draw = randomStream("pages");
    const pages = bytes.length / page_bytes;
    expect(pages).toBeGreaterThan(30);
    let found = 0;
    for (let page = 0; page < pages; page += 1) {
      const damaged = Buffer.from(bytes);
      const at = page * page_bytes;
      if (page % 2 === 0) damaged.fill(0, at, at + page_bytes);
      else for (let i = at; i < at + page_bytes; i += 1) damaged[i] = Math.floor(draw.uniform() * 256);
      writeFileSync(ledger(folder), damaged);
      const opened = await openStore(folder, { clock: () => noon }).catch((fault: unknown) => fault);
      if (opened instanceof Error) {
        expect(opened).toEqual(named("StoreCorrupted", /stillglow\.db.*restore/s));
        found += 1;
      } else {
        const store = opened as Awaited<ReturnType<typeof openStore>>;
        expect(store.evidence().map(({ id }) => id)).toEqual(ids);
        expect(await store.verify()).toMatchObject({ ok: true, entries: ids.length });
        await store.close();
      }
    }
    expect(found).toBeGreaterThan(0.9 * pages);
  });

  test("where only a letter of an entry was changed, after a power cut or a kill", async () => {
    const { folder, bytes } = await written();
    const at = bytes.indexOf('"impedance_ohm":32', bytes.length >> 1) + '"impedance_ohm":'.length;
    bytes.write("4", at);
    writeFileSync(ledger(folder), bytes);
    writeFileSync(join(folder, "lock.json"), '{"pid":1,"since":"2026-03-01T12:00:00.000Z"}');
    await expect(openStore(folder)).rejects.toThrow(named("StoreCorrupted", /entry \d+ .*it was edited.*restore/s));
  });

  test("where its end is missing, wherever it was cut, and nothing is written to it", async () => {
    const { folder, bytes } = await written();
    for (const share of [0.02, 0.3, 0.5, 0.77, 0.999]) {
      const left = Math.floor(bytes.length * share);
      writeFileSync(ledger(folder), bytes);
      truncateSync(ledger(folder), left);
      await expect(openStore(folder)).rejects.toThrow(named("StoreCorrupted", /restore/));
      expect(readFileSync(ledger(folder)).equals(bytes.subarray(0, left))).toBe(true);
    }
  });

  test("where it is empty or gone, and only its recordings are left", async () => {
    const folder = freshFolder();
    const store = await openFor(folder);
    await store.putRecording(Buffer.from("RIFF"));
    await store.append([headphone("a")]);
    await store.close();
    writeFileSync(ledger(folder), "");
    await expect(openStore(folder)).rejects.toThrow(named("StoreCorrupted", /it is empty.*recordings/));
    rmSync(ledger(folder));
    await expect(openStore(folder)).rejects.toThrow(named("StoreCorrupted", /it is missing.*recordings/));
    expect(readdirSync(folder)).not.toContain("stillglow.db");
  });

  test("with the backup to put back, and the command that does it", async () => {
    const { folder, bytes, ids } = await written();
    const copies = join(freshFolder(), "the owner's copies");
    await takeBackup(folder, copies, "2026-03-01T12:00:00Z");
    await takeBackup(folder, copies, "2026-03-02T12:00:00Z");
    writeFileSync(join(folder, "copies.json"), JSON.stringify({ folders: [copies] }));
    writeFileSync(ledger(folder), bytes.subarray(0, 20_000));
    const fault = await openStore(folder).catch((thrown: Error) => thrown);
    const command = (fault as Error).message.split(": ").at(-1)!;
    expect(command).toBe(
      `stillglow restore '${copies.replace("'", "'\\''")}' --copy 2026-03-02T120000Z --data ${folder}-restored`,
    );
    const { restoreBackup } = await import("./backup.ts");
    onTestFinished(() => rmSync(`${folder}-restored`, { recursive: true, force: true }));
    await restoreBackup(copies, `${folder}-restored`, "2026-03-02T120000Z");
    expect((await openFor(`${folder}-restored`)).evidence().map(({ id }) => id)).toEqual(ids);
  });

  test("in words that send to the copies' place, where none is known", async () => {
    const { folder } = await written();
    truncateSync(ledger(folder), 9000);
    await expect(openStore(folder)).rejects.toThrow(/No backup of it is known here.*stillglow restore ITS-FOLDER/);
  });
});

test.each(["lock", "lock.json", "stillglow.db"])("%s that is a folder is named, and left", async (name) => {
  const folder = freshFolder();
  mkdirSync(join(folder, name, "inside"), { recursive: true });
  await expect(openStore(folder)).rejects.toThrow(
    named("StoreReadOnly", new RegExp(`${name.replace(".", "\\.")}.*plain file`)),
  );
  expect(readdirSync(join(folder, name))).toEqual(["inside"]);
  // Whoever puts it right can open the folder from the same program.
  renameSync(join(folder, name), join(folder, "aside"));
  await (await openFor(folder)).append([headphone("a")]);
});

test("a newer version's file is not changed by a byte, nor is anything put beside it", async () => {
  const { folder } = await written();
  const raw = new Database(ledger(folder));
  raw.exec("INSERT INTO migration VALUES (99, 'from the future', '2030-01-01T00:00:00Z')");
  raw.close();
  const before = sha256(readFileSync(ledger(folder)));
  for (const write of [true, false]) {
    await expect(openStore(folder, { write })).rejects.toThrow(named("StoreFromNewerVersion", /version 99/));
    expect(sha256(readFileSync(ledger(folder)))).toBe(before);
    expect(readdirSync(folder).filter((name) => basename(name).startsWith("stillglow"))).toEqual(["stillglow.db"]);
  }
});

test("how far the clock stands back is known", async () => {
  const folder = freshFolder();
  let now = noon;
  const store = await openFor(folder, { clock: () => now });
  expect(store.clockBehind_ms()).toBe(0);
  await store.append([headphone("a")]);
  now = "2026-03-01T09:00:00.000Z";
  expect(store.clockBehind_ms()).toBe(3 * 3_600_000);
  await store.append([headphone("b", { at: now })]);
  expect(store.evidence().map(({ recordedAt }) => recordedAt)).toEqual([noon, noon]);
});
