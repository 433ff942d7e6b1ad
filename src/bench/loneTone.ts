import { sumTurned, turnsAt } from "./turning.ts";

/** A steady tone Re{c·e^{j2πft}}, t = 0 at the first sample. */
export interface LoneTone {
  readonly frequency_Hz: number;
  /** Peak phasor c. */
  readonly re: number;
  readonly im: number;
}

/** Blocks are about this long. */
const block_s = 1 / 8;
/** Faded at both ends together: this share of the record, and at most so long. */
const taper = 0.1;
const longestTaper_s = 0.4;

/** Reads a steady tone from a signal whose samples come in turn. */
export interface LoneToneReader {
  push(samples: Float64Array): void;
  /** The tone, once all samples were pushed. */
  tone(): LoneTone;
}

/**
 * Frequency and phasor of a steady tone from one reading of a signal: sums against a turning phasor over blocks of whole
 * periods, then the slope and mean of their phases. What the first guess lies off turns the blocks against each other.
 *
 * Right to 10⁻⁵ or so beside the tone's own noise: what is left when it is taken out tells the rest.
 *
 * @param length  samples that will come
 * @param roughly_Hz  within 1 Hz of the tone
 */
export function loneToneReader(length: number, rate_Hz: number, roughly_Hz: number): LoneToneReader {
  const step_s = Math.max(1, Math.round(roughly_Hz * block_s)) / roughly_Hz;
  const blocks = Math.max(1, Math.ceil((length - 0.5) / (step_s * rate_Hz)));
  const edgeOf = (b: number) => Math.min(length, Math.round(b * step_s * rate_Hz));
  const fade = Math.min((taper * length) / 2, (longestTaper_s / 2) * rate_Hz);
  const re = new Float64Array(blocks);
  const im = new Float64Array(blocks);
  const weight = new Float64Array(blocks);
  const moment = new Float64Array(blocks);
  const turns = roughly_Hz / rate_Hz;
  let seen = 0;
  let block = 0;
  return {
    push(samples) {
      for (let from = 0; from < samples.length; ) {
        while (block < blocks - 1 && seen >= edgeOf(block + 1)) block++;
        const end = block === blocks - 1 ? length : edgeOf(block + 1);
        const count = Math.min(samples.length - from, end - seen, longestRun);
        const plain = samples.subarray(from, from + count);
        const inside = seen >= fade && seen + count <= length - fade;
        const faded = inside ? plain : fadedOf(plain, seen, length, fade);
        const start = 2 * Math.PI * turnsAt(turns, seen);
        const [sumRe, sumIm] = sumTurned(faded, start, 2 * Math.PI * turns);
        re[block]! += 2 * sumRe;
        im[block]! += 2 * sumIm;
        for (let n = 0; n < count; n++) {
          const w = inside ? 1 : fadeAt(seen + n, length, fade);
          weight[block]! += w;
          moment[block]! += w * (seen + n);
        }
        from += count;
        seen += count;
      }
    },
    tone() {
      let offset_Hz = 0;
      const at_s = weight.map((w, b) => (w > 0 ? moment[b]! / w / rate_Hz : 0));
      for (let pass = 0; pass < passes; pass++) offset_Hz += slopeOf(re, im, weight, at_s, offset_Hz);
      let [cRe, cIm, total] = [0, 0, 0];
      for (let b = 0; b < blocks; b++) {
        // A block whose phasor turns under it sums to less.
        const half = Math.PI * offset_Hz * ((edgeOf(b + 1) - edgeOf(b)) / rate_Hz);
        const kept = Math.abs(half) > 1e-9 ? Math.sin(half) / half : 1;
        const angle = -2 * Math.PI * offset_Hz * at_s[b]!;
        cRe += re[b]! * Math.cos(angle) - im[b]! * Math.sin(angle);
        cIm += re[b]! * Math.sin(angle) + im[b]! * Math.cos(angle);
        total += weight[b]! * kept;
      }
      return { frequency_Hz: roughly_Hz + offset_Hz, re: cRe / total, im: cIm / total };
    },
  };
}

