import { powerOfTwo, realSpectrum } from "../maths/spectra/fourier.ts";
import { runningFloor } from "../maths/spectra/noiseFloor.ts";
import { averagedPeriodogram } from "../maths/spectra/welch.ts";
import { channelsOf } from "./channels.ts";
import { refuseLength } from "./length.ts";
import { fitMains } from "./mains.ts";
import type { Recording } from "./recording.ts";
import { withoutMains } from "./takeOutMains.ts";
import { type Decay, gainOf, refineDecays, type Striking, takeOutDecay } from "./tap/decays.ts";
import { findTaps } from "./tap/findTaps.ts";

export interface Resonance {
  readonly frequency_Hz: number;
  readonly q: number;
  /** Time in which it falls to 1/e. */
  readonly decay_ms: number;
  /** Its envelope at the tap, in the tap that struck it most. */
  readonly peak_Vpk: number;
  readonly doubt: {
    readonly frequency_Hz: number;
    readonly q: number;
    readonly decay_ms: number;
    readonly peak_Vpk: number;
  };
}

export interface TapReport {
  readonly taps: number;
  readonly resonances: readonly Resonance[];
  /** Why nothing can be said, where nothing can. */
  readonly undecided?: string;
  readonly usable_s: number;
  readonly notes: readonly string[];
}

const leastTap_s = 0.1;
const longestStretch_s = 2;
/** After the tap the contact itself still pushes. */
const contact_s = 0.0004;
const mostDecays = 14;
/** Power over the noise, summed over taps, from which a bin is worth a look; chance over 10⁵ bins in one of fifty. */
const remarkable = 16;
/** What a decay must explain, in noise variances, beyond this for each tap. */
const leastGain = 30;
/** Below this quality a decay is the thump of the tap itself. */
const leastQ = 3;
/** A decay known to no better than this share is no figure. */
const mostDoubt = 0.5;

/** What is too weak to be a figure is told from this share of the loudest on. */
const worthTelling = 0.03;

/**
 * Resonances that ring after taps: decaying sinusoids with the same poles in all taps, fitted by least squares to the
 * spectra of the stretches between taps, one more at a time until only noise is left.
 *
 *     y = Σ Re{a·e^{(−α + jω)t}},   Q = ω/2α,   decay = 1/α
 *
 * @throws BadInput  too short or long
 */
