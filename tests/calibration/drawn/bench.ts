import type { Recording } from "../../../src/bench/recording.ts";
import { allDraws } from "../../../src/bench/testing/intervals/all.ts";
import { between, decades, pick, recordingOf } from "../../../src/bench/testing/intervals/draw.ts";
import { addComb, addNoise, addTone, drawLines, mainsPhase } from "../../../src/bench/testing/synthesiser.ts";
import impedance from "../../../src/calculations/bench.impedance.ts";
import loopback from "../../../src/calculations/bench.loopback.ts";
import supply from "../../../src/calculations/bench.supply.ts";
import type { Random } from "../../../src/maths/random.ts";
import { type Calibration, calibrated, near } from "../trial.ts";

const anyPhase = (random: Random) => between(random, 0, 2 * Math.PI);

/** Those whose benches are drawn for coverage.md already, asked here through the published calculation. */
const fewer: Readonly<Record<string, number>> = {
  "bench.balance": 8,
  "bench.noise": 6,
  "bench.sweep": 10,
  "bench.switchon": 25,
  "bench.tap": 15,
  "bench.tone": 15,
  "bench.twotone": 10,
};
const counted = allDraws.map(
  ({ calculation, drawn, make }): Calibration => ({
    of: calculation,
    drawn,
    suite: fewer[calculation]!,
    why: "recordings take time; the same benches are counted, all figures of each, in coverage.md",
    draw(random) {
      const { input, recordings, read } = make(`${random.integer(2 ** 40)}`);
      return {
        input,
        recordings,
        said: (output) => read(output).map(({ what, value, doubt, truth }) => near(what, value, doubt, truth)),
      };
    },
  }),
);

/** A tone with harmonics, hum and noise, as a recorder of that full scale has it. */
function heard(random: Random, peak_V: number, tone_Hz: number, fullScale_Vpk: number, density: number): Recording {
  const rate_Hz = pick(random, [8000, 11_025]);
  const signal = new Float64Array(Math.round(between(random, 0.6, 1.2) * rate_Hz));
  addTone(signal, rate_Hz, tone_Hz, peak_V, anyPhase(random));
  addTone(signal, rate_Hz, 2 * tone_Hz, peak_V * decades(random, -4, -2.5), anyPhase(random));
  const { theta } = mainsPhase(random, between(random, 49.95, 50.05), { kind: "steady" }, rate_Hz, signal.length);
  addComb(signal, theta, drawLines(random, 5, peak_V * 1e-4));
  addNoise(signal, random.fork("noise"), rate_Hz, density);
  return recordingOf(
    rate_Hz,
    signal.map((v) => v / fullScale_Vpk),
  );
}

/** source: Ohm's law; loads that are off by what is said of them. */
const impedances = calibrated(impedance, {
  drawn:
    "an output of 0.1 to 200 ohm behind a tone of 150 to 1500 Hz, into two loads of 8 to 600 ohm whose values are off by 0.05 to 2 % (95 %), noise over two decades",
  suite: 30,
  why: "each draw reads two recordings",
  draw(random) {
    const source_ohm = decades(random, -1, 2.3);
    const loads_ohm = [decades(random, 0.9, 2), decades(random, 2, 2.8)];
    const loadDoubt_pct = decades(random, -1.3, 0.3);
    const [tone_Hz, open_Vpk] = [between(random, 150, 1500), decades(random, -1, 0.5)];
    const density = open_Vpk * decades(random, -6, -4);
    const names = ["into a.wav", "into b.wav"];
    const made = loads_ohm.map((load_ohm) => {
      const really_ohm = load_ohm * (1 + random.normal(0, loadDoubt_pct / 196));
      return heard(random, (open_Vpk * really_ohm) / (source_ohm + really_ohm), tone_Hz, 4, density);
    });
    const load = (i: 0 | 1) => ({ recording: names[i]!, fullScale_Vpk: 4, load_ohm: loads_ohm[i]! });
    return {
      input: { loads: [load(0), load(1)], loadDoubt_pct },
      recordings: Object.fromEntries(made.map((one, i) => [names[i]!, one])),
      said({ channels }) {
        const { outputImpedance_ohm, doubt } = channels.left!;
        return [near("outputImpedance_ohm", outputImpedance_ohm, doubt.outputImpedance_ohm, source_ohm)];
      },
    };
  },
});

