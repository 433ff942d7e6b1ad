import { setTimeout as pause } from "node:timers/promises";
import type PgBoss from "pg-boss";
import { KeptFiles } from "../../store/keptFiles.ts";
import type { PostgresEngine } from "../../store/postgres/engine.ts";
import { SharedFiles } from "../../store/postgres/sharedFiles.ts";
import type { UnderWay } from "../answerInThread.ts";
import { CalculatingRoom } from "../calculate.ts";
import {
  heardWord,
  type Job,
  leaveJobLock,
  type Outcome,
  openQueue,
  queueName,
  say,
  takeJobLock,
  wordChannel,
} from "./jobs.ts";
import { SharedAnswers } from "./sharedAnswers.ts";

const look_ms = 2000;
const tellEvery_ms = 200;

export interface WorkerOptions {
  readonly engine: PostgresEngine;
  /** Where recordings are fetched to. */
  readonly folder: string;
  readonly atOnce: number;
}

/** Answers the questions of a shared database's servers, several at a time, until stopped. */
export async function startWorker({ engine, folder, atOnce }: WorkerOptions): Promise<{ stop(): Promise<void> }> {
  const files = new SharedFiles(KeptFiles.recordings(folder), engine);
  const room = new CalculatingRoom({ folder, bringRecording: (sha256) => files.bring(sha256) }, { threads: atOnce });
  const answers = new SharedAnswers(engine);
  const boss = await openQueue(engine, { supervise: true });
  const underWay = new Map<string, AbortController>();
  let isStopping = false;
  let wakes: (() => void)[] = [];
  const wakeAll = () => {
    const all = wakes;
    wakes = [];
    for (const wake of all) wake();
  };
  await engine.hear(wordChannel, (message) => {
    const word = heardWord(message);
    if (word === undefined || word.kind === "asked") wakeAll();
    else if (word.kind === "cancelled") underWay.get(word.job)?.abort();
  });

  const lane = async () => {
    const line = await engine.ownLine();
    try {
      while (!isStopping) {
        const [job] = await boss.fetch<Job>(queueName, { batchSize: 1 });
        if (job) await answerOne(job, line);
        else {
          await new Promise<void>((resolve) => {
            wakes.push(resolve);
            void pause(look_ms, undefined, { ref: false }).then(resolve);
          });
        }
      }
    } finally {
      await line.close();
    }
  };

  const answerOne = async (
    { id, data }: PgBoss.Job<Job>,
    line: { ask(text: string, values: unknown[]): Promise<void> },
  ) => {
    const ending = new AbortController();
    underWay.set(id, ending);
    await line.ask(takeJobLock, [id]);
    try {
      const outcome = await outcomeOf(data, progress(id), ending.signal);
      if (outcome) await boss.complete(queueName, id, outcome);
    } finally {
      underWay.delete(id);
      await line.ask(leaveJobLock, [id]);
      await say(engine, { kind: "done", job: id });
    }
  };

  const outcomeOf = async (
    { key, name, input }: Job,
    tell: (under: UnderWay) => void,
    signal: AbortSignal,
  ): Promise<Outcome | undefined> => {
    try {
      const given = await room.answer(name, JSON.parse(input), tell, signal);
      if (!given.ok) return { kind: "refused", ...given.error };
      await answers.put(key, given.output);
      return { kind: "answered" };
    } catch (fault) {
      if (signal.aborted) return undefined;
      return { kind: "threw", message: fault instanceof Error ? fault.message : String(fault) };
    }
  };

  const progress = (job: string) => {
    let last_ms = 0;
    return ({ share, what }: UnderWay) => {
      if (Date.now() - last_ms < tellEvery_ms) return;
      last_ms = Date.now();
      say(engine, { kind: "under way", job, share, what: what.slice(0, 500) }).catch(() => undefined);
    };
  };

  const keepOn = async () => {
    while (!isStopping) {
      try {
        await lane();
      } catch (fault) {
        if (!isStopping)
          process.emitWarning(`a worker begins again: ${fault instanceof Error ? fault.message : fault}`);
        await pause(look_ms, undefined, { ref: false });
      }
    }
  };
  const lanes = Array.from({ length: atOnce }, keepOn);
  return {
    async stop() {
      isStopping = true;
      wakeAll();
      // What is under way goes back to the queue for another worker.
      for (const [id, ending] of underWay) {
        await boss.fail(queueName, id, { gone: true });
        ending.abort();
      }
      await say(engine, { kind: "asked" });
      await Promise.all(lanes);
      await boss.stop({ graceful: false, close: false, wait: false });
      await room.close();
    },
  };
}