export function analyseTap(
  recording: Recording,
  fullScale_Vpk: number,
  names?: readonly string[],
  seconds?: number,
): TapReport {
  const { rate_Hz } = recording;
  const length = recording.samples[0]!.length;
  refuseLength("tap", length, rate_Hz, 1, leastTap_s, seconds);
  const first = channelsOf(recording, fullScale_Vpk, names).audio[0]!;
  const usable_s = length / rate_Hz;
  const notes: string[] = [];
  if (first.clipped) notes.push(`${first.name}: the recorder was driven beyond its range (clipped); peaks read low.`);
  if (recording.samples.length > 1) notes.push(`Only the channel ${first.name} is judged.`);
  const mean = first.samples_V.reduce((sum, value) => sum + value, 0) / length;
  const { signal, hums } = withoutHum(
    first.samples_V.map((value) => value - mean),
    rate_Hz,
  );
  if (hums) notes.push("Mains lines were fitted and taken out.");
  const taps = findTaps(signal, rate_Hz);
  if (taps.length === 0) {
    return {
      taps: 0,
      resonances: [],
      undecided: "no tap stands out of the noise; tap harder, or raise the gain",
      usable_s,
      notes,
    };
  }
  const { striking, starts, oversampled } = strikingOf(signal, taps, rate_Hz, workPerSecond * (seconds ?? 10));
  const { fitted, exhausted } = fitDecays(striking, oversampled);
  if (exhausted) {
    notes.push(
      "More may ring than was looked for in the time: cut the recording to fewer taps, or grant more seconds.",
    );
  }
  if (isNotShared(fitted.map(({ decay }) => decay))) {
    notes.push("Nearly every resonance rings after one tap alone: music, or different things struck, rather than one.");
  }
  const struckDecays = fitted.map(({ decay }) => struckPart(decay, starts, rate_Hz));
  const onsets = refinedOnsets(
    signal,
    taps,
    starts,
    fitted.map(({ decay }) => decay),
    struckDecays,
    striking,
  );
  const quiet = signal.subarray(0, Math.max(0, taps[0]! - Math.round(0.01 * rate_Hz)));
  const stretch_s = Math.max(...striking.taps.map(({ samples }) => samples)) / rate_Hz;
  const resonances: Resonance[] = [];
  let unsure = 0;
  const loudest = Math.max(...fitted.flatMap(({ decay }) => decay.amplitudes.map(([a, b]) => Math.hypot(a, b))));
  for (const [i, { decay, frequency_Hz2, logRate }] of fitted.entries()) {
    const { frequency_Hz, rate_per_s } = decay;
    const { amplitudes } = struckDecays[i]!;
    const q = (Math.PI * frequency_Hz) / rate_per_s;
    if (q < leastQ) continue;
    const since_s = onsets.map(({ at }, j) => (starts[j]! - at) / rate_Hz);
    const sizes = amplitudes.map(([a, b], j) => Math.hypot(a, b) * Math.exp(rate_per_s * since_s[j]!));
    const peak_Vpk = Math.max(...sizes);
    if (isSteady(quiet, rate_Hz, decay, peak_Vpk) || 1 / rate_per_s > 3 * stretch_s) {
      notes.push(`A steady line at ${frequency_Hz.toFixed(1)} Hz does not go with the taps and is left out.`);
      continue;
    }
    const rateDoubt = 1.96 * Math.sqrt(logRate);
    const doubt_Hz = 1.96 * Math.sqrt(frequency_Hz2);
    if (!(rateDoubt < mostDoubt) || !(doubt_Hz < 0.05 * frequency_Hz)) {
      unsure++;
      if (peak_Vpk > worthTelling * loudest)
        notes.push(`Something rings near ${frequency_Hz.toFixed(0)} Hz, too weak to say for how long.`);
      continue;
    }
    const hardest = sizes.indexOf(peak_Vpk);
    const energyOf = ([a, b]: readonly [number, number]) => a * a + b * b;
    const share = energyOf(amplitudes[hardest]!) / decay.amplitudes.reduce((sum, one) => sum + energyOf(one), 0);
    const size = logSizeVariance(logRate, share, rate_per_s * since_s[hardest]!);
    const shift = (rate_per_s * onsets[hardest]!.doubt) / rate_Hz;
    const left = leftOver(decay, hardest, starts, rate_Hz);
    const carried =
      (Math.hypot(...left.amplitude) / Math.hypot(...amplitudes[hardest]!)) *
      left.after_s *
      Math.hypot(2 * Math.PI * doubt_Hz, rate_per_s * rateDoubt);
    resonances.push({
      frequency_Hz,
      q,
      decay_ms: 1000 / rate_per_s,
      peak_Vpk,
      doubt: {
        frequency_Hz: doubt_Hz,
        q: q * rateDoubt,
        decay_ms: (1000 / rate_per_s) * rateDoubt,
        peak_Vpk: peak_Vpk * Math.hypot(1.96 * Math.sqrt(size), shift, carried),
      },
    });
  }
  resonances.sort((a, b) => b.peak_Vpk - a.peak_Vpk);
  const undecided =
    resonances.length > 0
      ? undefined
      : unsure > 0
        ? "what rings is too weak against the noise; tap harder, or raise the gain"
        : "the taps leave no resonance that stands out of the noise";
  return { taps: taps.length, resonances, ...(undecided ? { undecided } : {}), usable_s, notes };
}

/** What each tap itself struck: the amplitudes after it without what was left of the tap before. */
function struckPart(decay: Decay, starts: readonly number[], rate_Hz: number): Decay {
  return {
    ...decay,
    amplitudes: decay.amplitudes.map(([a, b], j): readonly [number, number] => {
      const [re, im] = leftOver(decay, j, starts, rate_Hz).amplitude;
      return [a - re, b - im];
    }),
  };
}

/**
 * What the stretch before a tap leaves ringing at the first sample of the tap's own.
 *
 *     a_{j−1}·e^{(−α + jω)·T},   T from one stretch's first sample to the next one's
 */
