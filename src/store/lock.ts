import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "libsql";
import { StoreInUse, storeFault } from "./storeErrors.ts";

/** Who has a data folder open to write, and where it answers, when it is a server. */
interface Holder {
  readonly pid: number;
  readonly since: string;
  readonly address?: string;
  /** Where commands of this machine are answered, when that is elsewhere. */
  readonly commands?: string;
}

/**
 * Sole right to write to a data folder.
 *
 * The right is a file lock of the operating system, taken through SQLite on an empty file, so that it falls with its
 * process however that ends. A note beside it says who holds it; alone, the note means nothing.
 */
export class Lock {
  private readonly folder: string;
  private readonly held: Database.Database;
  private readonly since: string;
  /** Whether whoever had it before ended without closing: killed, or by a power cut. */
  readonly wasLeftOpen: boolean;

  private constructor(folder: string, held: Database.Database, since: string) {
    this.folder = folder;
    this.held = held;
    this.since = since;
    this.wasLeftOpen = existsSync(notePath(folder));
    try {
      this.note();
    } catch (fault) {
      held.close();
      throw fault;
    }
  }

  /** @throws StoreInUse  when another process, or another store in this one, has it */
  static take(folder: string, since: string): Lock {
    const held = tryToHold(folder, 1000);
    if (held) return new Lock(folder, held, since);
    const holder = readNote(folder);
    const who = holder ? ` (process ${holder.pid}, since ${holder.since})` : "";
    const where = holder?.address ? `it answers at ${holder.address}` : "it has no page of its own";
    throw new StoreInUse(
      `${folder}: another Stillglow${who} has this data folder open, ${where}; use that one, or stop it first`,
    );
  }

  /** Lets commands find the server that holds the folder. */
  announce(address: string, commands?: string): void {
    this.note(address, commands);
  }

  release(): void {
    rmSync(notePath(this.folder), { force: true });
    this.held.exec("ROLLBACK");
    this.held.close();
  }

  private note(address?: string, commands?: string): void {
    const holder: Holder = {
      pid: process.pid,
      since: this.since,
      ...(address !== undefined && { address }),
      ...(commands !== undefined && { commands }),
    };
    const path = notePath(this.folder);
    try {
      writeFileSync(`${path}.half`, `${JSON.stringify(holder)}\n`);
      renameSync(`${path}.half`, path);
    } catch (fault) {
      throw storeFault(fault, path);
    }
  }
}

/** Where the server that has this folder open now answers commands; undefined when none has. */
export function serverOf(folder: string): string | undefined {
  const holder = readNote(folder);
  if (holder?.address === undefined) return undefined;
  const held = tryToHold(folder, 0);
  if (!held) return holder.commands ?? holder.address;
  held.exec("ROLLBACK");
  held.close();
  return undefined;
}

function tryToHold(folder: string, patience_ms: number): Database.Database | undefined {
  const path = join(folder, "lock");
  try {
    const database = new Database(path, { timeout: patience_ms });
    try {
      database.exec("BEGIN EXCLUSIVE");
      return database;
    } catch (fault) {
      database.close();
      throw fault;
    }
  } catch (fault) {
    const named = storeFault(fault, path);
    if (named instanceof StoreInUse) return undefined;
    throw named;
  }
}

function notePath(folder: string): string {
  return join(folder, "lock.json");
}

function readNote(folder: string): Holder | undefined {
  const path = notePath(folder);
  if (!existsSync(path)) return undefined;
  try {
    const note: unknown = JSON.parse(readFileSync(path, "utf8"));
    const isHolder = typeof note === "object" && note !== null && "pid" in note && "since" in note;
    return isHolder ? (note as Holder) : undefined;
  } catch {
    return undefined;
  }
}
