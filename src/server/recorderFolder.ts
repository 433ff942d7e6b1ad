import { type Dirent, readdirSync, statSync } from "node:fs";
import { join, relative } from "node:path";
import { BadInput, quote } from "../maths/badInput.ts";

export interface RecorderFolderOptions {
  readonly folder: string;
  /** @throws BadInput  for what is no recording */
  take(name: string, path: string, madeAt: string): Promise<unknown>;
  readonly every_ms?: number;
  readonly most_bytes?: number;
}

/** A file that could not be taken in, and why. */
export interface RefusedFile {
  readonly name: string;
  readonly why: string;
}

export interface RecorderFolder {
  readonly folder: string;
  /** Whether the folder was there at the last look: a card may be out. */
  isThere(): boolean;
  refused(): readonly RefusedFile[];
  stop(): void;
}

/** Days of several channels at the highest rate: a file larger than that is no recording of a bench. */
export const mostRecording_bytes = 64 * 2 ** 30;

/** Of a card of many years, the names that are looked at. */
const mostFiles = 20_000;

/**
 * Looks into an external recorder's folder every second or so, and takes in each WAV file that has come to rest.
 *
 * A file is at rest when two looks in a row find the same size and time, so that one still being written or copied is
 * let be. It is read and never touched. Looking, and not waiting to be told, also works on cards and network folders.
 */
export function watchRecorderFolder(options: RecorderFolderOptions): RecorderFolder {
  const { folder, take, every_ms = 1000, most_bytes = mostRecording_bytes } = options;
  const seen = new Map<string, string>();
  const done = new Map<string, string>();
  const refused = new Map<string, string>();
  let isThere = true;
  let stopped = false;

  const look = async () => {
    const found = wavFiles(folder);
    isThere = found !== undefined;
    for (const path of found ?? []) {
      if (stopped) return;
      const name = relative(folder, path);
      const state = stateOf(path);
      if (state === undefined) continue;
      const stamp = `${state.size} ${state.mtimeMs}`;
      if (done.get(path) === stamp) continue;
      if (seen.get(path) !== stamp) {
        seen.set(path, stamp);
        continue;
      }
      done.set(path, stamp);
      refused.delete(name);
      try {
        if (state.size > most_bytes) {
          throw new BadInput(
            "recording",
            `${name} of ${Math.round(state.size / 2 ** 20)} MiB`,
            `at most ${Math.round(most_bytes / 2 ** 20)} MiB come in by themselves`,
            "cut it into shorter files",
          );
        }
        await take(name, path, state.mtime.toISOString());
      } catch (fault) {
        refused.set(name, (fault as Error).message);
      }
    }
    for (const name of refused.keys()) if (stateOf(join(folder, name)) === undefined) refused.delete(name);
  };
  // The next look waits for a large file to be in.
  let timer: NodeJS.Timeout | undefined;
  const lookOn = async () => {
    await look();
    if (stopped) return;
    timer = setTimeout(lookOn, every_ms);
    timer.unref();
  };
  void lookOn();
  return {
    folder,
    isThere: () => isThere,
    refused: () => [...refused].map(([name, why]) => ({ name, why })),
    stop: () => {
      stopped = true;
      clearTimeout(timer);
    },
  };
}

/** @throws BadInput  when there is no such folder to begin with */
export function existingFolder(folder: string): string {
  if (stateOf(folder)?.isDirectory()) return folder;
  throw new BadInput(
    "--recorder-folder",
    quote(folder),
    "a folder that is there",
    "name the folder that the recorder's files appear in",
  );
}

function wavFiles(folder: string): readonly string[] | undefined {
  let entries: readonly Dirent[];
  try {
    entries = readdirSync(folder, { withFileTypes: true, recursive: true });
  } catch {
    return undefined;
  }
  return entries
    .filter((entry) => entry.isFile() && /\.wave?$/i.test(entry.name) && !entry.name.startsWith("."))
    .slice(0, mostFiles)
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();
}

function stateOf(path: string) {
  try {
    return statSync(path);
  } catch {
    return undefined;
  }
}
