/** A level is looked at over stretches this long, their means taken off. */
const stretch_s = 0.1;
const leastStretches = 8;
/** Noise and hum move the level by a few per cent from stretch to stretch; what moves it so is something that happens. */
const unsteadyRatio = 1.5;

/** Hears, as samples come, whether a signal stays alike: noise does, music, handling and a fault that comes and goes do not. */
export class Steadiness {
  private readonly size: number;
  private readonly levels: number[] = [];
  private count = 0;
  private sum = 0;
  private squares = 0;

  constructor({ rate_Hz }: { readonly rate_Hz: number }) {
    this.size = Math.max(1, Math.round(stretch_s * rate_Hz));
  }

  look(samples: Float64Array): void {
    let { count, sum, squares } = this;
    for (let n = 0; n < samples.length; n++) {
      const value = samples[n]!;
      sum += value;
      squares += value * value;
      if (++count < this.size) continue;
      this.levels.push(Math.sqrt(Math.max(0, squares / count - (sum / count) ** 2)));
      count = sum = squares = 0;
    }
    Object.assign(this, { count, sum, squares });
  }

  /** Does the level of its louder eighths stand so far over that of its softer ones? */
  get unsteady(): boolean {
    if (this.levels.length < leastStretches) return false;
    const sorted = [...this.levels].sort((a, b) => a - b);
    const eighth = Math.floor(sorted.length / 8);
    return sorted.at(-1 - eighth)! > unsteadyRatio * sorted[eighth]!;
  }
}
