import { join } from "node:path";
import { MessageChannel } from "node:worker_threads";
import { Piscina } from "piscina";
import { type Answer, answer } from "../calculations/answer.ts";
import { BadInput } from "../maths/badInput.ts";
import type { Store } from "../store/index.ts";
import { AnswerCache } from "./answerCache.ts";
import type { Question, UnderWay } from "./answerInThread.ts";
import { workshopSurroundings } from "./surroundings.ts";

/**
 * Asks one of the published calculations, as anyone outside could.
 *
 * Every figure that the workshop shows goes through here, so that a person who doubts it can put the same question
 * to the command line and get the same answer.
 *
 * @param tell    told how far a long answer is, where one has to be computed
 * @param signal  ends a long one that nobody waits for any more; its promise is then rejected
 */
export type Calculate = <T>(
  name: string,
  input: unknown,
  tell?: (under: UnderWay) => void,
  signal?: AbortSignal,
) => Promise<T>;

/** Those that take long enough to keep a bench waiting: they run in threads, and their answers are kept. */
const long: ReadonlySet<string> = new Set([
  "hum.trace",
  "bench.balance",
  "bench.loopback",
  "bench.noise",
  "bench.supply",
  "bench.sweep",
  "bench.tap",
  "bench.tone",
  "bench.twotone",
  "circuits.spread",
  "circuits.suspects",
  "circuits.version",
  "circuits.yield",
  "production.promise",
  "production.whatif",
  "timber.case",
  "timber.panels",
  "timber.piece",
  "timber.runs",
  "valves.fit",
  "valves.sets",
]);

/** The calculations at work for one workshop, with the threads that do the long ones. */
export class CalculatingRoom {
  private readonly cache: AnswerCache;
  private readonly recordings: string;
  private threads: Piscina<Question, Answer> | undefined;

  constructor(private readonly store: Pick<Store, "folder" | "isShared" | "bringRecording">) {
    this.recordings = join(store.folder, "recordings");
    this.cache = new AnswerCache(join(store.folder, "cache"));
  }

  /** Answers a question from outside, bad input included; the long ones leave this thread free. */
  answer(name: string, input: unknown, tell?: (under: UnderWay) => void, signal?: AbortSignal): Promise<Answer> {
    return long.has(name) ? this.inThread(name, input, tell, signal) : answer(name, input, this.surroundings());
  }

  readonly calculate: Calculate = async <T>(
    name: string,
    input: unknown,
    tell?: (under: UnderWay) => void,
    signal?: AbortSignal,
  ) => {
    const isLong = long.has(name);
    const known = isLong ? this.cache.get(name, input) : undefined;
    if (known !== undefined) return known as T;
    const given = await this.answer(name, input, tell, signal);
    if (!given.ok) {
      const fault = new BadInput(given.error.path, "", "", "");
      fault.message = `${name}: ${given.error.message}`;
      throw fault;
    }
    if (isLong) this.cache.put(name, input, given.output);
    return given.output as T;
  };

  private surroundings() {
    return workshopSurroundings((sha256) => join(this.recordings, `${sha256}.wav`));
  }

  async close(): Promise<void> {
    await this.threads?.destroy();
    this.threads = undefined;
  }

  private inThread(
    name: string,
    input: unknown,
    tell?: (under: UnderWay) => void,
    signal?: AbortSignal,
  ): Promise<Answer> {
    this.threads ??= new Piscina<Question, Answer>({
      filename: new URL("./calculationThread.mjs", import.meta.url).href,
      minThreads: 0,
      maxThreads: 2,
      idleTimeout: 30_000,
    });
    const question = { name, input, recordings: this.recordings };
    const until = signal && { signal };
    if (!tell) return this.threads.run(question, until);
    const { port1, port2 } = new MessageChannel();
    port1.on("message", tell);
    port1.unref();
    return this.threads
      .run({ ...question, progress: port2 }, { transferList: [port2], ...until })
      .finally(() => port1.close());
  }
}
