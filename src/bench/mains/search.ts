import { runningFloor } from "../../maths/spectra/noiseFloor.ts";
import { averagedPeriodogram, type Density, pieceRooms } from "../../maths/spectra/welch.ts";

/** Where a comb may stand, and how strongly the recording speaks for it there. */
export interface Candidate {
  readonly frequency_Hz: number;
  readonly score: number;
  /** Orders that have something to say there. */
  readonly orders: readonly number[];
}

/** Share of the nominal searched on both sides: grids by day, islands, and the recorder's own clock. */
export const searchShare = 0.02;

/** Evidence of a bin below which it says nothing: what one bin in 400 reaches by chance. */
const unremarkable = 6;

/** A longer piece is not padded: a line between two of its bins loses 1.4 dB of a level that length has raised. */
const longPiece = 2 ** 18;

/** What one signal says bin by bin. */
interface Said {
  readonly step_Hz: number;
  readonly said: Float64Array;
}

/** The same of all signals, in pieces of one length. */
interface Evidence {
  readonly piece_s: number;
  readonly spectra: readonly Said[];
}

/**
 * What can be searched for combs: the spectrum of the whole record, sharpest when the mains holds still, and averaged
 * spectra of two seconds, which a wandering frequency hardly smears.
 */
export function searchable(signals: readonly Float64Array[], rate_Hz: number): Evidence[] {
  const length = signals[0]?.length ?? 0;
  const inPieces = (piece: number): Evidence => {
    const padding = piece > longPiece ? 1 : 2;
    const rooms = pieceRooms(piece, padding);
    const spectra = signals.map((signal) =>
      saidBy(averagedPeriodogram(signal, rate_Hz, piece, padding, undefined, rooms), reach_Hz(piece / rate_Hz)),
    );
    return { piece_s: piece / rate_Hz, spectra };
  };
  const short = Math.round(2 * rate_Hz);
  return length >= 2 * short ? [inPieces(length), inPieces(short)] : [inPieces(length)];
}

/** The first orders alone say where mains is, whatever stray tone higher up a wrong frequency would have among its multiples. */
export const lowOrders = 4;

/** Looks for a comb f, 2f, 3f … near a nominal, in every kind of spectrum there is: all orders, and the first alone. */
export function searchComb(
  evidence: readonly Evidence[],
  nominal_Hz: number,
  orders: number,
  taken_Hz: readonly number[] = [],
): Candidate[] {
  return evidence.flatMap(({ spectra, piece_s }) => {
    const best = bestOf(spectra, nominal_Hz, orders, piece_s, taken_Hz);
    const low = bestOf(spectra, nominal_Hz, Math.min(orders, lowOrders), piece_s, taken_Hz);
    const apart = low.score > 0 && Math.abs(low.frequency_Hz - best.frequency_Hz) > 0.5 / piece_s;
    return apart ? [best, low] : [best];
  });
}

/** Half width over which the noise about a line is judged: enough bins for a median, whatever the length. */
export function reach_Hz(duration_s: number): number {
  return Math.max(12, 20 / duration_s);
}

/**
 * What each bin says by its log likelihood ratio against noise of the level about it, nothing below that level.
 */
function saidBy({ step_Hz, V2_per_Hz, averages }: Density, reach: number): Said {
  const said = runningFloor({ step_Hz, V2_per_Hz, averages }, () => reach);
  for (let k = 0; k < said.length; k++) {
    const above = V2_per_Hz[k]! / said[k]! - 1;
    said[k] = averages * above > unremarkable ? say(averages * (above - Math.log1p(above))) : 0;
  }
  return { step_Hz, said };
}

/** One order's say. It grows with the logarithm of a strong line, so that no stray line outvotes a whole comb. */
function say(evidence: number): number {
  return evidence > unremarkable ? 4 * Math.log(1 + (evidence - unremarkable) / 4) : 0;
}

function bestOf(
  spectra: readonly Said[],
  nominal_Hz: number,
  orders: number,
  piece_s: number,
  taken_Hz: readonly number[],
): Candidate {
  const step_Hz = 0.5 / (Math.min(orders, 60) * piece_s);
  const steps = Math.ceil((searchShare * nominal_Hz) / step_Hz);
  let best = { frequency_Hz: nominal_Hz, score: 0 };
  for (let i = -steps; i <= steps; i++) {
    const frequency_Hz = nominal_Hz + i * step_Hz;
    if (taken_Hz.some((taken) => Math.abs(taken - frequency_Hz) < Math.max(0.3 / piece_s, 0.02))) continue;
    let score = 0;
    for (const { step_Hz: bin_Hz, said } of spectra) {
      const ratio = frequency_Hz / bin_Hz;
      const most = Math.min(orders, Math.floor((said.length - 1) / ratio));
      for (let k = 1; k <= most; k++) score += said[Math.floor(k * ratio + 0.5)]!;
    }
    if (score > best.score) best = { frequency_Hz, score };
  }
  const speaking = Array.from({ length: orders }, (_, i) => i + 1).filter((order) =>
    spectra.some(({ step_Hz: bin_Hz, said }) => {
      const k = Math.round((order * best.frequency_Hz) / bin_Hz);
      return Math.max(said[k - 1] ?? 0, said[k] ?? 0, said[k + 1] ?? 0) > 0;
    }),
  );
  return { ...best, orders: speaking };
}
