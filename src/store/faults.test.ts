import { execFileSync, spawn } from "node:child_process";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "libsql";
import { describe, expect, onTestFinished, test } from "vitest";
import type { Queries } from "./engine.ts";
import { serverOf } from "./lock.ts";
import { SqliteEngine } from "./sqliteEngine.ts";
import { openStore } from "./store.ts";
import { headphone } from "./testing/entries.ts";
import { freshFolder, openFor } from "./testing/folder.ts";

const named = (name: string, message: RegExp) =>
  expect.objectContaining({ name, message: expect.stringMatching(message) });

describe("what is wrong with a folder is said plainly", () => {
  test("it is not there", async () => {
    await expect(openStore(join(freshFolder(), "none"))).rejects.toThrow(named("StoreMissing", /no such data folder/));
    const folder = freshFolder();
    await expect(openStore(folder, { write: false })).rejects.toThrow(named("StoreMissing", /no workshop/));
    expect(existsSync(join(folder, "stillglow.db"))).toBe(false);
  });

  test("its file is no database, and stays as it is", async () => {
    const folder = freshFolder();
    const file = join(folder, "stillglow.db");
    const text = "a letter to a customer\n".repeat(500);
    writeFileSync(file, text);
    await expect(openStore(folder)).rejects.toThrow(named("StoreCorrupted", /damaged .*no Stillglow file/));
    await expect(openStore(folder, { write: false })).rejects.toThrow(named("StoreCorrupted", /damaged/));
    expect(readFileSync(file, "utf8")).toBe(text);
  });

  test("its pages were overwritten", async () => {
    const folder = freshFolder();
    const store = await openFor(folder);
    for (let i = 0; i < 100; i += 1) await store.append([headphone(`h${i}`)]);
    await store.close();
    const file = join(folder, "stillglow.db");
    const bytes = readFileSync(file);
    bytes.fill(0xa5, 4096, bytes.length);
    writeFileSync(file, bytes);
    await expect(openStore(folder)).rejects.toThrow(named("StoreCorrupted", /restore/));
  });

  test("a newer version wrote it, and it is left untouched", async () => {
    const folder = freshFolder();
    await (await openFor(folder)).close();
    const file = join(folder, "stillglow.db");
    const raw = new Database(file);
    raw.exec("INSERT INTO migration VALUES (99, 'from the future', '2030-01-01T00:00:00Z')");
    raw.close();
    await expect(openStore(folder)).rejects.toThrow(named("StoreFromNewerVersion", /version 99.*nothing was touched/));
    await expect(openStore(folder, { write: false })).rejects.toThrow(named("StoreFromNewerVersion", /version 99/));
    expect(new Database(file).prepare("SELECT version FROM migration ORDER BY version").all().at(-1)).toEqual({
      version: 99,
    });
  });
});

describe("one writer", () => {
  test("a second one is refused and told where the first answers", async () => {
    const folder = freshFolder();
    const first = await openFor(folder);
    expect(serverOf(folder)).toBeUndefined();
    first.announce("http://127.0.0.1:4170");
    await expect(openStore(folder)).rejects.toThrow(
      named("StoreInUse", new RegExp(`process ${process.pid}.*127.0.0.1:4170`)),
    );
    expect(serverOf(folder)).toBe("http://127.0.0.1:4170");
    await first.close();
    expect(serverOf(folder)).toBeUndefined();
    await (await openFor(folder)).append([headphone("a")]);
  });

  test("killed at any moment, it leaves every acknowledged entry, a whole chain, and a lock that is taken over", async () => {
    const folder = freshFolder();
    const acknowledged: string[] = [];
    const noticed: string[] = [];
    const notice = (words: string) => noticed.push(words);
    for (const round of [1, 2, 3, 4]) {
      acknowledged.push(...(await killedWriter(folder, round, 5 + 17 * round)));
      expect(serverOf(folder)).toBeUndefined();
      expect((await openFor(folder, { write: false })).evidence().length).toBeGreaterThanOrEqual(acknowledged.length);
      const store = await openFor(folder, { clock: () => new Date().toISOString(), notice });
      // Whoever waits while the whole chain is read is told why, once for each time that nobody closed it.
      expect(noticed).toEqual(
        Array(round).fill(
          `${folder}: it was not closed the last time; its whole ledger is read through before it opens`,
        ),
      );
      const entries = store.evidence();
      expect(await store.verify()).toMatchObject({ ok: true, entries: entries.length });
      const kept = new Set(entries.map(({ id, seq }) => `${id} ${seq}`));
      expect(acknowledged.filter((line) => !kept.has(line))).toEqual([]);
      expect(entries.length - acknowledged.length).toBeLessThanOrEqual(round);
      await store.close();
    }
    expect(acknowledged.length).toBeGreaterThan(40);
    await openFor(folder, { notice });
    expect(noticed).toHaveLength(4);
  });
});

