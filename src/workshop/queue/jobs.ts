import type PgBoss from "pg-boss";
import type { PostgresEngine } from "../../store/postgres/engine.ts";

/** The queue of long answers on a shared database: servers put questions there, workers on any machine take them. */
export const queueName = "answers";
/** Where servers and workers tell each other what goes on; a message lost costs a look at the queue, no more. */
export const wordChannel = "stillglow_answers";

export interface Job {
  /** Under which the answer is kept. */
  readonly key: string;
  readonly name: string;
  /** As JSON: the database's own JSON would order its fields anew. */
  readonly input: string;
}

/** What a worker leaves behind; an answer itself stands under its key. */
export type Outcome =
  | { readonly kind: "answered" }
  | { readonly kind: "refused"; readonly path: string; readonly message: string }
  | { readonly kind: "threw"; readonly message: string };

export type Word =
  | { readonly kind: "asked" }
  | { readonly kind: "under way"; readonly job: string; readonly share: number; readonly what: string }
  | { readonly kind: "done"; readonly job: string }
  | { readonly kind: "cancelled"; readonly job: string };

/** A worker that is lost is noticed by its lock; this is for one that never ends. */
const longest_s = 3600;
const tries = 3;

/** @param supervise  true for who also tidies the queue up */
export async function openQueue(
  engine: PostgresEngine,
  { supervise }: { readonly supervise: boolean },
): Promise<PgBoss> {
  // Only who uses the queue waits for its library.
  const { default: Boss } = await import("pg-boss");
  const boss = new Boss({
    // Several statements in one text have no rows of their own.
    db: { executeSql: async (text, values) => ({ rows: [...((await engine.rows(text, values)) ?? [])] }) },
    supervise,
    schedule: false,
    retryLimit: tries,
    expireInSeconds: longest_s,
  });
  boss.on("error", (fault) => process.emitWarning(`the queue of answers: ${fault.message}`));
  await boss.start();
  await boss.createQueue(queueName, { name: queueName, retryLimit: tries, expireInSeconds: longest_s });
  return boss;
}

export async function say(engine: PostgresEngine, word: Word): Promise<void> {
  await engine.tell(wordChannel, JSON.stringify(word));
}

export function heardWord(message: string | undefined): Word | undefined {
  return message === undefined ? undefined : (JSON.parse(message) as Word);
}

const lockClass = 7114;

/** Held by a worker's own line for as long as it is at a job, so that the job is given to another when the line is lost. */
export const takeJobLock = `SELECT pg_advisory_lock(${lockClass}, hashtext($1))`;
export const leaveJobLock = `SELECT pg_advisory_unlock(${lockClass}, hashtext($1))`;

export async function isSomebodyAt(engine: PostgresEngine, job: string): Promise<boolean> {
  const find = `SELECT 1 FROM pg_locks WHERE locktype = 'advisory' AND granted AND classid = ${lockClass}
    AND objid::bigint = (hashtext($1)::bigint & 4294967295)
    AND database = (SELECT oid FROM pg_database WHERE datname = current_database())`;
  return (await engine.rows(find, [job])).length > 0;
}
