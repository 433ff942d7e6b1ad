import type { LinkDescription } from "../claims/links/description.ts";
import { withoutChecksum } from "./answer.ts";
import { InstrumentFault, saidWords } from "./fault.ts";
import { longestLine, matched } from "./match.ts";
import { type OpenWire, openWire, type Wire } from "./wire.ts";

/** Silence after which the next sign begins a line, not the rest of one. */
const gap_ms = 120;
/** After an answer, so long nothing more may come. */
const after_ms = 30;
/** A port that nobody uses is given free. */
const idle_ms = 30_000;

const ends = { LF: "\n", CR: "\r", CRLF: "\r\n" } as const;

export type LineState = { readonly state: "unused" | "open" } | { readonly state: "lost"; readonly why: string };

/** What may be said to an instrument while one has it for oneself. */
export interface Talk {
  /** Sends without waiting for an answer. */
  tell(text: string): Promise<void>;
  /** Sends, and gives the one line that answers. */
  ask(text: string): Promise<string>;
  /** The next whole line that the instrument sends by itself. */
  hear(patience_ms: number): Promise<string>;
}

/**
 * One connection to one instrument: opened when it is used, asked who it is, used by one at a time, closed after any
 * doubt about which answer belongs to which question, and opened afresh at the next use.
 */
export class Line {
  private readonly instrument: string;
  private readonly description: LinkDescription;
  private readonly open: OpenWire;
  private readonly onState: () => void;
  private wire: Wire | undefined;
  private current: LineState = { state: "unused" };
  private turn: Promise<unknown> = Promise.resolve();
  private lines: string[] = [];
  private rest = "";
  /** Whether the next sign to come begins a line. */
  private atBoundary = false;
  private lastByte_ms = 0;
  private wake: (() => void) | undefined;
  private idle: NodeJS.Timeout | undefined;
  /** A late answer on a serial port would still come. */
  private mayComeLate = false;
  private isClosed = false;

  constructor(
    instrument: string,
    description: LinkDescription,
    { open = openWire, onState = () => undefined }: { readonly open?: OpenWire; readonly onState?: () => void } = {},
  ) {
    this.instrument = instrument;
    this.description = description;
    this.open = open;
    this.onState = onState;
  }

  get state(): LineState {
    return this.current;
  }

  /** Has the instrument to oneself for some sentences; the next waits until they are done. */
  talk<T>(work: (talk: Talk) => Promise<T>): Promise<T> {
    const mine = this.turn.then(async () => {
      clearTimeout(this.idle);
      try {
        await this.ready();
        const result = await work(this.sentences());
        this.idle = setTimeout(() => this.hangUp({ state: "unused" }), idle_ms);
        this.idle.unref();
        return result;
      } catch (fault) {
        if (isDoubtful(fault)) this.hangUp(this.current.state === "lost" ? this.current : { state: "unused" });
        throw fault;
      }
    });
    this.turn = mine.catch(() => undefined);
    return mine;
  }

  /** Ends it for good. */
  close(): void {
    this.isClosed = true;
    clearTimeout(this.idle);
    this.hangUp({ state: "unused" });
  }

  private fault(problem: InstrumentFault["problem"], words: string): InstrumentFault {
    return new InstrumentFault(this.instrument, problem, words);
  }

  private async ready(): Promise<void> {
    if (this.isClosed) throw this.fault("unreachable", "it is no longer linked");
    if (this.wire) return;
    const { wire: where, timeout_ms, identify } = this.description;
    this.forget();
    let opened: Wire | undefined;
    try {
      opened = await this.open(where, timeout_ms, {
        onText: (text) => this.heard(text),
        onLost: (why) => {
          if (opened !== undefined && this.wire !== opened) return;
          this.wire = undefined;
          this.become({ state: "lost", why });
          this.wake?.();
        },
      });
    } catch (fault) {
      const why = (fault as Error).message;
      this.become({ state: "lost", why });
      throw this.fault("unreachable", why);
    }
    this.wire = opened;
    this.lastByte_ms = Date.now();
    this.become({ state: "open" });
    await this.quiet();
    if (!identify) return;
    const said = await this.sentences().ask(identify.send);
    if (this.fits(identify.answer, said)) return;
    throw this.fault(
      "another instrument",
      `${saidWords(said)} answers, and its description expects another; check the port and what is plugged in`,
    );
  }

  /** Lets pass what an instrument says on being opened, and what a question of before may still bring. */
  private async quiet(): Promise<void> {
    if (this.description.quantities.some(({ send }) => send === undefined)) return;
    const isLate = this.mayComeLate && this.description.wire.kind === "serial";
    const least_ms = isLate ? this.description.timeout_ms : 40;
    this.mayComeLate = false;
    const from = Date.now();
    for (;;) {
      const now = Date.now();
      const calm_ms = Math.min(now - this.lastByte_ms, now - from);
      if (now - from >= least_ms && (calm_ms >= gap_ms || (this.lines.length === 0 && this.rest === ""))) break;
      if (now - from > least_ms + 3000) {
        throw this.fault(
          "unasked",
          "it speaks without being asked; leave `send` out of its description if that is its way",
        );
      }
      await this.something(20);
      if (!this.wire) throw this.lostNow();
    }
    this.forget();
  }

