import { createReadStream, openAsBlob } from "node:fs";
import type { Evidence } from "../claims/evidence.ts";
import { serverOf } from "../store/lock.ts";
import { askServer } from "./askServer.ts";
import { databaseOf, dataFolder, type FolderOption, openToWrite } from "./workshopFolder.ts";

/** What a command may do to a workshop: by itself when nobody has it open, else through the server that has. */
export interface Writer {
  enter(entries: readonly unknown[]): Promise<readonly Evidence[]>;
  keepRecording(path: string): Promise<string>;
  release(
    unit: string,
    by: string,
  ): Promise<{ granted: boolean; missing: readonly { title: string; state: string; because: string }[] }>;
  conditions(unit: string): Promise<{ building_Hz: number; fitted: Readonly<Record<string, string>>; now: string }>;
  close(): Promise<void>;
}

export async function writer(options: FolderOption): Promise<Writer> {
  const folder = dataFolder(options);
  // Beside a shared database everybody writes for himself.
  const server = databaseOf(options) === undefined ? serverOf(folder) : undefined;
  if (server !== undefined) return remote(server, folder);
  const workshop = await openToWrite(options);
  return {
    enter: async (entries) => workshop.enter(entries),
    keepRecording: async (path) => (await workshop.keepRecording(createReadStream(path), path)).file_sha256,
    release: (unit, by) => workshop.release(unit, by),
    conditions: async (unit) => workshop.conditions(unit),
    close: () => workshop.close(),
  };
}

function remote(address: string, folder: string): Writer {
  const ask = <T>(path: string, body?: BodyInit, type = "application/json"): Promise<T> =>
    askServer<T>({ address, folder }, path, body === undefined ? undefined : { method: "POST", body, type });
  return {
    enter: async (entries) =>
      (await ask<{ entries: Evidence[] }>("/api/evidence", JSON.stringify({ entries }))).entries,
    keepRecording: async (path) =>
      (await ask<{ file_sha256: string }>("/api/recordings", await openAsBlob(path), "audio/wav")).file_sha256,
    release: (unit, by) => ask(`/api/units/${encodeURIComponent(unit)}/release`, JSON.stringify({ by })),
    conditions: (unit) => ask(`/api/units/${encodeURIComponent(unit)}/conditions`),
    close: async () => undefined,
  };
}