/** Lets another process write until it has acknowledged so many, then kills it without warning. */
function killedWriter(folder: string, round: number, count: number): Promise<string[]> {
  const script = join(import.meta.dirname, "testing", "writer.ts");
  const child = spawn(process.execPath, ["--import", "tsx", script, folder, String(round)], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  let told = "";
  child.stdout.on("data", (chunk: Buffer) => {
    told += chunk.toString();
    if (told.split("\n").length > count) child.kill("SIGKILL");
  });
  return new Promise((done, failed) => {
    child.on("error", failed);
    child.on("close", () => done(told.split("\n").slice(0, -1)));
  });
}

/** Mounts a small disk of its own, where this user may; says why not where it may not. */
function smallDisk(options: string): string | undefined {
  const folder = freshFolder();
  try {
    execFileSync("mount", ["-t", "tmpfs", "-o", options, "tmpfs", folder], { stdio: "ignore" });
  } catch {
    return undefined;
  }
  onTestFinished(() => {
    execFileSync("umount", ["-l", folder]);
  });
  return folder;
}

function readOnlyView(folder: string): string | undefined {
  const view = freshFolder();
  try {
    execFileSync("mount", ["--bind", folder, view], { stdio: "ignore" });
  } catch {
    return undefined;
  }
  onTestFinished(() => {
    execFileSync("umount", ["-l", view]);
  });
  execFileSync("mount", ["-o", "remount,bind,ro", view]);
  return view;
}

describe("a full disk", () => {
  test("refuses the entry, keeps all earlier ones, and goes on when there is room again", async ({ skip }) => {
    const folder = smallDisk("size=1m");
    if (!folder) return skip("no right to mount a small disk here");
    const store = await openFor(folder);
    const ballast = join(folder, "ballast");
    writeFileSync(ballast, Buffer.alloc(500_000));
    let kept = 0;
    const fill = async () => {
      for (; kept < 10_000; kept += 1) await store.append([headphone(`h${kept}`)]);
    };
    await expect(fill()).rejects.toThrow(named("StoreDiskFull", /free some space/));
    expect(kept).toBeGreaterThan(10);
    expect(store.evidence()).toHaveLength(kept);
    await expect(store.putRecording(Buffer.alloc(600_000))).rejects.toThrow(named("StoreDiskFull", /recordings/));
    writeFileSync(ballast, "");
    await store.append([headphone("after")]);
    expect(await store.verify()).toMatchObject({ ok: true, entries: kept + 1 });
    await store.close();
    expect((await openFor(folder)).evidence()).toHaveLength(kept + 1);
  });

  test("is named by the engine, and the transaction leaves nothing", async () => {
    const file = join(freshFolder(), "small.db");
    const engine = SqliteEngine.toWrite(file);
    onTestFinished(() => engine.close({ write: true }));
    await engine.run("CREATE TABLE evidence (seq INTEGER PRIMARY KEY, body TEXT)");
    await engine.run("PRAGMA max_page_count = 6");
    const fill = (queries: Queries) => queries.run(`INSERT INTO evidence (body) VALUES ('${"x".repeat(30_000)}')`);
    await expect(engine.transaction(fill)).rejects.toThrow(named("StoreDiskFull", /disk is full/));
    await engine.transaction((queries) => queries.run("INSERT INTO evidence (body) VALUES ('fits')"));
  });
});

test("a folder that may not be written to is said to be so", async ({ skip }) => {
  const folder = freshFolder();
  const store = await openFor(folder);
  await store.append([headphone("a")]);
  await store.close();
  const sealed = readOnlyView(folder);
  if (!sealed) return skip("no right to mount a folder read-only here");
  await expect(openStore(sealed)).rejects.toThrow(named("StoreReadOnly", /right to write/));
  expect((await openFor(sealed, { write: false })).evidence()).toHaveLength(1);
});
