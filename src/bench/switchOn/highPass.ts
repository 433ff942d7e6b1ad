/** Corner of a recorder that forgets slow things, if it has one. */
export interface HighPass {
  /** A first-order corner, or 0 where none shows. */
  readonly corner_Hz: number;
  readonly doubt_Hz: number;
}

/** Doubt of a response where none is stated: common practice for a recorder that was looped back, no source. */
const usualDoubt_dB = 0.1;
/** Only here does a corner below the audio band show; higher up other roll-offs begin. */
const top_Hz = 300;

/**
 * First-order high-pass that explains a response looped back through player and recorder.
 *
 *     gain = g − 10·lg(1 + (f_c/f)²)
 *
 * Found by trying corners from 1 mHz to 100 Hz, sixteen an octave, g solved linearly; the doubt is where χ² rises by
 * 3.84.
 *
 * @returns undefined when fewer than three frequencies lie below 300 Hz
 * @remarks The player's own corner is in it, so the recorder's lies at this or below.
 */
export function highPassOf(
  frequencies_Hz: readonly number[],
  gain_dB: readonly number[],
  doubt_dB?: readonly number[],
): HighPass | undefined {
  const low = frequencies_Hz.flatMap((frequency_Hz, i) => {
    const doubt = Math.max(doubt_dB?.[i] ?? usualDoubt_dB, 1e-3);
    return frequency_Hz <= top_Hz ? [{ frequency_Hz, gain_dB: gain_dB[i]!, weight: (1.96 / doubt) ** 2 }] : [];
  });
  if (low.length < 3) return undefined;
  const corners = [0, ...Array.from({ length: 16 * 17 }, (_, i) => 1e-3 * 2 ** (i / 16))];
  const misfits = corners.map((corner_Hz) => {
    const left = low.map((one) => one.gain_dB + 10 * Math.log10(1 + (corner_Hz / one.frequency_Hz) ** 2));
    const weight = low.reduce((sum, one) => sum + one.weight, 0);
    const flat = low.reduce((sum, one, i) => sum + one.weight * left[i]!, 0) / weight;
    return low.reduce((sum, one, i) => sum + one.weight * (left[i]! - flat) ** 2, 0);
  });
  const least = Math.min(...misfits);
  const scale = Math.max(1, least / Math.max(1, low.length - 2));
  const possible = corners.filter((_, i) => misfits[i]! <= least + 3.84 * scale);
  const corner_Hz = corners[misfits.indexOf(least)]!;
  const reach = Math.max(possible.at(-1)! - corner_Hz, corner_Hz - possible[0]!);
  return possible[0] === 0 ? { corner_Hz: 0, doubt_Hz: possible.at(-1)! } : { corner_Hz, doubt_Hz: reach };
}

/**
 * What stood at the input of a first-order high-pass, from what came out: x = y + ω·∫y dt. Errors of y's zero grow with
 * time, so this is for a pulse, not for the rest long after it.
 */
export function undoHighPass(signal_V: Float64Array, rate_Hz: number, corner_Hz: number): Float64Array {
  const share = (2 * Math.PI * corner_Hz) / rate_Hz;
  let sum = 0;
  return signal_V.map((value) => {
    const before = sum;
    sum += share * value;
    return value + (before + sum) / 2;
  });
}
