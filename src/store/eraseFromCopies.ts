import { cpSync, existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import Database from "libsql";
import { backupsIn, verifyBackup } from "./backup.ts";
import { sha256 } from "./chain.ts";
import { syncFile, syncFolder } from "./keptFiles.ts";
import { storeFault } from "./storeErrors.ts";

/** What was asked to be forgotten: a row outside the chain. */
export type Forgotten = { readonly table: "customer" | "person"; readonly id: string };

const database = "stillglow.db";
const note = "backup.json";

/** Names of the copies in a folder that still hold it. */
export function copiesHolding(into: string, forgotten: Forgotten): readonly string[] {
  putRight(into);
  return backupsIn(into)
    .map(({ name }) => name)
    .filter((name) => holds(join(into, name, database), forgotten));
}

function holds(file: string, { table, id }: Forgotten): boolean {
  const opened = new Database(`${pathToFileURL(file).href}?mode=ro`);
  try {
    const isThere = opened.prepare("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?").all(table);
    return isThere.length > 0 && opened.prepare(`SELECT 1 FROM ${table} WHERE ${table} = ?`).all(id).length > 0;
  } finally {
    opened.close();
  }
}

/**
 * Writes a copy anew without it, and reads the new one whole before the old one goes. The chain in it stays as it was,
 * so that its newest hash still stands.
 */
export async function eraseFromCopy(into: string, name: string, { table, id }: Forgotten): Promise<void> {
  const place = join(into, name);
  const half = join(into, `.${name}.anew`);
  const before = beforeOf(into, name);
  try {
    rmSync(half, { recursive: true, force: true });
    cpSync(place, half, { recursive: true, preserveTimestamps: true });
    rmSync(join(half, note));
    const opened = new Database(join(half, database));
    try {
      opened.exec("PRAGMA journal_mode = DELETE");
      opened.exec("PRAGMA secure_delete = ON");
      opened.prepare(`DELETE FROM ${table} WHERE ${table} = ?`).run(id);
      if (table === "person") opened.prepare("DELETE FROM session WHERE person = ?").run(id);
      // Pages that were let go of before are left behind too.
      opened.exec("VACUUM");
    } finally {
      opened.close();
    }
    const told = JSON.parse(readFileSync(join(place, note), "utf8")) as object;
    const database_sha256 = sha256(readFileSync(join(half, database)));
    writeFileSync(join(half, note), `${JSON.stringify({ ...told, database_sha256 }, null, 1)}\n`);
    for (const file of readdirSync(half)) syncFile(join(half, file));
    renameSync(place, before);
    renameSync(half, place);
    syncFolder(into);
    await verifyBackup(into, name);
    rmSync(before, { recursive: true });
  } catch (fault) {
    rmSync(half, { recursive: true, force: true });
    if (existsSync(before)) {
      rmSync(place, { recursive: true, force: true });
      renameSync(before, place);
    }
    throw storeFault(fault, `the copy ${place}`);
  }
}

const beforeOf = (into: string, name: string) => join(into, `.${name}.before`);

/** After a power cut between two renames the old copy stands under its waiting name: it is put back, or let go. */
function putRight(into: string): void {
  if (!existsSync(into)) return;
  for (const folder of readdirSync(into)) {
    const name = /^\.(.+)\.before$/.exec(folder)?.[1];
    if (name === undefined) continue;
    if (existsSync(join(into, name, note))) rmSync(join(into, folder), { recursive: true });
    else renameSync(join(into, folder), join(into, name));
  }
}
