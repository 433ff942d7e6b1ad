import hearing from "../../reference/hearing.json" with { type: "json" };

const rows = hearing.freeFieldThreshold.rows;

/** Where the threshold of hearing is tabulated. */
export const audibleRange_Hz = [rows[0]!.frequency_Hz, rows[rows.length - 1]!.frequency_Hz] as const;

/**
 * Free-field threshold of hearing for pure tones, linear in dB over log f between the rows of the table.
 *
 * @param frequency_Hz  within `audibleRange_Hz`, 20 Hz to 18 kHz
 * @returns sound pressure level [dB re 20 µPa] that half of otologically normal young listeners just hear
 * @throws RangeError  outside the table
 * @source ISO 389-7:2019 Table 1, in reference/hearing.json
 * @example thresholdOfHearing_dB(1000) // 2.4
 */
export function thresholdOfHearing_dB(frequency_Hz: number): number {
  if (!(frequency_Hz >= audibleRange_Hz[0] && frequency_Hz <= audibleRange_Hz[1])) {
    throw new RangeError(
      `frequency_Hz is ${frequency_Hz}; the table runs from ${audibleRange_Hz[0]} to ${audibleRange_Hz[1]} Hz`,
    );
  }
  const above = Math.max(
    1,
    rows.findIndex((row) => row.frequency_Hz >= frequency_Hz),
  );
  const low = rows[above - 1]!;
  const high = rows[above]!;
  const share = Math.log(frequency_Hz / low.frequency_Hz) / Math.log(high.frequency_Hz / low.frequency_Hz);
  return low.threshold_dB_SPL + share * (high.threshold_dB_SPL - low.threshold_dB_SPL);
}

/** Frequencies of the table's rows, where the interpolated threshold has its corners. */
export const thresholdCorners_Hz: readonly number[] = rows.map((row) => row.frequency_Hz);

/**
 * Equivalent rectangular bandwidth of the ear's filter.
 *
 *     ERB = 24.7 (4.37 f/1000 + 1)
 *
 * @returns bandwidth [Hz]; fitted for 0.1 to 10 kHz
 * @source Glasberg and Moore, Hear. Res. 47 (1990) 103-138, equation 3
 * @example earBandwidth_Hz(1000) // 132.639
 */
export function earBandwidth_Hz(frequency_Hz: number): number {
  return 24.7 * ((4.37 * frequency_Hz) / 1000 + 1);
}

/**
 * Number of the ear's bands below a frequency, each one equivalent rectangular bandwidth wide.
 *
 *     n = 21.4 lg(4.37 f/1000 + 1)
 *
 * @source Glasberg and Moore, Hear. Res. 47 (1990) 103-138, equation 4
 * @example earBandNumber(1000) // 15.6
 */
export function earBandNumber(frequency_Hz: number): number {
  return 21.4 * Math.log10((4.37 * frequency_Hz) / 1000 + 1);
}

/** Frequency at which so many of the ear's bands lie below; the inverse of `earBandNumber`. */
export function earBandEdge_Hz(number: number): number {
  return (1000 * (10 ** (number / 21.4) - 1)) / 4.37;
}

/**
 * A tone is lost in hiss once it falls by this much under the hiss in its own band of the ear.
 *
 * @source critical ratios of 17, 18, 20 and 23 dB at 0.5, 1, 2 and 4 kHz, J. E. Hawkins and S. S. Stevens, J. Acoust.
 *   Soc. Am. 22 (1950) (from memory), less 10 lg of the band's width: −2 to −4 dB
 */
export const maskedUnderHiss_dB = -3;
