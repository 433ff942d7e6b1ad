import type { Random } from "../../../maths/random.ts";
import { analyseNoise } from "../../noise.ts";
import type { Recording } from "../../recording.ts";
import { weightA } from "../../weighting.ts";
import { addComb, addNoise, addTone, drawLines, mainsPhase } from "../synthesiser.ts";
import {
  anyPhase,
  asked,
  between,
  decades,
  drawWander,
  leftOf,
  oneRecording,
  pick,
  recordingOf,
  type Stated,
  streams,
} from "./draw.ts";
import { integral } from "./tone.ts";

/**
 * source: made with known lines and noise density. A quasi-peak reading has no truth but what the meter shows, so a
 * second record of the same hum and hiss stands for it.
 */
export const noiseDraws = asked({
  of: "bench.noise",
  calculation: "bench.noise",
  drawn:
    "2 to 6 s at 8 to 16 kHz; up to 12 mains lines on 50 or 60 Hz that stands, walks or swings, a stray line in half of them, noise over a decade",
  make(seed) {
    const { random, chance } = streams(seed);
    const rate_Hz = pick(random, [8000, 11_025, 16_000]);
    const seconds = between(random, 2, 6);
    const length = Math.round(seconds * rate_Hz);
    const nominal_Hz = pick(random, [50, 60]);
    const mains_Hz = nominal_Hz * between(random, 0.998, 1.002);
    const wander = drawWander(random);
    const lines = drawLines(random, 12, decades(random, -4, -3));
    const density = decades(random, -7, -6);
    const stray =
      random.uniform() < 0.5 ? { Hz: between(random, 900, 3500), peak: decades(random, -5, -3) } : undefined;
    const record = (chance: Random) => {
      const signal = new Float64Array(length);
      const { theta, mean_Hz } = mainsPhase(chance, mains_Hz, wander, rate_Hz, length);
      addComb(signal, theta, lines);
      if (stray) addTone(signal, rate_Hz, stray.Hz, stray.peak, anyPhase(chance));
      addNoise(signal, chance, rate_Hz, density);
      return { mean_Hz, recording: recordingOf(rate_Hz, signal) };
    };
    const { mean_Hz, recording } = record(chance);
    const readNoise = (of: Recording) => leftOf(analyseNoise(of, 1, undefined, nominal_Hz));
    const again = readNoise(record(chance.fork("again")).recording).channels.left;
    const { recordings, input } = oneRecording(recording);
    const read = ({ channels: { left: figures } }: ReturnType<typeof readNoise>) => {
      const { doubt, mains } = figures;
      const stated: Stated[] = [
        {
          what: "mains frequency_Hz",
          value: mains.frequency_Hz,
          truth: mean_Hz,
          doubt: mains.doubt_Hz,
          note: wander.kind,
        },
      ];
      for (const line of mains.lines) {
        const truth = (lines.find(({ order }) => order === line.order)?.peak ?? 0) * Math.SQRT1_2;
        // Those that noise lifts over the threshold of detection are left out by a margin.
        if (truth < (6 * density) / Math.sqrt(seconds)) continue;
        const note = `${wander.kind} order ${line.order}`;
        stated.push({ what: "mains line level_Vrms", value: line.level_Vrms, truth, doubt: line.doubt_Vrms, note });
      }
      const found = stray && figures.otherLines.find(({ frequency_Hz }) => Math.abs(frequency_Hz - stray.Hz) < 1);
      if (stray && stray.peak > (10 * density) / Math.sqrt(seconds)) {
        const truth = stray.peak * Math.SQRT1_2;
        stated.push({
          what: "other line level_Vrms",
          value: found?.level_Vrms ?? 0,
          truth,
          doubt: found?.doubt_Vrms ?? 0,
        });
      }
      const [low_Hz, high_Hz] = [20, Math.min(20_000, rate_Hz / 2)];
      const total = (weight: (frequency_Hz: number) => number) =>
        Math.hypot(
          density * Math.sqrt(integral((f) => weight(f) ** 2, low_Hz, high_Hz)),
          ...lines.map(({ order, peak }) => peak * Math.SQRT1_2 * weight(order * mains_Hz)),
          stray ? stray.peak * Math.SQRT1_2 * weight(stray.Hz) : 0,
        );
      const truths = {
        noise_Vrms: total(() => 1),
        noiseA_Vrms: total(weightA),
        noise468_Vqp: again.noise468_Vqp,
        hiss_Vrms: density * Math.sqrt(high_Hz - low_Hz),
        hissA_Vrms: density * Math.sqrt(integral((f) => weightA(f) ** 2, low_Hz, high_Hz)),
      };
      for (const [what, truth] of Object.entries(truths)) {
        const name = what as keyof typeof truths;
        stated.push({ what, value: figures[name], truth, doubt: doubt[name] });
      }
      return stated;
    };
    return {
      recordings,
      input: { ...input, building_Hz: nominal_Hz },
      analysed: () => readNoise(recording),
      read,
    };
  },
});
