import { createReadStream, openAsBlob } from "node:fs";
import type { Evidence } from "../claims/evidence.ts";
import { BadInput } from "../maths/badInput.ts";
import { serverOf } from "../store/lock.ts";
import { openToWrite } from "./workshopFolder.ts";

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

export async function writer(folder: string): Promise<Writer> {
  const server = serverOf(folder);
  if (server !== undefined) return remote(server);
  const workshop = openToWrite(folder);
  return {
    enter: async (entries) => workshop.enter(entries),
    keepRecording: async (path) => (await workshop.keepRecording(createReadStream(path), path)).file_sha256,
    release: (unit, by) => workshop.release(unit, by),
    conditions: async (unit) => workshop.conditions(unit),
    close: () => workshop.close(),
  };
}

function remote(address: string): Writer {
  const ask = async <T>(path: string, body?: BodyInit, type = "application/json"): Promise<T> => {
    const response = await fetch(
      new URL(path, address),
      body === undefined ? {} : { method: "POST", body, headers: { "content-type": type } },
    );
    const answer = (await response.json()) as { error?: { path: string; message: string } };
    if (answer.error)
      throw BadInput.at(
        answer.error.path,
        Object.assign(new BadInput("", "", "", ""), { message: answer.error.message }),
      );
    return answer as T;
  };
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
