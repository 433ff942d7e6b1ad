import { encodeWav } from "../../bench/encodeWav.ts";
import type { Random } from "../../maths/random.ts";
import type { Bench, Phasor } from "./drawBench.ts";
import type { Lab } from "./drawLab.ts";
import { sound } from "./readBench.ts";

export interface TakenRecording {
  readonly wav: Uint8Array;
  readonly fullScale_Vpk: number;
  readonly channels: readonly string[];
}

/**
 * The WAV file of one recording of a bench in a workshop: both families of lines along their own phase, wandering for
 * the building and steady for a regenerated supply, both seen by an untrue recorder clock; stray tones; hiss with a
 * rise towards low frequencies; a recorder's offset; dither where the steps are coarse.
 */
export function synthesise(bench: Bench, index: number, random: Random, lab: Lab): TakenRecording {
  const { rate_Hz, mains } = lab;
  const chance = random.fork(`recording ${index}`);
  const clock = 1 + lab.clockError * (lab.manyRecorders ? chance : random).fork("clock").normal();
  const length = Math.round(lab.durations_s[index]! * rate_Hz);
  const setting = bench.settings[index]!;

  const building = wanderingPhase(bench.building_Hz, length, rate_Hz * clock, lab, chance.fork("building"));
  const supply = new Float64Array(length);
  const supply_Hz = setting.supply.frequency_Hz * (1 + lab.supplyError * chance.fork("supply").normal());
  for (let i = 0; i < length; i++) supply[i] = (2 * Math.PI * supply_Hz * i) / (rate_Hz * clock);

  const gain = bench.mishap?.gain[index] ?? 1;
  const density = bench.noise_V2_per_Hz * 10 ** (lab.noise_dB / 10) * (gain ** 2 + 0.01);
  const strongest_Vpk = Math.max(...[...bench.phasors.values()].flat().map(({ re, im }) => Math.hypot(re, im)));
  const unit = bench.channels.map((channel) => {
    const { own, building: field } = sound(bench, index, channel, random, lab.contactScatter);
    const volts = hiss(density, length, rate_Hz, chance.fork(`hiss ${channel}`));
    addLines(volts, building, field, bench.orders);
    if (own) addLines(volts, supply, own, bench.orders);
    const strays = chance.fork(`strays ${channel}`);
    for (const { frequency_Hz, relative_dB } of lab.strays) {
      const amplitude = strongest_Vpk * 10 ** (relative_dB / 20);
      addTone(volts, frequency_Hz / (rate_Hz * clock), amplitude, strays.uniform());
    }
    return volts;
  });
  // Where the supply is recorded too, the recorder's gain stays, so that a sag can show.
  const peak_Vpk = lab.supply
    ? Math.max(...bench.channels.map((c) => mostPeak(bench, c, lab)))
    : Math.max(...unit.map(peakOf));
  const reference = mains && referenceVolts(bench, index, random, building, rate_Hz, chance);
  const socket =
    lab.supply &&
    socketVolts(setting.supply.source === "building" ? "sound" : lab.supply, {
      phase: setting.offset ? supply : building,
      start: startOf(bench, index, random, "unit"),
      random: chance.fork("hiss supply"),
    });
  const withSupply = socket ? [...bench.channels, "supply"] : bench.channels;
  const channels = reference ? (mains === "first" ? ["mains", ...withSupply] : [...withSupply, "mains"]) : withSupply;
  const fullScale_Vpk = peak_Vpk * 10 ** (lab.headroom_dB / 20);
  const dither = chance.fork("dither");
  const coarse = lab.encoding === "pcm16" ? 2 ** -15 : 0;
  const samples = channels.map((channel) => {
    const volts =
      channel === "mains" ? reference! : channel === "supply" ? socket! : unit[bench.channels.indexOf(channel)]!;
    // References have a gain of their own that fills half the scale; the socket's stays, so that a sag shows.
    const full = channel === "mains" ? 2 * peakOf(volts) : channel === "supply" ? 2 : fullScale_Vpk;
    return volts.map((v) => v / full + lab.offset + coarse * (dither.uniform() - dither.uniform()));
  });
  return { wav: encodeWav(rate_Hz, samples, { encoding: lab.encoding }), fullScale_Vpk, channels };
}

