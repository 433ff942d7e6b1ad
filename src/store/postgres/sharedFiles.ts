import { createHash } from "node:crypto";
import { open } from "node:fs/promises";
import type { Files, KeptFiles } from "../keptFiles.ts";
import { StoreCorrupted, StoreMissing } from "../storeErrors.ts";
import type { PostgresEngine } from "./engine.ts";

/** A row holds this much; a whole file never stands in memory. */
const piece_bytes = 2 ** 20;

/**
 * Files that every server and worker of a database can have: each comes into the folder of the machine that took it in,
 * and into the database by pieces; another machine fetches it into its own folder when it first needs it. Named by
 * content, a fetched file is checked by its name, and never grows stale.
 */
export class SharedFiles implements Files {
  constructor(
    private readonly here: KeptFiles,
    private readonly engine: PostgresEngine,
  ) {}

  async put(bytes: Uint8Array): Promise<string> {
    return this.share(this.here.put(bytes));
  }

  async putStream(chunks: AsyncIterable<Uint8Array>, check: (path: string) => Promise<void> | void): Promise<string> {
    return this.share(await this.here.putStream(chunks, check));
  }

  path(name: string): string {
    return this.here.path(name);
  }

  async bring(name: string): Promise<string> {
    if (this.here.has(name)) return this.here.path(name);
    if (!(await this.has(name))) {
      throw new StoreMissing(
        `${this.here.kind}: ${this.engine.name} holds no file ${name}; restore it from a backup, or make it again`,
      );
    }
    const kept = await this.here.putStream(this.pieces(name), () => undefined);
    if (kept !== name) {
      throw new StoreCorrupted(
        `${this.here.kind}: the file ${name} in ${this.engine.name} was changed; restore a backup`,
      );
    }
    return this.here.path(name);
  }

  /** Whether the database has it, which is what others can have. */
  async has(name: string): Promise<boolean> {
    const find = "SELECT 1 FROM kept_file WHERE kind = $1 AND name = $2";
    return (await this.engine.rows(find, [this.here.kind, name])).length > 0;
  }

  /** Names of all files that the database has. */
  async names(): Promise<readonly string[]> {
    const find = 'SELECT name FROM kept_file WHERE kind = $1 ORDER BY name COLLATE "C"';
    return (await this.engine.rows<{ name: string }>(find, [this.here.kind])).map(({ name }) => name);
  }

  async isWhole(name: string): Promise<boolean> {
    const hash = createHash("sha256");
    for await (const piece of this.pieces(name)) hash.update(piece);
    return hash.digest("hex") === name;
  }

  /** Puts a file of this machine's folder into the database, unless it is there and whole. @returns its name */
  async share(name: string): Promise<string> {
    if ((await this.has(name)) && (await this.isWhole(name))) return name;
    const file = await open(this.here.path(name));
    try {
      const { size } = await file.stat();
      await this.engine.alone(async (ask) => {
        const key = [this.here.kind, name];
        // Who brings the same file at the same time waits here, and then finds it.
        const fresh = await ask("INSERT INTO kept_file VALUES ($1, $2, $3, $4) ON CONFLICT DO NOTHING", [
          ...key,
          size,
          Math.ceil(size / piece_bytes),
        ]);
        if (fresh === 0) await ask("DELETE FROM kept_piece WHERE kind = $1 AND name = $2", key);
        const room = Buffer.alloc(piece_bytes);
        for (let piece = 0; piece * piece_bytes < size; piece += 1) {
          const { bytesRead } = await file.read(room, 0, piece_bytes, piece * piece_bytes);
          await ask("INSERT INTO kept_piece VALUES ($1, $2, $3, $4)", [...key, piece, room.subarray(0, bytesRead)]);
        }
      });
    } finally {
      await file.close();
    }
    return name;
  }

  private async *pieces(name: string): AsyncGenerator<Uint8Array> {
    for (let piece = 0; ; piece += 1) {
      const find = "SELECT bytes FROM kept_piece WHERE kind = $1 AND name = $2 AND piece = $3";
      const [row] = await this.engine.rows<{ bytes: Buffer }>(find, [this.here.kind, name, piece]);
      if (!row) return;
      yield row.bytes;
    }
  }
}
