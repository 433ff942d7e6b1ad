import type { Netlist } from "../netlist.ts";
import { outputNoise } from "../noise.ts";
import type { Output } from "../response.ts";
import type { Unsettled } from "../settle.ts";

export interface Hiss {
  readonly state: "solved";
  readonly hissA_Vrms: number;
  /** Parts that make most of its power, most first. */
  readonly parts: readonly { readonly part: string; readonly share: number }[];
  readonly notes: readonly string[];
}

const low_Hz = 20;
const high_Hz = 20_000;
const steps = 60;

/**
 * White noise at an output, A-weighted, from 20 Hz to 20 kHz.
 *
 *     V² = ∫ S(f)·A(f)² df, by Simpson's rule over ln f
 *
 * @remarks Flicker noise, hum and microphony are left out, so a real unit reads higher.
 */
export function hissAt(netlist: Netlist, output: Output): Hiss | Unsettled {
  const step = Math.log(high_Hz / low_Hz) / steps;
  const frequencies_Hz = Array.from({ length: steps + 1 }, (_, i) => low_Hz * Math.exp(i * step));
  const noise = outputNoise(netlist, { output, frequencies_Hz });
  if (noise.state !== "solved") return noise;
  const weights = frequencies_Hz.map((frequency_Hz, i) => {
    const simpson = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    return (simpson * step * frequency_Hz * aWeight(frequency_Hz) ** 2) / 3;
  });
  const power = (density: readonly number[]) => density.reduce((sum, d, i) => sum + weights[i]! * d * d, 0);
  const all = power(noise.V_per_rtHz);
  const parts = Object.entries(noise.parts)
    .map(([part, density]) => ({ part, share: all > 0 ? power(density) / all : 0 }))
    .filter(({ share }) => share > 0)
    .sort((a, b) => b.share - a.share);
  return { state: "solved", hissA_Vrms: Math.sqrt(all), parts, notes: noise.notes };
}

/**
 * A-weighting as a factor on amplitude, 1 at 1 kHz.
 *
 * @source IEC 61672-1:2013, annex E: poles at 20.599, 107.65, 737.86 and 12194 Hz, +2.000 dB at 1 kHz (remembered)
 */
function aWeight(frequency_Hz: number): number {
  const f2 = frequency_Hz ** 2;
  const [a, b, c, d] = [20.598997, 107.65265, 737.86223, 12194.217].map((pole) => pole ** 2) as [
    number,
    number,
    number,
    number,
  ];
  return (10 ** 0.1 * d * f2 ** 2) / ((f2 + a) * Math.sqrt((f2 + b) * (f2 + c)) * (f2 + d));
}
