import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import type { Evidence } from "../claims/evidence.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { chainStart } from "./chain.ts";
import { migrate } from "./migrations.ts";
import { rowOf } from "./rows.ts";
import { SqliteEngine } from "./sqliteEngine.ts";
import { build, type CustomerTable, type EvidenceTable } from "./tables.ts";

const rowsAtOnce = 50;

/** @throws BadInput  when something could be overwritten in the folder */
export function requireEmptyFolder(folder: string): void {
  if (!existsSync(folder) || readdirSync(folder).length === 0) return;
  throw new BadInput(
    "folder",
    quote(folder),
    "a folder that is empty or not there, so that nothing is overwritten",
    "name another, or move what is there away first",
  );
}

/**
 * Writes a chain that was made elsewhere into a new folder as it was there: same ids, same times, same hashes.
 *
 * @returns newest hash of what was written, to be held against the one that came with the chain
 */
export async function adoptLedger(
  folder: string,
  entries: AsyncIterable<Evidence>,
  customers: readonly CustomerTable[],
  now: string,
): Promise<string> {
  const engine = SqliteEngine.toWrite(join(folder, "stillglow.db"));
  try {
    await migrate(engine, now);
    let prev = chainStart;
    await engine.transaction(async (queries) => {
      let rows: EvidenceTable[] = [];
      const write = async () => {
        if (rows.length > 0) await queries.do(build.insertInto("evidence").values(rows));
        rows = [];
      };
      for await (const entry of entries) {
        const row = rowOf(entry, prev);
        prev = row.sha256;
        rows.push(row);
        if (rows.length === rowsAtOnce) await write();
      }
      await write();
      for (const customer of customers) await queries.do(build.insertInto("customer").values(customer));
    });
    return prev;
  } finally {
    await engine.close({ write: true });
  }
}
