import type { Recording } from "./recording.ts";

/** Below this level a flat top is grain, not the end of the recorder's range. */
const loud = 0.5;
/** Steps of the grain under the extreme that count as just inside it. */
const insideSteps = 10.5;
/** So many different values just inside are no flat top, whatever their number. */
const mostValues = 1000;

/**
 * Did the recorder run out of range? Then many samples stand exactly at the highest (or lowest) value and few just
 * inside it; a sine's density falls off so slowly there that it never looks alike. Samples are shown as they come.
 */
export class FlatTops {
  private readonly high: FlatTop;
  private readonly low: FlatTop;
  private seen = 0;

  constructor({ bits, float }: Pick<Recording, "bits" | "float">) {
    const near = insideSteps * (float ? 2 ** -23 : 2 ** (1 - bits));
    this.high = new FlatTop(near);
    this.low = new FlatTop(near);
  }

  /** @param samples  the next of the channel, scaled so that 1 is digital full scale */
  look(samples: Float64Array): void {
    const { high, low } = this;
    for (let n = 0; n < samples.length; n++) {
      const value = samples[n]!;
      if (value >= high.from) high.note(value, this.seen + n);
      else if (-value >= low.from) low.note(-value, this.seen + n);
    }
    this.seen += samples.length;
  }

  get clipped(): boolean {
    return this.high.isFlat || this.low.isFlat;
  }
}

/** The values up to `near` under the highest yet, and how often each came. */
class FlatTop {
  /** Lower values need not be noted. */
  from: number;
  private extreme = Number.NEGATIVE_INFINITY;
  private readonly counts = new Map<number, number>();
  private longest = 0;
  private run = 0;
  private lastAt = -2;

  constructor(private readonly near: number) {
    this.from = loud - near;
  }

  note(value: number, at: number): void {
    if (value > this.extreme) {
      this.extreme = value;
      this.from = Math.max(this.from, value - this.near);
      for (const known of this.counts.keys()) if (known < this.from) this.counts.delete(known);
      this.longest = 0;
    }
    if (value === this.extreme) {
      this.run = this.longest > 0 && this.lastAt === at - 1 ? this.run + 1 : 1;
      this.longest = Math.max(this.longest, this.run);
      this.lastAt = at;
    }
    if (this.counts.size < mostValues || this.counts.has(value)) {
      this.counts.set(value, (this.counts.get(value) ?? 0) + 1);
    }
  }

  get isFlat(): boolean {
    if (this.extreme < loud || this.counts.size >= mostValues) return false;
    const at = this.counts.get(this.extreme)!;
    let inside = -at;
    for (const count of this.counts.values()) inside += count;
    return this.longest >= 2 && at >= 4 && at > inside;
  }
}
