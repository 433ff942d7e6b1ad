import { mkdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { randomStream } from "../src/maths/random.ts";
import { openStore } from "../src/store/index.ts";
import { headphone } from "../src/store/testing/entries.ts";
import { afterPowerCut, type Files, filesIn, putFiles } from "../src/store/testing/powerLoss.ts";

export interface PowerCuts {
  readonly cuts: number;
  /** Cuts while pages were being moved from the log into the file. */
  readonly whileMoving: number;
  /** Cuts after which some, but not all, of the bytes of a writing that was not acknowledged were on the disk. */
  readonly partlyWritten: number;
  /** Cuts after which a writing that was not acknowledged was there all the same, whole. */
  readonly thereUnacknowledged: number;
  readonly acknowledged: number;
  readonly lost: readonly string[];
  readonly torn: readonly string[];
  readonly broken: readonly string[];
}

export interface CutOptions {
  /** Empty, for the files of the trial. */
  readonly room: string;
  readonly writings: number;
  readonly cutsAWriting: number;
  readonly seed: string;
  /** Which writings are cut into besides those that move pages: every so many. */
  readonly every: number;
  /** What the disk holds afterwards; by the model when left out. */
  readonly disk?: typeof afterPowerCut;
}

/**
 * Writes into a real store and cuts the power, as the model has it, between one acknowledgement and the next, again and
 * again; every folder that is left is opened by the store and held against what had been acknowledged by then.
 */
export async function cutPower(options: CutOptions): Promise<PowerCuts> {
  const { room, writings, cutsAWriting, seed, every, disk = afterPowerCut } = options;
  const chance = randomStream(`power ${seed}`);
  const shop = join(room, "shop");
  mkdirSync(shop);
  const store = await openStore(shop);
  const told = { cuts: 0, whileMoving: 0, partlyWritten: 0, thereUnacknowledged: 0 };
  const lost: string[] = [];
  const torn: string[] = [];
  const broken: string[] = [];
  const acknowledged: string[] = [];
  let before = filesIn(shop);
  for (let i = 0; i < writings; i += 1) {
    const draw = chance.fork(String(i));
    const entries = Array.from({ length: 1 + Math.floor(draw.uniform() * 12) }, (_, k) => headphone(`h${i}-${k}`));
    const written = await store.append(entries);
    const after = filesIn(shop);
    const isMoving = before.database.length > 0 && !after.database.equals(before.database);
    if (i > 0 && (isMoving || i % every === 0)) {
      for (let cut = 0; cut < cutsAWriting * (isMoving ? 5 : 1); cut += 1) {
        const left = disk(before, after, draw);
        told.cuts += 1;
        if (isMoving && !left.database.equals(before.database)) told.whileMoving += 1;
        if (isPartial(left, before, after)) told.partlyWritten += 1;
        await open(
          left,
          `writing ${i}, cut ${cut}`,
          acknowledged,
          written.map(({ id }) => id),
        );
      }
    }
    acknowledged.push(...written.map(({ id }) => id));
    before = after;
  }
  await store.close();
  return { ...told, acknowledged: acknowledged.length, lost, torn, broken };

  async function open(left: Files, where: string, sure: readonly string[], last: readonly string[]): Promise<void> {
    const folder = join(room, "after");
    mkdirSync(folder);
    putFiles(folder, left);
    try {
      const again = await openStore(folder);
      const ids = new Set(again.evidence().map(({ id }) => id));
      const read = await again.verify();
      if (!read.ok) broken.push(`${where}: entry ${read.seq}: ${read.problem}`);
      lost.push(...sure.filter((id) => !ids.has(id)).map((id) => `${where}: ${id}`));
      const there = last.filter((id) => ids.has(id)).length;
      if (there > 0 && there < last.length) torn.push(`${where}: ${there} of ${last.length} entries`);
      if (there === last.length) told.thereUnacknowledged += 1;
      await again.close();
    } catch (fault) {
      broken.push(`${where}: ${String(fault)}`);
    }
    rmSync(folder, { recursive: true });
  }
}

function isPartial(left: Files, before: Files, after: Files): boolean {
  const part = (of: keyof Files) => !left[of].equals(before[of]) && !left[of].equals(after[of]);
  return part("database") || part("log");
}