function leftOver(
  { frequency_Hz, rate_per_s, amplitudes }: Decay,
  tap: number,
  starts: readonly number[],
  rate_Hz: number,
): { readonly amplitude: readonly [number, number]; readonly after_s: number } {
  if (tap === 0) return { amplitude: [0, 0], after_s: 0 };
  const [re, im] = amplitudes[tap - 1]!;
  const after_s = (starts[tap]! - starts[tap - 1]!) / rate_Hz;
  const fall = Math.exp(-rate_per_s * after_s);
  const turn = 2 * Math.PI * frequency_Hz * after_s;
  const [cos, sin] = [fall * Math.cos(turn), fall * Math.sin(turn)];
  return { amplitude: [re * cos - im * sin, re * sin + im * cos], after_s };
}

/** One thing struck again rings alike; a resonance with this share of its energy after one tap rang only there. */
const aloneShare = 0.99;
const fewResonances = 3;

/** Do most resonances belong to one tap each? */
function isNotShared(decays: readonly Decay[]): boolean {
  if (decays.length < fewResonances || decays[0]!.amplitudes.length < 2) return false;
  const alone = decays.filter(({ amplitudes }) => {
    const energies = amplitudes.map(([a, b]) => a * a + b * b);
    return Math.max(...energies) > aloneShare * energies.reduce((a, b) => a + b, 0);
  });
  return alone.length > decays.length / 2;
}

/**
 * Variance of the logarithm of a decay's envelope at its tap. In one tap seen to its end the mean time of its energy is
 * 1/2α, so an error of the rate tilts the envelope about that instant.
 *
 *     var ln A = var ln α·(1/4p + (1/2 + α·t)²)
 *
 * @param share  p, of the energy of all taps in this one
 * @param before  α·t, time constants by which the tap lies before the stretch that was fitted
 * @source inverse of the information of (ln A, α) in white noise, worked by hand
 */
function logSizeVariance(logRate: number, share: number, before: number): number {
  return logRate * (1 / (4 * share) + (0.5 + before) ** 2);
}

/** Share of its power that the quiet must lose for lines to be hum and not a resonance taken for it. */
const humShare = 0.8;

function withoutHum(signal: Float64Array, rate_Hz: number): { signal: Float64Array; hums: boolean } {
  if (signal.length < 0.6 * rate_Hz) return { signal, hums: false };
  const found = fitMains([signal], rate_Hz, [50, 60]).filter((fit) => fit.found);
  if (found.length === 0) return { signal, hums: false };
  const without = withoutMains(signal, found, 0);
  const quietPower = (of: Float64Array) => {
    const frame = Math.round(0.05 * rate_Hz);
    const energies = Array.from({ length: Math.floor(of.length / frame) }, (_, i) => {
      let sum = 0;
      for (let n = i * frame; n < (i + 1) * frame; n++) sum += of[n]! ** 2;
      return sum;
    }).sort((a, b) => a - b);
    return energies.slice(0, Math.max(1, Math.floor(energies.length / 3))).reduce((a, b) => a + b, 0);
  };
  return quietPower(without) < humShare * quietPower(signal)
    ? { signal: without, hums: true }
    : { signal, hums: false };
}

function strikingOf(signal: Float64Array, taps: readonly number[], rate_Hz: number, work: number) {
  const starts = taps.map((tap) => tap + Math.max(1, Math.round(contact_s * rate_Hz)));
  const stretches = starts.map((start, j) => {
    const end = Math.min(
      signal.length,
      (taps[j + 1] ?? signal.length) - Math.round(0.002 * rate_Hz),
      start + longestStretch_s * rate_Hz,
    );
    return signal.subarray(start, Math.max(start + 16, end));
  });
  const longest = Math.max(...stretches.map(({ length }) => length));
  const size = powerOfTwo(Math.max(2048, longest));
  const struck = stretches.map((stretch) => {
    const room = new Float64Array(size);
    room.set(stretch);
    return { spectrum: realSpectrum(room), samples: stretch.length };
  });
  const step_Hz = rate_Hz / size;
  const quiet = signal.subarray(0, Math.max(0, taps[0]! - Math.round(0.005 * rate_Hz)));
  const noise = quiet.length > 0.2 * rate_Hz ? quiet : signal;
  const density = averagedPeriodogram(noise, rate_Hz, Math.min(noise.length, Math.round(0.5 * rate_Hz)), 1);
  const floor = runningFloor(density, (f) => Math.max(40, 0.05 * f));
  const noise_V2_per_Hz = new Float64Array(size / 2 + 1).map(
    (_, k) => floor[Math.min(floor.length - 1, Math.round((k * step_Hz) / density.step_Hz))]!,
  );
  const striking: Striking = { taps: struck, step_Hz, rate_Hz, noise_V2_per_Hz, work: { left: work } };
  return { striking, starts, oversampled: size / longest };
}

