// Finds the program: built, if it was built from the very sources that stand here, else the sources themselves.
// Plain Node, no libraries: every start of the command comes through here.
import { createHash } from "node:crypto";
import { readFileSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

export const root = join(dirname(fileURLToPath(import.meta.url)), "..");
/** Below the project's folder: one folder for each build. */
export const builds = "dist/program";
/** Says which build is the newest, and of each of its sources the time, size and hash that it was made from. */
export const stampFile = "dist/program.json";

/** Where the program is entered, each a file of the build by this name. */
export const entries = {
  command: "src/cli/main.ts",
  calculationThread: "src/workshop/answerInThread.ts",
  pictureThread: "src/workshop/spectrumInThread.ts",
};

/** @returns the folder of the newest build if none of its sources has changed since; else nothing */
export function fittingBuild(home = root) {
  try {
    const { build, sources } = JSON.parse(readFileSync(join(home, stampFile), "utf8"));
    const folder = join(home, builds, build);
    if (statSync(join(folder, "stamp.json"), { throwIfNoEntry: false }) === undefined) return undefined;
    return Object.entries(sources).every(([path, stamp]) => isAsStamped(join(home, path), stamp)) ? folder : undefined;
  } catch {
    return undefined;
  }
}

/** Time and size tell; only where the time differs is the file read. */
function isAsStamped(file, { time_ms, size_bytes, sha256 }) {
  const now = statSync(file, { throwIfNoEntry: false });
  if (now === undefined || now.size !== size_bytes) return false;
  return now.mtimeMs === time_ms || hashOf(readFileSync(file)) === sha256;
}

/** Reads a source and notes of it what tells it from any later one. The time is taken first, lest it be too new. */
export function stampOf(path, home = root) {
  const file = join(home, path);
  const { mtimeMs } = statSync(file);
  const bytes = readFileSync(file);
  return { bytes, stamp: { time_ms: mtimeMs, size_bytes: bytes.length, sha256: hashOf(bytes) } };
}

export const hashOf = (bytes) => createHash("sha256").update(bytes).digest("hex");

/** Loads one of the entries. */
export async function load(entry) {
  const build = fittingBuild();
  if (build !== undefined) return import(pathToFileURL(join(build, `${entry}.js`)).href);
  const { register } = await import("tsx/esm/api");
  register();
  return import(pathToFileURL(join(root, entries[entry])).href);
}
