/** How long somebody must wait who got a passphrase wrong again and again. */
export interface BackOffOptions {
  readonly now_ms: () => number;
  /** So many failures are free. */
  readonly free: number;
  readonly first_ms?: number;
  readonly most_ms?: number;
}

const usualFirst_ms = 1000;
const usualMost_ms = 15 * 60_000;
/** Each such span forgives one failure, so that a shop's slips of years do not add up. */
const forgiven_ms = 15 * 60_000;
/** Names tried at the door are kept up to so many, the oldest let go first. */
const mostNames = 10_000;

interface Tries {
  readonly failures: number;
  readonly until_ms: number;
  readonly last_ms: number;
}

/** Counts failures by name; after the first few each costs twice the wait of the one before. */
export class BackOff {
  private readonly tries = new Map<string, Tries>();

  constructor(private readonly options: BackOffOptions) {}

  /** How long `name` must still wait; 0 when it may try. */
  wait_ms(name: string): number {
    return Math.max(0, (this.tries.get(name)?.until_ms ?? 0) - this.options.now_ms());
  }

  failed(name: string): void {
    const now = this.options.now_ms();
    const before = this.tries.get(name);
    const left = before ? Math.max(0, before.failures - Math.floor((now - before.last_ms) / forgiven_ms)) : 0;
    const failures = left + 1;
    const { free, first_ms = usualFirst_ms, most_ms = usualMost_ms } = this.options;
    const wait_ms = failures < free ? 0 : Math.min(most_ms, first_ms * 2 ** Math.min(failures - free, 30));
    this.tries.delete(name);
    this.tries.set(name, { failures, until_ms: now + wait_ms, last_ms: now });
    if (this.tries.size > mostNames) this.tries.delete(this.tries.keys().next().value!);
  }

  succeeded(name: string): void {
    this.tries.delete(name);
  }
}