interface Fitted {
  readonly decay: Decay;
  readonly frequency_Hz2: number;
  readonly logRate: number;
}

/** Products that half a busy processor forms in a second, less what reading and mains take. */
const workPerSecond = 7e7;
/** Share of the work that polishing may need. */
const keptWork = 0.3;

/** Adds decays one by one; each is refined together with those whose peaks it meets. */
function fitDecays(striking: Striking, oversampled: number): { fitted: Fitted[]; exhausted: boolean } {
  let exhausted = false;
  let fitted: Fitted[] = [];
  const dead: number[] = [];
  const kept = keptWork * striking.work.left;
  for (let round = 0; round < 2 * mostDecays && fitted.length < mostDecays; round++) {
    if (striking.work.left < kept) {
      exhausted = true;
      break;
    }
    const peak = strongestBin(striking, dead);
    if (peak === undefined) break;
    const start = startAt(peak * striking.step_Hz, striking);
    const near = fitted.filter(({ decay }) => meets(decay, start));
    for (const { decay } of near) takeOutDecay(striking, decay, -1);
    const alone =
      near.length > 0
        ? refineDecays(
            near.map(({ decay }) => decay),
            striking,
            oversampled,
          )
        : undefined;
    const refined = refineDecays([...near.map(({ decay }) => decay), start], striking, oversampled);
    const gain = refined.gain - (alone?.gain ?? 0);
    if (gain < leastGain + 8 * striking.taps.length) {
      for (const { decay } of near) takeOutDecay(striking, decay);
      dead.push(peak);
      continue;
    }
    fitted = fitted.filter((one) => !near.includes(one));
    refined.decays.forEach((decay, i) => {
      takeOutDecay(striking, decay);
      const { frequency_Hz2, logRate } = refined.variances[i]!;
      fitted.push({ decay, frequency_Hz2, logRate });
    });
  }
  return { fitted: polished(fitted, striking, oversampled), exhausted };
}

/** Every decay once more, with its neighbours, now that all others are out. */
function polished(fitted: readonly Fitted[], striking: Striking, oversampled: number): Fitted[] {
  let current = [...fitted];
  for (const group of groupsOf(current)) {
    for (const { decay } of group) takeOutDecay(striking, decay, -1);
    const refined = refineDecays(
      group.map(({ decay }) => decay),
      striking,
      oversampled,
    );
    const fresh = refined.decays.map((decay, i) => ({ decay, ...refined.variances[i]! }));
    for (const { decay } of fresh) takeOutDecay(striking, decay);
    current = [...current.filter((one) => !group.includes(one)), ...fresh];
  }
  return current;
}

function groupsOf(fitted: readonly Fitted[]): Fitted[][] {
  const sorted = [...fitted].sort((a, b) => a.decay.frequency_Hz - b.decay.frequency_Hz);
  const groups: Fitted[][] = [];
  for (const one of sorted) {
    const last = groups.at(-1);
    if (last?.some(({ decay }) => meets(decay, one.decay))) last.push(one);
    else groups.push([one]);
  }
  return groups;
}

function meets(
  a: { frequency_Hz: number; rate_per_s: number },
  b: { frequency_Hz: number; rate_per_s: number },
): boolean {
  return (
    Math.abs(a.frequency_Hz - b.frequency_Hz) < Math.max(30, (8 * Math.max(a.rate_per_s, b.rate_per_s)) / (2 * Math.PI))
  );
}

/** Bin with most power over the noise, taps together; those that came to nothing are left out. */
function strongestBin(
  { taps, noise_V2_per_Hz, rate_Hz, step_Hz }: Striking,
  dead: readonly number[],
): number | undefined {
  let best = 0;
  let at: number | undefined;
  const spare = Math.max(2, Math.round(4 / step_Hz));
  for (let k = Math.max(3, Math.ceil(12 / step_Hz)); k < noise_V2_per_Hz.length - 2; k++) {
    let power = 0;
    for (const { spectrum, samples } of taps) {
      power += (spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2) / ((noise_V2_per_Hz[k]! * rate_Hz * samples) / 2);
    }
    if (power > best && !dead.some((bin) => Math.abs(bin - k) <= spare)) {
      best = power;
      at = k;
    }
  }
  // A sum over taps has their number as its mean.
  return best > remarkable + taps.length + 3 * Math.sqrt(taps.length) * Math.sqrt(remarkable) ? at : undefined;
}

