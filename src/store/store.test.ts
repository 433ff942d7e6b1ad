import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { claimStates } from "../claims/index.ts";
import { Book, smallModel } from "../claims/testing/smallShop.ts";
import { sha256 } from "./chain.ts";
import { headphone, noon } from "./testing/entries.ts";
import { freshFolder, openFor } from "./testing/folder.ts";

/** What a book's entries were before the store had them. */
const handedIn = (book: Book) => book.entries.map(({ id, at, by, body }) => ({ id, at, by, ...body }));
const later = "2026-05-01T00:00:00.000Z";

test("what was acknowledged is there after closing and opening again", () => {
  const folder = freshFolder();
  const first = openFor(folder);
  const written = first.append([headphone("a"), headphone("b", { id: "mine" })]);
  const head = first.head();
  first.close();
  const second = openFor(folder);
  expect(second.evidence()).toEqual(written);
  expect(second.evidence().map(({ id, seq }) => [id, seq])).toEqual([
    ["e000001", 1],
    ["mine", 2],
  ]);
  expect(second.head()).toBe(head);
  expect(second.verify(head)).toMatchObject({ ok: true, entries: 2 });
});

test("entries are written all or none", () => {
  const folder = freshFolder();
  const store = openFor(folder);
  store.append([headphone("a")]);
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
  expect(() => store.append([headphone("b"), reading])).toThrow(
    expect.objectContaining({ path: "entries[1].subject.unit" }),
  );
  expect(store.evidence()).toHaveLength(1);
  expect(store.head()).toBe(head);
  expect([...store.shop.headphones.keys()]).toEqual(["a"]);
  store.append([headphone("c")]);
  expect(store.verify()).toMatchObject({ ok: true, entries: 2 });
});

test("a fault of shape names field, value and mend", () => {
  const store = openFor(freshFolder());
  const refused = (entry: object, path: string) =>
    expect(() => store.append([entry])).toThrow(expect.objectContaining({ name: "BadInput", path }));
  refused(headphone("a", { impedance_ohm: "3x" }), "entries[0].impedance_ohm");
  refused(headphone("a", { impedence_ohm: 3 }), "entries[0].impedence_ohm");
  refused(headphone("a", { at: "yesterday" }), "entries[0].at");
  refused(headphone("a", { at: "2026-03-01T12:02:00Z" }), "entries[0].at");
  refused(headphone("a", { kind: "headphones" }), "entries[0].kind");
  refused({ ...headphone("a"), at: undefined }, "entries[0].at");
  expect(store.evidence()).toEqual([]);
});

test("the time of writing never runs back, though the clock does", () => {
  let now = noon;
  const store = openFor(freshFolder(), { clock: () => now });
  store.append([headphone("a")]);
  now = "2026-02-01T00:00:00.000Z";
  store.append([headphone("b", { at: now })]);
  expect(store.evidence().map(({ recordedAt }) => recordedAt)).toEqual([noon, noon]);
  now = "2026-03-02T00:00:00.000Z";
  store.append([headphone("c")]);
  expect(store.evidence().at(-1)?.recordedAt).toBe(now);
});

test("equal histories make equal bytes", () => {
  const bytes = [1, 2].map(() => {
    const folder = freshFolder();
    const store = openFor(folder);
    for (let i = 0; i < 30; i += 1) store.append([headphone(`h${i}`)]);
    store.putRecording(Buffer.from("RIFF"));
    store.close();
    expect(readdirSync(folder).toSorted()).toEqual(["lock", "recordings", "stillglow.db"]);
    return readFileSync(join(folder, "stillglow.db"));
  });
  expect(bytes[0]!.equals(bytes[1]!)).toBe(true);
});

test("a recording is kept under its content and told missing when it is", () => {
  const store = openFor(freshFolder());
  const bytes = Buffer.from("RIFF and so on");
  const name = store.putRecording(bytes);
  expect(name).toBe(sha256(bytes));
  expect(store.putRecording(bytes)).toBe(name);
  expect(readFileSync(store.recordingPath(name))).toEqual(bytes);
  expect(() => store.recordingPath("f".repeat(64))).toThrow(expect.objectContaining({ name: "StoreMissing" }));
});

