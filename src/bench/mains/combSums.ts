/** Samples handled at once, so that the working arrays stay in the nearest cache. */
const chunk = 1024;

/**
 * Visits the powers e^{jkθ} of a phase, chunk by chunk, for k = 1 … highest.
 * `re` and `im` hold `count` values for the samples from `first` on.
 */
function eachPower(
  theta: Float64Array,
  first: number,
  end: number,
  highest: number,
  visit: (order: number, first: number, count: number, re: Float64Array, im: Float64Array) => void,
): void {
  const z = new Float64Array(2 * chunk);
  const re = new Float64Array(chunk);
  const im = new Float64Array(chunk);
  for (let from = first; from < end; from += chunk) {
    const count = Math.min(chunk, end - from);
    for (let i = 0; i < count; i++) {
      const c = Math.cos(theta[from + i]!);
      const s = Math.sin(theta[from + i]!);
      z[2 * i] = c;
      z[2 * i + 1] = s;
      re[i] = c;
      im[i] = s;
    }
    for (let k = 1; k <= highest; k++) {
      if (k > 1) {
        for (let i = 0; i < count; i++) {
          const c = z[2 * i]!;
          const s = z[2 * i + 1]!;
          const r = re[i]!;
          re[i] = r * c - im[i]! * s;
          im[i] = r * s + im[i]! * c;
        }
      }
      visit(k, from, count, re, im);
    }
  }
}

/** Complex sums per signal, order and block: re at 2·(order index·blocks + block), im after it. */
export type BlockSums = readonly Float64Array[];

/**
 * 2·Σ w·y·e^{−jkθ} over each block, for every signal and order.
 *
 * @param edges  block b runs from edges[b] to edges[b + 1] − 1
 */
export function blockSums(
  signals: readonly Float64Array[],
  weight: Float64Array,
  theta: Float64Array,
  orders: readonly number[],
  edges: readonly number[],
): BlockSums {
  const blocks = edges.length - 1;
  const sums = signals.map(() => new Float64Array(2 * orders.length * blocks));
  const place = new Map(orders.map((order, i) => [order, i]));
  const highest = Math.max(0, ...orders);
  for (let b = 0; b < blocks; b++) {
    eachPower(theta, edges[b]!, edges[b + 1]!, highest, (order, first, count, re, im) => {
      const i = place.get(order);
      if (i === undefined) return;
      signals.forEach((signal, s) => {
        let sumRe = 0;
        let sumIm = 0;
        for (let n = 0; n < count; n++) {
          const value = weight[first + n]! * signal[first + n]!;
          sumRe += value * re[n]!;
          sumIm -= value * im[n]!;
        }
        const at = 2 * (i * blocks + b);
        sums[s]![at]! += 2 * sumRe;
        sums[s]![at + 1]! += 2 * sumIm;
      });
    });
  }
  return sums;
}

/**
 * Takes the lines Re{c·e^{jkθ}} out of a set of signals, writing into them.
 *
 * @param phasors  per signal, real and imaginary part of each order in turn
 */
export function takeOut(
  signals: readonly Float64Array[],
  theta: Float64Array,
  orders: readonly number[],
  phasors: readonly Float64Array[],
): void {
  if (orders.length === 0) return;
  const place = new Map(orders.map((order, i) => [order, i]));
  eachPower(theta, 0, theta.length, Math.max(...orders), (order, first, count, re, im) => {
    const i = place.get(order);
    if (i === undefined) return;
    signals.forEach((signal, s) => {
      const a = phasors[s]![2 * i]!;
      const b = phasors[s]![2 * i + 1]!;
      if (a === 0 && b === 0) return;
      for (let n = 0; n < count; n++) signal[first + n]! -= a * re[n]! - b * im[n]!;
    });
  });
}
