import type { Evidence, Requirement } from "../../claims/evidence.ts";
import type { Finding } from "../findings.ts";
import { version } from "../version.ts";
import { gainAt } from "./figures.ts";

export type BenchNeed = Pick<Requirement, "quantity" | "channel" | "point">;
type Calibrations = ReadonlyMap<string, Evidence<"recorder-calibration">>;
type Taken = Evidence<"recording">;

interface Answer {
  readonly channels: Readonly<
    Record<
      string,
      {
        readonly hissA_Vrms?: number;
        readonly level_Vrms?: number;
        readonly frequencies_Hz?: readonly number[];
        readonly gain_dB?: readonly number[];
        readonly rest_mV?: number;
        readonly pulse_Vpk?: number;
        readonly settle_s?: number;
        readonly energy_mJ?: number;
        readonly doubt?: Readonly<Record<string, number | readonly number[]>>;
      }
    >
  >;
}

/** Doubt of a response where the calculation states none: common practice for a recorder that was looped back, no source. */
const usualResponseDoubt_dB = 0.1;

/**
 * How findings are drawn from one bench recording, or nothing when no claim asks for what it can tell.
 *
 * Hiss from a record of noise; direct voltage and pulse at the jack from one of switching on; gain from a tone whose level at the input is known; response from a sweep, against
 * 1 kHz, the recorder's own taken off.
 */
export function benchFindings(
  recording: Taken,
  calculation: string,
  needs: readonly BenchNeed[],
  calibrations: Calibrations,
): ((answer: Answer) => Finding[]) | undefined {
  const { unit, stimulus, instrument, driven } = recording.body;
  const asks = (quantity: string) => needs.some((need) => need.quantity === quantity);
  const write = (channel: string, finding: Pick<Finding, "quantity" | "value" | "doubt">, point?: string): Finding => ({
    subject: { unit, channel, ...(point !== undefined && { point }) },
    ...finding,
    calculation,
    version,
    from: [recording.id],
  });
  const isDriven = (channel: string) => driven === undefined || driven === "both" || driven === channel;
  if (calculation === "bench.noise" && asks("hissA_uVrms")) {
    return ({ channels }) =>
      Object.entries(channels).flatMap(([channel, { hissA_Vrms, doubt }]) => {
        const doubt_Vrms = doubt?.hissA_Vrms;
        if (hissA_Vrms === undefined || typeof doubt_Vrms !== "number") return [];
        return [write(channel, { quantity: "hissA_uVrms", value: 1e6 * hissA_Vrms, doubt: 1e6 * doubt_Vrms })];
      });
  }
  if (calculation === "bench.tone" && asks("gain_dB") && stimulus?.kind === "tone" && stimulus.level_Vpk) {
    const sent_Vrms = stimulus.level_Vpk / Math.SQRT2;
    return ({ channels }) =>
      Object.entries(channels).flatMap(([channel, { level_Vrms, doubt }]) => {
        const doubt_Vrms = doubt?.level_Vrms;
        if (!isDriven(channel) || !level_Vrms || typeof doubt_Vrms !== "number") return [];
        const calibration = calibrations.get(instrument)?.body.channels[channel];
        const scale = calibration ? calibration.doubt_Vpk / calibration.fullScale_Vpk : 0;
        const doubt_dB = (20 / Math.LN10) * Math.hypot(doubt_Vrms / level_Vrms, scale);
        return [
          write(channel, { quantity: "gain_dB", value: 20 * Math.log10(level_Vrms / sent_Vrms), doubt: doubt_dB }),
        ];
      });
  }
  if (calculation === "bench.sweep" && asks("response_dB")) {
    return ({ channels }) =>
      Object.entries(channels).flatMap(([channel, { frequencies_Hz, gain_dB, doubt }]) => {
        if (!isDriven(channel) || !frequencies_Hz || !gain_dB) return [];
        const response = calibrations.get(instrument)?.body.channels[channel]?.response;
        const at = (hz: number) => gainAt({ frequencies_Hz, gain_dB }, hz) - (response ? gainAt(response, hz) : 0);
        const stated = doubt?.gain_dB;
        const doubtAt = (hz: number) =>
          Array.isArray(stated) ? gainAt({ frequencies_Hz, gain_dB: stated }, hz) : usualResponseDoubt_dB;
        return needs
          .filter((need) => need.quantity === "response_dB" && need.channel === channel && need.point !== undefined)
          .flatMap((need) => {
            const hz = frequencyNamed(need.point!);
            if (hz === undefined || hz < frequencies_Hz[0]! * 0.9 || hz > frequencies_Hz.at(-1)! * 1.1) return [];
            const doubt_dB = Math.hypot(doubtAt(hz), doubtAt(1000));
            return [write(channel, { quantity: "response_dB", value: at(hz) - at(1000), doubt: doubt_dB }, need.point)];
          });
      });
  }
  const asked = Object.entries(ofSwitchingOn).filter(([, quantity]) => asks(quantity));
  if (calculation === "bench.switchon" && asked.length > 0) {
    return ({ channels }) =>
      Object.entries(channels).flatMap(([channel, { doubt, ...seen }]) =>
        asked.flatMap(([field, quantity]) => {
          const value = seen[field as keyof typeof ofSwitchingOn];
          const stated = doubt?.[field];
          if (value === undefined || typeof stated !== "number") return [];
          const calibration = calibrations.get(instrument)?.body.channels[channel];
          const scale = calibration && field !== "settle_s" ? calibration.doubt_Vpk / calibration.fullScale_Vpk : 0;
          const power = field === "energy_mJ" ? 2 : 1;
          return [write(channel, { quantity, value, doubt: Math.hypot(stated, power * scale * value) })];
        }),
      );
  }
  return undefined;
}

/** What a claim calls the figures of switching on. */
const ofSwitchingOn = {
  rest_mV: "jack_mV",
  pulse_Vpk: "pulse_Vpk",
  settle_s: "settle_s",
  energy_mJ: "pulse_mJ",
} as const;

/** `20 Hz`, `20 kHz`: a point on the frequency axis as a claim names it. */
function frequencyNamed(point: string): number | undefined {
  const [, figure, kilo] = /^\s*(\d+(?:\.\d+)?)\s*(k?)Hz\s*$/.exec(point) ?? [];
  return figure === undefined ? undefined : Number(figure) * (kilo ? 1000 : 1);
}
