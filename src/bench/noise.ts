import { tQuantile } from "../maths/statistics/index.ts";
import { rolesOf } from "./channels.ts";
import { FlatTops } from "./flatTops.ts";
import { refuseLength } from "./length.ts";
import type { MainsFit } from "./mains.ts";
import { mainsOverall, type OverallMains } from "./mainsOverall.ts";
import { type QuasiPeakMeters, quasiPeakMeters } from "./quasiPeak.ts";
import type { Recording } from "./recording.ts";
import { type RecordingStream, streamOf } from "./recordingStream.ts";
import {
  joined,
  powerOfLine,
  powerWithin,
  type RestDensity,
  restDensity,
  restSpectrum,
  rootOf,
  sumOf,
} from "./restSpectrum.ts";
import { Steadiness } from "./steadiness.ts";
import { mainsBesideStrays, type StrayTone, straysOver } from "./strayTones.ts";
import { cutUp, eachBlock, notesOnStretches, type Stretch, scaleInPlace } from "./stretches.ts";
import { takeOutMains } from "./takeOutMains.ts";
import { weightA } from "./weighting.ts";

export interface NoiseOfChannel {
  readonly name: string;
  readonly noise_Vrms: number;
  readonly noiseA_Vrms: number;
  readonly noise468_Vqp: number;
  readonly hiss_Vrms: number;
  readonly hissA_Vrms: number;
  readonly hissDensity: readonly { readonly frequency_Hz: number; readonly V_per_rtHz: number }[];
  readonly mains: {
    readonly frequency_Hz: number;
    readonly doubt_Hz: number;
    readonly found: boolean;
    readonly lines: readonly {
      readonly order: number;
      readonly frequency_Hz: number;
      readonly level_Vrms: number;
      readonly phase_deg: number;
      readonly doubt_Vrms: number;
    }[];
  };
  readonly otherLines: readonly {
    readonly frequency_Hz: number;
    readonly level_Vrms: number;
    readonly doubt_Vrms: number;
  }[];
  readonly clipped: boolean;
  readonly doubt: {
    readonly noise_Vrms: number;
    readonly noiseA_Vrms: number;
    readonly noise468_Vqp: number;
    readonly hiss_Vrms: number;
    readonly hissA_Vrms: number;
  };
}

export interface NoiseReport {
  readonly channels: readonly NoiseOfChannel[];
  readonly usable_s: number;
  readonly notes: readonly string[];
}

const band_Hz = [20, 20_000] as const;
export const leastNoise_s = 1;

/**
 * Hum, hiss and stray lines of a quiet recording, each by itself.
 *
 * @param fullScale_Vpk  volts at digital full scale
 * @param building_Hz  nominal of the mains; without it both 50 and 60 Hz are tried and the stronger comb counts
 * @throws BadInput at `recording` when it is too short or too long, at `channels` when names do not match
 */
