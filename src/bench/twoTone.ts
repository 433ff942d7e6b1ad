import { BadInput } from "../maths/badInput.ts";
import { type Channel, channelsOf } from "./channels.ts";
import { findTone } from "./findTone.ts";
import { fitLines, type JointLine, productTrack } from "./jointLines.ts";
import { refuseLength } from "./length.ts";
import { benchOf } from "./mains/comb.ts";
import type { PhaseTrack } from "./mains/phaseTrack.ts";
import { fitMains, type MainsFit } from "./mains.ts";
import { noTone } from "./noTone.ts";
import type { Recording } from "./recording.ts";
import { rootOf } from "./restSpectrum.ts";
import { withoutMains } from "./takeOutMains.ts";
import { fitAgain, fitTone } from "./toneFit.ts";

export type TwoToneKind = "modulation" | "difference";

export interface TwoToneOfChannel {
  readonly name: string;
  readonly tones: readonly {
    readonly frequency_Hz: number;
    readonly level_Vrms: number;
    readonly doubt_Vrms: number;
  }[];
  readonly products: readonly {
    /** In multiples of the lower tone a and the higher tone b. */
    readonly label: string;
    readonly frequency_Hz: number;
    readonly level_Vrms: number;
    readonly doubt_Vrms: number;
    readonly detected: boolean;
  }[];
  readonly imd_pct: number;
  readonly clipped: boolean;
  readonly doubt: { readonly imd_pct: number };
}

export interface TwoToneReport {
  readonly channels: readonly TwoToneOfChannel[];
  readonly usable_s: number;
  readonly notes: readonly string[];
}

interface Product {
  readonly label: string;
  readonly of: readonly [number, number];
}

/** Products whose levels are added; the sums are then taken together as root sum square. */
const sums: Readonly<Record<TwoToneKind, readonly (readonly Product[])[]>> = {
  modulation: [
    [
      { label: "b-a", of: [-1, 1] },
      { label: "b+a", of: [1, 1] },
    ],
    [
      { label: "b-2a", of: [-2, 1] },
      { label: "b+2a", of: [2, 1] },
    ],
  ],
  difference: [
    [{ label: "b-a", of: [-1, 1] }],
    [
      { label: "2a-b", of: [2, -1] },
      { label: "2b-a", of: [-1, 2] },
    ],
  ],
};

const leastTwoTone_s = 0.5;
/** Products up to this order are fitted too, so that those asked for stand clear of them. */
const bystanders = 3;

export interface TwoToneOptions {
  readonly names?: readonly string[];
  /** Nominals, good to 0.1 %. */
  readonly tones_Hz?: readonly [number, number];
  readonly seconds?: number;
}

/**
 * Intermodulation of two steady tones, no coherent sampling assumed: both tones are fitted, then every product at the
 * whole-number combination of their phases, all in one least squares with the mains comb taken out.
 *
 *     modulation: √((U(b−a) + U(b+a))² + (U(b−2a) + U(b+2a))²) / U(b)
 *     difference: √(U(b−a)² + (U(2a−b) + U(2b−a))²) / (U(a) + U(b))
 *
 * @throws BadInput  too short or long, fewer than two tones, tones whose products can't be told apart
 */
export function analyseTwoTone(
  recording: Recording,
  fullScale_Vpk: number,
  kind: TwoToneKind,
  options: TwoToneOptions = {},
): TwoToneReport {
  const { rate_Hz } = recording;
  const length = recording.samples[0]!.length;
  refuseLength("twoTone", length, rate_Hz, recording.samples.length, leastTwoTone_s, options.seconds);
  refuseNominals(options.tones_Hz, rate_Hz);
  const { audio } = channelsOf(recording, fullScale_Vpk, options.names);
  const notes: string[] = [];
  const channels = audio.flatMap((channel) => {
    const pair = findPair(channel, rate_Hz, options.tones_Hz);
    if (!pair) {
      notes.push(`${channel.name}: no two tones stand out of the noise, so this channel has no figures.`);
      return [];
    }
    const report = reportOn(channel, pair, kind, rate_Hz, options.tones_Hz !== undefined);
    notes.push(...report.notes);
    return [report.figures];
  });
  if (channels.length === 0) {
    throw noTone({
      rate_Hz,
      moves: audio.some(({ samples_V }) => samples_V.some((value) => value !== samples_V[0])),
      strongest_Hz: options.tones_Hz && findTone(audio[0]!.samples_V, rate_Hz, undefined),
      nominals_Hz: options.tones_Hz ?? [],
      field: "tones_Hz",
      tones: "two steady tones",
    });
  }
  return { channels, usable_s: length / rate_Hz, notes };
}

function refuseNominals(tones_Hz: readonly [number, number] | undefined, rate_Hz: number): void {
  tones_Hz?.forEach((tone_Hz, i) => {
    if (tone_Hz < 0.49 * rate_Hz) return;
    throw new BadInput(
      `tones_Hz[${i}]`,
      `${tone_Hz} Hz`,
      `below ${0.49 * rate_Hz} Hz at this sample rate`,
      "give the tones' nominal frequencies",
    );
  });
  if (!tones_Hz || Math.abs(tones_Hz[0] - tones_Hz[1]) > 0.005 * Math.max(...tones_Hz)) return;
  throw new BadInput(
    "tones_Hz",
    `${tones_Hz[0]} and ${tones_Hz[1]} Hz`,
    "two nominals that differ by more than 0.5 %",
    "give both tones' nominal frequencies",
  );
}

