import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { version } from "./version.ts";

/**
 * Answers kept beside the evidence, each in a file named by the hash of its question.
 *
 * A calculation is a pure function and recordings are named by their content, so an answer never grows stale: another
 * question, or another version of the calculations, has another name. The folder can be thrown away at any time.
 */
export class AnswerCache {
  private readonly memory = new Map<string, unknown>();

  constructor(private readonly folder: string) {}

  get(name: string, input: unknown): unknown {
    const key = questionKey(name, input);
    if (this.memory.has(key)) return this.memory.get(key);
    try {
      const known: unknown = JSON.parse(readFileSync(this.fileOf(key), "utf8"));
      this.memory.set(key, known);
      return known;
    } catch {
      return undefined;
    }
  }

  put(name: string, input: unknown, output: unknown): void {
    const key = questionKey(name, input);
    this.memory.set(key, output);
    try {
      mkdirSync(this.folder, { recursive: true });
      const half = `${this.fileOf(key)}.${process.pid}.half`;
      writeFileSync(half, JSON.stringify(output));
      renameSync(half, this.fileOf(key));
    } catch {
      // A folder that may not be written to, or a full disk: the answer is computed again next time.
    }
  }

  private fileOf(key: string): string {
    return join(this.folder, `${key}.json`);
  }
}

/** Hash of a question, under which its answer is kept. */
export function questionKey(name: string, input: unknown): string {
  return createHash("sha256")
    .update(JSON.stringify([version, name, input]))
    .digest("hex");
}
