import { test } from "vitest";
import { randomStream } from "../maths/random.ts";
import { analyseNoise } from "./noise.ts";
import type { Recording } from "./recording.ts";
import { addComb, addNoise, addTone, drawLines, mainsPhase, type Wander } from "./testing/synthesiser.ts";
import { draws, firstSeed, judge, patience_ms, Tally } from "./testing/tally.ts";
import { analyseTone } from "./tone.ts";

function drawWander(pick: number): Wander {
  if (pick === 0) return { kind: "steady" };
  return pick === 1 ? { kind: "walk", Hz_per_rts: 0.002 } : { kind: "swing", Hz: 0.01, period_s: 9 };
}

const recordingOf = (rate_Hz: number, samples: Float64Array): Recording => {
  return { rate_Hz, samples: [samples], truncated: false, bits: 24, float: true };
};

// source: made with known frequency, level, harmonics and noise density; noise over the band is density·√bandwidth
test(
  "stated intervals of a tone's figures hold the truth as often as they say",
  () => {
    const tallies = { frequency: new Tally(), level: new Tally(), thd: new Tally(), noise: new Tally() };
    for (let i = 0; i < draws; i++) {
      const seed = `tone coverage ${firstSeed + i}`;
      const random = randomStream(seed);
      const rate_Hz = [8000, 16000, 22050][random.integer(3)]!;
      const seconds = 1 + 2 * random.uniform();
      const signal = new Float64Array(Math.round(seconds * rate_Hz));
      const tone_Hz = 150 + 600 * random.uniform();
      const peak = 10 ** -random.uniform();
      const density = 10 ** (-7 + 2 * random.uniform());
      addTone(signal, rate_Hz, tone_Hz, peak, 6.28 * random.uniform());
      let distortion = 0;
      for (let order = 2; order <= 10 && order * tone_Hz < rate_Hz / 2; order++) {
        const share = 10 ** (-2 - 2 * random.uniform() - 0.2 * order);
        addTone(signal, rate_Hz, order * tone_Hz, share * peak, 6.28 * random.uniform());
        distortion += share ** 2;
      }
      const { theta } = mainsPhase(
        random,
        49.95 + 0.1 * random.uniform(),
        drawWander(random.integer(3)),
        rate_Hz,
        signal.length,
      );
      addComb(signal, theta, drawLines(random, 10, 1e-4));
      addNoise(signal, random, rate_Hz, density);
      const figures = analyseTone(recordingOf(rate_Hz, signal), 1).channels[0]!;
      const { doubt } = figures;
      tallies.frequency.note(figures.frequency_Hz, tone_Hz, doubt.frequency_Hz, seed);
      tallies.level.note(figures.level_Vrms, peak * Math.SQRT1_2, doubt.level_Vrms, seed);
      tallies.thd.note(figures.thd_pct, 100 * Math.sqrt(distortion), doubt.thd_pct, seed);
      const band_Hz = Math.min(20_000, rate_Hz / 2) - 20;
      tallies.noise.note(figures.noise_Vrms, density * Math.sqrt(band_Hz), doubt.noise_Vrms, seed);
    }
    judge("a tone's frequency", tallies.frequency);
    judge("a tone's level", tallies.level);
    judge("total harmonic distortion", tallies.thd);
    judge("noise under a tone", tallies.noise);
  },
  patience_ms,
);

// source: made with known lines; those that noise lifts over the threshold of detection are left out by a margin
test(
  "stated intervals of mains lines hold the truth as often as they say",
  () => {
    const lines = new Tally();
    const frequency = new Tally();
    for (let i = 0; i < draws; i++) {
      const seed = `line coverage ${firstSeed + i}`;
      const random = randomStream(seed);
      const rate_Hz = [8000, 11025, 16000][random.integer(3)]!;
      const seconds = 2 + 4 * random.uniform();
      const signal = new Float64Array(Math.round(seconds * rate_Hz));
      const nominal_Hz = [50, 60][random.integer(2)]!;
      const mains_Hz = nominal_Hz * (1 + 0.004 * (random.uniform() - 0.5));
      const { theta, mean_Hz } = mainsPhase(random, mains_Hz, drawWander(random.integer(3)), rate_Hz, signal.length);
      const made = drawLines(random, 12, 1e-3 * 10 ** -random.uniform());
      const density = 10 ** (-7 + random.uniform());
      addComb(signal, theta, made);
      addNoise(signal, random, rate_Hz, density);
      const { mains } = analyseNoise(recordingOf(rate_Hz, signal), 1, undefined, nominal_Hz).channels[0]!;
      frequency.note(mains.frequency_Hz, mean_Hz, mains.doubt_Hz, seed);
      for (const line of mains.lines) {
        const truth_Vrms = (made.find(({ order }) => order === line.order)?.peak ?? 0) * Math.SQRT1_2;
        if (truth_Vrms < (6 * density) / Math.sqrt(seconds)) continue;
        lines.note(line.level_Vrms, truth_Vrms, line.doubt_Vrms, `${seed} order ${line.order}`);
      }
    }
    judge("mains lines", lines);
    judge("the mean mains frequency", frequency);
  },
  patience_ms,
);
