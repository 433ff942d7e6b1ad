import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { clusterNote } from "../src/store/testing/clusterNote.ts";
import { removeCluster } from "../src/store/testing/postgres.ts";

/** A folder for what the test files of one run share, gone when the run ends, and with it the database server they used. */
export default function setup(): () => void {
  const folder = mkdtempSync(join(tmpdir(), "stillglow-run-"));
  process.env.STILLGLOW_RUN_FOLDER = folder;
  return () => {
    const note = join(folder, clusterNote);
    if (existsSync(note) && readFileSync(note, "utf8") !== "") removeCluster(JSON.parse(readFileSync(note, "utf8")));
    rmSync(folder, { recursive: true, force: true });
  };
}
