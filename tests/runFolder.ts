import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** A folder for what the test files of one run share, gone when the run ends. */
export default function setup(): () => void {
  const folder = mkdtempSync(join(tmpdir(), "stillglow-run-"));
  process.env.STILLGLOW_RUN_FOLDER = folder;
  return () => rmSync(folder, { recursive: true, force: true });
}
