import { setPriority } from "node:os";
import { isMainThread } from "node:worker_threads";

/**
 * Called in a thread that computes aside: it gives way to whatever answers people, on this machine's cores. By half the
 * way only: where all cores are busy it still gets a quarter of one, so that nobody waits for it without end.
 *
 * Linux alone sets this for one thread; elsewhere it would hold for the whole server, so that nothing is done.
 */
export function giveWay(): void {
  if (isMainThread || process.platform !== "linux") return;
  try {
    setPriority(5);
  } catch {
    // A machine that does not allow it computes as before.
  }
}
