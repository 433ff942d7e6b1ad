import { AsyncLocalStorage } from "node:async_hooks";
import type { Cabinet, Drawer } from "../claims/drawers.ts";

/** An answer with all that it was drawn from: drawers of evidence, and other answers. */
class Kept {
  value: unknown;
  readonly drawers = new Set<Drawer>();
  readonly answers = new Set<Kept>();
  private heldAt: number;

  constructor(private readonly begunAt: number) {
    this.heldAt = begunAt;
  }

  /** Whether nothing that it was drawn from has grown since it was begun. What has once fallen never holds again. */
  holds(grown: number): boolean {
    if (this.heldAt === grown) return true;
    for (const { grownAt } of this.drawers) if (grownAt > this.begunAt) return false;
    for (const answer of this.answers) if (!answer.holds(grown)) return false;
    this.heldAt = grown;
    return true;
  }
}

/** Questions whose answers are large are kept fewer at a time. */
export interface Shelf {
  keep<T>(question: string, answer: () => T): T;
}

/**
 * Answers kept for as long as nothing they were drawn from grows, so that what is worked out anew scales with what was
 * written down and not with the age of the shop.
 *
 * Nobody says what an answer rests on: while it is worked out, every drawer of evidence that is opened for it is noted,
 * over all that it waits for, and so is every kept answer that it asks for. What reads the clock opens the whole record
 * (`Cabinet.openAll`) and is kept until the next entry.
 */
export class KeptAnswers {
  private readonly asking = new AsyncLocalStorage<Kept>();

  constructor(private readonly cabinet: Cabinet) {
    cabinet.watch((drawer) => this.asking.getStore()?.drawers.add(drawer));
  }

  /** @param most  answers kept at a time; of more, those go that were not asked for the longest */
  shelf(most: number): Shelf {
    const kept = new Map<string, Kept>();
    return {
      keep: <T>(question: string, answer: () => T): T => {
        const known = kept.get(question);
        const found = known?.holds(this.cabinet.grown) ? known : this.draw(answer);
        if (most < Number.POSITIVE_INFINITY) kept.delete(question);
        kept.set(question, found);
        if (kept.size > most) kept.delete(kept.keys().next().value!);
        this.asking.getStore()?.answers.add(found);
        const { value } = found;
        if (found !== known && value instanceof Promise) {
          // What failed is asked again.
          value.catch(() => kept.get(question) === found && kept.delete(question));
        }
        return value as T;
      },
    };
  }

  private draw(answer: () => unknown): Kept {
    const fresh = new Kept(this.cabinet.grown);
    fresh.value = this.asking.run(fresh, answer);
    return fresh;
  }
}