  private sentences(): Talk {
    const { ending, timeout_ms, echo, checksum } = this.description;
    const tell = async (text: string) => {
      if (!this.wire) throw this.lostNow();
      if (this.lines.length > 0 || this.rest !== "") {
        const said = this.lines[0] ?? this.rest;
        throw this.fault("unasked", `${saidWords(said)} came without being asked for, so no answer can be trusted`);
      }
      try {
        await this.wire.write(text + ends[ending]);
      } catch (fault) {
        const why = (fault as Error).message;
        this.hangUp({ state: "lost", why });
        throw this.fault("lost", why);
      }
      if (!echo) return;
      const repeated = await this.line(timeout_ms);
      if (repeated === text) return;
      throw this.fault("garbled", `it repeats ${saidWords(repeated)} where ${saidWords(text)} was sent`);
    };
    const whole = (line: string) => {
      const body = withoutChecksum(line, checksum);
      if (body === undefined) throw this.fault("checksum", `the checksum of ${saidWords(line)} is wrong`);
      return body;
    };
    return {
      tell: async (text) => {
        await tell(text);
        // A setting has no answer to wait for, and a slow instrument loses what comes too soon.
        await this.something(after_ms);
      },
      ask: async (text) => {
        await tell(text);
        const line = await this.line(timeout_ms);
        if (!echo && line === text) {
          throw this.fault("echo", `it repeats what is sent; write \`"echo": true\` into its description`);
        }
        const until = Date.now() + after_ms;
        while (Date.now() < until && this.lines.length === 0 && this.rest === "")
          await this.something(until - Date.now());
        const more = this.lines[0] ?? (this.rest === "" ? undefined : this.rest);
        if (more !== undefined) {
          throw this.fault(
            "two answers",
            `${saidWords(line)} and ${saidWords(more)} both answer one question; which is right can't be told`,
          );
        }
        return whole(line);
      },
      hear: async (patience_ms) => {
        // What was said before is past; the rest of a line under way is let go by.
        this.lines = [];
        if (this.rest !== "") this.atBoundary = false;
        return whole(await this.line(patience_ms));
      },
    };
  }

  private async line(patience_ms: number): Promise<string> {
    const until = Date.now() + patience_ms;
    for (;;) {
      const line = this.lines.shift();
      if (line !== undefined) return line;
      if (!this.wire) throw this.lostNow();
      if (this.rest.length > longestLine) {
        throw this.fault("garbled", `${saidWords(this.rest)} goes on without a line end; check baud rate and ending`);
      }
      const left_ms = until - Date.now();
      if (left_ms <= 0) {
        this.mayComeLate = true;
        throw this.rest === ""
          ? this.fault("silent", `no answer within ${patience_ms / 1000} s`)
          : this.fault(
              "silent",
              `only ${saidWords(this.rest)} came within ${patience_ms / 1000} s, without a line end`,
            );
      }
      await this.something(left_ms);
    }
  }

  private lostNow(): InstrumentFault {
    const why = this.current.state === "lost" ? this.current.why : "the connection is gone";
    const middle = this.rest === "" ? "" : `, in the middle of ${saidWords(this.rest)}`;
    return this.fault("lost", `${why}${middle}`);
  }

  private fits(pattern: string, line: string): boolean {
    try {
      return matched(pattern, line) !== undefined;
    } catch {
      return false;
    }
  }

  private heard(text: string): void {
    const now = Date.now();
    if (!this.atBoundary && this.rest === "" && now - this.lastByte_ms >= gap_ms) this.atBoundary = true;
    this.lastByte_ms = now;
    const parts = (this.rest + text).split(/[\r\n]+/);
    this.rest = (parts.pop() ?? "").slice(0, longestLine + 1);
    for (const part of parts) {
      // The first line after opening, unless it came after a silence, may have begun before.
      if (!this.atBoundary) {
        this.atBoundary = true;
        continue;
      }
      if (part.trim() !== "" && this.lines.length < 100) this.lines.push(part.trim());
    }
    this.wake?.();
  }

  private forget(): void {
    this.lines = [];
    this.rest = "";
    // An instrument that only answers begins each line when it was asked.
    this.atBoundary = this.description.quantities.every(({ send }) => send !== undefined);
  }

  private hangUp(next: LineState): void {
    this.wire?.close();
    this.wire = undefined;
    this.become(next);
  }

  private become(next: LineState): void {
    this.current = next;
    this.onState();
  }

  /** Until something comes or the time is up. */
  private something(most_ms: number): Promise<void> {
    return new Promise((done) => {
      const end = () => {
        clearTimeout(late);
        this.wake = undefined;
        done();
      };
      const late = setTimeout(end, Math.max(1, most_ms));
      this.wake = end;
    });
  }
}

/** Faults after which nobody knows what the line holds; an overload or a refusal is an honest answer. */
function isDoubtful(fault: unknown): boolean {
  if (!(fault instanceof InstrumentFault)) return true;
  return !["overload", "out of range", "unsteady", "stuck", "clock stands", "refused"].includes(fault.problem);
}
