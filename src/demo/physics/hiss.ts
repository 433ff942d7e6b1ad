import type { Random } from "../../maths/random.ts";
import { Normals } from "./normals.ts";

const boltzmann_J_per_K = 1.380649e-23;

/** Noise density of a resistance: √(4kTR). @source Johnson and Nyquist 1928; constant exact in SI since 2019 */
export function johnson_V_per_rtHz(ohm: number, temperature_C = 25): number {
  return Math.sqrt(4 * boltzmann_J_per_K * (temperature_C + 273.15) * ohm);
}

/** Shot noise of a triode, referred to its grid, is that of a resistance of about 2.5/gm. @source common practice */
export function triodeNoise_ohm(gm_mS: number): number {
  return 2500 / gm_mS;
}

/** Ratio between neighbouring corners of the filter bank that shapes flicker noise. */
const cornerRatio = 4;
const lowestCorner_Hz = 0.5;
/** What the corners that are missing above and below would have added. */
const missing = 1.06;

/**
 * Adds noise with density white·√(1 + corner/f) to a signal in place.
 *
 * The part below the corner is a second stream of white noise through a bank of first-order low-passes in
 * geometric spacing r, each weighted by 1/√f_i; their sum goes as (π/ln r)·f^(−1/2) within the bank.
 *
 * @param white_V_per_rtHz  one-sided density well above the corner
 * @remarks The law is kept to within 0.6 dB from 5 Hz up; below 1 Hz the rise levels out.
 */
export function addHiss(
  into: Float64Array,
  rate_Hz: number,
  white_V_per_rtHz: number,
  corner_Hz: number,
  chance: Random,
): void {
  const white = new Normals(chance.fork("white"));
  const flicker = new Normals(chance.fork("flicker"));
  const each_V = white_V_per_rtHz * Math.sqrt(rate_Hz / 2);
  const fresh = new Float64Array(into.length);
  for (let n = 0; n < into.length; n++) {
    into[n]! += each_V * white.next();
    fresh[n] = each_V * flicker.next();
  }
  const corners_Hz: number[] = [];
  for (let low_Hz = lowestCorner_Hz; low_Hz < rate_Hz / 2; low_Hz *= cornerRatio) corners_Hz.push(low_Hz);
  for (let first = 0; first < corners_Hz.length; first += 4) {
    addFour(
      into,
      fresh,
      [0, 1, 2, 3].map((i) => lowPass(corners_Hz[first + i], rate_Hz, corner_Hz)),
    );
  }
}

interface LowPass {
  readonly keep: number;
  readonly weight: number;
}

function lowPass(low_Hz: number | undefined, rate_Hz: number, corner_Hz: number): LowPass {
  if (low_Hz === undefined) return { keep: 0, weight: 0 };
  const weight = (missing * Math.sqrt(corner_Hz / low_Hz) * Math.log(cornerRatio)) / Math.PI;
  return { keep: Math.exp((-2 * Math.PI * low_Hz) / rate_Hz), weight };
}

/** Four low-passes side by side: each waits for its own last value, and one alone would keep the processor waiting. */
function addFour(into: Float64Array, fresh: Float64Array, bank: readonly LowPass[]): void {
  const [k0, k1, k2, k3] = bank.map(({ keep }) => keep) as [number, number, number, number];
  const [w0, w1, w2, w3] = bank.map(({ weight }) => weight) as [number, number, number, number];
  let [h0, h1, h2, h3] = [0, 0, 0, 0];
  for (let n = 0; n < into.length; n++) {
    const now = fresh[n]!;
    h0 = now + k0 * (h0 - now);
    h1 = now + k1 * (h1 - now);
    h2 = now + k2 * (h2 - now);
    h3 = now + k3 * (h3 - now);
    into[n]! += w0 * h0 + w1 * h1 + w2 * h2 + w3 * h3;
  }
}

/**
 * Hiss between 20 Hz and 20 kHz as an ear weights it: √∫ A(f)²·white²·(1 + corner/f) df.
 *
 * @source A-weighting: closed form of IEC 61672-1 (from memory)
 */
export function weightedHiss_Vrms(white_V_per_rtHz: number, corner_Hz: number): number {
  const step = 1.01;
  let sum = 0;
  for (let f = 20; f < 20_000; f *= step) {
    sum += aWeight(f) ** 2 * (1 + corner_Hz / f) * f * Math.log(step);
  }
  return white_V_per_rtHz * Math.sqrt(sum);
}

function aWeight(frequency_Hz: number): number {
  const s = frequency_Hz ** 2;
  const unscaled =
    (12194 ** 2 * s ** 2) / ((s + 20.6 ** 2) * Math.sqrt((s + 107.7 ** 2) * (s + 737.9 ** 2)) * (s + 12194 ** 2));
  return 1.2589 * unscaled;
}
