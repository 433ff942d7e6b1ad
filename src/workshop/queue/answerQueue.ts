import { randomUUID } from "node:crypto";
import { setTimeout as pause } from "node:timers/promises";
import type PgBoss from "pg-boss";
import type { Answer } from "../../calculations/answer.ts";
import type { PostgresEngine } from "../../store/postgres/engine.ts";
import type { UnderWay } from "../answerInThread.ts";
import {
  heardWord,
  isSomebodyAt,
  type Job,
  type Outcome,
  openQueue,
  queueName,
  say,
  type Word,
  wordChannel,
} from "./jobs.ts";
import type { SharedAnswers } from "./sharedAnswers.ts";

/** So long a question waits for a worker before the server takes it back and answers it itself. */
const patience_ms = 1500;
/** Where no worker was, the next questions do not wait for one. */
const nobodyThere_ms = 20_000;
/** A worker takes its lock right after the job. */
const lockBy_ms = 3000;
const look_ms = 1000;

/** A server's side of the queue. */
export class AnswerQueue {
  private opening: Promise<PgBoss> | undefined;
  private readonly watched = new Map<string, (word: Word) => void>();
  private nobodyUntil_ms = 0;
  private isClosed = false;

  constructor(
    private readonly engine: PostgresEngine,
    private readonly answers: SharedAnswers,
  ) {}

  /**
   * Has a worker answer a question.
   *
   * @param signal  ends it, at the worker too
   * @returns undefined  when no worker took it soon, or it failed there: whoever asked answers it himself
   */
  async ask(
    name: string,
    input: unknown,
    tell: ((under: UnderWay) => void) | undefined,
    signal: AbortSignal | undefined,
  ): Promise<Answer | undefined> {
    if (Date.now() < this.nobodyUntil_ms || this.isClosed) return undefined;
    signal?.throwIfAborted();
    const boss = await this.boss();
    const id = randomUUID();
    const job: Job = { key: this.answers.keyOf(name, input), name, input: JSON.stringify(input) };
    let wake = (): void => undefined;
    this.watched.set(id, (word) => {
      if (word.kind === "under way") tell?.({ share: word.share, what: word.what });
      else wake();
    });
    const onAbort = () => wake();
    signal?.addEventListener("abort", onAbort);
    try {
      await boss.send(queueName, job, { id });
      await say(this.engine, { kind: "asked" });
      for (let since_ms = Date.now(); ; ) {
        await new Promise<void>((resolve) => {
          wake = resolve;
          void pause(look_ms, undefined, { ref: false }).then(resolve);
        });
        if (signal?.aborted || this.isClosed) {
          await this.cancel(boss, id);
          signal?.throwIfAborted();
          return undefined;
        }
        const stands = await boss.getJobById<Job>(queueName, id);
        switch (stands?.state) {
          case "completed":
            return await this.answerOf(job.key, stands.output as Outcome);
          case "created":
          case "retry":
            if (Date.now() - since_ms < patience_ms) break;
            await this.cancel(boss, id);
            if (stands.state === "created") this.nobodyUntil_ms = Date.now() + nobodyThere_ms;
            return undefined;
          case "active":
            if (Date.now() - stands.startedOn.getTime() < lockBy_ms || (await isSomebodyAt(this.engine, id))) break;
            // Its worker is gone: another may take it.
            await boss.fail(queueName, id, { gone: true });
            await say(this.engine, { kind: "asked" });
            since_ms = Date.now();
            break;
          default:
            return undefined;
        }
      }
    } finally {
      signal?.removeEventListener("abort", onAbort);
      this.watched.delete(id);
    }
  }

  async close(): Promise<void> {
    this.isClosed = true;
    const boss = await this.opening?.catch(() => undefined);
    await boss?.stop({ graceful: false, close: false, wait: false });
  }

  private async answerOf(key: string, outcome: Outcome): Promise<Answer | undefined> {
    if (outcome.kind === "refused") return { ok: false, error: { path: outcome.path, message: outcome.message } };
    const output = outcome.kind === "answered" ? await this.answers.get(key) : undefined;
    return output === undefined ? undefined : { ok: true, output: output as Readonly<Record<string, unknown>> };
  }

  private async cancel(boss: PgBoss, id: string): Promise<void> {
    await boss.cancel(queueName, id);
    await say(this.engine, { kind: "cancelled", job: id });
  }

  private boss(): Promise<PgBoss> {
    this.opening ??= this.open().catch((fault) => {
      this.opening = undefined;
      throw fault;
    });
    return this.opening;
  }

  private async open(): Promise<PgBoss> {
    await this.engine.hear(wordChannel, (message) => {
      const word = heardWord(message);
      if (word && "job" in word) this.watched.get(word.job)?.(word);
    });
    return openQueue(this.engine, { supervise: false });
  }
}