export function analyseNoise(
  recording: Recording | RecordingStream,
  fullScale_Vpk: number,
  given?: readonly string[],
  building_Hz?: number,
  seconds?: number,
): NoiseReport {
  const stream = streamOf(recording);
  const { rate_Hz, frames } = stream;
  refuseLength("noise", frames, rate_Hz, stream.channels, leastNoise_s, seconds);
  const { names, audio, mains } = rolesOf(stream.channels, given);
  const reach: readonly [number, number] = [band_Hz[0], Math.min(band_Hz[1], 0.49 * rate_Hz)];
  const cut = cutUp(stream, reach[1]);
  const duration_s = frames / rate_Hz;
  const parts = Math.min(mostParts, Math.max(2, Math.floor(duration_s / part_s)));
  const watched: Watched = {
    tops: audio.map(() => new FlatTops(stream)),
    rests: [],
    levels: audio.map(() => new Steadiness(stream)),
    meters: quasiPeakMeters(audio.length, frames, rate_Hz, parts),
  };
  const nominals_Hz = building_Hz === undefined ? [50, 60] : [building_Hz];
  const heard = mains === undefined ? audio : [...audio, mains];
  const stretches = cut.stretches.map((stretch) =>
    noiseIn(stream, stretch, cut, fullScale_Vpk, heard, audio.length, nominals_Hz, watched),
  );
  const readings = watched.meters.readings();

  const families = mainsOverall(stretches.map(({ fits }) => fits));
  const found = families.filter((family) => family.found);
  const main = strongestOf(found, audio.length) ?? families[0]!;
  const others = found.filter((family) => family !== main);
  const unsteady: string[] = [];
  const channels = audio.map((place, c): NoiseOfChannel => {
    const name = names[place]!;
    const lines = main.found ? main.channels[c]!.filter((line) => line.detected) : [];
    const foreign = others.flatMap((fit) => fit.channels[c]!.filter((line) => line.detected));
    const strays = straysOver(stretches.map((stretch) => stretch.strays[c]!));
    const known_Hz = [...lines, ...foreign, ...strays].map((line) => line.frequency_Hz);
    const spectrum = restSpectrum(watched.rests[c]!, reach, known_Hz);
    const { density, clean_V2_per_Hz, even_s } = spectrum;
    const otherLines = [...foreign, ...strays, ...spectrum.lines]
      .map(({ frequency_Hz, level_Vrms, doubt_Vrms }) => ({ frequency_Hz, level_Vrms, doubt_Vrms }))
      .sort((a, b) => a.frequency_Hz - b.frequency_Hz);
    const within = [...lines, ...foreign, ...strays].filter(
      ({ frequency_Hz }) => frequency_Hz >= band_Hz[0] && frequency_Hz <= band_Hz[1],
    );
    const total = (weight: (frequency_Hz: number) => number) =>
      rootOf(
        sumOf(
          powerWithin(density.step_Hz, clean_V2_per_Hz, band_Hz, even_s, weight),
          ...spectrum.lines.map((line) => powerOfLine(line.level_Vrms, line.doubt_Vrms, weight(line.frequency_Hz))),
          ...within.map((line) => powerOfLine(line.level_Vrms, line.doubt_Vrms, weight(line.frequency_Hz))),
        ),
      );
    const flat = () => 1;
    const noise = total(flat);
    const noiseA = total(weightA);
    const hiss = rootOf(powerWithin(density.step_Hz, clean_V2_per_Hz, band_Hz, even_s));
    const hissA = rootOf(powerWithin(density.step_Hz, clean_V2_per_Hz, band_Hz, even_s, weightA));
    const meter = meterOf(readings[c]!, duration_s);
    if (watched.levels[c]!.unsteady) unsteady.push(name);
    return {
      name,
      noise_Vrms: noise.value,
      noiseA_Vrms: noiseA.value,
      noise468_Vqp: meter.value,
      hiss_Vrms: hiss.value,
      hissA_Vrms: hissA.value,
      hissDensity: densityCurve(density.step_Hz, clean_V2_per_Hz, reach[1]),
      mains: {
        frequency_Hz: main.frequency_Hz,
        doubt_Hz: main.doubt_Hz,
        found: main.found,
        lines: lines.map(({ order, frequency_Hz, level_Vrms, doubt_Vrms, re, im }) => ({
          order,
          frequency_Hz,
          level_Vrms,
          phase_deg: (Math.atan2(im, re) * 180) / Math.PI,
          doubt_Vrms,
        })),
      },
      otherLines,
      clipped: watched.tops[c]!.clipped,
      doubt: {
        noise_Vrms: noise.doubt,
        noiseA_Vrms: noiseA.doubt,
        noise468_Vqp: meter.doubt,
        hiss_Vrms: hiss.doubt,
        hissA_Vrms: hissA.doubt,
      },
    };
  });
  return {
    channels,
    usable_s: duration_s,
    notes: [
      ...notesOn(channels, main, rate_Hz, duration_s),
      ...unsteady.map(notSteady),
      ...notesOnStretches(stretches.length, duration_s),
    ],
  };
}

interface Watched {
  readonly tops: readonly FlatTops[];
  /** Per channel, over the stretches read yet. */
  readonly rests: RestDensity[];
  readonly levels: readonly Steadiness[];
  readonly meters: QuasiPeakMeters;
  /** Taken off for the meters: from the first stretch, so that nothing jumps where the next begins. */
  means_V?: readonly number[];
}

/** One stretch: while it is read the meters run and it is thinned out; then mains is fitted and taken out. */
function noiseIn(
  stream: RecordingStream,
  stretch: Stretch,
  { low_Hz, thinner }: ReturnType<typeof cutUp>,
  fullScale_Vpk: number,
  heard: readonly number[],
  audio: number,
  nominals_Hz: readonly number[],
  watched: Watched,
): {
  fits: readonly MainsFit[];
  strays: readonly (readonly StrayTone[])[];
} {
  const { tops, levels, meters } = watched;
  const constant = constantsIn(stream, stretch, heard);
  watched.means_V ??= constant.slice(0, audio).map(({ mean }) => mean * fullScale_Vpk);
  const means_V = watched.means_V.map((mean_V, c) => (constant[c]!.still ? 0 : mean_V));
  const low = heard.map(() => thinner(stretch.count));
  eachBlock(stream, stretch, (channels) => {
    const signals = heard.map((place) => channels[place]!);
    signals.forEach((samples, c) => {
      tops[c]?.look(samples);
      levels[c]?.look(samples);
      if (constant[c]!.still) samples.fill(0);
      else scaleInPlace(samples, fullScale_Vpk);
      low[c]!.push(samples);
    });
    meters.push(signals.slice(0, audio), means_V);
  });
  const signals = low.map((one) => one.end());
  const { fits, strays, quiet } = mainsBesideStrays(signals, low_Hz, nominals_Hz, {}, true);
  const found = fits.filter((fit) => fit.found);
  quiet.slice(0, audio).forEach((signal, c) => {
    watched.rests[c] = joined(watched.rests[c], restDensity(takeOutMains(signal, found, c), low_Hz));
  });
  return { fits, strays };
}

