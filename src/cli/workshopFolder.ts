import { existsSync, mkdirSync } from "node:fs";
import { resolve } from "node:path";
import { BadInput, quote } from "../maths/badInput.ts";
import { openWorkshop, type Workshop } from "../workshop/workshop.ts";

export interface FolderOption {
  readonly data?: string;
}

/** The data folder asked for: the option, else the environment, else ./data. */
export function dataFolder({ data }: FolderOption): string {
  return resolve(data ?? process.env.STILLGLOW_DATA ?? "data");
}

/** Opens a workshop that must be there, to look at; a server may be writing to it meanwhile. */
export function openToRead(options: FolderOption): Workshop {
  const folder = dataFolder(options);
  if (!existsSync(folder)) {
    throw new BadInput(
      "--data",
      quote(folder),
      "a workshop's data folder",
      "name it with --data, or start a new workshop with 'stillglow serve --data FOLDER'",
    );
  }
  return openWorkshop(folder, { write: false });
}

/** Opens a workshop to write; makes an empty one where there is none. */
export function openToWrite(folder: string): Workshop {
  mkdirSync(folder, { recursive: true });
  return openWorkshop(folder, { write: true });
}
