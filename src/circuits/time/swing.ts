/** A quantity over a span of time: its extremes, mean and r.m.s., straight between the moments given. */
export interface Swing {
  low: number;
  high: number;
  highAt_s: number;
  /** Value at the end, where the next span begins. */
  last: number | undefined;
  readonly mean: number;
  readonly rms: number;
  add(value: number, length_s: number, time_s: number): void;
  /** A level value over a length of time. */
  addLevel(value: number, length_s: number): void;
}

/** @param from  value at the beginning; left out, that of the first moment given */
export function swing(from?: number): Swing {
  let whole_s = 0;
  let sum = 0;
  let squares = 0;
  return {
    low: Number.POSITIVE_INFINITY,
    high: Number.NEGATIVE_INFINITY,
    highAt_s: 0,
    last: from,
    get mean() {
      return whole_s > 0 ? sum / whole_s : 0;
    },
    get rms() {
      return whole_s > 0 ? Math.sqrt(squares / whole_s) : 0;
    },
    add(value, length_s, time_s) {
      const before = this.last ?? value;
      whole_s += length_s;
      sum += (length_s * (before + value)) / 2;
      squares += (length_s * (before * before + before * value + value * value)) / 3;
      this.last = value;
      this.low = Math.min(this.low, value);
      if (value <= this.high) return;
      this.high = value;
      this.highAt_s = time_s;
    },
    addLevel(value, length_s) {
      whole_s += length_s;
      sum += length_s * value;
      squares += length_s * value * value;
    },
  };
}
