/** A signal at a lower rate, written as its samples arrive. */
export interface Thinner {
  /** Takes the next samples. */
  push(samples: Float64Array): void;
  /** Ends the signal, which is taken to stand still beyond both ends, and hands over every `factor`-th sample. */
  end(): Float64Array;
}

/** How far what lies beyond half the new rate is held down, so that it hides under any noise floor. */
const stopband_dB = 130;

/**
 * Largest power of two by which a signal can be thinned out while everything up to `passband_Hz` stays as it is.
 */
export function thinningFactor(rate_Hz: number, passband_Hz: number): number {
  let factor = 1;
  while (rate_Hz / (2 * factor) > widest * 2 * passband_Hz) factor *= 2;
  return factor;
}

/** The new half rate must lie this far above the passband for the filter to stay short. */
const widest = 1.075;

/**
 * Keeps one sample in `factor` behind symmetrical half-band low-passes, each of which halves the rate: gain 1 within
 * 3·10⁻⁷ up to `passband_Hz`, what would fold into it 130 dB down. Sample i of the answer stands at sample i·factor.
 *
 * @param length  samples that will come
 * @param factor  a power of two
 * @source Kaiser's design formulas; every other tap of a half-band filter is zero (Oppenheim and Schafer, remembered)
 */
export function thinner(length: number, factor: number, rate_Hz: number, passband_Hz: number): Thinner {
  if (factor === 1) {
    const kept = new Float64Array(length);
    let filled = 0;
    return {
      push(samples) {
        kept.set(samples, filled);
        filled += samples.length;
      },
      end: () => kept,
    };
  }
  const after = thinner(Math.floor((length - 1) / 2) + 1, factor / 2, rate_Hz / 2, passband_Hz);
  const halve = halver(halfBand(rate_Hz, passband_Hz));
  return {
    push(samples) {
      if (samples.length > 0) after.push(halve.push(samples));
    },
    end() {
      after.push(halve.end());
      return after.end();
    },
  };
}

/** Taps at the odd distances 1, 3, 5, … from the middle, whose own tap is a half. */
function halfBand(rate_Hz: number, passband_Hz: number): Float64Array {
  const width = 2 * Math.PI * (0.5 - (2 * passband_Hz) / rate_Hz);
  const reach = Math.ceil((stopband_dB - 8) / (2.285 * width) / 2);
  const beta = 0.1102 * (stopband_dB - 8.7);
  const taps = Float64Array.from({ length: Math.ceil((reach + 1) / 2) }, (_, m) => {
    const j = 2 * m + 1;
    const window = bessel0(beta * Math.sqrt(Math.max(0, 1 - (j / (reach + 1)) ** 2))) / bessel0(beta);
    return ((m % 2 === 0 ? 1 : -1) / (Math.PI * j)) * window;
  });
  const sum = taps.reduce((a, b) => a + b, 0);
  return taps.map((tap) => (0.25 * tap) / sum);
}

/** One halving: even and odd samples of what is not yet answered are kept apart. */
function halver(taps: Float64Array) {
  const reach = taps.length;
  let even: Float64Array = new Float64Array(0);
  let odd: Float64Array = new Float64Array(0);
  let evens = 0;
  let odds = 0;
  let begun = false;
  let last = 0;
  const room = (wanted: number) => {
    if (even.length >= wanted) return;
    even = grown(even, wanted);
    odd = grown(odd, wanted);
  };
  /** Answers as many samples as there are neighbours for. */
  const answer = (count: number): Float64Array => {
    const out = new Float64Array(Math.max(0, count));
    filter(even, odd, taps, out);
    // What later samples still need moves to the front; odd sample m stands `reach` places on.
    even.copyWithin(0, out.length, evens);
    odd.copyWithin(0, out.length, odds);
    evens -= out.length;
    odds -= out.length;
    return out;
  };
  let next = 0;
  const take = (samples: Float64Array) => {
    room(Math.max(evens, odds) + (samples.length >> 1) + 2);
    let i = 0;
    if (next === 1 && samples.length > 0) {
      odd[odds++] = samples[i++]!;
      next = 0;
    }
    for (; i + 1 < samples.length; i += 2) {
      even[evens++] = samples[i]!;
      odd[odds++] = samples[i + 1]!;
    }
    if (i < samples.length) {
      even[evens++] = samples[i]!;
      next = 1;
    }
  };
  return {
    push(samples: Float64Array): Float64Array {
      if (!begun) {
        begun = true;
        room(reach + 1);
        for (let m = 0; m < reach; m++) odd[odds++] = samples[0]!;
      }
      last = samples[samples.length - 1]!;
      take(samples);
      return answer(Math.min(evens, odds - 2 * reach + 1));
    },
    end(): Float64Array {
      const wanted = evens;
      room(wanted + 2 * reach);
      while (odds < wanted + 2 * reach) odd[odds++] = last;
      return answer(wanted);
    },
  };
}

function grown(array: Float64Array, length: number): Float64Array {
  const larger = new Float64Array(Math.ceil(1.5 * length));
  larger.set(array);
  return larger;
}

/** Output i: half of even sample i, and tap m of the odd samples m + ½ places off on both sides; two at a time. */
function filter(even: Float64Array, odd: Float64Array, taps: Float64Array, out: Float64Array): void {
  const reach = taps.length;
  let i = 0;
  for (; i + 1 < out.length; i += 2) {
    let a = 0.5 * even[i]!;
    let b = 0.5 * even[i + 1]!;
    let before = i + reach - 1;
    let after = i + reach;
    let late = odd[before + 1]!;
    let early = odd[after]!;
    for (let m = 0; m < reach; m++, before--, after++) {
      const tap = taps[m]!;
      const one = odd[before]!;
      const two = odd[after + 1]!;
      a += tap * (one + early);
      b += tap * (late + two);
      late = one;
      early = two;
    }
    out[i] = a;
    out[i + 1] = b;
  }
  if (i < out.length) {
    let a = 0.5 * even[i]!;
    for (let m = 0; m < reach; m++) a += taps[m]! * (odd[i + reach - 1 - m]! + odd[i + reach + m]!);
    out[i] = a;
  }
}

/** Modified Bessel function of order zero, by its power series. */
function bessel0(x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; term > sum * 1e-17; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
