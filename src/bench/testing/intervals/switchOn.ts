import { analyseSwitchOn } from "../../switchOn/switchOn.ts";
import { addComb, addNoise, drawLines, mainsPhase } from "../synthesiser.ts";
import { asked, between, decades, leftOf, type OneChannel, oneRecording, pick, recordingOf, streams } from "./draw.ts";

const [load_ohm, band_V] = [300, 0.015];
/** Samples at which the truth is summed up, for each of the record's. */
const finer = 8;

/** source: the curve that was made, (p·e^{−t/τ} + r)·(1 − e^{−t/ρ}), its highest point and integral on a finer grid. */
export const switchOnDraws = asked({
  of: "bench.switchon",
  calculation: "bench.switchon",
  drawn:
    "5 to 8 s at 8 to 22.05 kHz; a pulse of 0.1 to 5 V that rises in 0.3 to 3 ms and falls with 30 to 300 ms, a rest of up to 20 mV either way, an offset of the recorder, hum on 50 or 60 Hz after the switch, noise over two decades",
  make(seed) {
    const { random, chance } = streams(seed);
    const rate_Hz = pick(random, [8000, 16_000, 22_050]);
    const length = Math.round(between(random, 5, 8) * rate_Hz);
    const switched_s = between(random, 0.6, 1.6);
    const peak_V = decades(random, -1, 0.7) * pick(random, [-1, 1]);
    const fall_s = between(random, 0.03, 0.3);
    const rise_s = between(random, 0.0003, 0.003);
    const rest_V = between(random, -0.02, 0.02);
    const offset_V = between(random, -0.01, 0.01);
    const jack = (t: number) => (peak_V * Math.exp(-t / fall_s) + rest_V) * (1 - Math.exp(-t / rise_s));
    const signal = new Float64Array(length);
    const { theta } = mainsPhase(
      random,
      pick(random, [50, 60]) * between(random, 0.998, 1.002),
      { kind: "steady" },
      rate_Hz,
      length,
    );
    addComb(signal, theta, drawLines(random, 6, decades(random, -5, -4)));
    for (let n = 0; n < length; n++) {
      const t = n / rate_Hz - switched_s;
      signal[n] = offset_V + (t < 0 ? 0 : signal[n]! + jack(t));
    }
    addNoise(signal, chance, rate_Hz, decades(random, -7, -5));
    const settle_s = fall_s * Math.log(Math.abs(peak_V) / band_V);
    const step_s = 1 / rate_Hz / finer;
    let [pulse_Vpk, squares] = [0, 0];
    for (let t = 0; t < settle_s; t += step_s) {
      pulse_Vpk = Math.max(pulse_Vpk, Math.abs(jack(t)));
      squares += (jack(t) - rest_V) ** 2 * step_s;
    }
    const truths = { rest_mV: 1000 * rest_V, pulse_Vpk, settle_s, energy_mJ: (1000 * squares) / load_ohm };
    const recording = recordingOf(rate_Hz, signal);
    const { recordings, input } = oneRecording(recording);
    const question = { coupling: "dc", load_ohm, settled_mV: 1000 * band_V } as const;
    return {
      recordings,
      input: { ...input, ...question },
      analysed: () => leftOf(analyseSwitchOn(recording, 1, question)),
      read({ channels: { left } }: OneChannel<ReturnType<typeof analyseSwitchOn>>) {
        return Object.entries(truths).map(([what, truth]) => {
          const name = what as keyof typeof truths;
          return { what, value: left[name] ?? 0, truth, doubt: left.doubt[name] ?? 0 };
        });
      },
    };
  },
});
