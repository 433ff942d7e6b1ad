import { createHash } from "node:crypto";
import { createWriteStream, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Readable } from "node:stream";
import { buffer } from "node:stream/consumers";
import { pipeline } from "node:stream/promises";
import { beforeAll, describe, expect, test } from "vitest";
import { fromBuffer } from "yauzl";
import { ZipFile } from "yazl";
import { archiveOf, type Manifest, manifestName } from "../src/exchange/archive.ts";
import { kinds } from "../src/exchange/columns.ts";
import { readCsv, writeCsv } from "../src/exchange/csv.ts";
import { entriesOf, tableOf } from "../src/exchange/entries.ts";
import { takeInArchive } from "../src/exchange/readArchive.ts";
import { eachEntry, streamOf } from "../src/exchange/zipGuard.ts";
import { openStore } from "../src/store/index.ts";
import { wholeWorkshop } from "../src/workshop/exchange/whole.ts";
import { keptFolder, serve, stillglow, temporaryFolder } from "./helpers.ts";
import { madeDemo, madeWithin_ms } from "./madeDemo.ts";

const now = "2027-07-08T12:00:00.000Z";

async function archived(folder: string, file: string): Promise<string> {
  const store = await openStore(folder, { write: false });
  try {
    await pipeline((await archiveOf(await wholeWorkshop(store))) as Readable, createWriteStream(file));
    return store.head();
  } finally {
    await store.close();
  }
}

/** The archive's parts, to be written again with something changed. */
async function partsOf(file: string): Promise<Map<string, Buffer>> {
  const parts = new Map<string, Buffer>();
  const zip = await new Promise<import("yauzl").ZipFile>((resolve, reject) =>
    fromBuffer(readFileSync(file), { lazyEntries: true }, (fault, opened) => (fault ? reject(fault) : resolve(opened))),
  );
  await eachEntry(zip, async (open, entry) => {
    parts.set(entry.fileName, await buffer((await streamOf(open, entry)) as Readable));
  });
  return parts;
}

async function rewritten(parts: ReadonlyMap<string, Buffer>): Promise<string> {
  const zip = new ZipFile();
  for (const [name, bytes] of parts) zip.addBuffer(bytes, name.replace("../", "xx/"));
  zip.end();
  const file = join(temporaryFolder(), "changed.zip");
  // No writer of archives writes a name that leads out of its folder; somebody with an editor does.
  const bytes = Buffer.from(
    (await buffer(zip.outputStream)).toString("latin1").replaceAll("xx/outside", "../outside"),
    "latin1",
  );
  writeFileSync(file, bytes);
  return file;
}

describe("the demo's whole workshop", () => {
  const folder = join(keptFolder(), "demo");
  beforeAll(() => void madeDemo(folder), madeWithin_ms);

  test("taken out, taken in elsewhere and taken out again is the same to the byte", { timeout: 120_000 }, async () => {
    const place = temporaryFolder();
    const head = await archived(folder, join(place, "first.zip"));
    const back = join(place, "back");
    expect(await takeInArchive(join(place, "first.zip"), back, now)).toMatchObject({ head });
    expect(await archived(back, join(place, "second.zip"))).toBe(head);
    expect(readFileSync(join(place, "second.zip")).equals(readFileSync(join(place, "first.zip")))).toBe(true);
  });

  test("every kind of evidence as CSV gives the same entries back", { timeout: 60_000 }, async () => {
    const store = await openStore(folder, { write: false });
    let seen = 0;
    for (const kind of kinds) {
      const entries = store.evidence({ kind });
      if (entries.length === 0) continue;
      const { head, rows } = tableOf(kind, entries);
      const read = readCsv(Buffer.from(writeCsv(head, rows)));
      const back = read.ok && entriesOf(kind, read.grid, { decimal: "point", instant: () => undefined });
      expect(back, kind).toMatchObject({ ok: true });
      expect(back ? back.ok && back.entries : undefined).toEqual(
        entries.map(({ id, at, by, body }) => ({ id, at, by, ...body })),
      );
      seen += entries.length;
    }
    expect(seen).toBe(store.evidence().length);
    await store.close();
  });
});

