/** So many at a time for each name; the others wait their turn, up to a number, and go when whoever asked has gone. */
export class Turns {
  private readonly busy = new Map<string, number>();
  private readonly waiting = new Map<string, (() => void)[]>();

  constructor(
    private readonly atOnce: number,
    private readonly mostWaiting: number,
  ) {}

  /** @returns ends the turn; undefined when too many wait, or the asker has gone */
  async take(name: string, gone: AbortSignal): Promise<(() => void) | undefined> {
    const busy = this.busy.get(name) ?? 0;
    if (busy < this.atOnce) {
      this.busy.set(name, busy + 1);
      return this.ending(name);
    }
    const queue = this.waiting.get(name) ?? [];
    if (queue.length >= this.mostWaiting) return undefined;
    this.waiting.set(name, queue);
    return new Promise((turn) => {
      const go = () => {
        gone.removeEventListener("abort", leave);
        turn(this.ending(name));
      };
      const leave = () => {
        const place = queue.indexOf(go);
        if (place >= 0) queue.splice(place, 1);
        turn(undefined);
      };
      gone.addEventListener("abort", leave, { once: true });
      queue.push(go);
    });
  }

  private ending(name: string): () => void {
    let isOver = false;
    return () => {
      if (isOver) return;
      isOver = true;
      const next = this.waiting.get(name)?.shift();
      if (next) return next();
      this.waiting.delete(name);
      const left = (this.busy.get(name) ?? 1) - 1;
      if (left > 0) this.busy.set(name, left);
      else this.busy.delete(name);
    };
  }
}
