import { createReadStream, existsSync } from "node:fs";
import type { Server } from "node:http";
import { join, resolve } from "node:path";
import { BadInput, quote } from "../maths/badInput.ts";
import { listener } from "../server/people/listener.ts";
import { existingFolder, watchRecorderFolder } from "../server/recorderFolder.ts";
import { buildServer } from "../server/server.ts";
import { usualCopies } from "../store/copyPlaces.ts";
import type { Workshop } from "../workshop/workshop.ts";
import { keepDailyBackups } from "./dailyBackup.ts";
import { keepToOneself } from "./keepToOneself.ts";
import { giveLocalToken, takeLocalToken } from "./localToken.ts";
import { opened, type Standing, type StandingOptions, standing } from "./standing.ts";
import { databaseOf, dataFolder, type FolderOption, openToWrite } from "./workshopFolder.ts";

export const pageFolder = join(import.meta.dirname, "..", "..", "dist", "screens");

/** `stillglow serve`: opens a workshop, empty or not, in the browser, until stopped. */
export async function serve(
  options: FolderOption &
    StandingOptions & {
      readonly port: string;
      readonly recorderFolder?: string;
      /** False when none shall be kept. */
      readonly backup?: string | false;
    },
): Promise<void> {
  const watched = options.recorderFolder === undefined ? undefined : existingFolder(resolve(options.recorderFolder));
  const folder = dataFolder(options);
  const workshop = await openToWrite(options);
  const kept = options.backup === false ? undefined : resolve(options.backup ?? usualCopies(folder));
  const daily =
    kept === undefined
      ? undefined
      : keepDailyBackups({ folder, database: databaseOf(options) }, kept, (trouble) =>
          process.stderr.write(`No backup was taken. ${trouble}\n`),
        );
  try {
    await serveWorkshop(workshop, { folder, port: options.port, watched, standing: options });
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

interface Served {
  readonly folder: string;
  readonly port: string;
  readonly watched?: string | undefined;
  /** Loopback when left out. */
  readonly standing?: StandingOptions;
}

/** Serves until the process is told to stop, then closes the store so that everything is in one file. */
export async function serveWorkshop(workshop: Workshop, served: Served): Promise<void> {
  const { folder, port: portText, watched } = served;
  const port = Number(portText);
  if (!Number.isInteger(port) || port < 0 || port > 65535) {
    await workshop.close();
    throw new BadInput("--port", quote(portText), "a whole number from 0 to 65535", "choose a free port, such as 4171");
  }
  let stands: Standing;
  try {
    const place = { folder, arePeople: workshop.people.arePresent, localToken: giveLocalToken(folder) };
    if (workshop.people.arePresent) keepToOneself(folder);
    stands = await standing(served.standing ?? {}, { ...place, now_ms: Date.now() });
    await buildPageIfMissing();
  } catch (error) {
    takeLocalToken(folder);
    await workshop.close();
    throw error;
  }
  workshop.giveWay();
  const { door, certificate } = stands;
  const recorderFolder =
    watched === undefined
      ? undefined
      : watchRecorderFolder({
          folder: watched,
          take: (name, path, madeAt) =>
            workshop.waitingFiles.take(name, createReadStream(path), { madeAt, now: workshop.now }),
        });
  const app = await buildServer({
    workshop,
    page: pageFolder,
    door,
    ...(certificate && { certificate }),
    ...(recorderFolder && { recorderFolder }),
  });
  // Commands of this machine need no certificate to find their way; they show the token of the folder.
  const commands = listener((request, response) => app.routing(request, response));
  try {
    await app.listen({ host: stands.host, port });
    const taken = app.server.address();
    const [address, ...others] = opened(stands, typeof taken === "object" && taken ? taken.port : port);
    const isPlainHere = door.https === "none" && !door.isExposed;
    workshop.announce(address!, isPlainHere ? undefined : await listenHere(commands));
    workshop.warmUp().catch((fault: Error) => process.emitWarning(fault));
    process.stdout.write(`\nStillglow is open at ${address}  (Ctrl-C stops it)\n`);
    for (const other of others) process.stdout.write(`                and at ${other}\n`);
    process.stdout.write(certificateWords(stands));
    process.stderr.write(clockWords(workshop.clockBehind_ms()));
    // The shelf is computed before anybody asks for it.
    void workshop.timber({ wait: true }).catch(() => undefined);
    if (watched !== undefined) process.stdout.write(`Taking the recorder's files from ${watched}\n`);
  } catch (error) {
    takeLocalToken(folder);
    recorderFolder?.stop();
    commands.close();
    await workshop.close();
    if ((error as NodeJS.ErrnoException).code === "EADDRNOTAVAIL") {
      const host = served.standing?.listen;
      throw new BadInput(
        "--listen",
        quote(host),
        "this machine has no such address",
        "write 0.0.0.0 for all of its own",
      );
    }
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
      takeLocalToken(folder);
      commands.close();
      commands.closeAllConnections();
      app
        .close()
        .finally(() => workshop.close())
        .finally(stopped);
    };
    process.once("SIGINT", stop);
    process.once("SIGTERM", stop);
  });
}

/** Entries are never dated before the one they follow, so that their order stays; people must hear why a time stands still. */
function clockWords(behind_ms: number): string {
  if (behind_ms < 60_000) return "";
  const behind =
    behind_ms < 7_200_000 ? `${Math.round(behind_ms / 60_000)} min` : `${Math.round(behind_ms / 3_600_000)} h`;
  return `The clock of this machine stands ${behind} behind the newest entry; new entries bear that one's time until it has caught up. Set the clock, if it is wrong.\n`;
}

/** @returns the address */
function listenHere(server: Server): Promise<string> {
  return new Promise((listening, failed) => {
    server.once("error", failed);
    server.listen(0, "127.0.0.1", () => {
      const address = server.address();
      listening(`http://127.0.0.1:${typeof address === "object" && address ? address.port : 0}`);
    });
  });
}

/** What lets people tell that the browser's warning is of this very certificate. */
function certificateWords({ certificate, door }: Standing): string {
  if (!certificate?.isOwn || !door.isExposed) return "";
  const since = certificate.isNew ? "made just now" : "the same as before";
  return `Its certificate is the workshop's own, ${since}; a browser asks once whether to trust it.
Compare what the browser shows, SHA-256:
  ${certificate.fingerprint}
`;
}
