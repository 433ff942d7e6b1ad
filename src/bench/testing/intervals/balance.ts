import { balanceOfTone } from "../../balance.ts";
import { addComb, addNoise, addTone, drawLines, mainsPhase } from "../synthesiser.ts";
import { anyPhase, asked, between, decades, oneRecording, pick, recordingOf, streams } from "./draw.ts";

interface Answered {
  readonly byPosition: readonly [{ readonly difference_dB: number; readonly doubt_dB: number }];
  readonly crosstalk_dB?: { readonly leftToRight: number };
  readonly doubt: { readonly crosstalk_dB?: { readonly leftToRight: number } };
}

/** source: 20·lg of the levels put in. */
export const balanceDraws = asked({
  of: "bench.balance",
  calculation: "bench.balance",
  drawn:
    "0.7 to 2.7 s at 8 to 16 kHz; a tone of 300 to 2300 Hz in both channels, up to 2 dB apart or 40 to 60 dB, a harmonic, steady hum, noise over a decade",
  make(seed) {
    const { random, chance } = streams(seed);
    const rate_Hz = pick(random, [8000, 11_025, 16_000]);
    const length = Math.round(between(random, 0.7, 2.7) * rate_Hz);
    const crossed = random.uniform() < 0.5;
    const density = decades(random, -6.5, -5.5);
    const down_dB = crossed ? between(random, 40, 60) : between(random, 0, 2);
    const tone_Hz = between(random, 300, 2300);
    const { theta } = mainsPhase(random, 49.97, { kind: "steady" }, rate_Hz, length);
    const samples = [0.5, 0.5 * 10 ** (-down_dB / 20)].map((peak, c) => {
      const signal = new Float64Array(length);
      addTone(signal, rate_Hz, tone_Hz, peak, anyPhase(random));
      addTone(signal, rate_Hz, 2 * tone_Hz, peak / 300, anyPhase(random));
      addComb(signal, theta, drawLines(random, 6, 1e-5));
      addNoise(signal, chance.fork(c), rate_Hz, density);
      return signal;
    });
    const recording = recordingOf(rate_Hz, ...samples);
    const { recordings, input } = oneRecording(recording);
    const driven = crossed ? "left" : "both";
    return {
      recordings,
      input: { recordings: [input], kind: "tone", driven },
      analysed() {
        const { difference_dB, doubt_dB, ...rest } = balanceOfTone({
          recording,
          fullScale_Vpk: 1,
          driven,
          field: "recordings[0]",
        });
        return {
          byPosition: [{ difference_dB, doubt_dB }],
          crosstalk_dB: { leftToRight: rest.crosstalk_dB },
          doubt: { crosstalk_dB: { leftToRight: rest.crosstalkDoubt_dB } },
        };
      },
      read({ byPosition, crosstalk_dB, doubt }: Answered) {
        const [{ difference_dB, doubt_dB }] = byPosition;
        return crossed
          ? [
              {
                what: "crosstalk_dB",
                value: crosstalk_dB!.leftToRight,
                truth: -down_dB,
                doubt: doubt.crosstalk_dB!.leftToRight,
              },
            ]
          : [{ what: "difference_dB", value: difference_dB, truth: down_dB, doubt: doubt_dB }];
      },
    };
  },
});
