import { fitLines, type JointLine, productTrack } from "../jointLines.ts";
import { benchOf } from "../mains/comb.ts";
import { fitMains } from "../mains.ts";
import { withoutMains } from "../takeOutMains.ts";
import { fitTone } from "../toneFit.ts";

/** A tone in one of two channels. */
export interface Side {
  /** Peak phasor, and the variance of each of its parts. */
  readonly re: number;
  readonly im: number;
  readonly variance_V2: number;
  /** Mean square of what is neither tone nor harmonic. */
  readonly rest_V2: number;
}

/** Harmonics fitted beside the tone, so that they do not count as noise. */
export const harmonics = 5;

/**
 * The tone that two channels hold, fitted at one frequency in both, beside its harmonics and mains.
 *
 * @param roughly_Hz  within 1 Hz of the tone
 * @returns left, then right
 */
export function sidesAtTone(signals: readonly [Float64Array, Float64Array], rate_Hz: number, roughly_Hz: number) {
  const length = signals[0].length;
  const louder = powerOf(signals[1]) > powerOf(signals[0]) ? 1 : 0;
  const { comb } = fitTone(signals[louder], rate_Hz, roughly_Hz, 1);
  const orders = Array.from({ length: harmonics }, (_, i) => i + 1).filter(
    (order) => order === 1 || order * roughly_Hz < 0.499 * rate_Hz,
  );
  const tracks = orders.map((order) => productTrack([comb.track, comb.track], [order, 0], length / rate_Hz));
  const first = signals.map((signal) => fitLines(benchOf([signal], rate_Hz), tracks));
  const found = fitMains(
    first.map((fit) => fit.left),
    rate_Hz,
    [50, 60],
    { exclude_Hz: tracks.map(({ carrier_Hz }) => carrier_Hz) },
  ).filter((fit) => fit.found);
  return first.map(({ lines, left: rest }, c): Side => {
    const rest_V2 = powerOf(rest) / length;
    if (found.length === 0) return { ...partsOf(lines[0]!), rest_V2 };
    const quiet = withoutMains(rest, found, c);
    const signal = signals[c]!.map((value, n) => value - (rest[n]! - quiet[n]!));
    const line = fitLines(benchOf([signal], rate_Hz), tracks).lines[0]!;
    const near = found
      .flatMap(({ channels }) => channels[c]!)
      .filter(
        ({ detected, frequency_Hz }) =>
          detected && Math.abs(frequency_Hz - line.frequency_Hz) < (1.5 * rate_Hz) / length,
      )
      .reduce((sum, { doubt_Vrms }) => sum + 2 * (doubt_Vrms / 1.96) ** 2, 0);
    return { ...partsOf({ ...line, variance_V2: line.variance_V2 + near }), rest_V2 };
  }) as [Side, Side];
}

const partsOf = ({ re, im, variance_V2 }: JointLine) => ({ re, im, variance_V2 });

/**
 * Stretches of one recording taken together: the louder side's level is the root mean square over them, and both are
 * averaged as they stand to it in phase, so that noise falls with the length.
 */
export function sidesOverall(stretches: readonly (readonly [Side, Side])[]): [Side, Side] {
  if (stretches.length === 1) return [...stretches[0]!];
  const mean = (of: (sides: readonly [Side, Side]) => number) =>
    stretches.reduce((sum, sides) => sum + of(sides), 0) / stretches.length;
  const power = (c: 0 | 1) => mean((sides) => sides[c].re ** 2 + sides[c].im ** 2);
  const leading = power(1) > power(0) ? 1 : 0;
  return ([0, 1] as const).map((c): Side => {
    const along = (part: 0 | 1) =>
      mean((sides) => {
        const { re, im } = sides[leading];
        const size = Math.hypot(re, im);
        const other = sides[c];
        return (part === 0 ? other.re * re + other.im * im : other.im * re - other.re * im) / (size || 1);
      });
    return {
      re: c === leading ? Math.sqrt(power(c)) : along(0),
      im: c === leading ? 0 : along(1),
      variance_V2: mean((sides) => sides[c].variance_V2) / stretches.length,
      rest_V2: mean((sides) => sides[c].rest_V2),
    };
  }) as [Side, Side];
}

function powerOf(signal: Float64Array): number {
  let sum = 0;
  for (let n = 0; n < signal.length; n++) sum += signal[n]! ** 2;
  return sum;
}
