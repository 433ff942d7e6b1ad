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
