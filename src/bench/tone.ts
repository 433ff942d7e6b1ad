import { BadInput } from "../maths/badInput.ts";
import { type Roles, rolesOf } from "./channels.ts";
import { findToneOf } from "./findTone.ts";
import { FlatTops } from "./flatTops.ts";
import { refuseLength } from "./length.ts";
import { type LoneTone, loneToneReader, takeOutTone } from "./loneTone.ts";
import type { Comb } from "./mains/comb.ts";
import { fitMains, type MainsFit } from "./mains.ts";
import { mainsOverall, type OverallMains } from "./mainsOverall.ts";
import { noTone } from "./noTone.ts";
import type { Recording } from "./recording.ts";
import { type RecordingStream, streamOf } from "./recordingStream.ts";
import {
  joined,
  type Power,
  powerOfLine,
  powerWithin,
  type RestDensity,
  restDensity,
  restSpectrum,
  rootOf,
  sumOf,
} from "./restSpectrum.ts";
import { cutUp, eachBlock, notesOnStretches, type Stretch, scaleInPlace } from "./stretches.ts";
import { takeOutMains } from "./takeOutMains.ts";
import { fitHarmonics, followTone, type ToneFit, weightOf } from "./toneFit.ts";
import { weightA } from "./weighting.ts";

export interface ToneOfChannel {
  readonly name: string;
  readonly frequency_Hz: number;
  readonly level_Vrms: number;
  readonly thd_pct: number;
  readonly thdn_pct: number;
  readonly harmonics: readonly {
    readonly order: number;
    readonly frequency_Hz: number;
    readonly level_Vrms: number;
    readonly level_dB: number;
    readonly doubt_Vrms: number;
    readonly detected: boolean;
  }[];
  readonly noise_Vrms: number;
  readonly noiseA_Vrms: number;
  readonly sinad_dB: number;
  readonly clipped: boolean;
  readonly doubt: {
    readonly frequency_Hz: number;
    readonly level_Vrms: number;
    readonly thd_pct: number;
    readonly thdn_pct: number;
    readonly noise_Vrms: number;
    readonly noiseA_Vrms: number;
    readonly sinad_dB: number;
  };
}

export interface ToneReport {
  readonly channels: readonly ToneOfChannel[];
  readonly mains: {
    readonly frequency_Hz: number;
    readonly doubt_Hz: number;
    readonly found: boolean;
    readonly lines: readonly { readonly order: number; readonly level_Vrms: number; readonly doubt_Vrms: number }[];
  };
  readonly usable_s: number;
  readonly notes: readonly string[];
}

export const leastTone_s = 0.5;
/** Harmonics that count as distortion. */
const highestOrder = 10;

export interface ToneOptions {
  readonly names?: readonly string[];
  /** Nominal, good to 0.1 %. */
  readonly fundamental_Hz?: number;
  readonly band_Hz?: readonly [number, number];
  /** Time granted for an answer; long recordings need more than the usual 10 s. */
  readonly seconds?: number;
}

/**
 * Level, distortion and noise of a steady tone, no coherent sampling assumed: one least-squares fit of tone, harmonics
 * and mains comb together, then the spectrum of what is left.
 *
 *     THD = √(U₂² + … + U₁₀²)/U₁ with the noise power S/T that each Uₙ² holds taken off
 *
 * @throws BadInput  too short or long, no tone in any channel, names that do not match, a band or nominal out of range
 */
