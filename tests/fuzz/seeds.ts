import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Readable } from "node:stream";
import { buffer } from "node:stream/consumers";
import { fromBuffer } from "yauzl";
import { ZipFile } from "yazl";
import { encodeWav } from "../../src/bench/encodeWav.ts";
import { calculationNamed, calculations } from "../../src/calculations/list.ts";
import { Book } from "../../src/claims/testing/smallShop.ts";
import { archiveOf } from "../../src/exchange/archive.ts";
import { writeCsv } from "../../src/exchange/csv.ts";
import { writeWorkbook } from "../../src/exchange/workbook.ts";
import { eachEntry, streamOf } from "../../src/exchange/zipGuard.ts";
import type { Random } from "../../src/maths/random.ts";
import { openStore } from "../../src/store/index.ts";
import { headphone } from "../../src/store/testing/entries.ts";
import { wholeWorkshop } from "../../src/workshop/exchange/whole.ts";
import { mutated, mutatedBytes } from "./mutate.ts";
import { quickInputs } from "./quickInputs.ts";
import { copyStands, type ReaderName, type Trial } from "./trial.ts";

/** Something that is made trials of: a valid beginning, and how to change one. */
export interface Source {
  readonly of: string;
  readonly seeds: readonly Trial[];
  change(trial: Trial, draw: Random): Promise<Trial> | Trial;
}

export async function calculationSources(): Promise<Source[]> {
  return Promise.all(
    Object.keys(calculations).map(async (name): Promise<Source> => {
      const { example } = (await calculationNamed(name))!;
      return {
        of: name,
        seeds: [...(quickInputs[name] ?? []), example].map((input) => ({ of: "calculation", name, input })),
        change: (trial, draw) => (trial.of === "calculation" ? { ...trial, input: mutated(trial.input, draw) } : trial),
      };
    }),
  );
}

const bytesOf = (text: string) => Buffer.from(text);

/** @param room  an empty folder for what must be made on the way */
export async function readerSources(room: string): Promise<Source[]> {
  const csv = `0${writeCsv(
    ["at", "by", "piece", "mass_g", "instrument"],
    Array.from({ length: 12 }, (_, i) => [`2026-03-01T12:${10 + i}:00Z`, "wood", `B-${i}`, 1000.5 - i, "balance-1"]),
  )}`;
  const sheet = await writeWorkbook(
    {
      name: "weighing",
      head: ["at", "by", "piece", "mass_g"],
      rows: [["2026-03-01T12:00:00Z", "wood", "B-1", 1000.5]],
    },
    new Date(0),
  );
  const { archive, entries } = await smallArchive(room);
  const described = join(import.meta.dirname, "..", "..", "reference", "instruments");
  return [
    bytesSource("wav", wavs(), 64),
    bytesSource("table", [bytesOf(csv), Buffer.concat([bytesOf("0"), sheet])], 400, zipTable),
    bytesSource("readings file", [bytesOf("valve;plate_mA;gm_mS\nV-1;5,1;2,2\nV-2;4,9;2,1\n")], 80),
    bytesSource("archive", [archive], archive.length, zipWhole),
    jsonSource("backup's note", [
      {
        kind: "stillglow backup",
        made: "2026-03-01T12:00:00.000Z",
        entries: copyStands.entries,
        head: copyStands.head,
        database_sha256: copyStands.sha256,
        recordings: [],
        photos: [],
      },
      {
        kind: "stillglow backup",
        made: "2026-03-01T12:00:00.000Z",
        entries: copyStands.entries,
        head: copyStands.head,
        database_sha256: copyStands.sha256,
        recordings: [`${"a".repeat(64)}.wav`],
        photos: [],
      },
    ]),
    jsonSource(
      "instrument's description",
      readdirSync(described).map((file) => JSON.parse(readFileSync(join(described, file), "utf8"))),
    ),
    jsonSource("evidence over HTTP", [
      { entries: [headphone("a")] },
      ...entries.map((entry) => ({ entries: [entry] })),
    ]),
    bytesSource(
      "any route over HTTP",
      [
        "G/api/workshop\n",
        "G/api/units/0101\n",
        "G/api/evidence?kind=reading&since=0\n",
        "G/api/exchange/valves/csv\n",
        `G/api/recordings/${"a".repeat(64)}/spectrum?from_s=0\n`,
        'P/api/calc/timber.emc\n{"temperature_C":21.1,"humidity_pct":50}',
        'P/api/units/0101/release\n{"by":"owner"}',
      ].map(bytesOf),
      60,
    ),
  ];
}

