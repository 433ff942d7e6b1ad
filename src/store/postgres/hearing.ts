import { setTimeout as pause } from "node:timers/promises";
import type pg from "pg";

type Heard = (message: string | undefined) => void;

const beat_ms = 15_000;

/** A line of its own on which the database tells what others did; taken up again whenever it is lost. */
export class Hearing {
  private readonly listeners = new Map<string, Set<Heard>>();
  private line: pg.Client | undefined;
  private opening: Promise<void> | undefined;
  private beat: NodeJS.Timeout | undefined;
  private isClosed = false;

  constructor(private readonly config: pg.ClientConfig) {}

  /** @returns stops it */
  async add(channel: string, listener: Heard): Promise<() => void> {
    const known = this.listeners.get(channel);
    if (known) known.add(listener);
    else this.listeners.set(channel, new Set([listener]));
    if (this.line && !known) await this.line.query(`LISTEN ${channel}`);
    else if (!this.line) {
      this.opening ??= this.open();
      await this.opening;
    }
    return () => this.listeners.get(channel)?.delete(listener);
  }

  async close(): Promise<void> {
    this.isClosed = true;
    clearInterval(this.beat);
    this.listeners.clear();
    await this.line?.end().catch(() => undefined);
  }

  private async open(): Promise<void> {
    const { default: library } = await import("pg");
    const line = new library.Client({ ...this.config, application_name: "stillglow hearing" });
    let isLost = false;
    const lost = () => {
      if (isLost) return;
      isLost = true;
      clearInterval(this.beat);
      this.line = undefined;
      this.opening = undefined;
      void line.end().catch(() => undefined);
      if (!this.isClosed) this.opening = this.openAgain();
    };
    line.on("notification", ({ channel, payload }) => this.tell(channel, payload ?? ""));
    await line.connect();
    line.on("error", lost);
    line.on("end", lost);
    for (const channel of this.listeners.keys()) await line.query(`LISTEN ${channel}`);
    this.line = line;
    // A line that died without a word answers no beat either.
    this.beat = setInterval(() => void line.query("SELECT 1").catch(lost), beat_ms);
    this.beat.unref();
    if (this.isClosed) await line.end();
  }

  private async openAgain(): Promise<void> {
    for (let wait_ms = 50; !this.isClosed; wait_ms = Math.min(2 * wait_ms, 1000)) {
      await pause(wait_ms, undefined, { ref: false });
      try {
        await this.open();
        for (const channel of this.listeners.keys()) this.tell(channel, undefined);
        return;
      } catch {
        // Not back yet.
      }
    }
  }

  private tell(channel: string, message: string | undefined): void {
    for (const listener of this.listeners.get(channel) ?? []) listener(message);
  }
}
