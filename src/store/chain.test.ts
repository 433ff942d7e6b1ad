import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "libsql";
import { describe, expect, test } from "vitest";
import { Book } from "../claims/testing/smallShop.ts";
import { canonicalJson, chainStart, linkHash, sha256 } from "./chain.ts";
import { headphone, noon } from "./testing/entries.ts";
import { freshFolder, openFor } from "./testing/folder.ts";

describe("canonical JSON", () => {
  test("orders members, leaves out what is undefined, and keeps lists as they are", () => {
    expect(canonicalJson({ b: [3, 1, { d: null, c: "ä" }], a: undefined, A: -0, "": 1e21 })).toBe(
      '{"":1e+21,"A":0,"b":[3,1,{"c":"ä","d":null}]}',
    );
  });

  // source: FIPS 180-4 example, SHA-256("abc")
  test("hashes as SHA-256", () => {
    expect(sha256("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  });

  // source: `printf '%s' '{"at":…}' | sha256sum`, run outside the project
  test("links an entry to the one before", () => {
    const body = { kind: "headphone", headphone: "h", impedance_ohm: 32, sensitivity_dB_per_V: 110 } as const;
    expect(linkHash(chainStart, { id: "a", at: noon, recordedAt: noon, by: "bench", body })).toBe(
      "f159b403f03f34cd9118038bd0a66f4c1ad18c08b32e4f1a1a6da7ec35718594",
    );
  });
});

/** A chain of five, closed, and a way to work on its file behind the store's back. */
async function tampered(work: (raw: Database.Database, folder: string) => void) {
  const folder = freshFolder();
  const store = await openFor(folder);
  for (const name of ["a", "b", "c", "d", "e"]) await store.append([headphone(name)]);
  const head = store.head();
  await store.close();
  const raw = new Database(join(folder, "stillglow.db"));
  work(raw, folder);
  raw.close();
  return (await openFor(folder)).verify(head);
}
const withoutGuards = (sql: string) => (raw: Database.Database) => {
  for (const guard of ["is_never_edited", "is_never_deleted", "grows_at_its_end"])
    raw.exec(`DROP TRIGGER evidence_${guard}`);
  raw.exec(sql);
};

describe("the guards of the database", () => {
  test.each([
    ["an edit", "UPDATE evidence SET at = 'x' WHERE seq = 2"],
    ["a deletion", "DELETE FROM evidence WHERE seq = 5"],
    ["a replacement", "INSERT OR REPLACE INTO evidence SELECT * FROM evidence WHERE seq = 5"],
    [
      "a replacement by id at the end",
      "INSERT OR REPLACE INTO evidence SELECT 6, id, at, recorded_at, by, kind, unit, valve, instrument, body, sha256, sha256 FROM evidence WHERE seq = 5",
    ],
    [
      "an entry past a gap",
      "INSERT INTO evidence SELECT 7, 'new', at, recorded_at, by, kind, unit, valve, instrument, body, sha256, sha256 FROM evidence WHERE seq = 5",
    ],
    [
      "an entry tied to none",
      "INSERT INTO evidence SELECT 6, 'new', at, recorded_at, by, kind, unit, valve, instrument, body, prev_sha256, sha256 FROM evidence WHERE seq = 5",
    ],
  ])("refuse %s", async (_, sql) => {
    const verified = await tampered((raw) => {
      expect(() => raw.exec(sql)).toThrow(/append-only/);
    });
    expect(verified).toMatchObject({ ok: true, entries: 5 });
  });
});

describe("verification, the guards taken away", () => {
  test.each([
    ["an edited body", `UPDATE evidence SET body = replace(body, '110', '111') WHERE seq = 3`, 3, "edited"],
    ["an edited time", `UPDATE evidence SET at = '2026-03-01T11:00:00Z' WHERE seq = 2`, 2, "edited"],
    ["an edited index", `UPDATE evidence SET unit = '0231' WHERE seq = 4`, 4, "index"],
    ["a body that is no JSON", `UPDATE evidence SET body = '{' WHERE seq = 4`, 4, "JSON"],
    ["a row taken out", `DELETE FROM evidence WHERE seq = 2`, 3, "entry 2 is missing"],
    ["a tail cut off", `DELETE FROM evidence WHERE seq > 3`, 3, "tail was cut"],
    ["a hash exchanged", `UPDATE evidence SET sha256 = prev_sha256 WHERE seq = 5`, 5, "edited"],
  ])("names %s", async (name, sql, seq, problem) => {
    if (name === "a body that is no JSON") return expectUnreadable(sql);
    expect(await tampered(withoutGuards(sql))).toMatchObject({
      ok: false,
      seq,
      problem: expect.stringContaining(problem),
    });
  });

  async function expectUnreadable(sql: string) {
    await expect(tampered(withoutGuards(sql))).rejects.toThrow(
      expect.objectContaining({ name: "StoreCorrupted", message: expect.stringContaining("entry 4") }),
    );
  }

  test("an intact chain that grew since still holds the kept hash", async () => {
    const folder = freshFolder();
    const store = await openFor(folder);
    await store.append([headphone("a")]);
    const kept = store.head();
    await store.append([headphone("b")]);
    expect(await store.verify(kept)).toMatchObject({ ok: true, entries: 2 });
    expect(await store.verify("f".repeat(64))).toMatchObject({ ok: false });
  });

  test("names the entry whose recording was changed or lost", async () => {
    const folder = freshFolder();
    const store = await openFor(folder, { clock: () => "2026-05-01T00:00:00.000Z" });
    const file_sha256 = await store.putRecording(Buffer.from("RIFF"));
    const book = Book.opened();
    const id = book.write(1, {
      kind: "recording",
      unit: "0101",
      recording: "r1",
      file_sha256,
      fullScale_Vpk: 1,
      channels: ["left"],
      supply: { source: "building", frequency_Hz: 50 },
      building_Hz: 50,
      valves: { V1: "N1", V2: "T1" },
      input: "shorted",
      instrument: "recorder",
    });
    await store.append(book.entries.map(({ id: name, at, by, body }) => ({ id: name, at, by, ...body })));
    expect(await store.verify()).toMatchObject({ ok: true, recordings: 1 });
    writeFileSync(store.recordingPath(file_sha256), "RIFX");
    expect(await store.verify()).toMatchObject({ ok: false, id, problem: expect.stringContaining("changed") });
    expect(await store.putRecording(Buffer.from("RIFF"))).toBe(file_sha256);
    expect(await store.verify()).toMatchObject({ ok: true });
    rmSync(store.recordingPath(file_sha256));
    expect(await store.verify()).toMatchObject({ ok: false, id, problem: expect.stringContaining("missing") });
  });
});
