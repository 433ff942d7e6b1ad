import { mkdirSync } from "node:fs";
import { availableParallelism } from "node:os";
import { BadInput, quote } from "../maths/badInput.ts";
import { PostgresEngine } from "../store/postgres/engine.ts";
import { startWorker } from "../workshop/queue/worker.ts";
import { requiredDatabase } from "./move.ts";
import { dataFolder, type FolderOption } from "./workshopFolder.ts";

/** `stillglow work`: computes long answers for the servers of a database, until stopped. */
export async function work(options: FolderOption & { readonly atOnce?: string }): Promise<void> {
  const atOnce = options.atOnce === undefined ? availableParallelism() : Number(options.atOnce);
  if (!Number.isInteger(atOnce) || atOnce < 1 || atOnce > 64) {
    throw new BadInput("--at-once", quote(options.atOnce), "a whole number from 1 to 64", "one for each core is usual");
  }
  const folder = dataFolder(options);
  mkdirSync(folder, { recursive: true });
  const engine = await PostgresEngine.open(requiredDatabase(options));
  try {
    const worker = await startWorker({ engine, folder, atOnce });
    const told = new Promise<void>((stopped) => {
      process.once("SIGINT", () => stopped());
      process.once("SIGTERM", () => stopped());
    });
    process.stdout.write(`Working for ${engine.name}, ${atOnce} at a time  (Ctrl-C stops it)\n`);
    await told;
    await worker.stop();
  } finally {
    await engine.close();
  }
}
