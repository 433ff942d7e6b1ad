/** An answer as it stands: the one that holds, or the last that held while a newer one is being worked out. */
export interface Standing<T> {
  readonly answer: T;
  /** What the clock showed when it was begun; left out where it holds now. */
  readonly asOf?: string;
}

/** What is kept of a question: its last answer, and the one that is being worked out. */
interface Asked {
  last?: { readonly answer: unknown; readonly asOf: string };
  coming?: { readonly answer: Promise<unknown>; readonly grown: number };
}

interface Clocked {
  now(): string;
  /** How many entries came in so far. */
  grown(): number;
}

/**
 * For whoever would rather see at once how things stood a moment ago, and be told that it is so, than wait: answers that
 * take longer than a page likes to wait. A question is worked out once at a time, however fast the record grows.
 */
export class StandingAnswers {
  private readonly asked = new Map<string, Asked>();

  /** @param most  questions of which the last answer is kept; of more, those go that were not asked for the longest */
  constructor(
    private readonly record: Clocked,
    private readonly most: number,
  ) {}

  /** @param patience_ms  how long the answer that holds is waited for where an older one is known */
  async ask<T>(question: string, answer: () => Promise<T>, patience_ms: number): Promise<Standing<T>> {
    const known = this.asked.get(question) ?? {};
    this.asked.delete(question);
    this.asked.set(question, known);
    if (this.asked.size > this.most) this.asked.delete(this.asked.keys().next().value!);
    const begunAt = this.record.grown();
    const coming = known.coming ?? this.begin(known, answer);
    const { last } = known;
    const fresh = coming.answer as Promise<T>;
    // What was begun before the last entry may still hold; it is asked for anew once it is there.
    const holds = coming.grown === begunAt;
    if (!last) return holds ? { answer: await fresh } : { answer: await fresh.then(answer) };
    const ready = await Promise.race([fresh.then((value) => ({ answer: value })), pause(patience_ms)]);
    if (ready && holds) return ready;
    if (!ready) return last as Standing<T>;
    return this.ask(question, answer, patience_ms);
  }

  private begin(known: Asked, answer: () => Promise<unknown>): NonNullable<Asked["coming"]> {
    const [asOf, grown] = [this.record.now(), this.record.grown()];
    const coming = { answer: answer(), grown };
    known.coming = coming;
    coming.answer.then(
      (value) => {
        known.last = { answer: value, asOf };
        delete known.coming;
      },
      () => {
        // What failed is said to whoever asks next, not hidden behind what held before.
        delete known.last;
        delete known.coming;
      },
    );
    return coming;
  }
}

function pause(time_ms: number): Promise<undefined> {
  return new Promise((done) => setTimeout(() => done(undefined), time_ms).unref?.());
}
