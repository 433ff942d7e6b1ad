import { analyseSweep, type SweepInput } from "../../sweep.ts";
import { sentSweep } from "../sentSweep.ts";
import { addComb, addNoise, drawLines, mainsPhase } from "../synthesiser.ts";
import {
  asked,
  between,
  decades,
  leftOf,
  type Made,
  type OneChannel,
  oneRecording,
  pick,
  recordingOf,
  streams,
} from "./draw.ts";

/** What one kind of sweep is drawn from. */
interface Kind {
  readonly rates_Hz: readonly number[];
  readonly start_Hz: readonly [number, number];
  readonly stop_Hz: readonly [number, number];
  readonly duration_s: readonly [number, number];
  readonly frequencies_Hz: readonly number[];
}

/** source: a straight wire has gain 1; the harmonic and the player's clock were made. */
function drawSweep(seed: string, kind: Kind): Made {
  const { random, chance } = streams(seed);
  const rate_Hz = pick(random, kind.rates_Hz);
  const own: SweepInput & { level_Vpk: number } = {
    start_Hz: between(random, ...kind.start_Hz),
    stop_Hz: between(random, ...kind.stop_Hz),
    duration_s: between(random, ...kind.duration_s),
    level_Vpk: between(random, 0.1, 1.1),
  };
  const h2 = decades(random, -3.5, -2.5);
  const fast = random.uniform() < 0.5 ? between(random, -1e-4, 1e-4) : 0;
  const x = sentSweep(rate_Hz, own.duration_s + 0.5, own, between(random, 0.1, 0.4), fast);
  const signal = x.map((v) => v + (2 * h2 * v * v) / own.level_Vpk);
  const { theta } = mainsPhase(random, 50, { kind: "steady" }, rate_Hz, signal.length);
  if (random.uniform() < 0.5) addComb(signal, theta, drawLines(random, 6, 1e-4));
  addNoise(signal, chance, rate_Hz, own.level_Vpk * decades(random, -5, -3.5));
  const { frequencies_Hz } = kind;
  const recording = recordingOf(rate_Hz, signal);
  const { recordings, input } = oneRecording(recording);
  const question = { frequencies_Hz: [...frequencies_Hz], seconds: 60 };
  const read = ({ channels: { left } }: OneChannel<ReturnType<typeof analyseSweep>>) =>
    frequencies_Hz.flatMap((f, k) => {
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
  return {
    recordings,
    input: { ...input, ...question, sweep: own },
    analysed: () => leftOf(analyseSweep(recording, 1, own, question)),
    read,
  };
}

export const sweepDraws = asked({
  of: "bench.sweep",
  calculation: "bench.sweep",
  drawn:
    "sweeps of 0.7 to 1.7 s at 16 or 22.05 kHz through a wire with a second harmonic of -50 to -70 dB, noise over a decade and a half, hum in half of them, clocks apart by up to 100 ppm in half",
  make: (seed) =>
    drawSweep(seed, {
      rates_Hz: [16_000, 22_050],
      start_Hz: [30, 70],
      stop_Hz: [5000, 7000],
      duration_s: [0.7, 1.7],
      frequencies_Hz: [120, 400, 1000, 2500],
    }),
});

export const longSweepDraws = asked({
  of: "bench.sweep, read in parts",
  calculation: "bench.sweep",
  drawn: "the same with sweeps of 12 to 25 s up to 15 to 20 kHz at 44.1 or 48 kHz, too long to be taken whole",
  make: (seed) =>
    drawSweep(seed, {
      rates_Hz: [44_100, 48_000],
      start_Hz: [15, 40],
      stop_Hz: [15_000, 20_000],
      duration_s: [12, 25],
      frequencies_Hz: [100, 250, 1000, 2500, 7000],
    }),
});
