import { type ChildProcess, fork } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type Random, randomStream } from "../../src/maths/random.ts";
import type { Asked, Reached, Said } from "./child.ts";
import type { Source } from "./seeds.ts";
import type { Outcome, Trial } from "./trial.ts";

/** How the trials of one reader or calculation went. */
export interface Tally {
  answered: number;
  /** Refused by the shape of the input alone. */
  refusedByShape: number;
  refusedInside: number;
  /** Caught only at the end, because a figure of the answer was not finite. */
  notFinite: number;
  /** Refusals that differ in field or in what they allow. */
  readonly refusals: Set<string>;
  longest_ms: number;
}

export interface Finding {
  readonly of: string;
  readonly words: string;
  readonly trial: Trial;
}

export interface Fuzzed {
  readonly trials: number;
  readonly cpu_ms: number;
  readonly tallies: ReadonlyMap<string, Tally>;
  readonly findings: readonly Finding[];
  /** Memory of the process under trial at its most. */
  readonly memory_MB: number;
  /** Characters of the source that ran: by the valid beginnings and plain nonsense alone, and after all trials. */
  readonly reached: { readonly first: number; readonly all: number; readonly of: number };
}

export interface FuzzOptions {
  readonly sources: readonly Source[];
  readonly seed: string;
  /** Time of the processor for all trials, their beginnings not counted. */
  readonly cpu_ms: number;
  readonly isEnough?: () => boolean;
  tell?(trials: number, findings: number): void;
}

const longest_ms = 10_000;
const most_MB = 1500;
const mostKept = 30;
const script = join(import.meta.dirname, "child.ts");

/**
 * Tries what grows from valid inputs: what was answered, or refused in a new way, is changed on. A trial that takes more
 * than ten seconds of the processor counts as a hang, whatever else the machine does.
 */
export async function fuzz({ sources, seed, cpu_ms, isEnough = () => false, tell }: FuzzOptions): Promise<Fuzzed> {
  const chance = randomStream(`fuzz ${seed}`);
  const tallies = new Map(sources.map(({ of }) => [of, freshTally()]));
  const grown = new Map(sources.map(({ of, seeds }) => [of, [...seeds]]));
  const findings: Finding[] = [];
  const code = new Code();
  let bench = await Bench.started();
  let used_ms = 0;
  let trials = 0;
  let memory_MB = 0;
  const one = async (source: Source, trial: Trial, counts = true) => {
    const { outcome, cpu_ms: took_ms, isGone } = await bench.run(trial);
    memory_MB = Math.max(memory_MB, bench.memory_MB());
    if (isGone || bench.memory_MB() > most_MB) {
      if (!isGone) findings.push({ of: source.of, words: `memory of ${Math.round(bench.memory_MB())} MB`, trial });
      bench.kill();
      bench = await Bench.started();
    }
    if (counts) {
      trials += 1;
      used_ms += took_ms;
    }
    if (outcome.was === "fault") findings.push({ of: source.of, words: outcome.words, trial });
    const isNew = note(tallies.get(source.of)!, outcome, took_ms, counts);
    return { isNew, took_ms };
  };
  const toTry = sources.map((source) => ({ source, draw: chance.fork(source.of), spent_ms: 0 }));
  for (const { source } of toTry) {
    for (const trial of source.seeds) await one(source, trial, false);
    const [first] = source.seeds;
    if (first?.of === "calculation") await one(source, { ...first, input: {} }, false);
  }
  code.take(await bench.coverage());
  const first = code.ran();
  while (used_ms < cpu_ms && !isEnough()) {
    // Whoever has had least of the processor is next, so that slow ones do not take it all.
    const next = toTry.reduce((least, other) => (other.spent_ms < least.spent_ms ? other : least));
    const pool = grown.get(next.source.of)!;
    const trial = await next.source.change(pool[next.draw.integer(pool.length)]!, next.draw);
    const { isNew, took_ms } = await one(next.source, trial);
    next.spent_ms += took_ms + 0.05;
    if (isNew) keep(pool, trial, next.draw);
    if (trials % 500 === 0) {
      tell?.(trials, findings.length);
      code.take(await bench.coverage());
    }
  }
  code.take(await bench.coverage());
  bench.kill();
  return {
    trials,
    cpu_ms: used_ms,
    tallies,
    findings,
    memory_MB,
    reached: { first, all: code.ran(), of: code.length() },
  };
}

function keep(pool: Trial[], trial: Trial, draw: Random): void {
  if (sizeOf(trial) > 200_000) return;
  if (pool.length < mostKept) pool.push(trial);
  else pool[1 + draw.integer(pool.length - 1)] = trial;
}

const sizeOf = (trial: Trial) =>
  trial.of === "reader" ? trial.bytes.length : (JSON.stringify(trial.input) ?? "").length;

