import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { claimStates } from "../claims/index.ts";
import { Book, smallModel } from "../claims/testing/smallShop.ts";
import { sha256 } from "./chain.ts";
import { headphone, noon } from "./testing/entries.ts";
import { freshFolder, openFor } from "./testing/folder.ts";
import { freshPlace, kinds, openAt, tablesAt } from "./testing/places.ts";

/** What a book's entries were before the store had them. */
const handedIn = (book: Book) => book.entries.map(({ id, at, by, body }) => ({ id, at, by, ...body }));
const later = "2026-05-01T00:00:00.000Z";

describe.each(kinds)("kept in %s", (kind) => {
  test("what was acknowledged is there after closing and opening again", async () => {
    const at = await freshPlace(kind);
    const first = await openAt(at);
    const written = await first.append([headphone("a"), headphone("b", { id: "mine" })]);
    const head = first.head();
    await first.close();
    const second = await openAt(at);
    expect(second.evidence()).toEqual(written);
    expect(second.evidence().map(({ id, seq }) => [id, seq])).toEqual([
      ["e000001", 1],
      ["mine", 2],
    ]);
    expect(second.head()).toBe(head);
    expect(await second.verify(head)).toMatchObject({ ok: true, entries: 2 });
  });

  test("entries are written all or none", async () => {
    const at = await freshPlace(kind);
    const store = await openAt(at);
    await store.append([headphone("a")]);
    const head = store.head();
    const reading = {
      at: noon,
      by: "bench",
      kind: "reading",
      subject: { unit: "none" },
      quantity: "gain_dB",
      value: 1,
      doubt: 1,
      instrument: "m",
    };
    await expect(store.append([headphone("b"), reading])).rejects.toThrow(
      expect.objectContaining({ path: "entries[1].subject.unit" }),
    );
    expect(store.evidence()).toHaveLength(1);
    expect(store.head()).toBe(head);
    expect([...store.shop.headphones.keys()]).toEqual(["a"]);
    await store.append([headphone("c")]);
    expect(await store.verify()).toMatchObject({ ok: true, entries: 2 });
  });

  test("a fault of shape names field, value and mend", async () => {
    const store = await openAt(await freshPlace(kind));
    const refused = (entry: object, path: string) =>
      expect(store.append([entry])).rejects.toThrow(expect.objectContaining({ name: "BadInput", path }));
    await refused(headphone("a", { impedance_ohm: "3x" }), "entries[0].impedance_ohm");
    await refused(headphone("a", { impedence_ohm: 3 }), "entries[0].impedence_ohm");
    await refused(headphone("a", { at: "yesterday" }), "entries[0].at");
    await refused(headphone("a", { at: "2026-03-01T12:02:00Z" }), "entries[0].at");
    await refused(headphone("a", { kind: "headphones" }), "entries[0].kind");
    await refused({ ...headphone("a"), at: undefined }, "entries[0].at");
    expect(store.evidence()).toEqual([]);
  });

  test("the time of writing never runs back, though the clock does", async () => {
    let now = noon;
    const store = await openAt(await freshPlace(kind), { clock: () => now });
    await store.append([headphone("a")]);
    now = "2026-02-01T00:00:00.000Z";
    await store.append([headphone("b", { at: now })]);
    expect(store.evidence().map(({ recordedAt }) => recordedAt)).toEqual([noon, noon]);
    now = "2026-03-02T00:00:00.000Z";
    await store.append([headphone("c")]);
    expect(store.evidence().at(-1)?.recordedAt).toBe(now);
  });

  test("a recording is kept under its content and told missing when it is", async () => {
    const store = await openAt(await freshPlace(kind));
    const bytes = Buffer.from("RIFF and so on");
    const name = await store.putRecording(bytes);
    expect(name).toBe(sha256(bytes));
    expect(await store.putRecording(bytes)).toBe(name);
    expect(readFileSync(store.recordingPath(name))).toEqual(bytes);
    expect(() => store.recordingPath("f".repeat(64))).toThrow(expect.objectContaining({ name: "StoreMissing" }));
  });

  test("evidence can be asked for by kind, unit and place in the chain", async () => {
    const store = await openAt(await freshPlace(kind), { clock: () => later });
    const book = Book.opened(["0101", "0102"]);
    book.read(1, "balance", { unit: "0101" });
    book.read(2, "balance", { unit: "0102" });
    await store.append(handedIn(book));
    expect(store.evidence({ kind: "trial" })).toHaveLength(2);
    expect(store.evidence({ unit: "0102" }).map(({ body }) => body.kind)).toEqual(["order", "unit", "reading"]);
    expect(store.evidence({ since: book.entries.length - 1 })).toHaveLength(1);
  });

  test("a reader sees what the writer writes, and may not write", async () => {
    const at = await freshPlace(kind);
    const writer = await openAt(at);
    await writer.append([headphone("a")]);
    const reader = await openAt(at, { write: false });
    expect(reader.evidence()).toHaveLength(1);
    await writer.append([headphone("b")]);
    await reader.current();
    expect(reader.evidence()).toHaveLength(2);
    expect(reader.shop.headphones.size).toBe(2);
    expect(reader.head()).toBe(writer.head());
    await expect(reader.append([headphone("c")])).rejects.toThrow(expect.objectContaining({ name: "StoreReadOnly" }));
  });

  test("what is cached is what would be computed, and is computed anew when the chain grows", async () => {
    const at = await freshPlace(kind);
    const store = await openAt(at, { clock: () => later });
    const book = Book.opened();
    await store.append(handedIn(book));
    const states = () => claimStates(smallModel, store.shop.ledger, "0101", later);
    let computed = 0;
    const cached = () =>
      store.cached("claims 0101", () => {
        computed += 1;
        return states();
      });
    expect(await cached()).toEqual(states());
    expect(await cached()).toEqual(states());
    expect(computed).toBe(1);
    book.proveAll(1);
    await store.append(handedIn(book).slice(store.evidence().length));
    expect(await cached()).toEqual(states());
    expect((await cached()).every(({ state }) => state === "proven")).toBe(true);
    expect(computed).toBe(2);
    await store.forgetCached();
    expect(await cached()).toEqual(claimStates(smallModel, store.evidence(), "0101", later));
    expect(computed).toBe(3);
  });

  test("a release must rest on the newest hash, and a refused one leaves nothing behind", async () => {
    const store = await openAt(await freshPlace(kind), { clock: () => later });
    const book = Book.opened();
    book.proveAll(1);
    await store.append(handedIn(book));
    const release = (resting_sha256: string) => ({
      at: later,
      by: "owner",
      kind: "release",
      unit: "0101",
      version: "1",
      resting_sha256,
      claims: smallModel.claims.map(({ claim }) => ({ claim, state: "proven", figures: [] })),
    });
    await expect(store.append([release("0".repeat(64))])).rejects.toThrow(
      expect.objectContaining({ path: "entries[0].resting_sha256" }),
    );
    expect(store.shop.isReleased("0101")).toBe(false);
    await store.append([release(store.head())]);
    expect(store.shop.isReleased("0101")).toBe(true);
  });

  test("listeners hear of entries once they are on disk, and cannot undo them", async () => {
    const store = await openAt(await freshPlace(kind));
    const heard: string[] = [];
    store.subscribe(() => {
      throw new Error("a listener at fault");
    });
    const stop = store.subscribe((entries) => heard.push(...entries.map(({ id }) => id)));
    await store.append([headphone("a")]);
    stop();
    await store.append([headphone("b")]);
    expect(heard).toEqual(["e000001"]);
    expect(store.evidence()).toHaveLength(2);
  });

  test("a customer can be forgotten, down to the bytes of the file", async () => {
    const at = await freshPlace(kind);
    const store = await openAt(at);
    await store.customers.put({ customer: "c1", name: "Somebody Unmistakable", address: "Far Away 1" });
    await store.customers.put({ customer: "c1", name: "Somebody Unmistakable", address: "Far Away 2" });
    expect((await store.customers.get("c1"))?.address).toBe("Far Away 2");
    await store.customers.forget("c1");
    expect(await store.customers.all()).toEqual([]);
    await store.close();
    const bytes = await tablesAt(at);
    expect(bytes.includes("customer")).toBe(true);
    expect(bytes.includes("Unmistakable")).toBe(false);
  });
});

test("equal histories make equal bytes", async () => {
  const histories = [1, 2].map(async () => {
    const folder = freshFolder();
    const store = await openFor(folder);
    for (let i = 0; i < 30; i += 1) await store.append([headphone(`h${i}`)]);
    await store.putRecording(Buffer.from("RIFF"));
    await store.close();
    expect(readdirSync(folder).toSorted()).toEqual(["lock", "recordings", "stillglow.db"]);
    return readFileSync(join(folder, "stillglow.db"));
  });
  const bytes = await Promise.all(histories);
  expect(bytes[0]!.equals(bytes[1]!)).toBe(true);
});
