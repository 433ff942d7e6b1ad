import { powerOfTwo } from "../../maths/spectra/fourier.ts";
import { runningFloor } from "../../maths/spectra/noiseFloor.ts";
import { averagedPeriodogram } from "../../maths/spectra/welch.ts";
import { type Decay, gainOf, refineDecays, type Striking, takeOutDecays, transformAll } from "./decays.ts";
import type { Pole } from "./shapes.ts";

/** A decay, and the variances of its frequency and of the logarithm of its rate. */
export interface Fitted {
  readonly decay: Decay;
  readonly frequency_Hz2: number;
  readonly logRate: number;
}

/** After the tap the contact itself still pushes. */
const contact_s = 0.0004;
/** Before the next tap a stretch ends. */
const clear_s = 0.002;
const longestStretch_s = 2;
const leastQuiet_s = 0.2;

/**
 * The stretches after taps, transformed, and the noise that they stand in.
 *
 * @param firstTap  of the record: noise is read before it where that is long enough, else overall
 * @returns where each stretch begins, and bins for each independent one
 */
export function strikingOf(
  signal: Float64Array,
  taps: readonly number[],
  firstTap: number,
  rate_Hz: number,
  work: number,
) {
  const starts = taps.map((tap) => tap + Math.max(1, Math.round(contact_s * rate_Hz)));
  const stretches = starts.map((start, j) => {
    const end = Math.min(
      signal.length,
      (taps[j + 1] ?? signal.length) - Math.round(clear_s * rate_Hz),
      start + longestStretch_s * rate_Hz,
    );
    return signal.slice(start, Math.max(start + 16, end));
  });
  const longest = Math.max(...stretches.map(({ length }) => length));
  const size = powerOfTwo(Math.max(2048, longest));
  const step_Hz = rate_Hz / size;
  const quiet = signal.subarray(0, Math.max(0, firstTap - Math.round(0.005 * rate_Hz)));
  const noise = quiet.length > leastQuiet_s * rate_Hz ? quiet : signal;
  const density = averagedPeriodogram(noise, rate_Hz, Math.min(noise.length, Math.round(0.5 * rate_Hz)), 1);
  const floor = runningFloor(density, (f) => Math.max(40, 0.05 * f));
  const noise_V2_per_Hz = new Float64Array(size / 2 + 1).map(
    (_, k) => floor[Math.min(floor.length - 1, Math.round((k * step_Hz) / density.step_Hz))]!,
  );
  const room = new Float64Array(size);
  const striking: Striking = {
    taps: stretches.map((stretch) => ({ signal: stretch, spectrum: new Float64Array(size + 2) })),
    step_Hz,
    rate_Hz,
    noise_V2_per_Hz,
    work: { left: work },
    room,
  };
  transformAll(striking);
  return { striking, starts, oversampled: size / longest };
}

const mostDecays = 14;
/** Power over the noise, summed over taps, from which a bin is worth a look; chance over 10⁵ bins in one of fifty. */
const remarkable = 16;
/** What a decay must explain, in noise variances, beyond this for each tap. */
const leastGain = 30;
/** Share of the work that polishing may need. */
const keptWork = 0.3;

/** Adds decays one by one; each is refined together with those whose peaks it meets. */
export function fitDecays(striking: Striking, oversampled: number): { fitted: Fitted[]; exhausted: boolean } {
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
    const near = fitted.filter(({ decay }) => meets(decay, start)).map(({ decay }) => decay);
    const alone = near.length > 0 ? refineDecays(near, striking, oversampled, near) : undefined;
    const refined = refineDecays([...near, start], striking, oversampled, near);
    if (refined.gain - (alone?.gain ?? 0) < leastGain + 8 * striking.taps.length) {
      dead.push(peak);
      continue;
    }
    takeOutDecays(striking, near, -1);
    takeOutDecays(striking, refined.decays);
    transformAll(striking);
    fitted = [
      ...fitted.filter(({ decay }) => !near.includes(decay)),
      ...refined.decays.map((decay, i): Fitted => ({ decay, ...refined.variances[i]! })),
    ];
    // What a strong one took of others' skirts would be taken for rings of their own.
    fitted = polished(fitted, striking, oversampled, 1);
  }
  return { fitted: polished(fitted, striking, oversampled, mostPolishings), exhausted };
}

const mostPolishings = 8;
/** Nothing moves any more by this share of its standard deviation. */
const settled = 0.1;

/** Every decay again with its neighbours, now that all others are out, until none moves. */
function polished(fitted: readonly Fitted[], striking: Striking, oversampled: number, most: number): Fitted[] {
  const groups = groupsOf(fitted);
  for (let pass = 0; pass < most; pass++) {
    let moves = false;
    groups.forEach((group, g) => {
      const before = group.map(({ decay }) => decay);
      const refined = refineDecays(before, striking, oversampled, before);
      const after = refined.decays.map((decay, i): Fitted => ({ decay, ...refined.variances[i]! }));
      moves ||= after.some((one, i) => hasMoved(before[i]!, one));
      takeOutDecays(striking, before, -1);
      takeOutDecays(striking, refined.decays);
      if (groups.length > 1) transformAll(striking);
      groups[g] = after;
    });
    if (!moves || groups.length < 2 || striking.work.left < 0) break;
  }
  return groups.flat();
}

function hasMoved(before: Decay, { decay, frequency_Hz2, logRate }: Fitted): boolean {
  const slipped = Math.abs(decay.frequency_Hz - before.frequency_Hz);
  const turned = Math.abs(Math.log(decay.rate_per_s / before.rate_per_s));
  return slipped > settled * Math.sqrt(frequency_Hz2) || turned > settled * Math.sqrt(logRate);
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

/** A narrow peak on the back of a wide one is told from it by what either leaves of the other in turn. */
function meets(a: Pole, b: Pole): boolean {
  const width = Math.sqrt(a.rate_per_s * b.rate_per_s) / (2 * Math.PI);
  return Math.abs(a.frequency_Hz - b.frequency_Hz) < Math.max(30, 8 * width);
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
    for (const { spectrum, signal } of taps) {
      const [re, im] = [spectrum[2 * k]!, spectrum[2 * k + 1]!];
      power += (re * re + im * im) / ((noise_V2_per_Hz[k]! * rate_Hz * signal.length) / 2);
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
function startAt(frequency_Hz: number, striking: Striking): Pole {
  const tried = rates_per_s.map((rate_per_s) => {
    return { rate_per_s, gain: gainOf({ frequency_Hz, rate_per_s }, striking) };
  });
  const { rate_per_s } = tried.reduce((a, b) => (b.gain > a.gain ? b : a));
  return { frequency_Hz, rate_per_s };
}