/** Spread, as a share of a constant voltage, that is rounding. */
const arithmetic = 1e-14;

/** Mean of each channel, and whether it is nothing but a constant voltage, whose least digits are no noise. */
function constantsIn(stream: RecordingStream, stretch: Stretch, heard: readonly number[]) {
  const seen = heard.map(() => ({ low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY, sum: 0 }));
  eachBlock(stream, stretch, (channels) => {
    seen.forEach((one, c) => {
      const samples = channels[heard[c]!]!;
      let { low, high, sum } = one;
      for (let n = 0; n < samples.length; n++) {
        const value = samples[n]!;
        if (value < low) low = value;
        if (value > high) high = value;
        sum += value;
      }
      Object.assign(one, { low, high, sum });
    });
  });
  return seen.map(({ low, high, sum }) => ({
    mean: sum / stretch.count,
    still: high - low <= arithmetic * Math.max(Math.abs(low), Math.abs(high)),
  }));
}

const notSteady = (name: string) =>
  `${name}: the level is not steady: music, handling or a fault that comes and goes. Doubts hold for steady noise.`;

/** Time constants fitted to the standard's bursts read steady noise this share off at most. */
const meterShare = 0.01;
/** Parts that the highest reading is sought in, to see how it scatters; the meter needs the first to rise. */
const part_s = 0.4;
const mostParts = 16;
/** The highest of several parts scatters less than each part's by about this, on drawn noise. */
const highestScatter = 0.7;
/** A record shorter than this does not let the needle settle. */
const rise_s = 1.5;

/**
 * Highest reading of the quasi-peak meter, and how far another record of the same noise would read from it: the highest
 * of many readings scatters much as the highest of each part does, which short records know less well.
 */
function meterOf(readings: readonly number[], duration_s: number): { value: number; doubt: number } {
  const value = Math.max(...readings);
  const settled = readings.length > 2 ? readings.slice(1) : readings;
  const mean = settled.reduce((sum, reading) => sum + reading, 0) / settled.length;
  const freedom = settled.length - 1;
  const sd = Math.sqrt(settled.reduce((sum, reading) => sum + (reading - mean) ** 2, 0) / freedom);
  const unsettled = duration_s < rise_s ? value * Math.exp(-duration_s / 0.3) : 0;
  return { value, doubt: Math.hypot(highestScatter * tQuantile(0.975, freedom) * sd, meterShare * value, unsettled) };
}

function strongestOf(found: readonly OverallMains[], audio: number): OverallMains | undefined {
  const power = (fit: OverallMains) =>
    fit.channels
      .slice(0, audio)
      .flat()
      .reduce((sum, line) => sum + (line.detected ? line.level_Vrms ** 2 : 0), 0);
  return found.length > 0 ? found.reduce((a, b) => (power(b) > power(a) ? b : a)) : undefined;
}

/** Root density at sixths of an octave from 20 Hz, each the mean over its band. */
function densityCurve(step_Hz: number, V2_per_Hz: Float64Array, top_Hz: number) {
  const curve: { frequency_Hz: number; V_per_rtHz: number }[] = [];
  const half = 2 ** (1 / 12);
  for (let i = 0; 20 * 2 ** (i / 6) <= top_Hz * 1.001; i++) {
    const frequency_Hz = 20 * 2 ** (i / 6);
    const from = Math.max(1, Math.round(frequency_Hz / half / step_Hz));
    const to = Math.min(V2_per_Hz.length - 2, Math.max(from, Math.round((frequency_Hz * half) / step_Hz)));
    let sum = 0;
    for (let k = from; k <= to; k++) sum += V2_per_Hz[k]!;
    curve.push({ frequency_Hz, V_per_rtHz: Math.sqrt(sum / (to - from + 1)) });
  }
  return curve;
}

function notesOn(channels: readonly NoiseOfChannel[], main: OverallMains, rate_Hz: number, usable_s: number): string[] {
  const notes = [
    "Noise figures cover 20 Hz to 20 kHz with sharp edges; lines are found at a chance of 2 in 100 a channel that noise alone is named.",
  ];
  for (const { name, clipped, noise_Vrms } of channels) {
    if (clipped)
      notes.push(`${name}: the recorder was driven beyond its range (clipped); turn it down and record again.`);
    if (noise_Vrms === 0)
      notes.push(`${name}: digital silence or nothing but a constant voltage; check that the channel was connected.`);
  }
  if (!main.found)
    notes.push("No mains lines stand out of the noise; the mains frequency given is the nominal, not measured.");
  if (main.wandering) notes.push("The mains frequency moved during the recording and was followed; its mean is given.");
  if (rate_Hz < 2 * band_Hz[1])
    notes.push(`At ${rate_Hz} samples a second nothing above ${rate_Hz / 2} Hz is included.`);
  if (usable_s < 2)
    notes.push("The quasi-peak meter needs about a second to rise; a longer recording reads it better.");
  return notes;
}
