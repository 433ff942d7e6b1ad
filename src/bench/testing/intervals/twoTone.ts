import { analyseTwoTone, type TwoToneKind } from "../../twoTone.ts";
import { addComb, addNoise, addTone, drawLines, mainsPhase } from "../synthesiser.ts";
import {
  anyPhase,
  asked,
  between,
  decades,
  leftOf,
  type OneChannel,
  oneRecording,
  pick,
  recordingOf,
  type Stated,
  streams,
} from "./draw.ts";

/** source: made with known products; two lines' levels add, then squares (the definition). */
export const twoToneDraws = asked({
  of: "bench.twotone",
  calculation: "bench.twotone",
  drawn:
    "1 to 3 s at 8 to 16 kHz; both kinds, products of -30 to -80 dB, noise over two decades, steady hum of up to 10 lines",
  make(seed) {
    const { random, chance } = streams(seed);
    const kind = pick<TwoToneKind>(random, ["modulation", "difference"]);
    const rate_Hz = pick(random, [8000, 11_025, 16_000]);
    const signal = new Float64Array(Math.round(between(random, 1, 3) * rate_Hz));
    const high_Hz = between(random, 2500, 3300);
    const low_Hz = kind === "modulation" ? between(random, 45, 135) : high_Hz - between(random, 150, 550);
    const high = decades(random, -2, -1);
    const low = kind === "modulation" ? 4 * high : high * between(random, 1, 1.1);
    const density = decades(random, -7, -5);
    const level = () => high * decades(random, -4, -1.5);
    const made: [number, number][] =
      kind === "modulation"
        ? [
            [high_Hz - low_Hz, level()],
            [high_Hz + low_Hz, level()],
            [high_Hz - 2 * low_Hz, level()],
            [high_Hz + 2 * low_Hz, level()],
          ]
        : [
            [high_Hz - low_Hz, level()],
            [2 * low_Hz - high_Hz, level()],
            [2 * high_Hz - low_Hz, level()],
          ];
    for (const [f, peak] of [[low_Hz, low] as const, [high_Hz, high] as const, ...made]) {
      addTone(signal, rate_Hz, f, peak, anyPhase(random));
    }
    const { theta } = mainsPhase(random, between(random, 49.95, 50.05), { kind: "steady" }, rate_Hz, signal.length);
    addComb(signal, theta, drawLines(random, 10, 1e-4));
    addNoise(signal, chance, rate_Hz, density);
    const [p, q, r, s] = made.map(([, peak]) => peak) as [number, number, number, number];
    const truth = kind === "modulation" ? Math.hypot(p + q, r + s) / high : Math.hypot(p, q + r) / (low + high);
    const recording = recordingOf(rate_Hz, signal);
    const { recordings, input } = oneRecording(recording);
    const read = ({ channels: { left } }: OneChannel<ReturnType<typeof analyseTwoTone>>) => {
      const { imd_pct, doubt, tones, products } = left;
      const stated: Stated[] = [{ what: `imd_pct, ${kind}`, value: imd_pct, truth: 100 * truth, doubt: doubt.imd_pct }];
      tones.forEach(({ level_Vrms, doubt_Vrms }, i) => {
        const truth = (i === 0 ? low : high) * Math.SQRT1_2;
        stated.push({ what: "tone level_Vrms", value: level_Vrms, truth, doubt: doubt_Vrms, note: `tone ${i}` });
      });
      for (const { frequency_Hz, level_Vrms, doubt_Vrms, detected, label } of products) {
        const truth = made.find(([f]) => Math.abs(f - frequency_Hz) < 0.5)![1] * Math.SQRT1_2;
        if (!detected || truth < 3 * doubt_Vrms) continue;
        stated.push({ what: "product level_Vrms", value: level_Vrms, truth, doubt: doubt_Vrms, note: label });
      }
      return stated;
    };
    return {
      recordings,
      input: { ...input, kind },
      analysed: () => leftOf(analyseTwoTone(recording, 1, kind)),
      read,
    };
  },
});
