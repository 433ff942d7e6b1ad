import { randomBytes } from "node:crypto";
import { chmodSync, existsSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** Read by who may read the data folder, whom no server could keep out of it anyway. */
const file = (folder: string) => join(folder, "local.token");

/** A fresh token for the commands of this machine, for as long as a server has the folder. */
export function giveLocalToken(folder: string): string {
  const token = randomBytes(32).toString("base64url");
  const half = `${file(folder)}.half`;
  rmSync(half, { force: true });
  writeFileSync(half, `${token}\n`, { mode: 0o600, flag: "wx" });
  chmodSync(half, 0o600);
  renameSync(half, file(folder));
  return token;
}

export function takeLocalToken(folder: string): void {
  rmSync(file(folder), { force: true });
}

/** What a command shows the server of a folder; nothing where it may not be read, and then the server says so. */
export function localToken(folder: string): string | undefined {
  try {
    return existsSync(file(folder)) ? readFileSync(file(folder), "utf8").trim() : undefined;
  } catch {
    return undefined;
  }
}
