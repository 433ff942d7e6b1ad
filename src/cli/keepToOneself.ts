import { chmodSync, existsSync } from "node:fs";
import { join } from "node:path";

/** Where people's secrets lie in a ledger's file, nobody else of this machine reads it. */
export function keepToOneself(folder: string): void {
  for (const file of ["stillglow.db", "stillglow.db-wal", "stillglow.db-shm"]) {
    if (existsSync(join(folder, file))) chmodSync(join(folder, file), 0o600);
  }
}
