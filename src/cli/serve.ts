import { createReadStream, existsSync } from "node:fs";
import { join, resolve } from "node:path";
import { BadInput, quote } from "../maths/badInput.ts";
import { existingFolder, watchRecorderFolder } from "../server/recorderFolder.ts";
import { buildServer } from "../server/server.ts";
import type { Workshop } from "../workshop/workshop.ts";
import { keepDailyBackups, usualBackupFolder } from "./dailyBackup.ts";
import { dataFolder, type FolderOption, openToWrite } from "./workshopFolder.ts";

export const pageFolder = join(import.meta.dirname, "..", "..", "dist", "screens");

/** `stillglow serve`: opens a workshop, empty or not, in the browser, until stopped. */
export async function serve(
  options: FolderOption & {
    readonly port: string;
    readonly recorderFolder?: string;
    /** False when none shall be kept. */
    readonly backup?: string | false;
  },
): Promise<void> {
  const watched = options.recorderFolder === undefined ? undefined : existingFolder(resolve(options.recorderFolder));
  const folder = dataFolder(options);
  const workshop = openToWrite(folder);
  const kept = options.backup === false ? undefined : resolve(options.backup ?? usualBackupFolder(folder));
  const daily =
    kept === undefined
      ? undefined
      : keepDailyBackups(folder, kept, (trouble) => process.stderr.write(`No backup was taken. ${trouble}\n`));
  try {
    await serveWorkshop(workshop, options.port, watched);
  } finally {
    daily?.stop();
  }
}

/** A fresh clone has no page yet; an address is told only once there is one to open. */
async function buildPageIfMissing(): Promise<void> {
  if (existsSync(join(pageFolder, "index.html"))) return;
  const { buildPage } = (await import(new URL("../../scripts/ready.mjs", import.meta.url).href)) as {
    buildPage(): void;
  };
  buildPage();
}

/** Serves until the process is told to stop, then closes the store so that everything is in one file. */
export async function serveWorkshop(workshop: Workshop, portText: string, watched?: string): Promise<void> {
  const port = Number(portText);
  if (!Number.isInteger(port) || port < 0 || port > 65535) {
    await workshop.close();
    throw new BadInput("--port", quote(portText), "a whole number from 0 to 65535", "choose a free port, such as 4171");
  }
  await buildPageIfMissing();
  const recorderFolder =
    watched === undefined
      ? undefined
      : watchRecorderFolder({
          folder: watched,
          take: (name, path, madeAt) =>
            workshop.waitingFiles.take(name, createReadStream(path), { madeAt, now: workshop.now }),
        });
  const app = await buildServer({ workshop, page: pageFolder, ...(recorderFolder && { recorderFolder }) });
  try {
    const address = await app.listen({ host: "127.0.0.1", port });
    workshop.announce(address);
    process.stdout.write(`\nStillglow is open at ${address}  (Ctrl-C stops it)\n`);
    // The shelf is computed before anybody asks for it.
    void workshop.timber({ wait: true }).catch(() => undefined);
    if (watched !== undefined) process.stdout.write(`Taking the recorder's files from ${watched}\n`);
  } catch (error) {
    await workshop.close();
    if ((error as NodeJS.ErrnoException).code === "EADDRINUSE") {
      throw new BadInput(
        "--port",
        String(port),
        "another program listens there",
        "choose another with --port, or 0 for any free one",
      );
    }
    throw error;
  }
  await new Promise<void>((stopped) => {
    const stop = () => {
      recorderFolder?.stop();
      app
        .close()
        .finally(() => workshop.close())
        .finally(stopped);
    };
    process.once("SIGINT", stop);
    process.once("SIGTERM", stop);
  });
}