export function analyseTone(
  recording: Recording | RecordingStream,
  fullScale_Vpk: number,
  options: ToneOptions = {},
): ToneReport {
  const stream = streamOf(recording);
  const { rate_Hz, frames } = stream;
  refuseLength("tone", frames, rate_Hz, stream.channels, leastTone_s, options.seconds);
  const band_Hz = options.band_Hz ?? [20, 20_000];
  if (!(band_Hz[0] < Math.min(band_Hz[1], rate_Hz / 2))) {
    throw new BadInput(
      "band_Hz",
      `${band_Hz[0]} to ${band_Hz[1]} Hz`,
      "lower edge below the upper edge and half the sample rate",
      "give [low, high]",
    );
  }
  if (options.fundamental_Hz !== undefined && !(options.fundamental_Hz < 0.49 * rate_Hz)) {
    throw new BadInput(
      "fundamental_Hz",
      `${options.fundamental_Hz} Hz`,
      `below ${0.49 * rate_Hz} Hz at this sample rate`,
      "give the tone's nominal frequency",
    );
  }
  const roles = rolesOf(stream.channels, options.names);
  const starts = startOf(stream, roles, options.fundamental_Hz);
  const toned = roles.audio.flatMap((place, c) => (starts[c] === undefined ? [] : [{ place, start_Hz: starts[c] }]));
  if (toned.length === 0) {
    const elsewhere = options.fundamental_Hz === undefined ? [] : startOf(stream, roles, undefined);
    throw noTone({
      rate_Hz,
      moves: roles.audio.some((place) => movesIn(stream, place)),
      strongest_Hz: elsewhere.find((tone_Hz) => tone_Hz !== undefined),
      nominals_Hz: options.fundamental_Hz === undefined ? [] : [options.fundamental_Hz],
      field: "fundamental_Hz",
    });
  }
  const quiet = roles.audio.filter((_, c) => starts[c] === undefined);
  const others = [...quiet, ...(roles.mains === undefined ? [] : [roles.mains])];
  const tops = toned.map(() => new FlatTops(stream));
  const highest_Hz = Math.max(...toned.map(({ start_Hz }) => start_Hz * ordersAt(start_Hz, rate_Hz)));
  const cut = cutUp(stream, Math.max(highest_Hz, Math.min(band_Hz[1], 0.49 * rate_Hz)));
  const rests: RestDensity[] = [];
  const parts = cut.stretches.map((stretch) => toneIn(stream, stretch, cut, fullScale_Vpk, toned, others, tops, rests));

  const duration_s = frames / rate_Hz;
  const mains = mainsOverall(parts.map(({ fits }) => fits));
  const found = mains.filter((family) => family.found);
  const channels = toned.map(({ place }, c) => {
    const fit = toneOverall(
      parts.map(({ tones }) => tones[c]!),
      rests[c]!,
    );
    const channel = { name: roles.names[place]!, clipped: tops[c]!.clipped };
    return report(channel, fit, found, c, cut.low_Hz, band_Hz, duration_s);
  });
  for (const { figures } of channels) requireNominal(figures, options.fundamental_Hz, duration_s);
  const main = strongestIn(found, roles.mains === undefined ? 0 : toned.length + quiet.length);
  return {
    channels: channels.map(({ figures }) => figures),
    mains: {
      frequency_Hz: (main ?? mains[0]!).frequency_Hz,
      doubt_Hz: (main ?? mains[0]!).doubt_Hz,
      found: main !== undefined,
      lines: (main?.channels[0] ?? [])
        .filter((line) => line.detected)
        .map(({ order, level_Vrms, doubt_Vrms }) => ({ order, level_Vrms, doubt_Vrms })),
    },
    usable_s: duration_s,
    notes: [
      "Distortion has the noise that each harmonic holds taken off; figures that a noise floor hides are limits, with a doubt as large as themselves.",
      ...channels.flatMap(({ notes }) => notes),
      ...quiet.map(
        (place) => `${roles.names[place]}: no tone stands out of the noise, so this channel has no figures.`,
      ),
      ...(main ? [] : ["No mains lines stand out of the noise; the mains frequency given is a nominal, not measured."]),
      ...notesOnStretches(parts.length, duration_s),
    ],
  };
}

/** Does any sample of a channel differ from its first? */
function movesIn(stream: RecordingStream, place: number): boolean {
  let first: number | undefined;
  let moves = false;
  eachBlock(stream, { first: 0, count: stream.frames }, (channels) => {
    const samples = channels[place]!;
    first ??= samples[0]!;
    moves ||= samples.some((value) => value !== first);
  });
  return moves;
}

