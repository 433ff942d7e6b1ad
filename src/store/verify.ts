import type { Evidence } from "../claims/evidence.ts";
import { canonicalJson, chainStart, linkHash } from "./chain.ts";
import type { Queries } from "./engine.ts";
import type { Files } from "./keptFiles.ts";
import { entryOf, rowOf } from "./rows.ts";
import { StoreCorrupted } from "./storeErrors.ts";
import { build, type EvidenceTable } from "./tables.ts";

export type Verification =
  | { readonly ok: true; readonly entries: number; readonly head: string; readonly recordings: number }
  | { readonly ok: false; readonly seq: number; readonly id?: string; readonly problem: string };

const page = 2000;

/** The files that entries name by their content. */
export interface Kept {
  readonly recordings: Files;
  readonly photos: Files;
}

/**
 * Reads the whole chain from disk and names the first entry that is not as it was written.
 *
 * @param keptHead  a newest hash noted earlier (on a dossier, on a backup); a chain that lost its tail since then is
 *   whole by itself, and only this shows it
 */
export async function verifyChain(queries: Queries, files: Kept, keptHead?: string): Promise<Verification> {
  let prev = chainStart;
  let seq = 0;
  let keptHeadSeen = keptHead === undefined || keptHead === chainStart;
  const names = { recordings: new Set<string>(), photos: new Set<string>() };

  for (let rows = await after(queries, seq); rows.length > 0; rows = await after(queries, seq)) {
    for (const row of rows) {
      const problem = faultOf(row, seq + 1, prev);
      if (problem) return { ok: false, seq: row.seq, id: row.id, problem };
      const lost = await lostFile(entryOf(row), files, names);
      if (lost) return { ok: false, seq: row.seq, id: row.id, problem: lost };
      seq = row.seq;
      prev = row.sha256;
      keptHeadSeen ||= row.sha256 === keptHead;
    }
  }
  if (!keptHeadSeen) {
    return {
      ok: false,
      seq,
      problem: `the chain ends here, and the kept hash ${keptHead} is not in it: its tail was cut`,
    };
  }
  return { ok: true, entries: seq, head: prev, recordings: names.recordings.size };
}

/** What is wrong with the file that an entry names; each file is read once. */
async function lostFile(
  { body }: Evidence,
  files: Kept,
  names: Record<keyof Kept, Set<string>>,
): Promise<string | undefined> {
  const named =
    body.kind === "recording"
      ? ({ of: "recordings", what: "recording", name: body.file_sha256 } as const)
      : body.kind === "flaw" && body.photo_sha256 !== undefined
        ? ({ of: "photos", what: "photo", name: body.photo_sha256 } as const)
        : undefined;
  if (!named || names[named.of].has(named.name)) return undefined;
  const file = named.of === "recordings" ? `${named.name}.wav` : named.name;
  if (!(await files[named.of].has(named.name))) return `its ${named.what} ${file} is missing`;
  if (!(await files[named.of].isWhole(named.name))) return `its ${named.what} ${file} was changed`;
  names[named.of].add(named.name);
  return undefined;
}

function after(queries: Queries, seq: number): Promise<EvidenceTable[]> {
  return queries.all(build.selectFrom("evidence").selectAll().where("seq", ">", seq).orderBy("seq").limit(page));
}

function faultOf(row: EvidenceTable, seq: number, prev: string): string | undefined {
  if (row.seq !== seq) return `entry ${seq} is missing`;
  if (row.prev_sha256 !== prev) return "it does not follow the entry before it";
  try {
    const entry = entryOf(row);
    if (linkHash(prev, entry) !== row.sha256) return "it was edited: its hash does not fit what it says";
    return canonicalJson(rowOf(entry, prev)) === canonicalJson({ ...row })
      ? undefined
      : "its index columns were edited";
  } catch (fault) {
    if (fault instanceof StoreCorrupted) return "its body is no longer JSON";
    throw fault;
  }
}
