import { BadInput, quote } from "../../maths/badInput.ts";
import { guard, type Verdict } from "../../measurement/index.ts";
import { channelNames } from "../channels.ts";
import { findTone } from "../findTone.ts";
import type { Recording } from "../recording.ts";
import { fitTone } from "../toneFit.ts";
import { type Waveform, waveformOf } from "./waveform.ts";

export interface SupplyLimits {
  readonly nominal_V?: number;
  readonly level_pct: number;
  readonly crestFactor: number;
  readonly thd_pct: number;
}

/** Common practice for a supply that shall count as clean; no source. A sine's crest factor is √2. */
export const usualLimits: SupplyLimits = { level_pct: 3, crestFactor: 1.38, thd_pct: 2 };

export interface SupplyTest {
  readonly name: "level" | "crest factor" | "distortion";
  readonly value: number;
  readonly doubt: number;
  readonly low?: number;
  readonly high?: number;
  readonly state: Verdict;
}

export interface SupplyReport extends Waveform {
  readonly frequency_Hz: number;
  readonly doubt_Hz: number;
  readonly tests: readonly SupplyTest[];
  readonly state: Verdict;
  readonly reasons: readonly string[];
}

const leastRecord_s = 0.7;
const orders = 10;

/**
 * A supply on trial: is it the sine it should be, or are its peaks cut and its voltage low?
 *
 * A supply whose peaks are cut charges reservoirs to less: HT and ripple fall, and with them a hum that the supply has
 * not cured.
 *
 * @param volts_per_V  volts of the supply for one volt at the recorder's input (the divider or small transformer)
 * @throws BadInput  no steady supply in the channel, or a record under 0.7 s
 */
export function analyseSupply(
  recording: Recording,
  fullScale_Vpk: number,
  {
    names,
    channel,
    volts_per_V = 1,
    limits,
  }: { names?: readonly string[]; channel?: string; volts_per_V?: number; limits: SupplyLimits },
): SupplyReport {
  const known = channelNames(recording.samples.length, names);
  const asked = channel ?? (known.includes("supply") ? "supply" : known.includes("mains") ? "mains" : known[0]!);
  const index = known.indexOf(asked);
  if (index < 0) {
    throw new BadInput("channel", quote(asked), `one of ${known.join(", ")}`, "name the channel that holds the supply");
  }
  const { rate_Hz } = recording;
  const duration_s = recording.samples[index]!.length / rate_Hz;
  if (duration_s < leastRecord_s) {
    throw new BadInput("recording", `${duration_s.toFixed(2)} s`, `at least ${leastRecord_s} s`, "record for longer");
  }
  const signal_V = recording.samples[index]!.map((value) => value * fullScale_Vpk * volts_per_V);
  const roughly_Hz = findTone(signal_V, rate_Hz, undefined);
  if (roughly_Hz === undefined || roughly_Hz < 15 || roughly_Hz > 1000) {
    throw new BadInput(
      "recording",
      roughly_Hz === undefined ? "nothing that stands out of the noise" : `a tone of ${roughly_Hz.toFixed(1)} Hz`,
      "a supply between 15 and 1000 Hz as the strongest line",
      "join the recorder to the supply through a divider or small transformer made for it",
    );
  }
  const fit = fitTone(signal_V, rate_Hz, roughly_Hz, orders);
  const left_V2 = fit.rest.reduce((sum, value) => sum + value * value, 0) / fit.rest.length;
  if (left_V2 > fit.harmonics[0]!.peak_V ** 2 / 2) {
    throw new BadInput(
      "recording",
      `a tone at ${fit.frequency_Hz.toFixed(1)} Hz that is weaker than what is beside it`,
      "a steady supply with its harmonics",
      "record the supply alone, not music or noise",
    );
  }
  const wave = waveformOf(signal_V, rate_Hz, fit.frequency_Hz);
  const tests = testsOf(wave, limits);
  return {
    ...wave,
    frequency_Hz: fit.frequency_Hz,
    doubt_Hz: 1.96 * fit.frequencySd_Hz,
    tests,
    state: worst(tests),
    reasons: tests.filter(({ state }) => state !== "proven").map(reasonOf),
  };
}

function testsOf(wave: Waveform, { nominal_V, level_pct, crestFactor, thd_pct }: SupplyLimits): SupplyTest[] {
  const test = (name: SupplyTest["name"], value: number, doubt: number, low?: number, high?: number): SupplyTest => ({
    name,
    value,
    doubt,
    ...(low !== undefined && { low }),
    ...(high !== undefined && { high }),
    state: guard({ value, doubt, ...(low !== undefined && { low }), ...(high !== undefined && { high }) }).state,
  });
  return [
    ...(nominal_V === undefined
      ? []
      : [
          test(
            "level",
            wave.level_Vrms,
            wave.doubt.level_Vrms,
            nominal_V * (1 - level_pct / 100),
            nominal_V * (1 + level_pct / 100),
          ),
        ]),
    test("crest factor", wave.crestFactor, wave.doubt.crestFactor, crestFactor),
    test("distortion", wave.thd_pct, wave.doubt.thd_pct, undefined, thd_pct),
  ];
}

function worst(tests: readonly SupplyTest[]): Verdict {
  if (tests.some(({ state }) => state === "refuted")) return "refuted";
  return tests.some(({ state }) => state === "undecided") ? "undecided" : "proven";
}

function reasonOf({ name, value, low, high, state }: SupplyTest): string {
  const limit = [
    low === undefined ? "" : `not under ${low.toPrecision(4)}`,
    high === undefined ? "" : `not over ${high.toPrecision(4)}`,
  ]
    .filter(Boolean)
    .join(", ");
  const verdict = state === "refuted" ? "outside" : "too near to tell";
  const what = name === "crest factor" ? "its peaks are cut: crest factor" : name === "level" ? "level" : "distortion";
  return `${what} ${value.toPrecision(4)}, ${limit}: ${verdict}`;
}