/** Orders below half the sample rate, ten at most. */
function ordersAt(start_Hz: number, rate_Hz: number): number {
  return Math.max(1, Math.min(highestOrder, Math.floor((0.4999 * rate_Hz) / start_Hz)));
}

/** What one stretch of a recording says of a channel's tone. */
interface ToneInStretch {
  readonly fit: Omit<ToneFit, "rest">;
}

/**
 * One stretch: its tones are read in a first pass; in a second they are taken out at full rate, and what is left is
 * thinned out for all that follows.
 *
 * @param rests  per channel, over the stretches before; this one is joined to them
 */
function toneIn(
  stream: RecordingStream,
  stretch: Stretch,
  { low_Hz, thinner }: ReturnType<typeof cutUp>,
  fullScale_Vpk: number,
  toned: readonly { readonly place: number; readonly start_Hz: number }[],
  others: readonly number[],
  tops: readonly FlatTops[],
  rests: RestDensity[],
): { tones: ToneInStretch[]; fits: MainsFit[] } {
  const { rate_Hz } = stream;
  const readers = toned.map(({ start_Hz }) => loneToneReader(stretch.count, rate_Hz, start_Hz));
  eachBlock(stream, stretch, (channels) => {
    toned.forEach(({ place }, c) => {
      tops[c]!.look(channels[place]!);
      scaleInPlace(channels[place]!, fullScale_Vpk);
      readers[c]!.push(channels[place]!);
    });
  });
  const lone = readers.map((reader) => reader.tone());
  const left = [...toned, ...others].map(() => thinner(stretch.count));
  eachBlock(stream, stretch, (channels, from) => {
    toned.forEach(({ place }, c) => {
      scaleInPlace(channels[place]!, fullScale_Vpk);
      takeOutTone(channels[place]!, from, rate_Hz, lone[c]!);
      left[c]!.push(channels[place]!);
    });
    others.forEach((place, o) => {
      scaleInPlace(channels[place]!, fullScale_Vpk);
      left[toned.length + o]!.push(channels[place]!);
    });
  });
  const duration_s = stretch.count / rate_Hz;
  const thinned = left.map((one) => one.end());
  const combs = harmonicsIn(thinned, low_Hz, lone, rate_Hz);
  const fits = fitMains(thinned, low_Hz, [50, 60], {
    exclude_Hz: tonesOf(combs, duration_s),
  });
  const found = fits.filter((fit) => fit.found);
  const weight = weightOf(thinned[0]!.length, low_Hz);
  const tones = combs.map((comb, c): ToneInStretch => {
    const left = takeOutMains(thinned[c]!, found, c);
    const before = restDensity(left, low_Hz);
    const { rest, ...fit } = followTone({ comb }, left, low_Hz, weight, before);
    rests[c] = joined(rests[c], rest === left ? before : restDensity(rest, low_Hz));
    return { fit };
  });
  return { tones, fits };
}

/** Tones and their harmonics, taken out of the first of the signals where they stand. */
function harmonicsIn(
  signals: readonly Float64Array[],
  low_Hz: number,
  lone: readonly LoneTone[],
  rate_Hz: number,
): readonly Comb[] {
  // Let go before mains is fitted, which needs the room.
  const weight = weightOf(signals[0]!.length, low_Hz);
  return lone.map(
    (tone, c) => fitHarmonics(signals[c]!, low_Hz, tone, ordersAt(tone.frequency_Hz, rate_Hz), weight).comb,
  );
}

/** Tone and rest over all stretches of a recording. */
interface ToneOverall extends Omit<ToneFit, "comb" | "rest"> {
  readonly rest: RestDensity;
}

/** A tone whose stretches differ by so many standard deviations drifted from one to the next. */
const drifted = 4;

/**
 * Mean frequency, mean square of the fundamental, and each harmonic averaged as it stands to the fundamental in phase, so
 * that its noise falls with the length.
 */
