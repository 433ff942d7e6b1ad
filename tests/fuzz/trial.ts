import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { bytesInMemory, readWav } from "../../src/bench/wav.ts";
import { answerWith } from "../../src/calculations/answer.ts";
import { calculationNamed } from "../../src/calculations/list.ts";
import type { EvidenceKind } from "../../src/claims/evidence.ts";
import { foldShop } from "../../src/claims/index.ts";
import { kindNamed } from "../../src/exchange/columns.ts";
import { entriesOf } from "../../src/exchange/entries.ts";
import { takeInArchive } from "../../src/exchange/readArchive.ts";
import { headphone, noon } from "../../src/store/testing/entries.ts";
import { gridOf } from "../../src/workshop/exchange/desk.ts";
import { readLinkFile } from "../../src/workshop/instruments/linkFile.ts";
import { readTable } from "../../src/workshop/readingsFile.ts";
import { openWorkshop } from "../../src/workshop/workshop.ts";
import { recordingNamed } from "./recordings.ts";

/** One thing to try: a question to a calculation, or bytes for a reader. */
export type Trial =
  | { readonly of: "calculation"; readonly name: string; readonly input: unknown }
  | { readonly of: "reader"; readonly name: ReaderName; readonly bytes: Uint8Array };

export type Outcome =
  /** It was taken, and what came back was sound. */
  | { readonly was: "answered" }
  /** Refused in words: by its shape alone, or past that. */
  | { readonly was: "refused"; readonly isInside: boolean; readonly where: string; readonly isNotFinite?: boolean }
  /** What must not happen. */
  | { readonly was: "fault"; readonly words: string };

export const readers = {
  wav: readWavBytes,
  table,
  "readings file": readingsFile,
  archive,
  "backup's note": backupNote,
  "instrument's description": description,
  "evidence over HTTP": evidenceOverHttp,
  "any route over HTTP": routeOverHttp,
} as const;
export type ReaderName = keyof typeof readers;

export async function tried(trial: Trial): Promise<Outcome> {
  try {
    return trial.of === "calculation"
      ? await calculated(trial.name, trial.input)
      : await readers[trial.name](Buffer.from(trial.bytes));
  } catch (thrown) {
    return refusedOr(thrown);
  }
}

async function calculated(name: string, input: unknown): Promise<Outcome> {
  const paper = (await calculationNamed(name))!;
  const isShaped = paper.input.safeParse(input).success;
  const given = await answerWith(paper, input, { recording: recordingNamed });
  if (!given.ok) {
    const said = refusal(given.error.path, given.error.message, isShaped);
    return given.error.message.includes("is not a finite number at") && said.was === "refused"
      ? { ...said, isNotFinite: true }
      : said;
  }
  const odd = notFinite(given.output);
  if (odd !== undefined) return { was: "fault", words: `the answer is not finite at ${odd}` };
  const broken = paper.output.safeParse(given.output).error?.issues[0];
  if (broken)
    return { was: "fault", words: `the answer breaks its schema at ${broken.path.join(".")}: ${broken.message}` };
  return { was: "answered" };
}

/** A refusal is one clear sentence in three parts, names no place in the code and is of a length that can be read. */
function refusal(path: string, message: string, isInside: boolean): Outcome {
  const words = unclear(message);
  if (words !== undefined) return { was: "fault", words };
  return {
    was: "refused",
    isInside,
    where: `${path.replaceAll(/\[\d+\]/g, "[]").slice(0, 80)}; ${kindOfWords(message)}`,
  };
}

const unclear = (message: string): string | undefined =>
  message.split("; ").length < 3
    ? `a refusal that lacks what is allowed or the mend: ${message.slice(0, 200)}`
    : message.length > 2000
      ? `a refusal of ${message.length} characters`
      : /\n\s+at |node_modules|file:\/\//.test(message)
        ? `a refusal that shows code: ${message.slice(0, 200)}`
        : undefined;

/** What a refusal allows, without its figures: refusals of one kind are one branch. */
const kindOfWords = (message: string) => (message.split("; ").at(-2) ?? "").replaceAll(/[\d.,]+/g, "#").slice(0, 60);

function refusedOr(thrown: unknown): Outcome {
  if (!(thrown instanceof Error)) return { was: "fault", words: `thrown: ${String(thrown)}` };
  if (["BadInput", "UnreadableRecording"].includes(thrown.name)) {
    return refusal("path" in thrown ? String(thrown.path) : "", thrown.message, true);
  }
  if (/^Store(Corrupted|Missing)$/.test(thrown.name)) {
    return { was: "refused", isInside: true, where: `${thrown.name}; ${kindOfWords(`; ${thrown.message}; `)}` };
  }
  return { was: "fault", words: `${thrown.stack?.slice(0, 900)}` };
}

function notFinite(value: unknown, path = ""): string | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : path || "its top";
  if (typeof value !== "object" || value === null) return undefined;
  for (const [key, inner] of Object.entries(value)) {
    const odd = notFinite(inner, `${path}.${key}`);
    if (odd !== undefined) return odd;
  }
  return undefined;
}

async function readWavBytes(bytes: Buffer): Promise<Outcome> {
  const read = readWav(bytesInMemory(bytes));
  const isSound = read.samples.every((channel) => channel.every((value) => Math.abs(value) <= 1e12));
  return isSound ? { was: "answered" } : { was: "fault", words: "a sample that is no usable number" };
}