/** Turns JSON by its members, and now and then by its bytes. */
function jsonSource(name: ReaderName, values: readonly unknown[]): Source {
  return {
    of: name,
    seeds: values.map((value) => ({ of: "reader", name, bytes: bytesOf(JSON.stringify(value)) })),
    change(trial, draw) {
      if (trial.of !== "reader") return trial;
      if (name !== "instrument's description" && draw.uniform() < 0.1)
        return { ...trial, bytes: mutatedBytes(trial.bytes, draw) };
      let value: unknown;
      try {
        value = JSON.parse(Buffer.from(trial.bytes).toString("utf8"));
      } catch {
        return trial;
      }
      return { ...trial, bytes: bytesOf(JSON.stringify(mutated(value, draw)) ?? "null") };
    },
  };
}

type Inner = (bytes: Buffer, draw: Random) => Promise<Buffer>;

function bytesSource(name: ReaderName, seeds: readonly Uint8Array[], head: number, inner?: Inner): Source {
  return {
    of: name,
    seeds: seeds.map((bytes) => ({ of: "reader", name, bytes })),
    async change(trial, draw) {
      if (trial.of !== "reader") return trial;
      // Past the wrapping: what is inside an archive is changed, and wrapped soundly again.
      if (inner && draw.uniform() < 0.6) {
        try {
          return { ...trial, bytes: await inner(Buffer.from(trial.bytes), draw) };
        } catch {
          // It was no archive any more.
        }
      }
      return { ...trial, bytes: mutatedBytes(trial.bytes, draw, head) };
    },
  };
}

function wavs(): Uint8Array[] {
  const samples = [0.3, 0.2].map((level) => Float64Array.from({ length: 400 }, (_, i) => level * Math.sin(i / 7)));
  return [
    encodeWav(48_000, samples),
    encodeWav(48_000, samples, { encoding: "float32" } as never),
    encodeWav(96_000, [samples[0]!], { extensible: true }),
    encodeWav(48_000, samples, { rf64: true }),
  ];
}

async function smallArchive(room: string): Promise<{ archive: Buffer; entries: readonly object[] }> {
  const store = await openStore(room, { clock: () => "2026-04-01T12:00:00.000Z" });
  try {
    const entries = Book.opened().entries.map(({ id, at, by, body }) => ({ id, at, by, ...body }));
    await store.append(entries);
    await store.customers.put({ customer: "c-7", name: "Reading Room", address: "1 Harbour Wall" });
    return { archive: await buffer((await archiveOf(await wholeWorkshop(store))) as Readable), entries };
  } finally {
    await store.close();
  }
}

async function partsOf(bytes: Buffer): Promise<Map<string, Buffer>> {
  const parts = new Map<string, Buffer>();
  const zip = await new Promise<import("yauzl").ZipFile>((resolve, reject) =>
    fromBuffer(bytes, { lazyEntries: true }, (fault, opened) => (fault ? reject(fault) : resolve(opened))),
  );
  await eachEntry(zip, async (open, entry) => {
    parts.set(entry.fileName, await buffer((await streamOf(open, entry)) as Readable));
  });
  return parts;
}

function zipped(parts: ReadonlyMap<string, Buffer>): Promise<Buffer> {
  const zip = new ZipFile();
  for (const [name, bytes] of parts) zip.addBuffer(bytes, name);
  zip.end();
  return buffer(Readable.from(zip.outputStream));
}

const zipWhole: Inner = async (bytes, draw) => {
  const parts = await partsOf(bytes);
  const names = [...parts.keys()];
  const name = names[draw.integer(names.length)]!;
  parts.set(name, changedText(parts.get(name)!, draw));
  return zipped(parts);
};

const zipTable: Inner = async (bytes, draw) =>
  Buffer.concat([bytes.subarray(0, 1), await zipWhole(bytes.subarray(1), draw)]);

/** Text by its lines of JSON where it is such, else by its bytes. */
function changedText(part: Buffer, draw: Random): Buffer {
  const lines = part.toString("utf8").split("\n");
  const at = draw.integer(lines.length);
  try {
    lines[at] = JSON.stringify(mutated(JSON.parse(lines[at]!), draw)) ?? "";
    return Buffer.from(lines.join("\n"));
  } catch {
    return mutatedBytes(part, draw);
  }
}
