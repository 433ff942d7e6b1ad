import { type Entry, fromBuffer, type ZipFile } from "yauzl";
import { BadInput } from "../maths/badInput.ts";

const most_entries = 5000;

/**
 * Opens every entry of a zip archive in memory and lets it through only when all of it is no larger than it may be: an
 * archive can say one size and hold another, or a thousandfold of its own.
 *
 * @throws BadInput  naming what is wrong with the archive
 */
export async function guardZip(bytes: Buffer, most_bytes: number): Promise<void> {
  let total = 0;
  let entries = 0;
  await eachEntry(await opened(bytes), async (zip, entry) => {
    entries += 1;
    total += entry.uncompressedSize;
    if (entries > most_entries || total > most_bytes) {
      throw new BadInput(
        "file",
        `an archive of ${entries} parts and over ${Math.round(total / 2 ** 20)} MiB once opened`,
        `at most ${most_entries} parts and ${Math.round(most_bytes / 2 ** 20)} MiB`,
        "save less in one file",
      );
    }
    for await (const _chunk of await streamOf(zip, entry)) {
      // The reader itself refuses an entry that holds more or less than it says.
    }
  }).catch((fault: unknown) => {
    throw fault instanceof BadInput ? fault : broken(fault);
  });
}

function opened(bytes: Buffer): Promise<ZipFile> {
  return new Promise((resolve, reject) => {
    fromBuffer(bytes, { lazyEntries: true, validateEntrySizes: true }, (fault, zip) =>
      fault ? reject(broken(fault)) : resolve(zip),
    );
  });
}

/** Goes through the entries of an open archive one after the other, then lets go of it. */
export function eachEntry(zip: ZipFile, use: (zip: ZipFile, entry: Entry) => Promise<void>): Promise<void> {
  return new Promise((resolve, reject) => {
    const stop = (fault: unknown) => {
      zip.close();
      reject(fault);
    };
    zip.on("error", stop);
    zip.on("end", () => resolve());
    zip.on("entry", (entry: Entry) => {
      use(zip, entry).then(() => zip.readEntry(), stop);
    });
    zip.readEntry();
  });
}

export function streamOf(zip: ZipFile, entry: Entry): Promise<NodeJS.ReadableStream> {
  return new Promise((resolve, reject) => {
    zip.openReadStream(entry, (fault, stream) => (fault ? reject(fault) : resolve(stream)));
  });
}

export function broken(fault: unknown): BadInput {
  const what = fault instanceof Error ? fault.message : String(fault);
  return new BadInput(
    "file",
    `an archive that can't be read (${what.slice(0, 120)})`,
    "a whole archive",
    "save or copy it again",
  );
}