test("evidence can be asked for by kind, unit and place in the chain", () => {
  const store = openFor(freshFolder(), { clock: () => later });
  const book = Book.opened(["0101", "0102"]);
  book.read(1, "balance", { unit: "0101" });
  book.read(2, "balance", { unit: "0102" });
  store.append(handedIn(book));
  expect(store.evidence({ kind: "trial" })).toHaveLength(2);
  expect(store.evidence({ unit: "0102" }).map(({ body }) => body.kind)).toEqual(["order", "unit", "reading"]);
  expect(store.evidence({ since: book.entries.length - 1 })).toHaveLength(1);
});

test("a reader sees what the writer writes, and may not write", () => {
  const folder = freshFolder();
  const writer = openFor(folder);
  writer.append([headphone("a")]);
  const reader = openFor(folder, { write: false });
  expect(reader.evidence()).toHaveLength(1);
  writer.append([headphone("b")]);
  expect(reader.evidence()).toHaveLength(2);
  expect(reader.shop.headphones.size).toBe(2);
  expect(reader.head()).toBe(writer.head());
  expect(() => reader.append([headphone("c")])).toThrow(expect.objectContaining({ name: "StoreReadOnly" }));
});

test("what is cached is what would be computed, and is computed anew when the chain grows", () => {
  const folder = freshFolder();
  const store = openFor(folder, { clock: () => later });
  const book = Book.opened();
  store.append(handedIn(book));
  const states = () => claimStates(smallModel, store.shop.ledger, "0101", later);
  let computed = 0;
  const cached = () =>
    store.cached("claims 0101", () => {
      computed += 1;
      return states();
    });
  expect(cached()).toEqual(states());
  expect(cached()).toEqual(states());
  expect(computed).toBe(1);
  book.proveAll(1);
  store.append(handedIn(book).slice(store.evidence().length));
  expect(cached()).toEqual(states());
  expect(cached().every(({ state }) => state === "proven")).toBe(true);
  expect(computed).toBe(2);
  store.forgetCached();
  expect(cached()).toEqual(claimStates(smallModel, store.evidence(), "0101", later));
  expect(computed).toBe(3);
});

test("a release must rest on the newest hash, and a refused one leaves nothing behind", () => {
  const store = openFor(freshFolder(), { clock: () => later });
  const book = Book.opened();
  book.proveAll(1);
  store.append(handedIn(book));
  const release = (resting_sha256: string) => ({
    at: later,
    by: "owner",
    kind: "release",
    unit: "0101",
    version: "1",
    resting_sha256,
    claims: smallModel.claims.map(({ claim }) => ({ claim, state: "proven", figures: [] })),
  });
  expect(() => store.append([release("0".repeat(64))])).toThrow(
    expect.objectContaining({ path: "entries[0].resting_sha256" }),
  );
  expect(store.shop.isReleased("0101")).toBe(false);
  store.append([release(store.head())]);
  expect(store.shop.isReleased("0101")).toBe(true);
});

test("listeners hear of entries once they are on disk, and cannot undo them", () => {
  const store = openFor(freshFolder());
  const heard: string[] = [];
  store.subscribe(() => {
    throw new Error("a listener at fault");
  });
  const stop = store.subscribe((entries) => heard.push(...entries.map(({ id }) => id)));
  store.append([headphone("a")]);
  stop();
  store.append([headphone("b")]);
  expect(heard).toEqual(["e000001"]);
  expect(store.evidence()).toHaveLength(2);
});

test("a customer can be forgotten, down to the bytes of the file", () => {
  const folder = freshFolder();
  const store = openFor(folder);
  store.customers.put({ customer: "c1", name: "Somebody Unmistakable", address: "Far Away 1" });
  store.customers.put({ customer: "c1", name: "Somebody Unmistakable", address: "Far Away 2" });
  expect(store.customers.get("c1")?.address).toBe("Far Away 2");
  store.customers.forget("c1");
  expect(store.customers.all()).toEqual([]);
  store.close();
  expect(readFileSync(join(folder, "stillglow.db")).includes("Unmistakable")).toBe(false);
});
