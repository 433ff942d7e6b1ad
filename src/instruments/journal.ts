import {
  closeSync,
  existsSync,
  fsyncSync,
  ftruncateSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeSync,
} from "node:fs";
import { join } from "node:path";

/** One step of a log: a reading, or why there was none. */
export type Step =
  | {
      readonly step: number;
      readonly at: string;
      readonly value: number;
      readonly doubt: number;
      readonly standing: string;
      readonly trial?: string;
    }
  | { readonly step: number; readonly at: string; readonly missed: string; readonly problem: string };

interface Head {
  readonly log: string;
  /** By the machine's own clock, which the steps are counted on. */
  readonly started_ms: number;
}

/**
 * A log's steps on disk until they stand in the ledger: a step is acknowledged once it is here, and is here once.
 *
 * Half a line left by a power cut was never acknowledged, and is cut off at opening.
 */
export class Journal {
  readonly started_ms: number;
  private readonly file: number;
  private size: number;
  private readonly kept = new Map<number, Step>();

  private constructor(path: string, fresh: Head) {
    const text = existsSync(path) ? readFileSync(path, "utf8") : "";
    const whole = text.slice(0, text.lastIndexOf("\n") + 1);
    this.file = openSync(path, "a+");
    this.size = Buffer.byteLength(whole);
    ftruncateSync(this.file, this.size);
    const [head, ...steps] = whole.split("\n").flatMap((line) => (line === "" ? [] : [JSON.parse(line) as unknown]));
    for (const step of steps as Step[]) this.kept.set(step.step, step);
    this.started_ms = (head as Head | undefined)?.started_ms ?? fresh.started_ms;
    if (head === undefined) this.write(fresh);
  }

  static open(folder: string, log: string, now_ms: number): Journal {
    mkdirSync(folder, { recursive: true });
    return new Journal(pathOf(folder, log), { log, started_ms: now_ms });
  }

  static exists(folder: string, log: string): boolean {
    return existsSync(pathOf(folder, log));
  }

  /** Logs that have a journal here. */
  static all(folder: string): readonly string[] {
    if (!existsSync(folder)) return [];
    return readdirSync(folder).flatMap((name) =>
      name.endsWith(".jsonl") ? [decodeURIComponent(name.slice(0, -6))] : [],
    );
  }

  static remove(folder: string, log: string): void {
    rmSync(pathOf(folder, log), { force: true });
  }

  /** On disk when it returns. @returns false when that step was kept before, and is left as it stands */
  keep(step: Step): boolean {
    if (this.kept.has(step.step)) return false;
    this.write(step);
    this.kept.set(step.step, step);
    return true;
  }

  get steps(): readonly Step[] {
    return [...this.kept.values()];
  }

  has(step: number): boolean {
    return this.kept.has(step);
  }

  close(): void {
    closeSync(this.file);
  }

  private write(line: object): void {
    const bytes = Buffer.from(`${JSON.stringify(line)}\n`);
    try {
      for (let done = 0; done < bytes.length; ) done += writeSync(this.file, bytes, done);
      fsyncSync(this.file);
      this.size += bytes.length;
    } catch (fault) {
      // Half of it must not lie before the next.
      ftruncateSync(this.file, this.size);
      throw fault;
    }
  }
}

const pathOf = (folder: string, log: string) => join(folder, `${encodeURIComponent(log)}.jsonl`);
