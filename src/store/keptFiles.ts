import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeSync,
} from "node:fs";
import { join } from "node:path";
import { sha256 } from "./chain.ts";
import { StoreMissing, storeFault } from "./storeErrors.ts";

/** Files of one kind by what is in them: equal ones are one file, and a changed one no longer answers to its name. */
export class KeptFiles {
  private readonly folder: string;

  private constructor(
    dataFolder: string,
    private readonly kind: string,
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
      mkdirSync(this.folder, { recursive: true });
      writeThrough(half, bytes);
      renameSync(half, path);
      syncFolder(this.folder);
    } catch (fault) {
      rmSync(half, { force: true });
      throw storeFault(fault, `${this.kind} in ${this.folder}`);
    }
    return name;
  }

  /** @throws StoreMissing  when there is no such file */
  path(name: string): string {
    const path = this.pathOf(name);
    if (!existsSync(path)) {
      throw new StoreMissing(`${path}: this file is not there; restore it from a backup, or make it again`);
    }
    return path;
  }

  has(name: string): boolean {
    return existsSync(this.pathOf(name));
  }

  isWhole(name: string): boolean {
    try {
      return sha256(readFileSync(this.pathOf(name))) === name;
    } catch {
      return false;
    }
  }

  private pathOf(name: string): string {
    return join(this.folder, `${name}${this.ending}`);
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
