import { type ChildProcess, spawn } from "node:child_process";
import { join } from "node:path";
import { root } from "./helpers.ts";

const command = join(root, "bin", "stillglow");

export interface Started {
  readonly process: ChildProcess;
  readonly address: string;
  /** Ends it as a shop would. */
  stop(): Promise<void>;
  /** Ends it as a power cut would. */
  kill(): Promise<void>;
}

export interface PlaceOfServer {
  readonly folder: string;
  readonly database?: string | undefined;
}

/** Starts the real server on a free port, with its ledger in its folder or in a database. */
export function serverAt({ folder, database }: PlaceOfServer): Promise<Started> {
  return said(["serve", "--data", folder, "--port", "0", "--no-backup"], database, /open at (http:\S+)/);
}

/** Starts a worker for the servers of a database. */
export function workerAt({ folder, database }: PlaceOfServer): Promise<Started> {
  return said(["work", "--data", folder], database, /(Working) for/);
}

function said(args: readonly string[], database: string | undefined, sign: RegExp): Promise<Started> {
  const child = spawn(command, args, {
    cwd: root,
    stdio: ["ignore", "pipe", "pipe"],
    env: { ...process.env, STILLGLOW_DATABASE: database ?? "" },
  });
  const ended = new Promise<void>((gone) => child.once("exit", () => gone()));
  const end = (signal: NodeJS.Signals) => {
    child.kill(signal);
    return ended;
  };
  return new Promise((resolve, reject) => {
    let words = "";
    const hear = (bytes: Buffer) => {
      words += bytes;
      const address = words.match(sign)?.[1];
      if (address !== undefined) {
        resolve({ process: child, address, stop: () => end("SIGTERM"), kill: () => end("SIGKILL") });
      }
    };
    child.stdout.on("data", hear);
    child.stderr.on("data", hear);
    child.once("exit", (status) => reject(new Error(`stillglow ${args[0]} ended with ${status}: ${words}`)));
  });
}
