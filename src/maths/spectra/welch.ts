import { powerOfTwo, realSpectrum } from "./fourier.ts";
import { cosineWindow } from "./windows.ts";

/** One-sided density: its integral over frequency is the mean square. */
export interface Density {
  readonly step_Hz: number;
  /** Index k belongs to k·step_Hz. */
  readonly V2_per_Hz: Float64Array;
  /** Averages that were taken, overlap allowed for; an estimate scatters by 1/√averages. */
  readonly averages: number;
}

/**
 * One windowed stretch over the whole signal, padded with zeros to at least `padding` times its length, so that a
 * line between two bins loses little.
 *
 * @param window  as long as the signal
 */
export function periodogram(signal: Float64Array, rate_Hz: number, window: Float64Array, padding = 2): Density {
  const size = powerOfTwo(padding * signal.length);
  const V2_per_Hz = new Float64Array(size / 2 + 1);
  const scale = addPower(V2_per_Hz, signal, window, new Float64Array(size), rate_Hz);
  for (let k = 0; k < V2_per_Hz.length; k++) V2_per_Hz[k]! *= scale;
  return { step_Hz: rate_Hz / size, V2_per_Hz, averages: 1 };
}

/**
 * Periodograms of Hann-windowed pieces of one length, overlapping by half or more, averaged.
 *
 * @param most  pieces at most, spread over a long record
 */
export function averagedPeriodogram(
  signal: Float64Array,
  rate_Hz: number,
  piece: number,
  padding = 2,
  most = Number.POSITIVE_INFINITY,
  rooms = pieceRooms(piece, padding),
): Density {
  const pieces = piecesOf(signal.length, piece, most);
  return averageOf(
    pieces,
    (from) => signal.subarray(from, from + piece),
    signal.length,
    rate_Hz,
    piece,
    padding,
    rooms,
  );
}

/** Window and working arrays for pieces of one length, which several signals may share one after the other. */
export interface PieceRooms {
  readonly window: Float64Array;
  readonly room: Float64Array;
  readonly spectrum: Float64Array;
}

export function pieceRooms(piece: number, padding: number): PieceRooms {
  const size = powerOfTwo(padding * piece);
  return {
    window: cosineWindow("hann", piece),
    room: new Float64Array(size),
    spectrum: new Float64Array(size + 2),
  };
}

/** Where the pieces of `averagedPeriodogram` begin. */
export function piecesOf(length: number, piece: number, most = Number.POSITIVE_INFINITY): number[] {
  const last = length - piece;
  const count = Math.min(most, Math.max(1, Math.ceil(last / (piece / 2)) + 1));
  const stride = count > 1 ? last / (count - 1) : 0;
  return Array.from({ length: count }, (_, i) => Math.round(i * stride));
}

/**
 * The same of a signal that is not in memory as a whole.
 *
 * @param pieces  where they begin
 * @param pieceAt  a piece, looked at before the next is asked for
 * @param length  of the whole signal
 */
export function averageOf(
  pieces: readonly number[],
  pieceAt: (from: number) => Float64Array,
  length: number,
  rate_Hz: number,
  piece: number,
  padding: number,
  { window, room, spectrum } = pieceRooms(piece, padding),
): Density {
  const size = room.length;
  const V2_per_Hz = new Float64Array(size / 2 + 1);
  let scale = 0;
  for (const from of pieces) scale = addPower(V2_per_Hz, pieceAt(from), window, room, rate_Hz, spectrum);
  const count = pieces.length;
  for (let k = 0; k < V2_per_Hz.length; k++) V2_per_Hz[k]! *= scale / count;
  // Pieces that share half their samples are nearly independent once windowed.
  const independent = Math.min(count, (2 * length) / piece - 1) / (1 + 2 / 36);
  return { step_Hz: rate_Hz / size, V2_per_Hz, averages: count > 1 ? Math.max(1, independent) : 1 };
}

/** Adds the power of one windowed piece, its mean removed; returns what makes such power a density. */
function addPower(
  sum: Float64Array,
  piece: Float64Array,
  window: Float64Array,
  room: Float64Array,
  rate_Hz: number,
  spectrum?: Float64Array,
): number {
  const length = piece.length;
  let squares = 0;
  let weight = 0;
  let mean = 0;
  for (let i = 0; i < length; i++) {
    const w = window[i]!;
    const x = piece[i]! * w;
    squares += w * w;
    weight += w;
    mean += x;
    room[i] = x;
  }
  mean /= weight;
  for (let i = 0; i < length; i++) room[i]! -= mean * window[i]!;
  const of = realSpectrum(room, spectrum);
  for (let k = 0, i = 0; k < sum.length; k++, i += 2) {
    const re = of[i]!;
    const im = of[i + 1]!;
    sum[k]! += re * re + im * im;
  }
  return 2 / (rate_Hz * squares);
}