/** A line smaller than this share of the stronger tone is no second tone. */
const leastShare = 1e-4;

interface Pair {
  readonly tracks: readonly [PhaseTrack, PhaseTrack];
  readonly drifts: boolean;
}

/** Both tones fitted beside each other, the lower first. */
function findPair(
  { samples_V }: Channel,
  rate_Hz: number,
  nominals_Hz: readonly [number, number] | undefined,
): Pair | undefined {
  const [lower, higher] = nominals_Hz ? [...nominals_Hz].sort((a, b) => a - b) : [undefined, undefined];
  const first_Hz = findTone(samples_V, rate_Hz, higher);
  if (first_Hz === undefined) return undefined;
  const first = fitTone(samples_V, rate_Hz, first_Hz, 1);
  const second_Hz = findTone(
    first.rest,
    rate_Hz,
    lower,
    (f) => Math.abs(f - first_Hz) < (8 * rate_Hz) / samples_V.length,
  );
  if (second_Hz === undefined) return undefined;
  const second = fitTone(first.rest, rate_Hz, second_Hz, 1);
  if (second.harmonics[0]!.peak_V < leastShare * first.harmonics[0]!.peak_V) return undefined;
  const firstAgain = fitAgain(first, second.rest, rate_Hz);
  const secondAgain = fitAgain(second, firstAgain.rest, rate_Hz);
  const sorted = [firstAgain, secondAgain].sort((a, b) => a.frequency_Hz - b.frequency_Hz);
  return {
    tracks: [sorted[0]!.comb.track, sorted[1]!.comb.track],
    drifts: firstAgain.drifts || secondAgain.drifts,
  };
}

function reportOn(
  { name, samples_V, clipped }: Channel,
  { tracks, drifts }: Pair,
  kind: TwoToneKind,
  rate_Hz: number,
  nominalsGiven: boolean,
): { figures: TwoToneOfChannel; notes: string[] } {
  const duration_s = samples_V.length / rate_Hz;
  const notes: string[] = [];
  const [a_Hz, b_Hz] = [tracks[0].carrier_Hz, tracks[1].carrier_Hz];
  const frequencyOf = ([m, n]: readonly [number, number]) => m * a_Hz + n * b_Hz;
  const held = (frequency_Hz: number) => frequency_Hz > 3 / duration_s && frequency_Hz < 0.4999 * rate_Hz;
  const wanted = sums[kind].map((sum) =>
    sum
      .map((product) => (frequencyOf(product.of) < 0 ? { ...product, of: mirrored(product.of) } : product))
      .filter(({ label, of }) => {
        if (held(frequencyOf(of))) return true;
        notes.push(
          `${name}: ${label} at ${frequencyOf(of).toFixed(1)} Hz can't be recorded at this rate; it is left out.`,
        );
        return false;
      }),
  );
  const chosen: Product[] = [{ label: "a", of: [1, 0] }, { label: "b", of: [0, 1] }, ...wanted.flat()];
  refuseCoincidence(chosen, frequencyOf, duration_s, nominalsGiven);
  const beside = combinations(bystanders).filter(({ of }) => {
    const own_Hz = frequencyOf(of);
    return held(own_Hz) && chosen.every((other) => Math.abs(frequencyOf(other.of) - own_Hz) > apart / duration_s);
  });
  const distinct = beside.filter(({ of }, i) =>
    beside.slice(0, i).every((other) => Math.abs(frequencyOf(other.of) - frequencyOf(of)) > apart / duration_s),
  );
  const all = [...chosen, ...distinct].map(({ of }) => productTrack(tracks, of, duration_s));
  const first = fitLines(benchOf([samples_V], rate_Hz), all);
  const found = fitMains([first.left], rate_Hz, [50, 60], {
    exclude_Hz: all.map(({ carrier_Hz }) => carrier_Hz),
  }).filter((fit) => fit.found);
  const fitted = found.length > 0 ? fitBeside(samples_V, first.left, found, rate_Hz, all) : first;
  const lines = fitted.lines.map((line) => sharedWith(line, found, duration_s));

  const levelOf = ({ re, im, variance_V2 }: JointLine) => Math.sqrt(Math.max(0, re * re + im * im - variance_V2) / 2);
  const sdOf = ({ variance_V2 }: JointLine) => Math.sqrt(variance_V2 / 2);
  const [low, high] = [lines[0]!, lines[1]!];
  let place = 2;
  const groups = wanted.map((sum) => sum.map(() => lines[place++]!));
  const bottom = kind === "modulation" ? levelOf(high) : levelOf(low) + levelOf(high);
  const bottomSd = kind === "modulation" ? sdOf(high) : Math.hypot(sdOf(low), sdOf(high));
  const powers = groups.map((group) => {
    const sum = group.reduce((total, line) => total + levelOf(line), 0);
    const variance = group.reduce((total, line) => total + sdOf(line) ** 2, 0);
    return { V2: sum ** 2, variance_V4: 4 * sum ** 2 * variance + 2 * variance ** 2 };
  });
  const top = rootOf({
    V2: powers.reduce((total, { V2 }) => total + V2, 0),
    variance_V4: powers.reduce((total, { variance_V4 }) => total + variance_V4, 0),
  });
  const imd_pct = (100 * top.value) / bottom;
  const imdDoubt_pct = Math.hypot((100 * top.doubt) / bottom, (imd_pct * 1.96 * bottomSd) / bottom);
  const products = groups.flatMap((group, g) =>
    group.map((line, i) => ({
      label: wanted[g]![i]!.label,
      frequency_Hz: line.frequency_Hz,
      level_Vrms: levelOf(line),
      doubt_Vrms: 1.96 * sdOf(line),
      detected: line.re ** 2 + line.im ** 2 > 9 * line.variance_V2,
    })),
  );
  if (clipped)
    notes.push(`${name}: the recorder was driven beyond its range (clipped); products are not the amplifier's alone.`);
  if (imdDoubt_pct >= imd_pct) {
    notes.push(
      `${name}: intermodulation lies in the noise; it is at most ${(imd_pct + imdDoubt_pct).toPrecision(2)} %.`,
    );
  }
  const ratio = levelOf(low) / levelOf(high);
  const usual = kind === "modulation" ? 4 : 1;
  if (Math.abs(20 * Math.log10(ratio / usual)) > 1) {
    notes.push(`${name}: the tones stand ${ratio.toFixed(2)} to 1, low to high; ${usual} to 1 is usual for this kind.`);
  }
  const rest = rmsOf(fitted.left);
  if (rest > 0.3 * levelOf(high)) {
    notes.push(`${name}: the two tones are not alone: ${rest.toPrecision(2)} V of something else is in the recording.`);
  }
  if (drifts) notes.push(`${name}: the tones drifted against the recorder's clock and were followed.`);
  return {
    notes,
    figures: {
      name,
      tones: [low, high].map((line) => ({
        frequency_Hz: line.frequency_Hz,
        level_Vrms: levelOf(line),
        doubt_Vrms: 1.96 * sdOf(line),
      })),
      products,
      imd_pct,
      clipped,
      doubt: { imd_pct: imdDoubt_pct },
    },
  };
}