function toneOverall(parts: readonly ToneInStretch[], rest: RestDensity): ToneOverall {
  const [{ fit: first }] = parts as [ToneInStretch];
  if (parts.length === 1) return { ...first, rest };
  const count = parts.length;
  const mean = (of: (fit: ToneInStretch["fit"]) => number) => parts.reduce((sum, { fit }) => sum + of(fit), 0) / count;
  const frequency_Hz = mean((fit) => fit.frequency_Hz);
  const frequencySd_Hz = Math.sqrt(mean((fit) => fit.frequencySd_Hz ** 2) / count);
  return {
    frequency_Hz,
    frequencySd_Hz,
    drifts: parts.some(
      ({ fit }) => fit.drifts || Math.abs(fit.frequency_Hz - frequency_Hz) > drifted * fit.frequencySd_Hz,
    ),
    harmonics: first.harmonics.map(({ order }, i) => {
      const variance_V2 = mean((fit) => fit.harmonics[i]!.variance_V2) / count;
      if (order === 1) return { order, peak_V: Math.sqrt(mean((fit) => fit.harmonics[0]!.peak_V ** 2)), variance_V2 };
      const along = (part: "re" | "im") => mean((fit) => againstFundamental(fit.comb.phasors[0]!, i, order)[part]);
      return { order, peak_V: Math.hypot(along("re"), along("im")), variance_V2 };
    }),
    rest,
  };
}

/** A harmonic's phasor turned by the fundamental's phase as often as its order says. */
function againstFundamental(phasors: Float64Array, i: number, order: number): { re: number; im: number } {
  const turn = -order * Math.atan2(phasors[1]!, phasors[0]!);
  const [re, im] = [phasors[2 * i]!, phasors[2 * i + 1]!];
  return { re: re * Math.cos(turn) - im * Math.sin(turn), im: re * Math.sin(turn) + im * Math.cos(turn) };
}

/** A nominal is good to this share; a fit that left it followed something else. */
const nominalShare = 0.001;

function requireNominal(
  { name, frequency_Hz, doubt }: ToneOfChannel,
  nominal_Hz: number | undefined,
  duration_s: number,
): void {
  if (nominal_Hz === undefined) return;
  const reach_Hz = nominalShare * nominal_Hz + 0.1 / duration_s;
  if (Math.abs(frequency_Hz - nominal_Hz) <= reach_Hz && Number.isFinite(doubt.frequency_Hz)) return;
  throw new BadInput(
    "fundamental_Hz",
    `${nominal_Hz} Hz, near which no tone of channel ${name} can be followed`,
    "a nominal good to 0.1 % of a tone that stands clear of stronger ones",
    "give the nominal of the tone that was sent, or leave it out for the strongest line",
  );
}

/** The family strongest in one signal. */
function strongestIn(found: readonly OverallMains[], signal: number): OverallMains | undefined {
  const power = (fit: OverallMains) =>
    fit.channels[signal]!.reduce((sum, l) => sum + (l.detected ? l.level_Vrms ** 2 : 0), 0);
  return found.length > 0 ? found.reduce((a, b) => (power(b) > power(a) ? b : a)) : undefined;
}

/** Mains lines of these orders can outdo a small tone and be taken for it. */
const humOrders = 6;

function startOf(
  stream: RecordingStream,
  { audio, mains }: Roles,
  nominal_Hz: number | undefined,
): (number | undefined)[] {
  const { rate_Hz, frames } = stream;
  let rooms = Array.from({ length: stream.channels }, () => new Float64Array(0));
  const tone = (place: number, avoid?: (frequency_Hz: number) => boolean) => {
    const pieceAt = (from: number, count: number) => {
      if (rooms[0]!.length !== count) rooms = rooms.map(() => new Float64Array(count));
      stream.read(from, rooms);
      return rooms[place]!;
    };
    return findToneOf(pieceAt, frames, rate_Hz, nominal_Hz, avoid);
  };
  const strongest = audio.map((place) => tone(place));
  if (nominal_Hz !== undefined) return strongest;
  const humming = strongest.some((f) => f !== undefined && [50, 60].some((hum) => isOrderOf(f, hum, 0.02 * hum)));
  if (!humming) return strongest;
  // A strongest line where hum could be: is there a comb, and is the line one of it rather than far above it?
  const { signals, low_Hz } = thinnedFirst(stream, [...audio, ...(mains === undefined ? [] : [mains])]);
  const found = fitMains(signals, low_Hz, [50, 60]).filter((fit) => fit.found);
  return audio.map((place, c) => {
    const tone_Hz = strongest[c];
    if (tone_Hz === undefined) return undefined;
    const near = 3 * Math.max(rate_Hz / frames, rate_Hz / 2 ** 18);
    const hum = found.find((fit) => isOrderOf(tone_Hz, fit.frequency_Hz, near));
    if (!hum) return tone_Hz;
    const order = Math.round(tone_Hz / hum.frequency_Hz);
    const level = (k: number) => hum.channels[c]![k - 1]!.level_Vrms;
    const next = Math.max(
      0,
      ...hum.channels[c]!.filter((l) => l.detected && l.order % order !== 0).map((l) => l.level_Vrms),
    );
    const other = tone(place, (f) => isOrderOf(f, hum.frequency_Hz, near, 100));
    return other !== undefined && level(order) < 10 * next ? other : tone_Hz;
  });
}

