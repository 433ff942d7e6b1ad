import type { Random } from "../../../maths/random.ts";
import { analyseNoise } from "../../noise.ts";
import { weightA } from "../../weighting.ts";
import { addComb, addNoise, drawLines, type MadeLine, mainsPhase } from "../synthesiser.ts";
import { anyPhase, between, type Draws, decades, drawWander, pick, recordingOf, type Stated, streams } from "./draw.ts";
import { integral } from "./tone.ts";

/** A steady or nearly steady tone beside the hum. */
interface Beside {
  readonly frequency_Hz: number;
  readonly peak_V: number;
  /** Whether it is sought among the other lines. */
  readonly isJudged: boolean;
}

/** A record of minutes and what it was made of. */
export interface LongRecord {
  readonly signal: Float64Array;
  readonly rate_Hz: number;
  readonly nominal_Hz: number;
  /** Of the mains. */
  readonly mean_Hz: number;
  readonly lines: readonly MadeLine[];
  readonly tones: readonly Beside[];
  readonly density: number;
  readonly note: string;
}

const rate_Hz = 4000;

const near = (frequency_Hz: number, other_Hz: number) => Math.abs(frequency_Hz - other_Hz) < 0.3;

/** What `bench.noise` states of a long record, each figure beside what was put in. */
function statedOf({ signal, nominal_Hz, mean_Hz, lines, tones, density, note }: LongRecord): Stated[] {
  const seconds = signal.length / rate_Hz;
  const read = analyseNoise(recordingOf(rate_Hz, signal), 1, undefined, nominal_Hz, 60).channels[0]!;
  const { mains, otherLines, doubt } = read;
  const stated: Stated[] = [
    { what: "mains frequency_Hz", value: mains.frequency_Hz, truth: mean_Hz, doubt: mains.doubt_Hz, note },
  ];
  for (const made of lines) {
    const truth = made.peak * Math.SQRT1_2;
    // Those near the threshold of detection, and one that a tone stands on, are left out.
    if (truth < (8 * density) / Math.sqrt(seconds)) continue;
    if (tones.some(({ frequency_Hz }) => near(made.order * mean_Hz, frequency_Hz))) continue;
    const line = mains.lines.find((one) => one.order === made.order);
    stated.push({
      what: "mains line level_Vrms",
      value: line?.level_Vrms ?? 0,
      truth,
      doubt: line?.doubt_Vrms ?? 0,
      note: `${note}, order ${made.order}`,
    });
  }
  for (const { frequency_Hz, peak_V, isJudged } of tones) {
    const order = Math.round(frequency_Hz / mean_Hz);
    if (!isJudged || near(order * mean_Hz, frequency_Hz)) continue;
    const [found] = otherLines
      .filter((line) => near(line.frequency_Hz, frequency_Hz))
      .sort((a, b) => b.level_Vrms - a.level_Vrms);
    stated.push({
      what: "other line level_Vrms",
      value: found?.level_Vrms ?? 0,
      truth: peak_V * Math.SQRT1_2,
      doubt: found?.doubt_Vrms ?? 0,
      note: `${note}, at ${frequency_Hz.toFixed(2)} Hz`,
    });
  }
  const [low_Hz, high_Hz] = [20, rate_Hz / 2];
  const hiss = {
    hiss_Vrms: density * Math.sqrt(high_Hz - low_Hz),
    hissA_Vrms: density * Math.sqrt(integral((f) => weightA(f) ** 2, low_Hz, high_Hz)),
  };
  for (const [what, truth] of Object.entries(hiss)) {
    const name = what as keyof typeof hiss;
    stated.push({ what, value: read[name], truth, doubt: doubt[name], note });
  }
  return stated;
}

/** Frequency against its mean along the record: not at all, by up to 1 ppm either way, or swinging by 0.3 ppm. */
function drawDrift(random: Random): (share: number) => number {
  return pick(random, [
    () => 0,
    (share: number) => 1e-6 * (share - 0.5),
    (share: number) => 3e-7 * Math.sin(2 * Math.PI * share),
  ]);
}

/** Phase at every sample of a clock that drifts. */
function driftingPhase(frequency_Hz: number, drift: (share: number) => number, length: number): Float64Array {
  const turn = new Float64Array(length);
  for (let n = 1; n < length; n++) {
    turn[n] = turn[n - 1]! + ((2 * Math.PI * frequency_Hz) / rate_Hz) * (1 + drift(n / length));
  }
  return turn;
}