function referenceVolts(
  bench: Bench,
  index: number,
  random: Random,
  building: Float64Array,
  rate_Hz: number,
  chance: Random,
): Float64Array {
  const start = startOf(bench, index, random);
  const volts = hiss(1e-12, building.length, rate_Hz, chance.fork("hiss mains"));
  const wave = bench.orders.map((order): Phasor => {
    const amplitude = order === 1 ? 0.3 : order % 2 === 1 ? 0.01 / order : 0;
    return {
      re: amplitude * Math.cos(2 * Math.PI * start * order),
      im: amplitude * Math.sin(2 * Math.PI * start * order),
    };
  });
  addLines(volts, building, wave, bench.orders);
  return volts;
}

/** No recording of a channel reaches further than all its sources, strays and hiss at their peaks together. */
function mostPeak(bench: Bench, channel: string, { strays, noise_dB, rate_Hz }: Lab): number {
  const all = [...bench.phasors].filter(([key]) => key.startsWith(`${channel}|`)).flatMap(([, phasors]) => phasors);
  const amplitudes = all.map(({ re, im }) => Math.hypot(re, im));
  const strongest = [...bench.phasors.values()]
    .flat()
    .reduce((most, { re, im }) => Math.max(most, Math.hypot(re, im)), 0);
  const tones = strays.reduce((sum, { relative_dB }) => sum + strongest * 10 ** (relative_dB / 20), 0);
  const hiss = 8 * Math.sqrt((bench.noise_V2_per_Hz * 10 ** (noise_dB / 10) * rate_Hz) / 2);
  return amplitudes.reduce((sum, amplitude) => sum + amplitude, tones + hiss);
}

/** What the unit's socket gives, a peak of one volt where it is sound: cut at four fifths, or 7 % low. */
function socketVolts(
  kind: NonNullable<Lab["supply"]>,
  { phase, start, random }: { phase: Float64Array; start: number; random: Random },
): Float64Array {
  const most = kind === "cut" ? 0.8 : 1;
  const level = kind === "sagging" ? 0.93 : 1;
  return phase.map((angle) => {
    const sine = level * Math.cos(angle + 2 * Math.PI * start);
    return Math.max(-most, Math.min(most, sine)) + random.normal(0, 1e-4);
  });
}

/** When in its cycle the building's mains, or the unit's supply, stood at the start, as `sound` drew it. */
function startOf(bench: Bench, index: number, random: Random, of: "building" | "unit" = "building"): number {
  const starts = random.fork(`starts ${index}`);
  const first = starts.uniform();
  return of === "building" && bench.settings[index]!.offset ? starts.uniform() : first;
}

function wanderingPhase(
  nominal_Hz: number,
  length: number,
  rate_Hz: number,
  { buildingSpread_Hz, wander_Hz, wandering }: Lab,
  random: Random,
): Float64Array {
  const phase = new Float64Array(length);
  if (wandering !== "walk") {
    // A grid that is being put right, or one that swings about its mean with a period of some seconds.
    const middle_Hz = nominal_Hz + random.normal(0, buildingSpread_Hz);
    const period_s = 3 + 5 * random.uniform();
    const from = 2 * Math.PI * random.uniform();
    let turned = 0;
    for (let i = 0; i < length; i++) {
      phase[i] = turned;
      const along = i / length - 0.5;
      const off_Hz =
        wandering === "ramp"
          ? 2 * wander_Hz * along
          : wander_Hz * Math.sin(from + (2 * Math.PI * i) / (period_s * rate_Hz));
      turned += (2 * Math.PI * (middle_Hz + off_Hz)) / rate_Hz;
    }
    return phase;
  }
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
  const shares = [3, 1, 0.6];
  return Float64Array.from({ length }, () => {
    let sum = white * random.normal();
    const drive = white * random.normal();
    for (let p = 0; p < poles.length; p++) {
      const pole = poles[p]!;
      states[p] = pole * states[p]! + (1 - pole) * drive * shares[p]!;
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
    for (let n = 0; n < orders.length; n++) {
      while (k < orders[n]!) {
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

function addTone(volts: Float64Array, cycles: number, amplitude: number, start: number): void {
  for (let i = 0; i < volts.length; i++) volts[i]! += amplitude * Math.cos(2 * Math.PI * (cycles * i + start));
}

function peakOf(volts: Float64Array): number {
  return volts.reduce((peak, v) => Math.max(peak, Math.abs(v)), 0);
}
