import { tQuantile } from "../../maths/statistics/index.ts";

/** A mean voltage, with its 95 % half-width. */
export interface Level {
  readonly value_V: number;
  readonly doubt_V: number;
}

/** Five periods of 50 Hz and six of 60 Hz: hum averages out. */
export const block_s = 0.1;

/** Means of whole blocks of a tenth of a second. */
function blockMeans(signal_V: Float64Array, rate_Hz: number): Float64Array {
  const block = Math.round(block_s * rate_Hz);
  return new Float64Array(Math.floor(signal_V.length / block)).map((_, b) => {
    let sum = 0;
    for (let n = b * block; n < (b + 1) * block; n++) sum += signal_V[n]!;
    return sum / block;
  });
}

/**
 * Direct voltage of a stretch from the means of its tenths of a second, which low-frequency noise makes scatter. A
 * stretch that still drifts counts its drift among the doubt.
 *
 *     doubt = t·s/√K, and half of what a straight line through the means rises by
 */
export function levelOf(signal_V: Float64Array, rate_Hz: number): Level {
  const means = blockMeans(signal_V, rate_Hz);
  const count = means.length;
  const value_V = means.reduce((sum, mean) => sum + mean, 0) / count;
  if (count < 3) return { value_V, doubt_V: Math.max(...means.map((mean) => Math.abs(mean - value_V))) * 12.7 };
  const middle = (count - 1) / 2;
  const squares = (count * (count ** 2 - 1)) / 12;
  const slope = means.reduce((sum, mean, b) => sum + mean * (b - middle), 0) / squares;
  const scatter = means.reduce((sum, mean, b) => sum + (mean - value_V - slope * (b - middle)) ** 2, 0) / (count - 2);
  const chance = tQuantile(0.975, count - 2) * Math.sqrt(scatter / count);
  const slopeSd = Math.sqrt(scatter / squares);
  const drift = Math.abs(slope) > 3 * slopeSd ? (Math.abs(slope) * count) / 2 : 0;
  return { value_V, doubt_V: Math.hypot(chance, drift) };
}