const rates_per_s = Array.from({ length: 14 }, (_, i) => 1.2 * 1.75 ** i);

/** Rate of decay that explains most at a frequency. */
function startAt(frequency_Hz: number, striking: Striking) {
  const tried = rates_per_s.map((rate_per_s) => {
    return { rate_per_s, gain: gainOf({ frequency_Hz, rate_per_s }, striking) };
  });
  const { rate_per_s } = tried.reduce((a, b) => (b.gain > a.gain ? b : a));
  return { frequency_Hz, rate_per_s };
}

/** Earlier and later than found, samples in which the onset is sought again. */
const onsetReach_s = [0.002, 0.0015] as const;

interface Onset {
  /** In samples; between two where that is likeliest. */
  readonly at: number;
  readonly doubt: number;
}

/** A tap falls anywhere between two samples: 95 % of one sample's width, halved. */
const withinSample = 0.475;

/**
 * When each tap fell: before it what it struck is silent, after it that rings beside what rang already. Every sample is weighed by how likely
 * noise makes what is left, and the tap fell within the sample before.
 */
function refinedOnsets(
  signal: Float64Array,
  taps: readonly number[],
  starts: readonly number[],
  decays: readonly Decay[],
  struckDecays: readonly Decay[],
  { rate_Hz, noise_V2_per_Hz }: Striking,
): Onset[] {
  const noise_V2 = ((noise_V2_per_Hz.reduce((sum, V2) => sum + V2, 0) / noise_V2_per_Hz.length) * rate_Hz) / 2;
  return taps.map((tap, j) => {
    const from = Math.max(0, tap - Math.round(onsetReach_s[0] * rate_Hz));
    const to = Math.min(signal.length - 1, starts[j]! + Math.round(onsetReach_s[1] * rate_Hz));
    const at = (of: readonly Decay[], tapIndex: number, n: number) =>
      of.reduce((sum, { frequency_Hz, rate_per_s, amplitudes }) => {
        const t = (n - starts[tapIndex]!) / rate_Hz;
        const [a, b] = amplitudes[tapIndex]!;
        const turn = 2 * Math.PI * frequency_Hz * t;
        return sum + Math.exp(-rate_per_s * t) * (a * Math.cos(turn) - b * Math.sin(turn));
      }, 0);
    const costs = new Float64Array(to - from + 1);
    for (let n = from; n < to; n++) {
      const left = signal[n]! - (j > 0 ? at(decays, j - 1, n) : 0);
      // Moving the onset past this sample makes it silence instead of decay.
      costs[n + 1 - from] = costs[n - from]! + left ** 2 - (left - at(struckDecays, j, n)) ** 2;
    }
    const least = costs.reduce((a, b) => Math.min(a, b));
    const weights = costs.map((cost) => Math.exp((least - cost) / (2 * Math.max(noise_V2, Number.MIN_VALUE))));
    const whole = weights.reduce((a, b) => a + b, 0);
    const mean = weights.reduce((sum, weight, i) => sum + weight * i, 0) / whole;
    const variance = weights.reduce((sum, weight, i) => sum + weight * (i - mean) ** 2, 0) / whole;
    return { at: from + mean - 0.5, doubt: Math.hypot(withinSample, 1.96 * Math.sqrt(variance)) };
  });
}

/** Does a line stand in the quiet before the taps as strongly as after them? */
function isSteady(quiet: Float64Array, rate_Hz: number, { frequency_Hz }: Decay, peak_Vpk: number): boolean {
  if (quiet.length < 0.08 * rate_Hz) return false;
  let re = 0;
  let im = 0;
  for (let n = 0; n < quiet.length; n++) {
    const window = 1 - Math.cos((2 * Math.PI * n) / quiet.length);
    const turn = (2 * Math.PI * frequency_Hz * n) / rate_Hz;
    re += window * quiet[n]! * Math.cos(turn);
    im += window * quiet[n]! * Math.sin(turn);
  }
  return (2 * Math.hypot(re, im)) / quiet.length > 0.4 * peak_Vpk;
}
