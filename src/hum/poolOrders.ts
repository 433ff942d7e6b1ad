import type { Random } from "../maths/random.ts";
import type { LineSamples } from "./linePosterior.ts";
import { oddsAbove, oddsPerDecibel, type SourcePrior } from "./sourcePrior.ts";

/** One order of a channel: its samples, drawn as if alone, and the level of its strongest reading. */
export interface PooledLine {
  readonly order: number;
  readonly samples: LineSamples;
  readonly scale_Vrms: number;
}

/** How loud a source is as a whole, below the loudest hum of the channel. */
const loudness_dB = [0, -8, -16, -24, -32, -40, -50, -60] as const;
/** Hum falls with order about like this, and single orders of one source stray from it by so much. */
const fall_dB_per_decade = 16;
const stray_dB = 9;
/** Odds that a source leaves an order out (ripple has even ones only), and that it obeys no rule at all there. */
const absent = 0.2;
const unruly = 0.1;
const unrulyRange_dB = 80;
/** Relative amplitudes below this all count as nothing. */
const nothing = 0.03;
const proposals = 4000;
const settling = 800;

/**
 * Ties the orders of a channel together by one weak piece of physics: a source that is loud at one order is not silent
 * at all others. Each source has a loudness as a whole, Λ, about which its orders stray by 9 dB and more,
 *
 *     P(Λ | all) ∝ Π_k Σ_i Π_s p(a_ksi | Λ_s) / p₀(a_ksi)
 *
 * over the samples i of each order k, drawn with p₀. Nothing ties one source to another, and no cause has a spectrum of
 * its own, so what no reading tells apart stays even.
 *
 * @param sources  how many there are
 * @param prior    what every source's samples were drawn with
 * @returns `draws` times one sample of each line, as indices [draw][line]
 */
export function poolOrders(
  lines: readonly PooledLine[],
  sources: number,
  prior: SourcePrior,
  draws: number,
  random: Random,
): readonly Int32Array[] {
  const count = sources;
  const levels = loudness_dB.length;
  const loudest_Vrms = Math.max(...lines.map((line) => line.scale_Vrms * line.order ** (fall_dB_per_decade / 20)));
  const ratios = lines.map((line) => ratioTable(line, count, prior, loudest_Vrms));
  let products = lines.map(({ samples }) => new Float64Array(samples.length));
  let trial = lines.map(({ samples }) => new Float64Array(samples.length));

  /** Π_s p/p₀ of every sample of every line at the loudnesses `state`, into `products`. */
  function start() {
    for (const [k, product] of products.entries()) {
      product.fill(1);
      for (let s = 0; s < count; s++) {
        const ratio = ratios[k]!.subarray((s * levels + state[s]!) * product.length);
        for (let i = 0; i < product.length; i++) product[i]! *= ratio[i]!;
      }
    }
    return products.reduce((log, product) => log + logOfMean(product), 0);
  }
  /** The same with the loudness of one source, or of two, changed, from `products` into `trial`. */
  function change(next: Int32Array, a: number, b: number) {
    let log = 0;
    for (let k = 0; k < products.length; k++) {
      const product = products[k]!;
      const changed = trial[k]!;
      const rowOf = (s: number, level: number) => (s * levels + level) * product.length;
      multiplyByRatio(product, ratios[k]!, rowOf(a, next[a]!), rowOf(a, state[a]!), changed);
      if (a !== b) multiplyByRatio(changed, ratios[k]!, rowOf(b, next[b]!), rowOf(b, state[b]!), changed);
      log += logOfMean(changed);
    }
    return log;
  }

  let state = Int32Array.from({ length: count }, () => levels >> 1);
  let log = start();
  const picks: Int32Array[] = [];
  const every = Math.max(1, Math.floor((proposals - settling) / draws));
  for (let n = 0; n < proposals; n++) {
    const next = state.slice();
    const a = random.integer(count);
    const b = random.integer(count);
    if (random.uniform() < 0.4) {
      next[a] = state[b]!;
      next[b] = state[a]!;
    } else {
      next[a] = random.integer(levels);
      if (random.uniform() < 0.3) next[b] = random.integer(levels);
    }
    const nextLog = change(next, a, b);
    if (Math.log(random.uniform()) < nextLog - log) {
      state = next;
      log = nextLog;
      [products, trial] = [trial, products];
    }
    // Rounding gathers in products that are only ever multiplied on.
    if (n % 500 === 499) log = start();
    if (n >= settling && n % every === 0) picks.push(Int32Array.from(products, (product) => pick(product, random)));
  }
  return picks;
}

/** `into` = `product` · table[over…] / table[under…]; the very same where both are one row. */
function multiplyByRatio(
  product: Float64Array,
  table: Float64Array,
  over: number,
  under: number,
  into: Float64Array,
): void {
  if (over === under) {
    if (into !== product) into.set(product);
    return;
  }
  for (let i = 0; i < product.length; i++) into[i] = product[i]! * (table[over + i]! / table[under + i]!);
}

/** ln of the mean, a pattern never sampled counting as a third of a sample. */
function logOfMean(product: Float64Array): number {
  let sum = 0.3;
  for (let i = 0; i < product.length; i++) sum += product[i]!;
  return Math.log(sum / product.length);
}

/** p(a | Λ) / p₀(a), [source][loudness][sample]. */
function ratioTable(
  { order, samples, scale_Vrms }: PooledLine,
  count: number,
  prior: SourcePrior,
  loudest_Vrms: number,
) {
  const levels = loudness_dB.length;
  const table = new Float64Array(samples.length * count * levels);
  const expected_dB = loudness_dB.map((level) => level - fall_dB_per_decade * Math.log10(order));
  const scale_dB = 20 * Math.log10(scale_Vrms / loudest_Vrms);
  const below = expected_dB.map((mean) => {
    const floor_dB = scale_dB + 20 * Math.log10(nothing);
    const ruled = absent + (1 - absent) * logistic((floor_dB - mean) / (0.55 * stray_dB));
    return (1 - unruly) * ruled + unruly / 2;
  });
  for (const [i, sample] of samples.entries()) {
    for (let s = 0; s < count; s++) {
      const amplitude = Math.sqrt(sample[s]!);
      for (let l = 0; l < levels; l++) {
        const at = (s * levels + l) * samples.length + i;
        if (amplitude < nothing) {
          table[at] = below[l]! / (1 - oddsAbove(prior, nothing));
          continue;
        }
        const off = (scale_dB + 20 * Math.log10(amplitude) - expected_dB[l]!) / stray_dB;
        const ruled = ((1 - absent) * Math.exp(-(off * off) / 2)) / (stray_dB * Math.sqrt(2 * Math.PI));
        table[at] = ((1 - unruly) * ruled + unruly / 2 / unrulyRange_dB) / oddsPerDecibel(prior, amplitude);
      }
    }
  }
  return table;
}

function logistic(x: number): number {
  return 1 / (1 + Math.exp(-x));
}

function pick(weights: Float64Array, random: Random): number {
  let sum = 0;
  for (const weight of weights) sum += weight;
  let target = random.uniform() * sum;
  for (let i = 0; i < weights.length; i++) {
    target -= weights[i]!;
    if (target < 0) return i;
  }
  return weights.length - 1;
}
