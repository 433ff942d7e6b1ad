import { analyseTap } from "../../tap.ts";
import { struck } from "../struck.ts";
import { asked, between, decades, oneRecording, pick, recordingOf, streams } from "./draw.ts";

/** source: made with known poles; Q = πfτ. A resonance that is not found counts as a miss. */
export const tapDraws = asked({
  of: "bench.tap",
  calculation: "bench.tap",
  drawn:
    "2.6 s at 11.025 to 22.05 kHz; two taps, two resonances with Q 30 to 130, struck at any sample instant, noise over a decade",
  make(seed) {
    const { random, chance } = streams(seed);
    const rate_Hz = pick(random, [11_025, 16_000, 22_050]);
    const taps_s = [between(random, 0.4, 0.6), between(random, 1.4, 1.7)];
    const rings = [200, 1500].map((low_Hz) => {
      const frequency_Hz = low_Hz * between(random, 1, 2);
      const peak = between(random, 0.02, 0.12);
      return {
        frequency_Hz,
        decay_s: between(random, 30, 130) / (Math.PI * frequency_Hz),
        peaks: [peak, peak * between(random, 0.3, 1.3)],
      };
    });
    const signal = struck(chance, rate_Hz, 2.6, taps_s, rings, decades(random, -6, -4.7));
    const recording = recordingOf(rate_Hz, signal);
    return {
      ...oneRecording(recording),
      analysed: () => analyseTap(recording, 1),
      read: ({ resonances }: ReturnType<typeof analyseTap>) =>
        rings.flatMap(({ frequency_Hz, decay_s, peaks }) => {
          const found = resonances.find((one) => Math.abs(one.frequency_Hz / frequency_Hz - 1) < 0.03);
          const truths = {
            frequency_Hz,
            q: Math.PI * frequency_Hz * decay_s,
            decay_ms: 1000 * decay_s,
            peak_Vpk: Math.max(...peaks),
          };
          return Object.entries(truths).map(([what, truth]) => {
            const name = what as keyof typeof truths;
            return {
              what,
              value: found?.[name] ?? 0,
              truth,
              doubt: found?.doubt[name] ?? 0,
              note: found ? "" : "not found",
            };
          });
        }),
    };
  },
});
