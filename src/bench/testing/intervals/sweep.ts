import { analyseSweep, type SweepInput } from "../../sweep.ts";
import { sentSweep } from "../sentSweep.ts";
import { addComb, addNoise, drawLines, mainsPhase } from "../synthesiser.ts";
import { between, type Draws, decades, pick, recordingOf, streams } from "./draw.ts";

const frequencies_Hz = [120, 400, 1000, 2500];

/** source: a straight wire has gain 1; the harmonic and the player's clock were made. */
export const sweepDraws: Draws = {
  of: "bench.sweep",
  drawn:
    "sweeps of 0.7 to 1.7 s at 16 or 22.05 kHz through a wire with a second harmonic of -50 to -70 dB, noise over a decade and a half, hum in half of them, clocks apart by up to 100 ppm in half",
  draw(seed) {
    const { random, chance } = streams(seed);
    const rate_Hz = pick(random, [16_000, 22_050]);
    const own: SweepInput & { level_Vpk: number } = {
      start_Hz: between(random, 30, 70),
      stop_Hz: between(random, 5000, 7000),
      duration_s: between(random, 0.7, 1.7),
      level_Vpk: between(random, 0.1, 1.1),
    };
    const h2 = decades(random, -3.5, -2.5);
    const fast = random.uniform() < 0.5 ? between(random, -1e-4, 1e-4) : 0;
    const x = sentSweep(rate_Hz, own.duration_s + 0.5, own, between(random, 0.1, 0.4), fast);
    const signal = x.map((v) => v + (2 * h2 * v * v) / own.level_Vpk);
    const { theta } = mainsPhase(random, 50, { kind: "steady" }, rate_Hz, signal.length);
    if (random.uniform() < 0.5) addComb(signal, theta, drawLines(random, 6, 1e-4));
    addNoise(signal, chance, rate_Hz, own.level_Vpk * decades(random, -5, -3.5));
    const report = analyseSweep(recordingOf(rate_Hz, signal), 1, own, { frequencies_Hz });
    const left = report.channels[0]!;
    return frequencies_Hz.flatMap((f, k) => {
      const { level_dB, doubt_dB } = left.harmonics["2"]!;
      const note = `at ${f} Hz`;
      return [
        { what: "gain_dB", value: left.gain_dB[k]!, truth: 0, doubt: left.doubt.gain_dB[k]!, note },
        {
          what: "second harmonic level_dB",
          value: level_dB[k]!,
          truth: 20 * Math.log10(h2),
          doubt: doubt_dB[k]!,
          note,
        },
      ];
    });
  },
};
