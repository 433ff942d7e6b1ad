import { existsSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { BadInput, quote } from "../maths/badInput.ts";
import type { KeptRecording } from "./keptRecording.ts";

/** A recorder's file that came in by itself and belongs to no unit yet. */
export interface WaitingFile {
  readonly file_sha256: string;
  /** As the recorder named it. */
  readonly name: string;
  readonly arrivedAt: string;
  /** When the recorder closed it, as the disk says. */
  readonly madeAt: string;
  readonly rate_Hz: number;
  readonly channels: number;
  readonly duration_s: number;
}

interface Kept extends WaitingFile {
  readonly isAside?: boolean;
}

export interface WaitingListOptions {
  readonly folder: string;
  keep(chunks: AsyncIterable<Uint8Array>, name: string): Promise<KeptRecording>;
  /** Content hashes that recordings on the ledger name already. */
  recorded(): ReadonlySet<string>;
}

/**
 * Recorder's files that wait to be given to a unit: kept by their content like every recording, and no evidence before
 * somebody says what they are of.
 *
 * A content is taken once for ever: whoever copies the card again, renames a file or sets one aside is not asked twice.
 */
export class WaitingList {
  private files: readonly Kept[];
  private readonly path: string;
  private readonly listeners = new Set<() => void>();

  constructor(private readonly options: WaitingListOptions) {
    this.path = join(options.folder, "waiting.json");
    this.files = existsSync(this.path) ? (JSON.parse(readFileSync(this.path, "utf8")) as Kept[]) : [];
  }

  /** Those that no recording on the ledger names and nobody set aside, newest first. */
  waiting(): readonly WaitingFile[] {
    const recorded = this.options.recorded();
    return this.files
      .filter(({ file_sha256, isAside }) => !isAside && !recorded.has(file_sha256))
      .map(({ isAside: _, ...file }) => file)
      .toReversed();
  }

  /**
   * Takes a file's bytes in as they come.
   * @returns undefined  for a content that was here before
   * @throws BadInput  at `recording`, for what is no recording
   */
  async take(
    name: string,
    chunks: AsyncIterable<Uint8Array>,
    about: { madeAt: string; now: string },
  ): Promise<WaitingFile | undefined> {
    const { file_sha256, rate_Hz, channels, frames } = await this.options.keep(chunks, name);
    if (this.files.some((one) => one.file_sha256 === file_sha256) || this.options.recorded().has(file_sha256)) {
      return undefined;
    }
    const file: WaitingFile = {
      file_sha256,
      name,
      arrivedAt: about.now,
      madeAt: about.madeAt,
      rate_Hz,
      channels,
      duration_s: frames / rate_Hz,
    };
    this.write([...this.files, file]);
    return file;
  }

  /** Takes a file off the list without a word about any unit; its bytes stay. */
  setAside(file_sha256: string): void {
    if (!this.waiting().some((one) => one.file_sha256 === file_sha256)) {
      throw new BadInput("file_sha256", quote(file_sha256), "a file that waits", "look at the list again");
    }
    this.write(this.files.map((one) => (one.file_sha256 === file_sha256 ? { ...one, isAside: true } : one)));
  }

  subscribe(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  private write(files: readonly Kept[]): void {
    const half = `${this.path}.${process.pid}.half`;
    writeFileSync(half, `${JSON.stringify(files, undefined, 1)}\n`, { flush: true });
    renameSync(half, this.path);
    this.files = files;
    for (const listener of this.listeners) listener();
  }
}
