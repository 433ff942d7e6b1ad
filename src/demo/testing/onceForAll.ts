import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** A folder that lives as long as one run of the tests, named by the set-up of the run; none when a test runs bare. */
export const runFolder = (): string | undefined => process.env.STILLGLOW_RUN_FOLDER;

const patience_ms = 300_000;
const look_ms = 100;

/**
 * What takes long to make is made by the first test file that wants it and kept for the others, which wait for it.
 *
 * @param name  of the file it is kept in
 * @throws Error  what the maker threw, in every file that asked for it
 */
export function onceForAll(name: string, make: () => Uint8Array): Uint8Array {
  const folder = runFolder();
  if (folder === undefined) return make();
  const file = join(folder, name);
  const failed = `${file}.failed`;
  if (isFirst(`${file}.lock`)) {
    try {
      const made = make();
      writeFileSync(`${file}.half`, made);
      renameSync(`${file}.half`, file);
      return made;
    } catch (fault) {
      writeFileSync(failed, String(fault));
      throw fault;
    }
  }
  for (let waited_ms = 0; waited_ms < patience_ms; waited_ms += look_ms) {
    if (existsSync(file)) return readFileSync(file);
    if (existsSync(failed)) throw new Error(readFileSync(failed, "utf8"));
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, look_ms);
  }
  throw new Error(`${name} was not made within ${patience_ms / 1000} s`);
}

/** Of all that ask, one makes the folder; the others find it there. */
function isFirst(lock: string): boolean {
  try {
    mkdirSync(lock);
    return true;
  } catch {
    return false;
  }
}
