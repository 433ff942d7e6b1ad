import type { Submission } from "../../claims/evidence.ts";
import { toldAnswer, toldRefusal } from "../languages/sentences/told.ts";
import { unattended } from "./attended.ts";
import { noteOlder } from "./older.ts";

export interface WorkshopHead {
  readonly title: string;
  readonly now: string;
  readonly demo: boolean;
  /** Those in hand and the newest that left; any other is found by its number. */
  readonly units: readonly { readonly unit: string; readonly model: string; readonly state: string }[];
  /** Left out, as many as are told. */
  readonly unitsInAll?: number;
  readonly head: string;
  /** Numbers of the timber on record, which a scanner may read too. */
  readonly pieces?: readonly string[];
}

/** What went wrong, in the words of whoever noticed it; `path` names the field at fault where there is one. */
export class Trouble extends Error {
  readonly path: string;
  readonly status: number;
  constructor(message: string, path: string, status: number) {
    super(message);
    this.path = path;
    this.status = status;
  }
}

const signedOutListeners = new Set<() => void>();

/** Called when something was refused because nobody is signed in any more. */
export function onSignedOut(told: () => void): void {
  signedOutListeners.add(told);
}

async function answerOf<T>(path: string, asked: Promise<Response>): Promise<T> {
  let response: Response;
  try {
    response = await asked;
  } catch {
    const silent = "The workshop's machine does not answer. Check that Stillglow is still running there.";
    throw new Trouble(await toldRefusal(silent), "", 0);
  }
  const text = await response.text();
  let answer: unknown;
  try {
    answer = text === "" ? undefined : JSON.parse(text);
  } catch {
    answer = undefined;
  }
  if (response.ok && answer !== undefined) return toldAnswer(path, answer as T);
  if (response.status === 401) for (const told of signedOutListeners) told();
  const error = (answer as { error?: { path?: string; message?: string } } | undefined)?.error;
  throw new Trouble(
    await toldRefusal(error?.message ?? `The answer could not be read (status ${response.status}).`),
    error?.path ?? "",
    response.status,
  );
}

/** What takes long to work out anew is taken as it stood a moment ago, and asked for again by whoever says so. */
export const get = <T>(path: string): Promise<T> => {
  const headers = { accept: "application/json", "cache-control": "max-stale", ...unattended() };
  const asked = fetch(path, { headers }).then((response) => {
    noteOlder(path, response.headers.has("as-of"));
    return response;
  });
  return answerOf<T>(path, asked);
};

export const post = <T>(path: string, body: unknown): Promise<T> =>
  answerOf<T>(
    path,
    fetch(path, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) }),
  );

export const remove = <T>(path: string): Promise<T> => answerOf<T>(path, fetch(path, { method: "DELETE" }));

/** A file as it is, to be looked at; nothing is written down by it. */
export const postFile = <T>(path: string, file: Blob, signal?: AbortSignal): Promise<T> =>
  answerOf<T>(
    path,
    fetch(path, {
      method: "POST",
      headers: { "content-type": "application/octet-stream" },
      body: file,
      ...(signal && { signal }),
    }),
  );

export const postRecording = (file: Blob): Promise<{ file_sha256: string }> =>
  answerOf(
    "/api/recordings",
    fetch("/api/recordings", { method: "POST", headers: { "content-type": "audio/wav" }, body: file }),
  );

/** Anything that may be written down, before the moment and the person are put on it. */
export type Note = Submission extends infer S ? (S extends unknown ? Omit<S, "at" | "by"> : never) : never;

/** Writes entries down at the workshop's own present moment, which in the demo is not the browser's. */
export async function writeDown(by: string, notes: readonly Note[]): Promise<void> {
  const { now } = await get<WorkshopHead>("/api/workshop");
  await post("/api/evidence", { entries: notes.map((note) => ({ at: now, by, ...note })) });
}