/** source: a recorder of known full scale; the meter is off by what is said of it. */
const loopbacks = calibrated(loopback, {
  drawn:
    "a recorder of 0.2 to 10 V full scale, a tone of 150 to 1500 Hz 1 to 30 dB under it, a meter off by 0.05 to 3 % (95 %), noise over two decades",
  suite: 30,
  why: "each draw reads a recording",
  draw(random) {
    const fullScale_Vpk = decades(random, -0.7, 1);
    const peak_V = fullScale_Vpk * 10 ** (-between(random, 1, 30) / 20);
    const share = decades(random, -3.3, -1.5);
    const recording = heard(
      random,
      peak_V,
      between(random, 150, 1500),
      fullScale_Vpk,
      peak_V * decades(random, -6, -4),
    );
    const truly_Vrms = peak_V * Math.SQRT1_2;
    const appliedDoubt_Vrms = share * truly_Vrms;
    const applied_Vrms = truly_Vrms + random.normal(0, appliedDoubt_Vrms / 1.96);
    return {
      input: { recording: "a.wav", applied_Vrms, appliedDoubt_Vrms },
      recordings: { "a.wav": recording },
      said({ channels }) {
        const read = channels.left!;
        return [near("fullScale_Vpk", read.fullScale_Vpk, read.doubt.fullScale_Vpk, fullScale_Vpk)];
      },
    };
  },
});

/** source: a supply whose level is drawn anew every 40 ms, about what it keeps for good; its peak on a grid of 20,000. */
const supplies = calibrated(supply, {
  drawn:
    "2 to 4 s at 8 kHz of a supply of 45 to 65 Hz with orders up to 9 of 0.01 to 3 %, whose level is another every 40 ms by 0.01 to 0.5 %, noise over a decade and a half",
  suite: 30,
  why: "each draw reads a recording",
  draw(random) {
    const rate_Hz = 8000;
    const length = Math.round(between(random, 2, 4) * rate_Hz);
    const [frequency_Hz, peak_V] = [between(random, 45, 65), between(random, 150, 360)];
    const wander = decades(random, -4, -2.3);
    const orders = [3, 5, 7, 9].map((order) => ({ order, share: decades(random, -4, -1.5), phase: anyPhase(random) }));
    const wave = (turn: number) =>
      orders.reduce((sum, { order, share, phase }) => sum + share * Math.cos(order * turn + phase), Math.cos(turn));
    const start = anyPhase(random);
    const block = Math.round(0.04 * rate_Hz);
    const signal = new Float64Array(length);
    let level = 1;
    for (let n = 0; n < length; n++) {
      if (n % block === 0) level = 1 + random.normal(0, wander);
      const turn = start + (2 * Math.PI * frequency_Hz * n) / rate_Hz;
      signal[n] = (level * peak_V * wave(turn)) / 400;
    }
    addNoise(signal, random.fork("noise"), rate_Hz, decades(random, -7, -5.5));
    const thd = Math.hypot(...orders.map(({ share }) => share));
    const shape = Float64Array.from({ length: 20_000 }, (_, i) => Math.abs(wave((2 * Math.PI * i) / 20_000)));
    const highest = shape.reduce((most, v) => Math.max(most, v), 0);
    const flat = shape.filter((v) => v >= 0.95 * highest).length / shape.length;
    return {
      input: { recording: "a.wav", fullScale_Vpk: 1, volts_per_V: 400 },
      recordings: { "a.wav": recordingOf(rate_Hz, signal) },
      said: (read) => [
        near("frequency_Hz", read.frequency_Hz, read.doubt.frequency_Hz, frequency_Hz, { atLeast: true }),
        near("level_Vrms", read.level_Vrms, read.doubt.level_Vrms, peak_V * Math.SQRT1_2 * Math.hypot(1, thd)),
        near("thd_pct", read.thd_pct, read.doubt.thd_pct, 100 * thd),
        near("peak_V", read.peak_V, read.doubt.peak_V, peak_V * highest),
        near("crestFactor", read.crestFactor, read.doubt.crestFactor, (highest * Math.SQRT2) / Math.hypot(1, thd), {
          atLeast: true,
        }),
        near("flat_pct", read.flat_pct, read.doubt.flat_pct, 100 * flat, { atLeast: true }),
      ],
    };
  },
});

export const bench: readonly Calibration[] = [...counted, impedances, loopbacks, supplies];
