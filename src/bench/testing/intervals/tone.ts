import { analyseTone } from "../../tone.ts";
import { weightA } from "../../weighting.ts";
import { addComb, addNoise, addTone, drawLines, mainsPhase } from "../synthesiser.ts";
import {
  anyPhase,
  asked,
  between,
  decades,
  drawWander,
  leftOf,
  type OneChannel,
  oneRecording,
  pick,
  recordingOf,
  streams,
} from "./draw.ts";

const highest = 10;

/** source: made with known frequency, level, harmonics, hum and noise density; THD+N from the same powers. */
export const toneDraws = asked({
  of: "bench.tone",
  calculation: "bench.tone",
  drawn:
    "1 to 3 s at 8 to 22.05 kHz; a tone of 150 to 750 Hz, harmonics of -24 to -120 dB, noise over two decades, hum that stands, walks or swings",
  make(seed) {
    const { random, chance } = streams(seed);
    const rate_Hz = pick(random, [8000, 16_000, 22_050]);
    const signal = new Float64Array(Math.round(between(random, 1, 3) * rate_Hz));
    const tone_Hz = between(random, 150, 750);
    const peak = decades(random, -1, 0);
    const density = decades(random, -7, -5);
    addTone(signal, rate_Hz, tone_Hz, peak, anyPhase(random));
    let distortion = 0;
    let inBand = 0;
    const band_Hz = [20, Math.min(20_000, rate_Hz / 2)] as const;
    for (let order = 2; order <= highest && order * tone_Hz < rate_Hz / 2; order++) {
      const share = 10 ** (between(random, -4, -2) - 0.2 * order);
      addTone(signal, rate_Hz, order * tone_Hz, share * peak, anyPhase(random));
      distortion += share ** 2;
      inBand += (share * peak) ** 2 / 2;
    }
    const { theta } = mainsPhase(random, between(random, 49.95, 50.05), drawWander(random), rate_Hz, signal.length);
    const hum = drawLines(random, 10, 1e-4);
    addComb(signal, theta, hum);
    addNoise(signal, chance, rate_Hz, density);
    const level_Vrms = peak * Math.SQRT1_2;
    const noise_V2 = density ** 2 * (band_Hz[1] - band_Hz[0]);
    const humming = hum.reduce((sum, line) => sum + line.peak ** 2 / 2, 0);
    const thdn = Math.sqrt(noise_V2 + humming + inBand) / level_Vrms;
    const truths = {
      frequency_Hz: tone_Hz,
      level_Vrms,
      thd_pct: 100 * Math.sqrt(distortion),
      thdn_pct: 100 * thdn,
      noise_Vrms: Math.sqrt(noise_V2),
      noiseA_Vrms: density * Math.sqrt(integral((f) => weightA(f) ** 2, ...band_Hz)),
      sinad_dB: -20 * Math.log10(thdn),
    };
    const recording = recordingOf(rate_Hz, signal);
    return {
      ...oneRecording(recording),
      analysed: () => leftOf(analyseTone(recording, 1)),
      read({ channels: { left } }: OneChannel<ReturnType<typeof analyseTone>>) {
        return Object.entries(truths).map(([what, truth]) => {
          const name = what as keyof typeof truths;
          return { what, value: left[name], truth, doubt: left.doubt[name] };
        });
      },
    };
  },
});

/** Trapezoids of 1 Hz. */
export function integral(of: (frequency_Hz: number) => number, low_Hz: number, high_Hz: number): number {
  let sum = 0;
  for (let f = low_Hz; f < high_Hz; f++) sum += 0.5 * (of(f) + of(Math.min(high_Hz, f + 1))) * Math.min(1, high_Hz - f);
  return sum;
}
