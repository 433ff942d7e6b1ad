import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, onTestFinished } from "vitest";

export const root = join(import.meta.dirname, "..");
const command = join(root, "bin", "stillglow");

/** A folder that goes with the test. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "stillglow-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export interface Ran {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the real command. */
export function stillglow(args: readonly string[], input = "", cwd = root, timeout_ms = 120_000): Ran {
  const { status, stdout, stderr } = spawnSync(command, args, {
    input,
    cwd,
    encoding: "utf8",
    maxBuffer: 1 << 28,
    timeout: timeout_ms,
  });
  return { status, stdout, stderr };
}

/** Starts the real server on a free port and waits until it says where it is; it ends with the test, unless kept. */
export async function serve(
  args: readonly string[],
  { kept = false } = {},
): Promise<{ address: string; said: string; stop(): Promise<void> }> {
  const child = spawn(command, [...args, "--port", "0"], { cwd: root, stdio: ["ignore", "pipe", "pipe"] });
  let said = "";
  const address = await new Promise<string>((resolve, reject) => {
    const late = setTimeout(() => reject(new Error(`no address within two minutes: ${said}`)), 120_000);
    const hear = (bytes: Buffer) => {
      said += bytes;
      const found = said.match(/open at (https?:\S+)/)?.[1];
      if (found === undefined) return;
      clearTimeout(late);
      resolve(found);
    };
    child.stdout.on("data", hear);
    child.stderr.on("data", (bytes: Buffer) => {
      said += bytes;
    });
    child.on("exit", (code) => reject(new Error(`ended with ${code}: ${said}`)));
  });
  const stop = async () => {
    if (child.exitCode !== null) return;
    const ended = new Promise<void>((resolve) => child.once("exit", () => resolve()));
    child.kill("SIGTERM");
    await ended;
  };
  if (!kept) onTestFinished(stop);
  // What comes with the address comes in one go with it, or right after.
  await new Promise((soon) => setTimeout(soon, 50));
  return { address, said, stop };
}

/** A folder that goes when the whole file has run. */
export function keptFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "stillglow-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
