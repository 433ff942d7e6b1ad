import type { BodyOf } from "../../claims/evidence.ts";
import type { BenchCurve, BenchFigure } from "./views.ts";

type Recorder = BodyOf<"recorder-calibration">["channels"];

export interface Told {
  readonly figures: readonly BenchFigure[];
  readonly curves: readonly BenchCurve[];
  readonly notes: readonly string[];
}

interface ToneAnswer {
  readonly channels: Readonly<
    Record<
      string,
      {
        readonly frequency_Hz: number;
        readonly level_Vrms: number;
        readonly thd_pct: number;
        readonly thdn_pct: number;
        readonly noiseA_Vrms: number;
        readonly doubt: Readonly<Record<string, number>>;
      }
    >
  >;
  readonly notes?: readonly string[];
}

interface NoiseAnswer {
  readonly channels: Readonly<
    Record<
      string,
      {
        readonly noiseA_Vrms: number;
        readonly noise468_Vqp: number;
        readonly hissA_Vrms: number;
        readonly doubt?: Readonly<Record<string, number>>;
      }
    >
  >;
  readonly notes?: readonly string[];
}

interface TwoToneAnswer {
  readonly channels: Readonly<
    Record<string, { readonly imd_pct: number; readonly doubt?: { readonly imd_pct?: number } }>
  >;
  readonly notes?: readonly string[];
}

interface SweepAnswer {
  readonly channels: Readonly<
    Record<string, { readonly frequencies_Hz: readonly number[]; readonly gain_dB: readonly number[] }>
  >;
  readonly notes?: readonly string[];
}

interface TapAnswer {
  readonly taps: number;
  readonly resonances: readonly {
    readonly frequency_Hz: number;
    readonly q: number;
    readonly decay_ms: number;
    readonly peak_Vpk: number;
  }[];
  readonly notes?: readonly string[];
}

interface SupplyAnswer {
  readonly frequency_Hz: number;
  readonly level_Vrms: number;
  readonly crestFactor: number;
  readonly thd_pct: number;
  readonly flat_pct: number;
  readonly reasons: readonly string[];
  readonly doubt: Readonly<Record<"frequency_Hz" | "level_Vrms" | "crestFactor" | "thd_pct" | "flat_pct", number>>;
  readonly notes: readonly string[];
}

interface SwitchOnAnswer {
  readonly channels: Readonly<
    Record<
      string,
      {
        readonly rest_mV?: number;
        readonly pulse_Vpk: number;
        readonly settle_s?: number;
        readonly energy_mJ: number;
        readonly reasons: readonly string[];
        readonly doubt: {
          readonly rest_mV?: number;
          readonly pulse_Vpk: number;
          readonly settle_s?: number;
          readonly energy_mJ: number;
        };
      }
    >
  >;
  readonly notes?: readonly string[];
}

/** The figures that a person at the bench reads off an answer, with what the recorder itself adds beside them. */
export function tell(calculation: string, answer: unknown, recorder: Recorder | undefined): Told {
  switch (calculation) {
    case "bench.tone":
      return inTrueVolts(tellTone(answer as ToneAnswer, recorder), recorder);
    case "bench.noise":
      return inTrueVolts(tellNoise(answer as NoiseAnswer, recorder), recorder);
    case "bench.twotone":
      return tellTwoTones(answer as TwoToneAnswer, recorder);
    case "bench.sweep":
      return tellSweep(answer as SweepAnswer, recorder);
    case "bench.tap":
      return tellTap(answer as TapAnswer);
    case "bench.switchon":
      return inTrueVolts(tellSwitchOn(answer as SwitchOnAnswer), recorder);
    case "bench.supply":
      return tellSupply(answer as SupplyAnswer);
    default:
      return { figures: [], curves: [], notes: [] };
  }
}

