import { rolesOf } from "./channels.ts";
import { refuseLength, usualSeconds } from "./length.ts";
import type { Recording } from "./recording.ts";
import { type RecordingStream, streamOf } from "./recordingStream.ts";
import type { Decay } from "./tap/decays.ts";
import { findTaps } from "./tap/findTaps.ts";
import { fitDecays, strikingOf } from "./tap/fitDecays.ts";
import { takeOutHum } from "./tap/hum.ts";
import { fewOf, judgedOf } from "./tap/judged.ts";
import { refinedOnsets } from "./tap/onsets.ts";

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
 * Of a recording longer than a minute, or of more than sixteen taps, those in a row that were struck hardest are judged.
 *
 * @throws BadInput  too short or long
 */
export function analyseTap(
  recording: Recording | RecordingStream,
  fullScale_Vpk: number,
  given?: readonly string[],
  seconds?: number,
): TapReport {
  const stream = streamOf(recording);
  refuseLength("tap", stream.frames, stream.rate_Hz, 1, leastTap_s, seconds);
  const { names, audio } = rolesOf(stream.channels, given);
  const name = names[audio[0]!]!;
  const usable_s = stream.frames / stream.rate_Hz;
  const { signal, rate_Hz, clipped, from_s, tapsInAll } = judgedOf(stream, audio[0]!, fullScale_Vpk);
  const notes: string[] = [];
  if (clipped) notes.push(`${name}: the recorder was driven beyond its range (clipped); peaks read low.`);
  if (stream.channels > 1) notes.push(`Only the channel ${name} is judged.`);
  if (from_s !== undefined) {
    const to_s = from_s + signal.length / rate_Hz;
    notes.push(
      `Of this long recording ${from_s.toFixed(1)} to ${to_s.toFixed(1)} s are judged, where taps were hardest.`,
    );
  }
  if (takeOutHum(signal, rate_Hz)) notes.push("Mains lines were fitted and taken out.");
  const all = findTaps(signal, rate_Hz);
  const few = fewOf(signal, all, rate_Hz);
  const taps = all.slice(few.from, few.to);
  const count = tapsInAll ?? all.length;
  if (taps.length === 0) {
    return {
      taps: 0,
      resonances: [],
      undecided: "no tap stands out of the noise; tap harder, or raise the gain",
      usable_s,
      notes,
    };
  }
  if (taps.length < all.length) {
    notes.push(`Of ${all.length} taps the ${taps.length} in a row that were struck hardest are judged.`);
  }
  const held = signal.subarray(0, all[few.to] ?? signal.length);
  const work = workPerSecond * (seconds ?? usualSeconds);
  const { striking, starts, oversampled } = strikingOf(held, taps, all[0]!, rate_Hz, work);
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
  const quiet = signal.subarray(0, Math.max(0, all[0]! - Math.round(0.01 * rate_Hz)));
  const stretch_s = Math.max(...striking.taps.map(({ signal }) => signal.length)) / rate_Hz;
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
  return { taps: count, resonances, ...(undecided ? { undecided } : {}), usable_s, notes };
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

/** Products that a third of a busy processor forms in a second, less what reading and mains take. */
const workPerSecond = 1.6e8;

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
