import { weightA } from "../maths/weightA.ts";
import type { Fitted } from "./circuit.ts";
import type { Netlist } from "./netlist.ts";
import { type NoiseQuestion, noiseMeter, whiteOnly } from "./noise.ts";
import type { Unsettled } from "./settle.ts";

/** Noise at an output over the band that is heard, plain and A-weighted. */
export interface NoiseInBand {
  readonly state: "solved";
  readonly noise_Vrms: number;
  readonly noiseA_Vrms: number;
  /** Of the integration over frequency; the formulas of the parts' noise are taken as they stand. */
  readonly doubt: { readonly noise_Vrms: number; readonly noiseA_Vrms: number };
  /** Whose noise it is: shares of the A-weighted power, most first. */
  readonly shares: readonly { readonly part: string; readonly share: number }[];
  readonly notes: readonly string[];
}

const low_Hz = 20;
const high_Hz = 20_000;
/** Steps over the band to begin with; doubled until the sum stands still. */
const fewest = 96;
const most = 6144;
const settledShare = 1e-4;
/** Multiplications: about three seconds. */
const mostWork = 5e8;

/**
 * Noise from 20 Hz to 20 kHz, from the density at the output.
 *
 *     V² = ∫ S(f)·W(f)² df = ∫ S·W²·f d(ln f),  W = 1, or the A curve
 *
 * by Simpson's rule in ln f, its steps halved until the sum moves by less than a ten-thousandth, or, with a sharper
 * resonance, until it would take too long: `doubt` then says by how much it still moved.
 *
 * @throws BadInput as `outputNoise`
 */
export function noiseInBand(
  netlist: Netlist,
  question: Omit<NoiseQuestion, "frequencies_Hz">,
  fitted: Fitted = {},
  path = "netlist",
): NoiseInBand | Unsettled {
  const meter = noiseMeter(netlist, question, fitted, path);
  if (meter.state !== "solved") return meter;
  const { parts } = meter;
  const span = Math.log(high_Hz / low_Hz);
  /** Weighted power of each part, then the plain sum over all parts; times f, for steps in ln f. */
  const sample = (share: number): Float64Array | Unsettled => {
    const f = low_Hz * Math.exp(span * share);
    const now = meter.power(f);
    if ("state" in now) return now;
    const weight = weightA(f) ** 2 * f;
    const all = new Float64Array(parts.length + 1);
    for (let p = 0; p < parts.length; p++) {
      all[p] = now[p]! * weight;
      all[parts.length] = all[parts.length]! + now[p]! * f;
    }
    return all;
  };
  const sum = (points: number, from: number, stride: number): Float64Array | Unsettled => {
    const total = new Float64Array(parts.length + 1);
    for (let i = from; i < points; i += stride) {
      const now = sample(i / points);
      if (!(now instanceof Float64Array)) return now;
      for (let p = 0; p < total.length; p++) total[p] = total[p]! + now[p]!;
    }
    return total;
  };
  const ends = [sample(0), sample(1)];
  let middle = sum(fewest, 1, 1);
  let before: Float64Array | undefined;
  for (let points = fewest; points <= most; points *= 2) {
    const halves = sum(2 * points, 1, 2);
    if (!(halves instanceof Float64Array)) return halves;
    if (!(middle instanceof Float64Array)) return middle;
    const [a, b] = ends;
    if (!(a instanceof Float64Array)) return a!;
    if (!(b instanceof Float64Array)) return b!;
    const inner = middle;
    const now = a.map((end, p) => (span / (6 * points)) * (end + b[p]! + 2 * inner[p]! + 4 * halves[p]!));
    const total = (all: Float64Array): number => all.subarray(0, -1).reduce((sum, value) => sum + value, 0);
    if (before !== undefined) {
      const moved = [total(now) / total(before) - 1, now[parts.length]! / before[parts.length]! - 1].map(Math.abs);
      const last = 2 * points > most || 8 * points * meter.work() > mostWork;
      if (Math.max(...moved) < settledShare || total(now) === 0 || last) {
        return answerOf(parts, total(now), now, moved as [number, number]);
      }
    }
    before = now;
    middle = inner.map((value, p) => value + halves[p]!);
  }
  throw new Error("the sum over the band was never taken");
}

function answerOf(
  parts: readonly string[],
  weighted: number,
  all: Float64Array,
  [movedA, moved]: readonly [number, number],
): NoiseInBand {
  const noise_Vrms = Math.sqrt(all[parts.length]!);
  const noiseA_Vrms = Math.sqrt(weighted);
  const shares = parts
    .map((part, p) => ({ part, share: weighted > 0 ? all[p]! / weighted : 0 }))
    .filter(({ share }) => share >= 0.001)
    .sort((a, b) => b.share - a.share);
  return {
    state: "solved",
    noise_Vrms,
    noiseA_Vrms,
    doubt: { noise_Vrms: noise_Vrms * (moved || 0), noiseA_Vrms: noiseA_Vrms * (movedA || 0) },
    shares,
    notes: [whiteOnly],
  };
}