/** Volts are only as good as the recorder's full scale: its doubt joins that of the reading. */
function inTrueVolts(told: Told, recorder: Recorder | undefined): Told {
  const figures = told.figures.map((figure): BenchFigure => {
    const known = figure.channel === undefined ? undefined : recorder?.[figure.channel];
    if (!known || !/_(m?V|V(rms|qp|pk))$/.test(figure.quantity)) return figure;
    const share = known.doubt_Vpk / known.fullScale_Vpk;
    return { ...figure, doubt: Math.hypot(figure.doubt ?? 0, share * figure.value) };
  });
  return { ...told, figures };
}

const own = (value: number | undefined) => (value === undefined ? {} : { recorder: value });

function tellTone({ channels, notes = [] }: ToneAnswer, recorder: Recorder | undefined): Told {
  const figures = Object.entries(channels).flatMap(([channel, { doubt, ...seen }]): BenchFigure[] => [
    { channel, quantity: "level_Vrms", value: seen.level_Vrms, doubt: doubt.level_Vrms },
    {
      channel,
      quantity: "thd_pct",
      value: seen.thd_pct,
      doubt: doubt.thd_pct,
      isLimit: (doubt.thd_pct ?? 0) >= seen.thd_pct,
      ...own(recorder?.[channel]?.thd_pct),
    },
    { channel, quantity: "thdn_pct", value: seen.thdn_pct, doubt: doubt.thdn_pct },
    {
      channel,
      quantity: "noiseA_Vrms",
      value: seen.noiseA_Vrms,
      doubt: doubt.noiseA_Vrms,
      ...own(recorder?.[channel]?.noiseA_Vrms),
    },
  ]);
  const { left, right } = channels;
  const balance: BenchFigure[] =
    left && right && left.level_Vrms > 0 && right.level_Vrms > 0
      ? [
          {
            quantity: "balance_dB",
            value: 20 * Math.log10(left.level_Vrms / right.level_Vrms),
            doubt:
              (20 / Math.LN10) *
              Math.hypot(
                (left.doubt.level_Vrms ?? 0) / left.level_Vrms,
                (right.doubt.level_Vrms ?? 0) / right.level_Vrms,
              ),
          },
        ]
      : [];
  return { figures: [...figures, ...balance], curves: [], notes };
}

function tellNoise({ channels, notes = [] }: NoiseAnswer, recorder: Recorder | undefined): Told {
  const figures = Object.entries(channels).flatMap(([channel, seen]): BenchFigure[] => {
    const floor = own(recorder?.[channel]?.noiseA_Vrms);
    return [
      { channel, quantity: "noiseA_Vrms", value: seen.noiseA_Vrms, doubt: seen.doubt?.noiseA_Vrms, ...floor },
      { channel, quantity: "hissA_Vrms", value: seen.hissA_Vrms, doubt: seen.doubt?.hissA_Vrms, ...floor },
      { channel, quantity: "noise468_Vqp", value: seen.noise468_Vqp, doubt: seen.doubt?.noise468_Vqp },
    ];
  });
  return { figures, curves: [], notes };
}

function tellTwoTones({ channels, notes = [] }: TwoToneAnswer, recorder: Recorder | undefined): Told {
  const figures = Object.entries(channels).map(
    ([channel, { imd_pct, doubt }]): BenchFigure => ({
      channel,
      quantity: "imd_pct",
      value: imd_pct,
      doubt: doubt?.imd_pct,
      isLimit: (doubt?.imd_pct ?? 0) >= imd_pct,
      ...own(recorder?.[channel]?.thd_pct),
    }),
  );
  return { figures, curves: [], notes };
}

const against_Hz = 1000;

