const coarsest_bits = 8;
const finest_bits = 24;
/** What is handed over as 32-bit float keeps this many bits of a full-scale sample. */
const float_bits = 25;

/**
 * Grain of samples where 1 is full scale: the fewest bits that hold every one of them exactly.
 *
 * A sound system may hand over fewer bits than the recorder has, so the file's own format does not tell.
 *
 * @returns 8 to 24, or 25 where no such grain fits (a float's own precision)
 */
export function grainBits(samples: readonly Float64Array[]): number {
  let bits = coarsest_bits;
  for (const channel of samples) {
    for (const value of channel) {
      while (!Number.isInteger(value * 2 ** (bits - 1))) {
        if (++bits > finest_bits) return float_bits;
      }
    }
  }
  return bits;
}

/** Steps of 16-bit samples above zero and below, as some browsers scale them to ±1. */
const [above, below] = [2 ** 15 - 1, 2 ** 15];
/** Off a step by no more than a 32-bit float's rounding. */
const rounding = 0.004;
/** Chance does not put so many samples onto the steps. */
const leastSamples = 1000;

/**
 * 16-bit samples as the sound card made them, where a browser has scaled those above zero by 1/32767 and those below by
 * 1/32768: that bends every wave at zero by 3·10⁻⁵, which reads as even harmonics near −100 dB. Other samples are given
 * back as they are.
 */
export function evenlyScaled(samples: readonly Float64Array[]): readonly Float64Array[] {
  const isUneven =
    samples.every((channel) => channel.every(isOnUnevenStep)) &&
    samples.some((channel) => channel.filter((value) => !Number.isInteger(value * below)).length >= leastSamples);
  if (!isUneven) return samples;
  return samples.map((channel) => channel.map((value) => (value > 0 ? Math.round(value * above) / below : value)));
}

function isOnUnevenStep(value: number): boolean {
  const steps = value * (value > 0 ? above : below);
  return Math.abs(steps - Math.round(steps)) < rounding;
}
