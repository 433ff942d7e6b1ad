import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { backupsIn } from "../store/index.ts";

const command = join(import.meta.dirname, "..", "..", "bin", "stillglow");
const hour_ms = 3_600_000;
/** Somewhat less than a day, so that the hour of the copy does not creep through the night. */
const due_ms = 23.5 * hour_ms;

export interface DailyBackup {
  stop(): void;
}

/**
 * Takes a copy of an open workshop whenever the newest is a day old, in a process of its own so that no bench waits.
 *
 * @param tell  is given what went wrong, in the words of the command
 */
export function keepDailyBackups(
  { folder, database }: { readonly folder: string; readonly database?: string | undefined },
  into: string,
  tell: (trouble: string) => void,
): DailyBackup {
  let isRunning = false;
  const look = () => {
    if (isRunning || !isDue(into) || (database === undefined && !existsSync(join(folder, "stillglow.db")))) return;
    isRunning = true;
    const child = spawn(process.execPath, [command, "backup", into, "--data", folder], {
      stdio: ["ignore", "ignore", "pipe"],
      // Where others see what runs here, a password must not stand.
      env: { ...process.env, ...(database !== undefined && { STILLGLOW_DATABASE: database }) },
    });
    let said = "";
    child.stderr.on("data", (bytes: Buffer) => {
      said += bytes;
    });
    child.on("close", (status) => {
      isRunning = false;
      if (status !== 0) tell(said.trim() || `the daily backup ended with status ${status}`);
    });
  };
  const timer = setInterval(look, hour_ms);
  timer.unref();
  look();
  return { stop: () => clearInterval(timer) };
}

function isDue(into: string): boolean {
  try {
    const newest = backupsIn(into).at(-1);
    return newest === undefined || Date.now() - Date.parse(newest.made) > due_ms;
  } catch {
    // A note that can't be read stands for no copy.
    return true;
  }
}
