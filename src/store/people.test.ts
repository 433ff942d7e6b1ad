import { readFileSync } from "node:fs";
import { join } from "node:path";
import Database from "libsql";
import { describe, expect, test } from "vitest";
import { People } from "./people.ts";
import { freshFolder, openFor } from "./testing/folder.ts";
import { freshPlace, kinds, openAt, tablesAt } from "./testing/places.ts";

describe.each(kinds)("people kept in %s", (kind) => {
  test("are forgotten with their sessions, down to the bytes of the tables", async () => {
    const place = await freshPlace(kind);
    const store = await openAt(place);
    const people = new People(store.engine);
    await people.put({ person: "bench-2", name: "Somebody Unmistakable", secret: "scrypt$4$8$1$c2FsdA$a2V5cw" });
    await people.put({ person: "owner", name: "The owner", secret: "scrypt$4$8$1$c2FsdA$b3duZXI" });
    await people.put({ person: "bench-2", name: "Somebody Unmistakable", secret: "scrypt$5$8$1$c2FsdA$bmV3ZXI" });
    expect((await people.get("bench-2"))?.secret).toBe("scrypt$5$8$1$c2FsdA$bmV3ZXI");
    const session = (token_sha256: string, person: string, begun_at: string, seen_at = begun_at) =>
      people.beginSession({ token_sha256, person, begun_at, seen_at });
    await session("unmistakable-token-hash", "bench-2", "2027-01-04T09:00:00.000Z");
    await session("b", "bench-2", "2027-01-04T10:00:00.000Z");
    await session("c", "owner", "2027-01-01T09:00:00.000Z", "2027-01-04T10:30:00.000Z");
    await session("d", "owner", "2027-01-04T08:00:00.000Z");
    await people.seeSession("unmistakable-token-hash", "2027-01-04T11:00:00.000Z");
    await people.dropSessions("2027-01-04T08:30:00.000Z", "2027-01-02T00:00:00.000Z");
    expect((await people.sessions()).map(({ token_sha256 }) => token_sha256)).toEqual(["unmistakable-token-hash", "b"]);
    expect((await people.session("unmistakable-token-hash"))?.seen_at).toBe("2027-01-04T11:00:00.000Z");
    await people.endSession("b");
    expect(await people.session("b")).toBeUndefined();

    await people.forget("bench-2");
    expect(await people.get("bench-2")).toBeUndefined();
    expect((await people.all()).map(({ person }) => person)).toEqual(["owner"]);
    expect(await people.sessions()).toEqual([]);
    await store.close();
    const bytes = await tablesAt(place);
    for (const words of ["Unmistakable", "unmistakable-token-hash", "bmV3ZXI", "a2V5cw"]) {
      expect(bytes.includes(words), words).toBe(false);
    }
    expect(bytes.includes("The owner")).toBe(true);
  });
});

test("an erasure says so when a reader keeps the log, and is whole when it is done again", async () => {
  const folder = freshFolder();
  const store = await openFor(folder);
  await store.customers.put({ customer: "c1", name: "Somebody Unmistakable", address: "Far Away 1" });
  const reader = new Database(join(folder, "stillglow.db"));
  reader.exec("BEGIN");
  reader.prepare("SELECT * FROM customer").all();
  await expect(store.customers.forget("c1")).rejects.toThrow(/log that still holds it can't be emptied/);
  expect(await store.customers.get("c1")).toBeUndefined();
  expect(readFileSync(join(folder, "stillglow.db-wal")).includes("Unmistakable")).toBe(true);
  reader.exec("ROLLBACK");
  reader.close();
  await store.customers.forget("c1");
  for (const file of ["stillglow.db", "stillglow.db-wal"]) {
    expect(readFileSync(join(folder, file)).includes("Unmistakable"), file).toBe(false);
  }
});
