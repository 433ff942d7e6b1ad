import { createHash, randomUUID } from "node:crypto";
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readSync,
  renameSync,
  rmSync,
  writeSync,
} from "node:fs";
import { type FileHandle, open } from "node:fs/promises";
import { dirname, join } from "node:path";
import { sha256 } from "./chain.ts";
import { StoreMissing, storeFault } from "./storeErrors.ts";

/** Files named by what is in them, wherever they are kept. */
export interface Files {
  /** Keeps the bytes and returns their name, once the disk has both. */
  put(bytes: Uint8Array): string | Promise<string>;
  putStream(chunks: AsyncIterable<Uint8Array>, check: (path: string) => Promise<void> | void): Promise<string>;
  /** Where the file lies on this machine. @throws StoreMissing  when it is not here */
  path(name: string): string;
  /** Where the file lies on this machine, fetched first where only others have it. @throws StoreMissing  when nobody has */
  bring(name: string): string | Promise<string>;
  has(name: string): boolean | Promise<boolean>;
  isWhole(name: string): boolean | Promise<boolean>;
}

/** Files of one kind by what is in them: equal ones are one file, and a changed one no longer answers to its name. */
export class KeptFiles implements Files {
  private readonly folder: string;

  private constructor(
    dataFolder: string,
    readonly kind: "recordings" | "photos",
    private readonly ending: string,
  ) {
    this.folder = join(dataFolder, kind);
  }

  static recordings(dataFolder: string): KeptFiles {
    return new KeptFiles(dataFolder, "recordings", ".wav");
  }
  /** Of flaws in timber; a browser knows a picture by its first bytes, so that one ending serves them all. */
  static photos(dataFolder: string): KeptFiles {
    return new KeptFiles(dataFolder, "photos", ".photo");
  }

  /** Keeps the bytes and returns their name, once the disk has both. */
  put(bytes: Uint8Array): string {
    const name = sha256(bytes);
    const path = this.pathOf(name);
    if (existsSync(path) && this.isWhole(name)) return name;
    const half = join(this.folder, `.${name}.${process.pid}.half`);
    try {
      this.make();
      writeThrough(half, bytes);
      renameSync(half, path);
      syncFolder(this.folder);
    } catch (fault) {
      rmSync(half, { force: true });
      throw storeFault(fault, `${this.kind} in ${this.folder}`);
    }
    return name;
  }

  /**
   * Keeps bytes as they come, so that a file of any size costs no memory, and returns their name once the disk has both.
   *
   * @param check  looks at the whole file before it gets its name; what it throws leaves nothing behind
   */
  async putStream(chunks: AsyncIterable<Uint8Array>, check: (path: string) => Promise<void> | void): Promise<string> {
    const half = join(this.folder, `.${randomUUID()}.${process.pid}.half`);
    const hash = createHash("sha256");
    let file: FileHandle | undefined;
    try {
      await this.named(async () => {
        this.make();
        file = await open(half, "wx");
      });
      for await (const chunk of chunks) {
        hash.update(chunk);
        await this.named(() => writeAll(file!, chunk));
      }
      await this.named(() => file!.sync());
      await file!.close();
      file = undefined;
      await check(half);
      const name = hash.digest("hex");
      await this.named(() => {
        renameSync(half, this.pathOf(name));
        syncFolder(this.folder);
      });
      return name;
    } finally {
      await file?.close();
      rmSync(half, { force: true });
    }
  }

  /** A new folder's own name must survive a power cut too. */
  private make(): void {
    if (mkdirSync(this.folder, { recursive: true }) !== undefined) syncFolder(dirname(this.folder));
  }

  /** Faults of the disk, by the name of these files. */
  private async named(work: () => Promise<unknown> | unknown): Promise<void> {
    try {
      await work();
    } catch (fault) {
      throw storeFault(fault, `${this.kind} in ${this.folder}`);
    }
  }

  /** @throws StoreMissing  when there is no such file */
  path(name: string): string {
    const path = this.pathOf(name);
    if (!existsSync(path)) {
      throw new StoreMissing(`${path}: this file is not there; restore it from a backup, or make it again`);
    }
    return path;
  }

  bring(name: string): string {
    return this.path(name);
  }

  /** Names of all files here. */
  names(): readonly string[] {
    if (!existsSync(this.folder)) return [];
    return readdirSync(this.folder)
      .filter((file) => !file.startsWith(".") && file.endsWith(this.ending))
      .map((file) => file.slice(0, -this.ending.length))
      .toSorted();
  }

  has(name: string): boolean {
    return existsSync(this.pathOf(name));
  }

  isWhole(name: string): boolean {
    try {
      return hashOfFile(this.pathOf(name)) === name;
    } catch {
      return false;
    }
  }

  private pathOf(name: string): string {
    return join(this.folder, `${name}${this.ending}`);
  }
}

async function writeAll(file: FileHandle, bytes: Uint8Array): Promise<void> {
  for (let done = 0; done < bytes.length; ) done += (await file.write(bytes, done)).bytesWritten;
}

/** Read a piece at a time: one read holds no more than 2 GiB. */
function hashOfFile(path: string): string {
  const descriptor = openSync(path, "r");
  try {
    const hash = createHash("sha256");
    const room = new Uint8Array(2 ** 22);
    for (let got = readSync(descriptor, room); got > 0; got = readSync(descriptor, room)) {
      hash.update(room.subarray(0, got));
    }
    return hash.digest("hex");
  } finally {
    closeSync(descriptor);
  }
}

function writeThrough(path: string, bytes: Uint8Array): void {
  const descriptor = openSync(path, "w");
  try {
    for (let done = 0; done < bytes.length; ) done += writeSync(descriptor, bytes, done);
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

/** Waits until the disk has a file that was written by other means. */
export function syncFile(path: string): void {
  const descriptor = openSync(path, "r+");
  try {
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

/** Makes the new name itself survive a power cut; some systems can't, and then the rename alone must do. */
export function syncFolder(folder: string): void {
  if (process.platform === "win32") return;
  const descriptor = openSync(folder, "r");
  try {
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}
