import { createWriteStream, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import type { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { placeOf } from "../exchange/grid.ts";
import { takeInArchive } from "../exchange/readArchive.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import type { FileIn, Looked } from "../workshop/exchange/desk.ts";
import { databaseOf, dataFolder, type FolderOption, openToRead } from "./workshopFolder.ts";
import { writer } from "./writer.ts";

interface ExportOptions extends FolderOption {
  readonly out?: string;
}

/** `stillglow export [WHAT]`: a list or a kind of evidence as a table; without a name, the whole workshop. */
export async function exportOut(what: string | undefined, { out, ...options }: ExportOptions): Promise<void> {
  const workshop = await openToRead(options);
  try {
    if (what === undefined) {
      const file = resolve(out ?? "workshop.zip");
      await whole(file, async (half) => pipeline((await workshop.archive()) as Readable, createWriteStream(half)));
      process.stdout.write(`${file}\n${workshop.head()}\n`);
      return;
    }
    const format = /\.([a-z]+)$/i.exec(out ?? "")?.[1]?.toLowerCase() ?? "csv";
    const { name, bytes } = await workshop.exchange.takeOut(what, format);
    const file = resolve(out ?? name);
    await whole(file, async (half) => writeFileSync(half, bytes));
    process.stdout.write(`${file}\n`);
  } finally {
    await workshop.close();
  }
}

/** Under its name only once it is whole. */
async function whole(file: string, write: (half: string) => Promise<void>): Promise<void> {
  const half = join(dirname(file), `.${process.pid}.half`);
  try {
    await write(half);
    renameSync(half, file);
  } catch (fault) {
    if (fault instanceof Error && "code" in fault && typeof fault.code === "string" && fault.code.startsWith("E"))
      throw new BadInput("--out", quote(file), `a file that can be written (${fault.code})`, "name another place");
    throw fault;
  } finally {
    rmSync(half, { force: true });
  }
}

interface ImportOptions extends FolderOption, Omit<FileIn, "called" | "fill"> {
  readonly kind?: string;
  readonly column?: readonly string[];
  readonly fill?: readonly string[];
  readonly by?: string;
  readonly try?: boolean;
  readonly json?: boolean;
}

/** `stillglow import FILE`: a whole workshop out of its archive, or with --kind a table of evidence. */
export async function importIn(file: string, options: ImportOptions): Promise<void> {
  const path = resolve(file);
  if (options.kind === undefined) return importWorkshop(path, options);
  const bytes = bytesOf(path);
  const { kind, decimal } = options;
  if (decimal !== undefined && decimal !== "point" && decimal !== "comma")
    throw new BadInput("--decimal", quote(decimal), "point or comma", "say which sign stands before the decimals");
  const reading: FileIn = {
    ...(decimal !== undefined && { decimal }),
    ...(options.encoding !== undefined && { encoding: options.encoding }),
    ...(options.sheet !== undefined && { sheet: options.sheet }),
    called: pairs("--column", options.column ?? []),
    fill: { ...pairs("--fill", options.fill ?? []), ...(options.by !== undefined && { by: options.by }) },
  };
  const workshop = await openToRead(options);
  let looked: Looked;
  try {
    looked = await workshop.exchange.look(kind, bytes, reading);
  } finally {
    await workshop.close();
  }
  if (!looked.ok) {
    for (const fault of looked.faults.slice(0, 40)) {
      process.stderr.write(`${placeOf(fault)}: ${fault.given}; ${fault.allowed}; ${fault.mend}\n`);
    }
    const { length } = looked.faults;
    throw new BadInput(
      quote(file),
      `${length} ${length === 1 ? "fault" : "faults"}`,
      "a table without one",
      "mend what is named above; nothing was taken in",
    );
  }
  const { entries, lines } = looked;
  if (options.try) {
    process.stdout.write(
      options.json
        ? `${JSON.stringify(entries)}\n`
        : `${entries.length} entries could be taken in; nothing was written\n`,
    );
    return;
  }
  const door = await writer(options);
  try {
    const written = await door.enter(entries).catch((fault: unknown) => {
      throw fault instanceof BadInput ? atRow(fault, lines) : fault;
    });
    if (options.json) process.stdout.write(`${JSON.stringify(written)}\n`);
    else process.stdout.write(`${written.length} ${written.length === 1 ? "entry" : "entries"} taken in\n`);
  } finally {
    await door.close();
  }
}

/** The store names an entry by its place in the list; whoever has the file looks for its row. */
function atRow(fault: BadInput, lines: readonly number[]): BadInput {
  const named = /^entries\[(\d+)\]\.?(.*)$/.exec(fault.path);
  const line = named ? lines[Number(named[1])] : undefined;
  if (!named || line === undefined) return fault;
  return BadInput.at(placeOf({ line, ...(named[2] && { column: named[2] }) }), fault);
}

async function importWorkshop(path: string, options: ImportOptions): Promise<void> {
  if (databaseOf(options) !== undefined) {
    throw new BadInput(
      "--database",
      "a shared database",
      "a new data folder",
      "take the workshop into a folder first, then move it",
    );
  }
  bytesThere(path);
  const folder = dataFolder(options);
  const { entries, head } = await takeInArchive(path, folder, new Date().toISOString());
  process.stdout.write(`${folder}\nwhole: ${entries} ${entries === 1 ? "entry" : "entries"}, ending at ${head}\n`);
}

const most_bytes = 64 * 2 ** 20;

function bytesThere(path: string): number {
  try {
    const stat = statSync(path);
    if (stat.isFile()) return stat.size;
  } catch {
    // Said below, as of a folder.
  }
  throw new BadInput("file", quote(path), "a file that is there", "check the path");
}

function bytesOf(path: string): Buffer {
  const size = bytesThere(path);
  if (size > most_bytes)
    throw new BadInput(
      "file",
      `${size} bytes`,
      `at most ${most_bytes} bytes`,
      "split it, or take the archive in without --kind",
    );
  return readFileSync(path);
}

function pairs(option: string, given: readonly string[]): Readonly<Record<string, string>> {
  return Object.fromEntries(
    given.map((pair) => {
      const cut = pair.indexOf("=");
      if (cut < 1) throw new BadInput(option, quote(pair), "NAME=VALUE", "write it with an equals sign");
      return [pair.slice(0, cut), pair.slice(cut + 1)];
    }),
  );
}
