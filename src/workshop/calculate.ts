import { join } from "node:path";
import { MessageChannel } from "node:worker_threads";
import type { Piscina } from "piscina";
import { type Answer, answer } from "../calculations/answer.ts";
import { BadInput } from "../maths/badInput.ts";
import type { Engine } from "../store/engine.ts";
import { StoreMissing } from "../store/index.ts";
import { PostgresEngine } from "../store/postgres/engine.ts";
import { AnswerCache, questionKey } from "./answerCache.ts";
import type { Question, UnderWay } from "./answerInThread.ts";
import { AnswerQueue } from "./queue/answerQueue.ts";
import { SharedAnswers } from "./queue/sharedAnswers.ts";
import type { LevelSpectrum } from "./spectrum.ts";
import type { Drawn, PictureOf } from "./spectrumInThread.ts";
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

/**
 * Those over the shop's whole past: they run in threads, so that no bench waits for them, and their answers are the
 * desks' to keep.
 */
const aside: ReadonlySet<string> = new Set([
  "production.checks",
  "production.cost",
  "production.options",
  "production.soak",
  "production.where",
  "timber.cracks",
]);

/** Where recordings lie, and how one comes that is not here yet. */
export interface CalculatingPlace {
  readonly folder: string;
  readonly bringRecording?: (sha256: string) => Promise<string>;
}

function recordingsIn(input: unknown): readonly string[] {
  if (typeof input === "string") {
    const sha256 = /^(?:.*\/)?([0-9a-f]{64})(?:\.wav)?$/i.exec(input)?.[1];
    return sha256 === undefined ? [] : [sha256];
  }
  return typeof input === "object" && input !== null ? Object.values(input).flatMap(recordingsIn) : [];
}

/**
 * Threads beside a server give way to what answers people, by so much: where all cores are busy a thread still gets a quarter
 * of one. Linux alone lowers one thread; elsewhere it might be the whole server.
 */
const waysGiven = process.platform === "linux" ? 5 : 0;

/** The calculations at work for one workshop, with the threads that do the long ones. */
export class CalculatingRoom {
  private readonly cache: AnswerCache;
  private readonly recordings: string;
  private threads: Promise<Piscina<Question, Answer>> | undefined;
  private pictures: Promise<Piscina<PictureOf, Drawn>> | undefined;
  private readonly most: number;
  private niceIncrement = 0;
  private readonly shared: SharedAnswers | undefined;
  private readonly queue: AnswerQueue | undefined;

  constructor(
    private readonly place: CalculatingPlace,
    { threads = 2, engine }: { readonly threads?: number; readonly engine?: Engine } = {},
  ) {
    this.recordings = join(place.folder, "recordings");
    this.cache = new AnswerCache(join(place.folder, "cache"));
    this.most = threads;
    if (!(engine instanceof PostgresEngine)) return;
    this.shared = new SharedAnswers(engine);
    this.queue = new AnswerQueue(engine, this.shared);
  }

  /** Threads started from now on compute beside a server for people. */
  giveWay(): void {
    this.niceIncrement = waysGiven;
  }

  /** Answers a question from outside, bad input included; the long ones leave this thread free. */
  async answer(name: string, input: unknown, tell?: (under: UnderWay) => void, signal?: AbortSignal): Promise<Answer> {
    if (long.has(name)) {
      // Workers on other machines go first, where a shared database has some.
      const given = await this.queue?.ask(name, input, tell, signal);
      if (given) return given;
    }
    await this.bringRecordings(input);
    return long.has(name) || aside.has(name)
      ? this.inThread(name, input, tell, signal)
      : answer(name, input, this.surroundings());
  }

  readonly calculate: Calculate = async <T>(
    name: string,
    input: unknown,
    tell?: (under: UnderWay) => void,
    signal?: AbortSignal,
  ) => {
    const isLong = long.has(name);
    const known = isLong ? await this.known(name, input) : undefined;
    if (known !== undefined) return known as T;
    const given = await this.answer(name, input, tell, signal);
    if (!given.ok) throw BadInput.told({ path: given.error.path, message: `${name}: ${given.error.message}` });
    if (isLong) {
      this.cache.put(name, input, given.output);
      await this.shared?.put(questionKey(name, input), given.output);
    }
    return given.output as T;
  };

  private async known(name: string, input: unknown): Promise<unknown> {
    const here = this.cache.get(name, input);
    if (here !== undefined || !this.shared) return here;
    const there = await this.shared.get(questionKey(name, input));
    if (there !== undefined) this.cache.put(name, input, there);
    return there;
  }

  /** Recordings that an input names may have come in on another machine. */
  private async bringRecordings(input: unknown): Promise<void> {
    const { bringRecording } = this.place;
    if (!bringRecording) return;
    for (const sha256 of recordingsIn(input)) {
      // One that nobody has is refused by the calculation, in its own words.
      await bringRecording(sha256).catch((fault: unknown) => {
        if (!(fault instanceof StoreMissing)) throw fault;
      });
    }
  }

  private surroundings() {
    return workshopSurroundings((sha256) => join(this.recordings, `${sha256}.wav`));
  }

  async close(): Promise<void> {
    await this.queue?.close();
    await Promise.all([this.threads, this.pictures].map(async (threads) => (await threads)?.destroy()));
    this.threads = undefined;
    this.pictures = undefined;
  }

  private async inThread(
    name: string,
    input: unknown,
    tell?: (under: UnderWay) => void,
    signal?: AbortSignal,
  ): Promise<Answer> {
    this.threads ??= this.started();
    const threads = await this.threads;
    const question = { name, input, recordings: this.recordings };
    const until = signal && { signal };
    if (!tell) return threads.run(question, until);
    const { port1, port2 } = new MessageChannel();
    port1.on("message", tell);
    port1.unref();
    return threads
      .run({ ...question, progress: port2 }, { transferList: [port2], ...until })
      .finally(() => port1.close());
  }

  /** In a thread of its own, so that a picture waits for no long answer, and nobody for a picture. @throws BadInput  when the recording can't be read */
  async levelSpectrum(question: PictureOf): Promise<LevelSpectrum> {
    this.pictures ??= import("piscina").then(
      ({ Piscina }) =>
        new Piscina({
          filename: new URL("./pictureThread.mjs", import.meta.url).href,
          name: "spectrumInThread",
          minThreads: 0,
          maxThreads: 1,
          niceIncrement: this.niceIncrement,
          idleTimeout: 60_000,
        }),
    );
    const drawn = await (await this.pictures).run(question);
    if (!drawn.ok) throw BadInput.told(drawn.error);
    return drawn.levels;
  }

  private async started(): Promise<Piscina<Question, Answer>> {
    const { Piscina } = await import("piscina");
    return new Piscina({
      filename: new URL("./calculationThread.mjs", import.meta.url).href,
      name: "answerInThread",
      minThreads: 0,
      maxThreads: this.most,
      niceIncrement: this.niceIncrement,
      // A thread has read all calculations once it has answered one.
      idleTimeout: 600_000,
    });
  }
}