/** The lines fitted afresh to the signal without its mains lines. */
function fitBeside(
  samples_V: Float64Array,
  left: Float64Array,
  found: readonly MainsFit[],
  rate_Hz: number,
  tracks: readonly PhaseTrack[],
) {
  const quiet = withoutMains(left, found, 0);
  const signal = samples_V.map((value, n) => value - (left[n]! - quiet[n]!));
  return fitLines(benchOf([signal], rate_Hz), tracks);
}

/** A mains line too near to be told apart may hold part of a line. */
function sharedWith(line: JointLine, found: readonly MainsFit[], duration_s: number): JointLine {
  const variance_V2 = found
    .flatMap(({ channels }) => channels[0]!)
    .filter(({ detected, frequency_Hz }) => detected && Math.abs(frequency_Hz - line.frequency_Hz) < 1.5 / duration_s)
    .reduce((sum, { doubt_Vrms }) => sum + 2 * (doubt_Vrms / 1.96) ** 2, line.variance_V2);
  return { ...line, variance_V2 };
}

/** Lines nearer than this many 1/T are not told apart. */
const apart = 2;

function refuseCoincidence(
  products: readonly Product[],
  frequencyOf: (of: readonly [number, number]) => number,
  duration_s: number,
  nominalsGiven: boolean,
): void {
  products.forEach((one, i) => {
    const other = products
      .slice(0, i)
      .find(({ of }) => Math.abs(frequencyOf(of) - frequencyOf(one.of)) < apart / duration_s);
    if (!other) return;
    throw new BadInput(
      nominalsGiven ? "tones_Hz" : "recording",
      `tones at ${frequencyOf([1, 0]).toFixed(1)} and ${frequencyOf([0, 1]).toFixed(1)} Hz, whose ${one.label} falls on ${other.label}`,
      "two tones whose products stand apart",
      "send other frequencies, or record for longer",
    );
  });
}

const mirrored = ([m, n]: readonly [number, number]): [number, number] => [-m, -n];

/** Harmonics and products up to an order. */
function combinations(order: number): Product[] {
  const found: Product[] = [];
  for (let m = -order; m <= order; m++) {
    for (let n = 0; n + Math.abs(m) <= order; n++) {
      if (n > 0 || m > 0) found.push({ label: `${m}a${n}b`, of: [m, n] });
      if (n > 0 && m > 0) found.push({ label: `${m}a-${n}b`, of: [m, -n] });
    }
  }
  return found;
}

function rmsOf(signal: Float64Array): number {
  return Math.sqrt(signal.reduce((sum, value) => sum + value * value, 0) / signal.length);
}