/** The first stretch of some channels, at the rate that mains needs. */
function thinnedFirst(stream: RecordingStream, places: readonly number[]) {
  const { stretches, low_Hz, thinner } = cutUp(stream, 0);
  const low = places.map(() => thinner(stretches[0]!.count));
  eachBlock(stream, stretches[0]!, (channels) => {
    places.forEach((place, i) => {
      low[i]!.push(channels[place]!);
    });
  });
  return { signals: low.map((one) => one.end()), low_Hz };
}

function isOrderOf(frequency_Hz: number, fundamental_Hz: number, near_Hz: number, orders = humOrders): boolean {
  const order = Math.round(frequency_Hz / fundamental_Hz);
  return (
    order >= 1 && order <= orders && Math.abs(frequency_Hz - order * fundamental_Hz) < near_Hz * Math.max(1, order / 3)
  );
}

/** Every tone and harmonic once, those of channels on one generator counted together. */
function tonesOf(combs: readonly Comb[], duration_s: number): number[] {
  const tones: number[] = [];
  for (const { orders, track } of combs) {
    for (const order of orders) {
      const tone_Hz = order * track.carrier_Hz;
      if (tones.every((other) => Math.abs(other - tone_Hz) > 0.3 / duration_s)) tones.push(tone_Hz);
    }
  }
  return tones;
}

