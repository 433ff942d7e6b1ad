import { existsSync, mkdirSync } from "node:fs";
import { resolve } from "node:path";
import { BadInput, quote } from "../maths/badInput.ts";
import { openWorkshop, type Workshop } from "../workshop/workshop.ts";

export interface FolderOption {
  readonly data?: string;
  /** Connection string of a shared database; `STILLGLOW_DATABASE` when left out. */
  readonly database?: string;
}

/** The data folder asked for: the option, else the environment, else ./data. */
export function dataFolder({ data }: FolderOption): string {
  return resolve(data ?? process.env.STILLGLOW_DATA ?? "data");
}

/** The shared database asked for, by the option or the environment; none for a workshop in its own folder. */
export function databaseOf({ database }: FolderOption): string | undefined {
  return database ?? (process.env.STILLGLOW_DATABASE || undefined);
}

/** Opens a workshop that must be there, to look at; a server may be writing to it meanwhile. */
export async function openToRead(options: FolderOption): Promise<Workshop> {
  const folder = dataFolder(options);
  // Beside a shared database the folder holds only what this machine has fetched.
  if (databaseOf(options) !== undefined) mkdirSync(folder, { recursive: true });
  if (!existsSync(folder)) {
    throw new BadInput(
      "--data",
      quote(folder),
      "a workshop's data folder",
      "name it with --data, or start a new workshop with 'stillglow serve --data FOLDER'",
    );
  }
  return openWorkshop(folder, { write: false, database: databaseOf(options) });
}

/** Opens a workshop to write; makes an empty one where there is none. */
export async function openToWrite(options: FolderOption): Promise<Workshop> {
  const folder = dataFolder(options);
  mkdirSync(folder, { recursive: true });
  return openWorkshop(folder, {
    write: true,
    database: databaseOf(options),
    notice: (words) => process.stderr.write(`stillglow: ${words} …\n`),
  });
}