/** The kind of evidence stands in the first byte, the table in the others. */
async function table(bytes: Buffer): Promise<Outcome> {
  const kind: EvidenceKind = kindNamed(["weighing", "reading", "valve-reading"][bytes[0]! % 3]!);
  const grid = await gridOf(bytes.subarray(1), {});
  const read = grid.ok
    ? entriesOf(kind, grid.grid, { decimal: "point", instant: (clock) => `${clock.slice(0, 16)}:00Z` })
    : grid;
  if (read.ok) return { was: "answered" };
  const { line, column, given, allowed, mend } = read.faults[0]!;
  return refusal(`${column ?? (line === 1 ? "head" : "row")}`, `${given}; ${allowed}; ${mend}`, grid.ok);
}

async function readingsFile(bytes: Buffer): Promise<Outcome> {
  const { rows, head } = readTable(bytes.toString("utf8"));
  return Array.isArray(rows) && Array.isArray(head) ? { was: "answered" } : { was: "fault", words: "no table" };
}

function inRoom<T>(work: (room: string) => Promise<T>): Promise<T> {
  const room = mkdtempSync(join(tmpdir(), "stillglow-fuzz-"));
  return work(room).finally(() => rmSync(room, { recursive: true, force: true }));
}

function archive(bytes: Buffer): Promise<Outcome> {
  return inRoom(async (room) => {
    writeFileSync(join(room, "given.zip"), bytes);
    await takeInArchive(join(room, "given.zip"), join(room, "into"), "2026-03-02T12:00:00.000Z");
    return { was: "answered" };
  });
}

/** What a note says of the copy that this process made: stands in a note for the copy's own. */
export const copyStands = { entries: 424_242, head: "c0".repeat(32), sha256: "d0".repeat(32) } as const;

let copied: Promise<{ readonly ledger: Buffer; readonly note: { entries: number; head: string; sha256: string } }>;

/** A sound copy of a workshop with one entry, made once. */
function soundCopy() {
  copied ??= inRoom(async (room) => {
    const { openStore, takeBackup } = await import("../../src/store/index.ts");
    mkdirSync(join(room, "shop"));
    const store = await openStore(join(room, "shop"), { clock: () => noon });
    try {
      await store.append([headphone("a")]);
    } finally {
      await store.close();
    }
    const { name, entries, head, database_sha256 } = await takeBackup(join(room, "shop"), join(room, "copies"), noon);
    const ledger = readFileSync(join(room, "copies", name, "stillglow.db"));
    return { ledger, note: { entries, head, sha256: database_sha256 } };
  });
  return copied;
}

function backupNote(bytes: Buffer): Promise<Outcome> {
  return inRoom(async (room) => {
    const { verifyBackup } = await import("../../src/store/index.ts");
    const { ledger, note } = await soundCopy();
    const text = bytes
      .toString("latin1")
      .replace(String(copyStands.entries), String(note.entries))
      .replace(copyStands.head, note.head)
      .replace(copyStands.sha256, note.sha256);
    mkdirSync(join(room, "2026-03-01T120000Z"));
    writeFileSync(join(room, "2026-03-01T120000Z", "backup.json"), Buffer.from(text, "latin1"));
    writeFileSync(join(room, "2026-03-01T120000Z", "stillglow.db"), ledger);
    await verifyBackup(room);
    return { was: "answered" };
  });
}

async function description(bytes: Buffer): Promise<Outcome> {
  readLinkFile(JSON.parse(bytes.toString("utf8")), foldShop([]));
  return { was: "answered" };
}

let served: Promise<FastifyInstance> | undefined;
const room = () => mkdtempSync(join(tmpdir(), "stillglow-fuzz-"));

async function server(): Promise<FastifyInstance> {
  const [{ buildServer }, { loopbackDoor }] = await Promise.all([
    import("../../src/server/server.ts"),
    import("../../src/server/people/door.ts"),
  ]);
  const folder = room();
  process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
  return buildServer({ workshop: await openWorkshop(folder, { write: true }), door: loopbackDoor });
}

async function asked(method: "GET" | "POST", url: string, payload: Buffer, type: string): Promise<Outcome> {
  served ??= server();
  const app = await served;
  const host = "127.0.0.1:4171";
  const headers = { host, origin: `http://${host}`, "content-type": type };
  const { statusCode, body } = await app.inject({ method, url, headers, ...(method === "POST" && { payload }) });
  if (statusCode >= 200 && statusCode < 300) return { was: "answered" };
  if (statusCode >= 500)
    return { was: "fault", words: `${method} ${url}: status ${statusCode}: ${body.slice(0, 300)}` };
  const said = /^\s*\{/.test(body) ? (JSON.parse(body) as { error?: { path?: string; message?: string } }) : undefined;
  const message = said?.error?.message ?? "";
  if (/\n\s+at |node_modules|file:\/\//.test(body))
    return { was: "fault", words: `${url}: shows code: ${body.slice(0, 300)}` };
  if (statusCode === 422)
    return refusal(said?.error?.path ?? "", message, !/^body|^entries(\[\d+\])?$/.test(said?.error?.path ?? ""));
  return { was: "refused", isInside: false, where: `status ${statusCode}; ${message.slice(0, 40)}` };
}

function evidenceOverHttp(bytes: Buffer): Promise<Outcome> {
  return asked("POST", "/api/evidence", bytes, "application/json");
}

/** The method stands in the first byte, the path up to a line's end, a body after it. */
function routeOverHttp(bytes: Buffer): Promise<Outcome> {
  const text = bytes.toString("latin1");
  const end = text.indexOf("\n");
  const url = `/${encodeURI(text.slice(1, end < 0 ? undefined : end)).replace(/^\/+/, "")}`;
  return asked(bytes[0] === 0x50 ? "POST" : "GET", url, bytes.subarray(end + 1), "application/json");
}