function report(
  { name, clipped }: { readonly name: string; readonly clipped: boolean },
  fit: ToneOverall,
  found: readonly OverallMains[],
  c: number,
  rate_Hz: number,
  band_Hz: readonly [number, number],
  duration_s: number,
): { figures: ToneOfChannel; notes: string[] } {
  const mainsLines = found.flatMap((mains) => mains.channels[c]!.filter((line) => line.detected));
  const inBand = ({ frequency_Hz }: { frequency_Hz: number }) =>
    frequency_Hz >= band_Hz[0] && frequency_Hz <= band_Hz[1];
  const lines = fit.harmonics.map(({ order, peak_V, variance_V2 }) => {
    const frequency_Hz = order * fit.frequency_Hz;
    // A mains line too near to be told apart may hold part of it.
    const shared = mainsLines.filter((line) => Math.abs(line.frequency_Hz - frequency_Hz) < 1.5 / duration_s);
    const variance = shared.reduce((sum, line) => sum + 2 * (line.doubt_Vrms / 1.96) ** 2, variance_V2);
    return { order, frequency_Hz, peak_V, level_Vrms: peak_V * Math.SQRT1_2, variance_V2: variance };
  });
  const fundamental = lines[0]!;
  const level_Vrms = fundamental.level_Vrms;
  const level_doubt = 1.96 * Math.sqrt(fundamental.variance_V2 / 2);
  const unbiased = ({ peak_V, variance_V2 }: (typeof lines)[number]): Power => ({
    V2: peak_V ** 2 / 2 - variance_V2,
    variance_V4: Math.max(0, peak_V ** 2 - variance_V2) * variance_V2,
  });
  const distortion = lines.slice(1);
  const thd = rootOf(sumOf(...distortion.map(unbiased)));

  const higher = Array.from(
    { length: Math.max(0, Math.floor((0.499 * rate_Hz) / fit.frequency_Hz) - highestOrder) },
    (_, i) => (i + 1 + highestOrder) * fit.frequency_Hz,
  );
  const known_Hz = [...lines, ...mainsLines].map((line) => line.frequency_Hz).concat(higher);
  const top_Hz = Math.min(band_Hz[1], 0.49 * rate_Hz);
  const rest = restSpectrum(fit.rest, [band_Hz[0], top_Hz], known_Hz);
  const { step_Hz, V2_per_Hz } = rest.density;
  const noiseOf = (weight: (frequency_Hz: number) => number) =>
    rootOf(
      sumOf(
        powerWithin(step_Hz, rest.clean_V2_per_Hz, band_Hz, rest.even_s, weight),
        ...rest.lines.map((line) => powerOfLine(line.level_Vrms, line.doubt_Vrms, weight(line.frequency_Hz))),
      ),
    );
  const noise = noiseOf(() => 1);
  const noiseA = noiseOf(weightA);
  const all = rootOf(
    sumOf(
      powerWithin(step_Hz, V2_per_Hz, band_Hz, rest.even_s),
      ...distortion.filter(inBand).map(unbiased),
      ...mainsLines.filter(inBand).map((line) => powerOfLine(line.level_Vrms, line.doubt_Vrms)),
    ),
  );
  const share = level_doubt / level_Vrms;
  const pct = ({ value, doubt }: { value: number; doubt: number }) => ({
    value: (100 * value) / level_Vrms,
    doubt: (100 * Math.hypot(doubt, value * share)) / level_Vrms,
  });
  const thd_pct = pct(thd);
  const thdn_pct = pct(all);
  const notes: string[] = [];
  if (clipped)
    notes.push(`${name}: the recorder was driven beyond its range (clipped); distortion is not the amplifier's alone.`);
  if (thd_pct.doubt >= thd_pct.value) {
    notes.push(
      `${name}: distortion lies in the noise; it is at most ${(thd_pct.value + thd_pct.doubt).toPrecision(2)} %.`,
    );
  }
  if (distortion.length < highestOrder - 1) {
    notes.push(`${name}: harmonics above ${lines.length} lie beyond half the sample rate and are not counted.`);
  }
  if (thdn_pct.value > 30) {
    notes.push(
      `${name}: the tone is not alone: ${thdn_pct.value.toPrecision(2)} % of its level is something else. One steady tone is expected.`,
    );
  }
  if (fit.drifts) notes.push(`${name}: the tone drifted against the recorder's clock and was followed.`);
  const sinad_dB = -20 * Math.log10(Math.max(thdn_pct.value, 1e-18) / 100);
  return {
    notes,
    figures: {
      name,
      frequency_Hz: fit.frequency_Hz,
      level_Vrms,
      thd_pct: thd_pct.value,
      thdn_pct: thdn_pct.value,
      harmonics: distortion.map((line) => ({
        order: line.order,
        frequency_Hz: line.frequency_Hz,
        level_Vrms: line.level_Vrms,
        level_dB: 20 * Math.log10(Math.max(line.level_Vrms / level_Vrms, 1e-20)),
        doubt_Vrms: 1.96 * Math.sqrt(line.variance_V2 / 2),
        detected: line.peak_V ** 2 > 9 * line.variance_V2,
      })),
      noise_Vrms: noise.value,
      noiseA_Vrms: noiseA.value,
      sinad_dB,
      clipped,
      doubt: {
        frequency_Hz: 1.96 * fit.frequencySd_Hz,
        level_Vrms: level_doubt,
        thd_pct: thd_pct.doubt,
        thdn_pct: thdn_pct.doubt,
        noise_Vrms: noise.doubt,
        noiseA_Vrms: noiseA.doubt,
        sinad_dB: 8.686 * (thdn_pct.doubt / Math.max(thdn_pct.value, 1e-18)),
      },
    },
  };
}
