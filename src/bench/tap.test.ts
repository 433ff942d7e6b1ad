import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import type { Recording } from "./recording.ts";
import { analyseTap } from "./tap.ts";
import { addNoise, addTone } from "./testing/synthesiser.ts";
import { draws, firstSeed, judge, patience_ms, Tally } from "./testing/tally.ts";

const recordingOf = (rate_Hz: number, ...samples: Float64Array[]): Recording => {
  return { rate_Hz, samples, truncated: false, bits: 24, float: true };
};

interface Ring {
  readonly frequency_Hz: number;
  readonly decay_s: number;
  readonly peaks: readonly number[];
}

function struck(
  seed: string,
  rate_Hz: number,
  seconds: number,
  taps_s: readonly number[],
  rings: readonly Ring[],
  density: number,
) {
  const random = randomStream(seed);
  const signal = new Float64Array(Math.round(seconds * rate_Hz));
  for (const { frequency_Hz, decay_s, peaks } of rings) {
    taps_s.forEach((tap_s, j) => {
      const phase = 6.28 * random.uniform();
      for (let n = Math.ceil(tap_s * rate_Hz); n < signal.length; n++) {
        const t = n / rate_Hz - tap_s;
        signal[n]! += peaks[j]! * Math.exp(-t / decay_s) * Math.cos(2 * Math.PI * frequency_Hz * t + phase);
      }
    });
  }
  addNoise(signal, random, rate_Hz, density);
  return signal;
}

describe("rings with known poles", () => {
  // source: made with these values; Q = πfτ
  test("two close ones among hum and a weaker tap are told apart", () => {
    const rate_Hz = 22_050;
    const signal = struck(
      "close rings",
      rate_Hz,
      4,
      [0.6, 2.1],
      [
        { frequency_Hz: 640, decay_s: 0.08, peaks: [0.1, 0.04] },
        { frequency_Hz: 646, decay_s: 0.06, peaks: [0.05, 0.07] },
        { frequency_Hz: 2417, decay_s: 0.012, peaks: [0.03, 0.02] },
      ],
      3e-7,
    );
    addTone(signal, rate_Hz, 50.02, 2e-3, 1);
    addTone(signal, rate_Hz, 150.06, 1e-3, 2);
    const { taps, resonances } = analyseTap(recordingOf(rate_Hz, signal), 2);
    expect(taps).toBe(2);
    expect(resonances.map(({ frequency_Hz }) => Math.round(frequency_Hz))).toEqual([640, 646, 2417]);
    const [a, b, c] = resonances as [(typeof resonances)[0], (typeof resonances)[0], (typeof resonances)[0]];
    expect(Math.abs(a.decay_ms / 80 - 1)).toBeLessThan(0.01);
    expect(Math.abs(b.decay_ms / 60 - 1)).toBeLessThan(0.01);
    expect(Math.abs(c.q / (Math.PI * 2417 * 0.012) - 1)).toBeLessThan(0.01);
    expect(Math.abs(a.peak_Vpk / 0.2 - 1)).toBeLessThan(0.02);
    expect(Math.abs(b.peak_Vpk / 0.14 - 1)).toBeLessThan(0.02);
    recordAccuracy({
      area: "bench",
      what: "Decay of two resonances 6 Hz apart",
      source: "rings made with known poles",
      reached: `${(100 * Math.abs(a.decay_ms / 80 - 1)).toFixed(3)} % and ${(100 * Math.abs(b.decay_ms / 60 - 1)).toFixed(3)} %`,
      limit: "1 %",
    });
  });
});

test("hiss, silence, a constant voltage and a steady tone ring nowhere", () => {
  const rate_Hz = 16_000;
  const hiss = struck("hiss", rate_Hz, 2, [], [], 1e-6);
  const tone = struck("tone", rate_Hz, 2, [], [], 1e-6);
  addTone(tone, rate_Hz, 440, 0.1, 0);
  for (const signal of [hiss, tone, new Float64Array(2 * rate_Hz), new Float64Array(2 * rate_Hz).fill(0.2)]) {
    const { resonances, undecided } = analyseTap(recordingOf(rate_Hz, signal), 1);
    expect(resonances).toEqual([]);
    expect(undecided).toMatch(/tap/);
  }
});

// source: made with known poles
test(
  "stated intervals of a resonance hold the truth as often as they say",
  () => {
    const tallies = { frequency: new Tally(), decay: new Tally(), peak: new Tally() };
    for (let i = 0; i < Math.ceil(draws / 2); i++) {
      const seed = `tap coverage ${firstSeed + i}`;
      const random = randomStream(seed);
      const rate_Hz = [11_025, 16_000, 22_050][random.integer(3)]!;
      const taps_s = [0.4 + 0.2 * random.uniform(), 1.4 + 0.3 * random.uniform()];
      const rings = [0, 1].map((r) => {
        const frequency_Hz = (r === 0 ? 200 : 1500) * (1 + random.uniform());
        const peak = 0.02 + 0.1 * random.uniform();
        return {
          frequency_Hz,
          decay_s: (30 + 100 * random.uniform()) / (Math.PI * frequency_Hz),
          peaks: [peak, peak * (0.3 + random.uniform())],
        };
      });
      const signal = struck(seed, rate_Hz, 2.6, taps_s, rings, 10 ** (-6 + 1.3 * random.uniform()));
      const { resonances } = analyseTap(recordingOf(rate_Hz, signal), 1);
      for (const ring of rings) {
        const found = resonances.find(({ frequency_Hz }) => Math.abs(frequency_Hz / ring.frequency_Hz - 1) < 0.03);
        if (!found) {
          for (const tally of Object.values(tallies)) tally.note(0, 1, 0.001, `${seed} not found`);
          continue;
        }
        tallies.frequency.note(found.frequency_Hz, ring.frequency_Hz, found.doubt.frequency_Hz, seed);
        tallies.decay.note(found.decay_ms, 1000 * ring.decay_s, found.doubt.decay_ms, seed);
        tallies.peak.note(found.peak_Vpk, Math.max(...ring.peaks), found.doubt.peak_Vpk, seed);
      }
    }
    judge("a resonance's frequency", tallies.frequency);
    judge("a resonance's decay", tallies.decay);
    judge("a resonance's peak", tallies.peak);
  },
  patience_ms,
);
