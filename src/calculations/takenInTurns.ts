import type { Surroundings } from "./calculation.ts";

/** Work that can be done a little at a time. */
interface Work {
  readonly share: number;
  readonly isDone: boolean;
  step(): void;
}

/** After so long others that share the process have their turn. */
const longestHold_ms = 50;

/** Does all of the work, telling how far it is, letting others in between, and ending when nobody wants it any more. */
export async function takenInTurns(work: Work, { signal, progress }: Surroundings, what: string): Promise<void> {
  let paused_ms = performance.now();
  while (!work.isDone) {
    work.step();
    if (performance.now() - paused_ms < longestHold_ms) continue;
    signal?.throwIfAborted();
    progress?.(work.share, what);
    await new Promise((resume) => setImmediate(resume));
    paused_ms = performance.now();
  }
  progress?.(1, what);
}
