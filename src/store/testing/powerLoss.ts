import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Random } from "../../maths/random.ts";

/**
 * What a disk may hold after the power failed, made from what the ledger's files held at two instants.
 *
 * When a write is acknowledged, all of it has been synchronised: the files as they are then are what the disk surely has.
 * Of what was written until the next acknowledgement the disk may have any part, in any order, sector by sector; a sector
 * may be torn, its other half old or noise. One order is kept, since the database waits for the disk in between: pages are
 * moved from the log into the file only after the log was synchronised, and the log begins anew only after the file was.
 */
export interface Files {
  readonly database: Buffer;
  readonly log: Buffer;
}

const sector_bytes = 512;
const database = "stillglow.db";

export function filesIn(folder: string): Files {
  const read = (name: string) => (existsSync(join(folder, name)) ? readFileSync(join(folder, name)) : Buffer.alloc(0));
  return { database: read(database), log: read(`${database}-wal`) };
}

/** The files after a power cut between two instants: what was synchronised at the first, and some of what came later. */
export function afterPowerCut(kept: Files, written: Files, draw: Random): Files {
  const isWhileMoving = !written.database.equals(kept.database) && draw.uniform() < 0.5;
  return isWhileMoving
    ? { database: torn(kept.database, written.database, draw), log: written.log }
    : { database: kept.database, log: torn(kept.log, written.log, draw) };
}

export function putFiles(folder: string, { database: bytes, log }: Files): void {
  writeFileSync(join(folder, database), bytes);
  if (log.length > 0) writeFileSync(join(folder, `${database}-wal`), log);
  // A power cut leaves the note of whoever had it open.
  writeFileSync(join(folder, "lock.json"), '{"pid":1,"since":"2026-03-01T12:00:00.000Z"}\n');
}

function torn(kept: Buffer, written: Buffer, draw: Random): Buffer {
  const share = draw.uniform();
  const firstChange = firstDifference(kept, written);
  // The length of a file may have reached the disk without what is in it.
  const length =
    draw.uniform() < 0.5 ? written.length : Math.min(written.length, kept.length + draw.uniform() * 20_000);
  const result = Buffer.alloc(Math.max(kept.length, Math.floor(length)));
  kept.copy(result);
  for (let at = 0; at < written.length && at < result.length; at += sector_bytes) {
    const end = Math.min(at + sector_bytes, written.length, result.length);
    const fresh = written.subarray(at, end);
    if (fresh.equals(kept.subarray(at, end))) continue;
    // The first of them is the one that may hold the end of what was synchronised before.
    const isFirst = at <= firstChange;
    if (!isFirst && draw.uniform() > share) continue;
    fresh.copy(result, at);
    if (draw.uniform() > (isFirst ? 0.4 : 0.1)) continue;
    const from = at + Math.floor(draw.uniform() * (end - at));
    if (draw.uniform() < 0.5 && kept.length >= end) kept.copy(result, from, from, end);
    else for (let i = from; i < end; i += 1) result[i] = Math.floor(draw.uniform() * 256);
  }
  return result;
}

function firstDifference(a: Buffer, b: Buffer): number {
  for (let i = 0; i < b.length; i += 1) if (a[i] !== b[i]) return i;
  return b.length;
}
