import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "libsql";
import { expect, test } from "vitest";
import { sha256 } from "./chain.ts";
import { newestVersion } from "./migrations.ts";
import { openStore } from "./store.ts";
import { headphone } from "./testing/entries.ts";
import { freshFolder, openFor } from "./testing/folder.ts";

/** Ledgers as each version that changed the tables wrote them. */
const kept = join(import.meta.dirname, "testing", "versions");
const versions = readdirSync(kept).map((file) => Number(file.replace(".sql", "")));
const head = "42f85e8d801efb0ca61e351782dd51f0b5cb8a3ccf24c630b35e1cbb42f1335c";

function asWritten(version: number): string {
  const folder = freshFolder();
  const raw = new Database(join(folder, "stillglow.db"));
  raw.exec(readFileSync(join(kept, `${version}.sql`), "utf8"));
  raw.close();
  return folder;
}

test("the newest version's ledger is among them, and none newer", () => {
  expect(Math.max(...versions)).toBe(newestVersion);
});

test.each(versions)(
  "a ledger of version %i is brought up: same chain, same customers, and it goes on",
  async (version) => {
    const folder = asWritten(version);
    const store = await openFor(folder);
    expect(store.head()).toBe(head);
    expect(await store.verify(head)).toMatchObject({ ok: true, entries: 4 });
    expect([...store.shop.headphones.keys()]).toEqual(["a", "b", "c", "Żółw 'n' Grün"]);
    expect(await store.customers.all()).toEqual([
      { customer: "c1", name: "Quarrin Ness Reading Room", address: "1 Harbour Wall" },
    ]);
    await store.append([headphone("after")]);
    await expect(store.engine.run("DELETE FROM evidence")).rejects.toThrow(/append-only/);
    await store.close();
    expect(readdirSync(folder).toSorted()).toEqual(["lock", "stillglow.db"]);
  },
);

test("an older ledger that can't be brought up stays as it was, to the byte", async () => {
  const folder = asWritten(1);
  const file = join(folder, "stillglow.db");
  const raw = new Database(file);
  // Stands where a later version puts its own.
  raw.exec("CREATE TABLE person (anything TEXT)");
  raw.close();
  const before = sha256(readFileSync(file));
  await expect(openStore(folder)).rejects.toThrow();
  const after = new Database(file);
  expect(after.prepare("SELECT max(version) AS version FROM migration").all()).toEqual([{ version: 1 }]);
  expect(after.prepare("SELECT count(*) AS entries FROM evidence").all()).toEqual([{ entries: 4 }]);
  after.close();
  expect(sha256(readFileSync(file))).toBe(before);
  expect(readdirSync(folder).filter((name) => name.startsWith("stillglow"))).toEqual(["stillglow.db"]);
});

test("the copy of a raising that was cut off is cleared away, and it is done anew", async () => {
  const folder = asWritten(1);
  writeFileSync(join(folder, "stillglow.db.raised"), "half a copy");
  const store = await openFor(folder);
  expect(store.head()).toBe(head);
  expect(readdirSync(folder)).not.toContain("stillglow.db.raised");
});