const freshTally = (): Tally => ({
  answered: 0,
  refusedByShape: 0,
  refusedInside: 0,
  notFinite: 0,
  refusals: new Set(),
  longest_ms: 0,
});

/** @returns whether it led somewhere worth going on from */
function note(tally: Tally, outcome: Outcome, took_ms: number, counts: boolean): boolean {
  if (!counts) return false;
  tally.longest_ms = Math.max(tally.longest_ms, took_ms);
  if (outcome.was === "answered") {
    tally.answered += 1;
    return true;
  }
  if (outcome.was === "fault") return false;
  if (outcome.isInside) tally.refusedInside += 1;
  else tally.refusedByShape += 1;
  if (outcome.isNotFinite) tally.notFinite += 1;
  const isNew = !tally.refusals.has(outcome.where);
  if (isNew) tally.refusals.add(outcome.where);
  return isNew && outcome.isInside;
}

/** What of the source ran, over several processes. */
class Code {
  private readonly files = new Map<string, Uint8Array>();

  take(reached: readonly Reached[]): void {
    for (const { file, length, ran } of reached) {
      const known = this.files.get(file);
      const painted = known && known.length >= length ? known : new Uint8Array(length);
      if (known && painted !== known) painted.set(known);
      for (const [from, to] of ran) painted.fill(1, from, to);
      this.files.set(file, painted);
    }
  }

  ran(): number {
    return [...this.files.values()].reduce((sum, painted) => sum + painted.reduce((a, b) => a + b, 0), 0);
  }

  length(): number {
    return [...this.files.values()].reduce((sum, { length }) => sum + length, 0);
  }
}

interface Run {
  readonly outcome: Outcome;
  readonly cpu_ms: number;
  /** Whether the process ended, or had to be ended. */
  readonly isGone: boolean;
}

/** A process that trials are put to. */
class Bench {
  private constructor(private readonly child: ChildProcess) {}

  static async started(): Promise<Bench> {
    const child = fork(script, {
      execArgv: ["--import", "tsx"],
      serialization: "advanced",
      stdio: ["ignore", "ignore", "pipe", "ipc"],
    });
    const bench = new Bench(child);
    await bench.heard("ready");
    return bench;
  }

  async run(trial: Trial): Promise<Run> {
    const begun = this.ticks();
    let timer: NodeJS.Timeout | undefined;
    const hang = new Promise<Run>((done) => {
      const since = Date.now();
      timer = setInterval(() => {
        const used = this.ticks();
        const took_ms = begun === undefined || used === undefined ? (Date.now() - since) / 6 : (used - begun) * 10;
        if (took_ms > longest_ms) done(gone(`no answer within ${longest_ms / 1000} s of the processor`, took_ms));
      }, 250);
    });
    const ended = new Promise<Run>((done) => {
      this.child.once("exit", (status, signal) => done(gone(`the process ended with ${status ?? signal}`, 0)));
    });
    const answer = this.heard("outcome").then(({ outcome, cpu_ms }): Run => ({ outcome, cpu_ms, isGone: false }));
    this.send({ ask: "trial", trial });
    try {
      return await Promise.race([answer, hang, ended]);
    } finally {
      clearInterval(timer);
      this.child.removeAllListeners("exit");
    }
  }

  async coverage(): Promise<readonly Reached[]> {
    const heard = this.heard("coverage");
    this.send({ ask: "coverage" });
    return (await heard).reached;
  }

  kill(): void {
    this.child.removeAllListeners();
    this.child.kill("SIGKILL");
  }

  /** Largest memory in use so far; 0 where the system does not say. */
  memory_MB(): number {
    return Number(/VmHWM:\s+(\d+)/.exec(this.read("status"))?.[1] ?? 0) / 1024;
  }

  /** Time of the processor so far, in hundredths of a second, where the system says it. */
  private ticks(): number | undefined {
    const fields = this.read("stat").split(") ").at(-1)!.split(" ");
    return fields.length > 12 ? Number(fields[11]) + Number(fields[12]) : undefined;
  }

  private read(what: string): string {
    try {
      return readFileSync(`/proc/${this.child.pid}/${what}`, "utf8");
    } catch {
      return "";
    }
  }

  private send(asked: Asked): void {
    this.child.send(asked);
  }

  private heard<S extends Said["say"]>(wanted: S): Promise<Extract<Said, { say: S }>> {
    return new Promise((done) => {
      const hear = (said: Said) => {
        if (said.say !== wanted) return;
        this.child.off("message", hear);
        done(said as Extract<Said, { say: S }>);
      };
      this.child.on("message", hear);
    });
  }
}

const gone = (words: string, cpu_ms: number): Run => ({ outcome: { was: "fault", words }, cpu_ms, isGone: true });
