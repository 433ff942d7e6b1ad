import type { Recording } from "../../bench/recording.ts";
import type { Random } from "../../maths/random.ts";
import type { Bench, Phasor } from "./drawBench.ts";
import { sound } from "./readBench.ts";

export interface SynthesisOptions {
  readonly duration_s: number;
  readonly rate_Hz: number;
  /** Adds a channel named `mains` with the building's voltage, scaled down. */
  readonly mains?: boolean;
  readonly bits?: 16 | 24;
}

/** Recorder clocks lie within this of true; the building's frequency wanders by mHz within seconds. */
const clockError = 50e-6;
const buildingSpread_Hz = 0.02;
const wander_Hz = 0.004;
export const fullScale_Vpk = 0.5;

/**
 * The samples of one recording of a bench: both families of lines along their own phase, wandering for the building
 * and steady for a regenerated supply, both seen by an untrue recorder clock; hiss with a rise towards low
 * frequencies; rounded to the recorder's steps.
 */
export function synthesise(bench: Bench, index: number, random: Random, options: SynthesisOptions): Recording {
  const { duration_s, rate_Hz, mains = false, bits = 24 } = options;
  const chance = random.fork(`recording ${index}`);
  const clock = 1 + clockError * random.fork("clock").normal();
  const length = Math.round(duration_s * rate_Hz);
  const setting = bench.settings[index]!;

  const building = wanderingPhase(bench.building_Hz, length, rate_Hz * clock, chance.fork("building"));
  const supply = new Float64Array(length);
  for (let i = 0; i < length; i++) supply[i] = (2 * Math.PI * setting.supply.frequency_Hz * i) / (rate_Hz * clock);

  const channels = bench.channels.map((channel) => {
    const { own, building: field } = sound(bench, index, channel, random);
    const volts = hiss(bench.noise_V2_per_Hz, length, rate_Hz, chance.fork(`hiss ${channel}`));
    addLines(volts, building, field, bench.orders);
    if (own) addLines(volts, supply, own, bench.orders);
    return volts;
  });
  if (mains) {
    const start = startOf(bench, index, random);
    const volts = hiss(1e-12, length, rate_Hz, chance.fork("hiss mains"));
    const wave = bench.orders.map((order): Phasor => {
      const amplitude = order === 1 ? 0.3 : order % 2 === 1 ? 0.01 / order : 0;
      return {
        re: amplitude * Math.cos(2 * Math.PI * start * order),
        im: amplitude * Math.sin(2 * Math.PI * start * order),
      };
    });
    addLines(volts, building, wave, bench.orders);
    channels.push(volts);
  }
  const steps = 2 ** (bits - 1);
  const samples = channels.map((volts) => volts.map((v) => Math.round((v / fullScale_Vpk) * steps) / steps));
  return { rate_Hz, samples, truncated: false, bits, float: false };
}

/** When in its cycle the building's mains stood at the start, as `sound` drew it. */
function startOf(bench: Bench, index: number, random: Random): number {
  const starts = random.fork(`starts ${index}`);
  const first = starts.uniform();
  return bench.settings[index]!.offset ? starts.uniform() : first;
}

function wanderingPhase(nominal_Hz: number, length: number, rate_Hz: number, random: Random): Float64Array {
  const phase = new Float64Array(length);
  const mean_Hz = nominal_Hz + random.normal(0, buildingSpread_Hz);
  let frequency_Hz = mean_Hz;
  let angle = 0;
  // A walk drawn back to its mean within some ten seconds.
  const back = 1 / (10 * rate_Hz);
  const push = wander_Hz * Math.sqrt(2 * back);
  for (let i = 0; i < length; i++) {
    phase[i] = angle;
    angle += (2 * Math.PI * frequency_Hz) / rate_Hz;
    frequency_Hz += (mean_Hz - frequency_Hz) * back + push * random.normal();
  }
  return phase;
}

/** White hiss plus flicker below about 100 Hz, from a few low-passed noises. */
function hiss(density_V2_per_Hz: number, length: number, rate_Hz: number, random: Random): Float64Array {
  const white = Math.sqrt((density_V2_per_Hz * rate_Hz) / 2);
  const poles = [3, 20, 100].map((corner_Hz) => Math.exp((-2 * Math.PI * corner_Hz) / rate_Hz));
  const states = poles.map(() => 0);
  return Float64Array.from({ length }, () => {
    let sum = white * random.normal();
    const drive = white * random.normal();
    for (const [p, pole] of poles.entries()) {
      states[p] = pole * states[p]! + (1 - pole) * drive * [3, 1, 0.6][p]!;
      sum += states[p]!;
    }
    return sum;
  });
}

function addLines(
  volts: Float64Array,
  phase: Float64Array,
  phasors: readonly Phasor[],
  orders: readonly number[],
): void {
  for (let i = 0; i < volts.length; i++) {
    const cosine = Math.cos(phase[i]!);
    const sine = Math.sin(phase[i]!);
    let c = 1;
    let s = 0;
    let k = 0;
    let sum = 0;
    for (const [n, order] of orders.entries()) {
      while (k < order) {
        const next = c * cosine - s * sine;
        s = c * sine + s * cosine;
        c = next;
        k++;
      }
      const { re, im } = phasors[n]!;
      sum += re * c - im * s;
    }
    volts[i]! += sum;
  }
}