/** Slopes are read so often, each from the phases that the one before leaves. */
const passes = 3;
const longestRun = 2 ** 12;

function fadeAt(n: number, length: number, fade: number): number {
  const from = Math.min(n, length - 1 - n) + 0.5;
  return from < fade ? 0.5 - 0.5 * Math.cos((Math.PI * from) / fade) : 1;
}

function fadedOf(samples: Float64Array, first: number, length: number, fade: number): Float64Array {
  return samples.map((value, n) => value * fadeAt(first + n, length, fade));
}

/** Slope of the phases against time, weighted by power, as a frequency beyond what is known already. */
function slopeOf(
  re: Float64Array,
  im: Float64Array,
  weight: Float64Array,
  at_s: Float64Array,
  known_Hz: number,
): number {
  const points: [number, number, number][] = [];
  let phase = 0;
  let before: number | undefined;
  for (let b = 0; b < re.length; b++) {
    const power = re[b]! ** 2 + im[b]! ** 2;
    if (power === 0 || weight[b] === 0) continue;
    const angle = Math.atan2(im[b]!, re[b]!) - 2 * Math.PI * known_Hz * at_s[b]!;
    const turn = before === undefined ? angle : angle - before;
    phase += turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI));
    before = angle;
    points.push([power, at_s[b]!, phase]);
  }
  let [total, time, level] = [0, 0, 0];
  for (const [power, t, p] of points) {
    total += power;
    time += power * t;
    level += power * p;
  }
  let [squares, product] = [0, 0];
  for (const [power, t, p] of points) {
    squares += power * (t - time / total) ** 2;
    product += power * (t - time / total) * (p - level / total);
  }
  return squares > 0 ? product / squares / (2 * Math.PI) : 0;
}

/** Takes a steady tone out of samples from `first` on, in place. */
export function takeOutTone(samples: Float64Array, first: number, rate_Hz: number, tone: LoneTone): void {
  const turns = tone.frequency_Hz / rate_Hz;
  const c = Math.cos(8 * Math.PI * turns);
  const s = Math.sin(8 * Math.PI * turns);
  const size = Math.hypot(tone.re, tone.im);
  const angle = Math.atan2(tone.im, tone.re);
  for (let from = 0; from < samples.length; from += restart) {
    const end = Math.min(samples.length, from + restart);
    const start = angle + 2 * Math.PI * turnsAt(turns, first + from);
    const at = (n: number) => start + 2 * Math.PI * turns * n;
    let aRe = size * Math.cos(at(0));
    let aIm = size * Math.sin(at(0));
    let bRe = size * Math.cos(at(1));
    let bIm = size * Math.sin(at(1));
    let dRe = size * Math.cos(at(2));
    let dIm = size * Math.sin(at(2));
    let eRe = size * Math.cos(at(3));
    let eIm = size * Math.sin(at(3));
    let n = from;
    for (; n + 3 < end; n += 4) {
      samples[n]! -= aRe;
      samples[n + 1]! -= bRe;
      samples[n + 2]! -= dRe;
      samples[n + 3]! -= eRe;
      const a = aRe * c - aIm * s;
      aIm = aRe * s + aIm * c;
      aRe = a;
      const b = bRe * c - bIm * s;
      bIm = bRe * s + bIm * c;
      bRe = b;
      const d = dRe * c - dIm * s;
      dIm = dRe * s + dIm * c;
      dRe = d;
      const e = eRe * c - eIm * s;
      eIm = eRe * s + eIm * c;
      eRe = e;
    }
    for (; n < end; n++) samples[n]! -= size * Math.cos(at(n - from));
  }
}

/** The turning phasor is computed afresh after so many samples, before rounding tells. */
const restart = 512;
