import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, onTestFinished, test, vi } from "vitest";
import { workerAt } from "../../../tests/serverAt.ts";
import { channel, wavFile } from "../../../tests/synthesis.ts";
import { PostgresEngine } from "../../store/postgres/engine.ts";
import { freshFolder, openFor } from "../../store/testing/folder.ts";
import { freshDatabase } from "../../store/testing/places.ts";
import type { UnderWay } from "../answerInThread.ts";
import { CalculatingRoom } from "../calculate.ts";
import { longQuestion } from "./testing/longQuestion.ts";
import { startWorker } from "./worker.ts";

/** A server's room on a database of its own; its folder shows what it computed and fetched itself. */
async function serverRoom(database: string) {
  const folder = freshFolder();
  const store = await openFor(folder, { database });
  const room = new CalculatingRoom(
    { folder, bringRecording: (sha256) => store.bringRecording(sha256) },
    { engine: store.engine },
  );
  onTestFinished(() => room.close());
  return { room, store, folder };
}

async function workerHere(database: string) {
  const engine = await PostgresEngine.open(database);
  const folder = freshFolder();
  const worker = await startWorker({ engine, folder, atOnce: 1 });
  onTestFinished(async () => {
    await worker.stop();
    await engine.close();
  });
  return { folder, engine };
}

const jobs = (engine: PostgresEngine) =>
  engine.rows<{ state: string; retry_count: number }>(
    "SELECT state, retry_count FROM pgboss.job WHERE name = 'answers'",
  );

test("without a worker the server answers by itself after a short wait, and the next question does not wait", async () => {
  const { room, store } = await serverRoom(await freshDatabase());
  const first = await room.answer("production.promise", longQuestion(5));
  expect(first).toMatchObject({ ok: true });
  expect(await jobs(store.engine as PostgresEngine)).toEqual([{ state: "cancelled", retry_count: 0 }]);
  await room.answer("production.promise", longQuestion(5, 2));
  expect(await jobs(store.engine as PostgresEngine)).toHaveLength(1);
});

test("a worker answers from a recording that came in at the server; the answer serves every server, bad input too", async () => {
  const database = await freshDatabase();
  const { room, store } = await serverRoom(database);
  const worker = await workerHere(database);
  const tone = channel([{ frequency_Hz: 1000, level_Vrms: 0.1 }], 1e-6, 0.5, 48_000, 3);
  const recording = await store.putRecording(wavFile([tone], 48_000, 0.5));
  const question = { recording, fullScale_Vpk: 0.5, channels: ["left"] };
  const answer = await room.calculate<{ channels: { left: { level_Vrms: number } } }>("bench.tone", question);
  expect(answer.channels.left.level_Vrms).toBeCloseTo(0.1, 3);
  expect(readdirSync(join(worker.folder, "recordings"))).toEqual([`${recording}.wav`]);
  expect(await jobs(worker.engine)).toEqual([{ state: "completed", retry_count: 0 }]);

  // Another server finds it kept: no job, no recording fetched.
  const other = await serverRoom(database);
  expect(await other.room.calculate("bench.tone", question)).toEqual(answer);
  expect(await jobs(worker.engine)).toHaveLength(1);
  expect(existsSync(join(other.folder, "recordings"))).toBe(false);

  const refused = await room.answer("bench.tone", { ...question, fullScale_Vpk: -1 });
  expect(refused).toMatchObject({ ok: false, error: { path: "fullScale_Vpk" } });
  expect(await jobs(worker.engine)).toHaveLength(2);
});

test("how far a worker is comes through to who asked, and nobody's question is ended there", async () => {
  const database = await freshDatabase();
  const { room } = await serverRoom(database);
  const worker = await workerHere(database);
  const told: UnderWay[] = [];
  const nobody = new AbortController();
  const asked = room.answer("production.promise", longQuestion(100_000), (under) => told.push(under), nobody.signal);
  asked.catch(() => undefined);
  await vi.waitFor(() => expect(told.length).toBeGreaterThan(1), { timeout: 20_000 });
  expect(told.at(-1)!.share).toBeGreaterThan(0);
  nobody.abort();
  await expect(asked).rejects.toThrow(/abort/i);
  expect(await jobs(worker.engine)).toEqual([{ state: "cancelled", retry_count: 0 }]);
  // The worker is free again: it takes the next, which it could not while the first went on.
  expect(await room.answer("production.promise", longQuestion(5))).toMatchObject({ ok: true });
  expect((await jobs(worker.engine)).map(({ state }) => state).toSorted()).toEqual(["cancelled", "completed"]);
});

test("what a killed worker was at is done by another", async () => {
  const database = await freshDatabase();
  const { room, store } = await serverRoom(database);
  const killed = await workerAt({ folder: freshFolder(), database });
  onTestFinished(() => killed.kill());
  const told: UnderWay[] = [];
  const asked = room.answer("production.promise", longQuestion(8_000), (under) => told.push(under));
  await vi.waitFor(() => expect(told.length).toBeGreaterThan(0), { timeout: 20_000 });
  await killed.kill();
  const engine = store.engine as PostgresEngine;
  expect(await jobs(engine)).toEqual([{ state: "active", retry_count: 0 }]);
  await workerHere(database);
  expect(await asked).toMatchObject({ ok: true });
  expect(await jobs(engine)).toEqual([{ state: "completed", retry_count: 1 }]);
});