describe("a small workshop", () => {
  const line = (body: object) => JSON.stringify({ at: "2026-03-01T12:00:00.000Z", by: "wood", ...body });
  const shop = [
    line({ kind: "timber-place", place: "shelf", what: "room", faces: "both" }),
    ...["A-1", "A-2"].map((piece) =>
      line({
        kind: "blank",
        piece,
        rough: true,
        species: "white ash",
        length_mm: 900,
        width_mm: 180,
        thickness_mm: 27,
        ringAngle_deg: 30,
        place: "shelf",
        seller: "Harbour yard",
        papers: [],
      }),
    ),
    line({
      kind: "instrument",
      instrument: "scale",
      title: "Bench balance",
      trial: { reference: "check weight 1 kg", quantity: "mass_g", true: 1000, limit: 0.5 },
    }),
  ].join("\n");

  function started(): string {
    const folder = join(temporaryFolder(), "shop");
    expect(stillglow(["enter", "--data", folder], shop)).toMatchObject({ status: 0, stderr: "" });
    return folder;
  }

  test("masses from another program's table are taken in once, however often the file comes", () => {
    const folder = started();
    const file = join(temporaryFolder(), "masses.csv");
    writeFileSync(file, "Brett;Gramm;Zeit\r\nA-1;3192,5;2026-03-02 09:10\r\nA-2;3050;2026-03-02 09:12\r\n");
    const how = [
      "--kind",
      "weighing",
      "--decimal",
      "comma",
      "--by",
      "wood",
      "--fill",
      "instrument=scale",
      "--data",
      folder,
    ];
    const columns = ["--column", "Brett=piece", "--column", "Gramm=mass_g", "--column", "Zeit=at"];
    expect(stillglow(["import", file, ...how, ...columns, "--try"])).toMatchObject({ status: 0, stderr: "" });
    expect(stillglow(["import", file, ...how, ...columns])).toMatchObject({
      stdout: "2 entries taken in\n",
      stderr: "",
    });
    stillglow(["import", file, ...how, ...columns]);
    const out = join(temporaryFolder(), "out.csv");
    expect(stillglow(["export", "weighing", "--out", out, "--data", folder])).toMatchObject({ status: 0 });
    const rows = readFileSync(out, "utf8").trim().split("\r\n");
    expect(rows).toHaveLength(3);
    expect(rows[1]).toMatch(/,2026-03-02T09:10:00\+00:00,wood,A-1,3192.5,scale$/);
  });

  test("one row that does not fit the record is named by its row, and none is taken in", () => {
    const folder = started();
    const file = join(temporaryFolder(), "masses.csv");
    const rows = [
      "at,by,piece,mass_g,instrument",
      "2026-03-02 09:10,wood,A-1,3192,scale",
      "2026-03-02 09:12,wood,A-9,3050,scale",
    ];
    writeFileSync(file, rows.join("\n"));
    const ran = stillglow(["import", file, "--kind", "weighing", "--data", folder]);
    expect(ran).toMatchObject({ status: 2 });
    expect(ran.stderr).toContain("row 3, column piece");
    const out = join(temporaryFolder(), "out.json");
    stillglow(["export", "weighing", "--out", out, "--data", folder]);
    expect(JSON.parse(readFileSync(out, "utf8"))).toEqual([]);
  });

  test("the server gives lists, says what a file would bring and writes nothing of it", async () => {
    const folder = started();
    const { address } = await serve(["serve", "--data", folder, "--no-backup"]);
    const list = await fetch(`${address}/api/exchange/timber/csv`);
    expect(list.headers.get("content-disposition")).toBe('attachment; filename="timber.csv"');
    expect((await list.text()).split("\r\n")[1]).toMatch(/^A-1,white ash,900,180,27,30,shelf,/);
    const ask = async (query: string, body: string) => {
      const headers = { "content-type": "application/octet-stream", origin: address };
      return fetch(`${address}/api/exchange/look?${query}`, { method: "POST", headers, body });
    };
    const good = await ask("kind=weighing", "at,by,piece,mass_g,instrument\n2026-03-02 09:10,wood,A-1,3192,scale\n");
    expect(await good.json()).toMatchObject({ ok: true, lines: [2], entries: [{ piece: "A-1", mass_g: 3192 }] });
    const bad = await ask("kind=weighing", "at,by,piece,mass_g,instrument\n2026-03-02 09:10,wood,A-1,heavy,scale\n");
    expect(await bad.json()).toMatchObject({ ok: false, faults: [{ line: 2, column: "mass_g" }] });
    expect((await ask("kind=nonsense", "a\n1\n")).status).toBe(422);
    const all = (await (await fetch(`${address}/api/exchange`)).json()) as {
      kinds: { kind: string; entries: number }[];
    };
    expect(all.kinds.find(({ kind }) => kind === "weighing")?.entries).toBe(0);
  });

  test("an archive that is not ours, lost a part, was changed or is of a newer form is refused, and nothing is made", {
    timeout: 60_000,
  }, async () => {
    const folder = started();
    const file = join(temporaryFolder(), "shop.zip");
    expect(stillglow(["export", "--out", file, "--data", folder])).toMatchObject({ status: 0, stderr: "" });
    const parts = await partsOf(file);
    const manifest = JSON.parse(parts.get(manifestName)!.toString()) as Manifest;
    const changed = (name: string, to: string | undefined, told: object = manifest) => {
      const next = new Map(parts).set(manifestName, Buffer.from(JSON.stringify(told)));
      if (to === undefined) next.delete(name);
      else next.set(name, Buffer.from(to));
      return rewritten(next);
    };
    const chain = parts.get("evidence.jsonl")!.toString();
    const forged = chain.replace("white ash", "black cherry");
    const hashed = (text: string): Manifest => ({
      ...manifest,
      parts: { ...manifest.parts, "evidence.jsonl": createHash("sha256").update(text).digest("hex") },
    });
    const cases: readonly (readonly [Promise<string> | string, string])[] = [
      [rewritten(new Map([["readme.txt", Buffer.from("hello")]])), "an archive without stillglow.json"],
      [changed("evidence.jsonl", undefined), "not in the archive"],
      [changed("evidence.jsonl", chain.replace("white ash", "red oak")), "does not fit its hash"],
      [changed("evidence.jsonl", forged, hashed(forged)), "a chain that ends at"],
      [changed("evidence.jsonl", chain.replace(/\n.*\n$/, "\n")), "3 entries"],
      [changed("evidence.jsonl", chain.replace('"seq":2', '"seq":7')), "entry 7"],
      [changed("customers.json", '[{"customer":"c-1","name":"N","address":"A"}]'), "does not fit its hash"],
      [changed("x", "x", { ...manifest, form: 99 }), "form 99"],
      [
        changed("x", "x", { ...manifest, parts: { ...manifest.parts, "../outside": "0".repeat(64) } }),
        "not in the archive",
      ],
      [
        changed("../outside", "x", { ...manifest, parts: { ...manifest.parts, "../outside": "0".repeat(64) } }),
        "can't be read",
      ],
    ];
    for (const [made, words] of cases) {
      const target = join(temporaryFolder(), "new");
      const refused = takeInArchive(await made, target, now);
      await expect(refused, words).rejects.toThrow(words);
      expect(() => readFileSync(join(target, "stillglow.db"))).toThrow();
    }
    const torn = join(temporaryFolder(), "torn.zip");
    writeFileSync(torn, readFileSync(file).subarray(0, 900));
    await expect(takeInArchive(torn, join(temporaryFolder(), "new"), now)).rejects.toThrow("can't be read");
    await expect(takeInArchive(file, folder, now)).rejects.toThrow("nothing is overwritten");
  });
});