/** Gain at 1 kHz, and how far the ends of the band lie from it; the recorder's own response is taken off. */
function tellSweep({ channels, notes = [] }: SweepAnswer, recorder: Recorder | undefined): Told {
  const curves = Object.entries(channels).map(([channel, { frequencies_Hz, gain_dB }]): BenchCurve => {
    const response = recorder?.[channel]?.response;
    return {
      channel,
      frequencies_Hz,
      gain_dB: gain_dB.map((gain, i) => (response ? gain - gainAt(response, frequencies_Hz[i]!) : gain)),
    };
  });
  const figures = curves.flatMap((curve): BenchFigure[] => {
    const middle_dB = gainAt(curve, against_Hz);
    return [
      { channel: curve.channel, quantity: "gain_at_1kHz_dB", value: middle_dB },
      ...[20, 20_000]
        .filter((hz) => hz >= curve.frequencies_Hz[0]! * 0.99 && hz <= curve.frequencies_Hz.at(-1)! * 1.01)
        .map((hz) => ({
          channel: curve.channel,
          quantity: hz === 20 ? "response_at_20Hz_dB" : "response_at_20kHz_dB",
          value: gainAt(curve, hz) - middle_dB,
        })),
    ];
  });
  return { figures, curves, notes };
}

/** Straight line in decibels over the logarithm of frequency; held beyond the ends. */
export function gainAt(
  { frequencies_Hz, gain_dB }: { readonly frequencies_Hz: readonly number[]; readonly gain_dB: readonly number[] },
  frequency_Hz: number,
): number {
  const above = frequencies_Hz.findIndex((hz) => hz >= frequency_Hz);
  if (above < 0) return gain_dB.at(-1) ?? 0;
  if (above === 0) return gain_dB[0] ?? 0;
  const [f0, f1] = [frequencies_Hz[above - 1]!, frequencies_Hz[above]!];
  const share = Math.log(frequency_Hz / f0) / Math.log(f1 / f0);
  return gain_dB[above - 1]! * (1 - share) + gain_dB[above]! * share;
}

function tellSupply(supply: SupplyAnswer): Told {
  const quantities = ["frequency_Hz", "level_Vrms", "crestFactor", "thd_pct", "flat_pct"] as const;
  const figures = quantities.map(
    (quantity): BenchFigure => ({ quantity, value: supply[quantity], doubt: supply.doubt[quantity] }),
  );
  return { figures, curves: [], notes: [...supply.reasons, ...supply.notes] };
}

function tellTap({ taps, resonances, notes = [] }: TapAnswer): Told {
  const figures = resonances.slice(0, 5).flatMap((resonance, i): BenchFigure[] => [
    { quantity: `resonance_${i + 1}_Hz`, value: resonance.frequency_Hz },
    { quantity: `ring_${i + 1}_ms`, value: resonance.decay_ms },
    { quantity: `peak_${i + 1}_Vpk`, value: resonance.peak_Vpk },
  ]);
  return { figures: [{ quantity: "taps", value: taps }, ...figures], curves: [], notes };
}

function tellSwitchOn({ channels, notes = [] }: SwitchOnAnswer): Told {
  const entries = Object.entries(channels);
  const figures = entries.flatMap(([channel, { rest_mV, settle_s, doubt, ...seen }]): BenchFigure[] => [
    ...(rest_mV === undefined ? [] : [{ channel, quantity: "jack_mV", value: rest_mV, doubt: doubt.rest_mV }]),
    {
      channel,
      quantity: "pulse_Vpk",
      value: seen.pulse_Vpk,
      doubt: doubt.pulse_Vpk,
      isLimit: doubt.pulse_Vpk >= seen.pulse_Vpk,
    },
    ...(settle_s === undefined ? [] : [{ channel, quantity: "settle_s", value: settle_s, doubt: doubt.settle_s }]),
    { channel, quantity: "pulse_mJ", value: seen.energy_mJ, doubt: doubt.energy_mJ },
  ]);
  const reasons = entries.flatMap(([channel, seen]) => seen.reasons.map((reason) => `${channel}: ${reason}.`));
  return { figures, curves: [], notes: [...reasons, ...notes] };
}