export function besideLoudTone(seed: string): LongRecord {
  const { random, chance } = streams(seed);
  const length = Math.round(between(random, 90, 150) * rate_Hz);
  const nominal_Hz = pick(random, [50, 60]);
  const mains_Hz = nominal_Hz * between(random, 0.998, 1.002);
  const wander = drawWander(random);
  const lines = drawLines(random, 12, decades(random, -4, -3));
  const density = decades(random, -7, -6);
  const order = 6 + random.integer(5);
  const tone_Hz = random.uniform() < 1 / 3 ? order * mains_Hz + between(random, -1, 1) : between(random, 300, 650);
  const tone_V = density * 10 ** (between(random, 40, 110) / 20);
  const harmonics = [1, 0, decades(random, -5, -3)];
  const drift = drawDrift(random);
  const signal = new Float64Array(length);
  const { theta, mean_Hz } = mainsPhase(chance, mains_Hz, wander, rate_Hz, length);
  addComb(signal, theta, lines);
  addComb(
    signal,
    driftingPhase(tone_Hz, drift, length),
    harmonics.map((share, i) => ({ order: i + 1, peak: tone_V * share, phase_rad: anyPhase(random) })),
  );
  addNoise(signal, chance, rate_Hz, density);
  const tones = harmonics.flatMap((share, i) =>
    share > 0 ? [{ frequency_Hz: (i + 1) * tone_Hz, peak_V: tone_V * share, isJudged: i === 0 }] : [],
  );
  const note = `${wander.kind}, tone ${tone_Hz.toFixed(2)} Hz, ${(tone_V / density).toExponential(1)}`;
  return { signal, rate_Hz, nominal_Hz, mean_Hz, lines, tones, density, note };
}

/** Strays that stand at whole multiples of one frequency near the mains, as of another supply's lines. */
function besideAgreeingStrays(seed: string): LongRecord {
  const { random, chance } = streams(seed);
  const length = Math.round(between(random, 90, 150) * rate_Hz);
  const nominal_Hz = pick(random, [50, 60]);
  const mains_Hz = nominal_Hz * between(random, 0.998, 1.002);
  const wander = drawWander(random);
  const lines = drawLines(random, pick(random, [2, 4, 12]), decades(random, -4, -3));
  const density = decades(random, -7, -6);
  const other_Hz = mains_Hz + pick(random, [-1, 1]) * between(random, 0.04, 0.8);
  const orders = Array.from({ length: 16 }, (_, i) => i + 5);
  const strays = Array.from({ length: 3 + random.integer(3) }, () => ({
    order: orders.splice(random.integer(orders.length), 1)[0]!,
    peak: density * 10 ** (between(random, 25, 80) / 20),
    phase_rad: anyPhase(random),
  }));
  const drift = drawDrift(random);
  const signal = new Float64Array(length);
  const { theta, mean_Hz } = mainsPhase(chance, mains_Hz, wander, rate_Hz, length);
  addComb(signal, theta, lines);
  addComb(signal, driftingPhase(other_Hz, drift, length), strays);
  addNoise(signal, chance, rate_Hz, density);
  const tones = strays.map((one) => ({ frequency_Hz: one.order * other_Hz, peak_V: one.peak, isJudged: true }));
  const note = `${wander.kind}, ${lines.length} lines, strays of ${other_Hz.toFixed(3)} Hz`;
  return { signal, rate_Hz, nominal_Hz, mean_Hz, lines, tones, density, note };
}

/**
 * source: made with known lines, tone and noise density. The tone's clock drifts against the recorder's, so that it must
 * be followed for its skirts not to count as hiss.
 */
export const loudToneDraws: Draws = {
  of: "bench.noise, minutes beside a loud tone",
  drawn:
    "a minute and a half to two and a half at 4 kHz; a tone of 300 to 650 Hz, 40 to 110 dB over a second's hiss, with harmonics, its clock drifting by up to 1 ppm or swinging by 0.3 ppm in two of three; up to 12 mains lines on 50 or 60 Hz that stands, walks or swings, the tone within 1 Hz of an order in a third; noise over a decade",
  draw: (seed) => statedOf(besideLoudTone(seed)),
};

/** source: made with known lines, strays and noise density. */
export const agreeingStrayDraws: Draws = {
  of: "bench.noise, minutes with strays that agree",
  drawn:
    "a minute and a half to two and a half at 4 kHz; three to five tones, 25 to 80 dB over a second's hiss, at orders 5 to 20 of one frequency that lies 0.04 to 0.8 Hz beside the mains, drifting as above; up to 2, 4 or 12 mains lines on 50 or 60 Hz that stands, walks or swings; noise over a decade",
  draw: (seed) => statedOf(besideAgreeingStrays(seed)),
};
