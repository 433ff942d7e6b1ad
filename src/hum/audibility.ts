import {
  audibleRange_Hz,
  earBandEdge_Hz,
  earBandNumber,
  earBandwidth_Hz,
  maskedUnderHiss_dB,
  thresholdCorners_Hz,
  thresholdOfHearing_dB,
} from "./hearing.ts";
import { type HissPoint, hissPower } from "./hissPower.ts";

export interface Headphone {
  readonly impedance_ohm: number;
  readonly sensitivity_dB_per_V: number;
}

export interface AudibilityInput {
  readonly lines: readonly { readonly frequency_Hz: number; readonly level_Vrms: number }[];
  readonly hissDensity?: readonly HissPoint[];
  readonly outputImpedance_ohm: number;
  readonly headphone: Headphone;
}

export type Audible = "yes" | "no" | "doubtful";

export interface LineAudibility {
  readonly frequency_Hz: number;
  readonly spl_dB: number;
  readonly threshold_dB: number;
  readonly margin_dB: number;
  readonly audible: Audible;
  /** Left out where no hiss was given, or none lies there. */
  readonly masking?: Masking;
}

/** Whether the hiss in a line's own band of the ear covers it, beside whether it could be heard in silence. */
export interface Masking {
  readonly hiss_dB: number;
  /** Line over what just stands out of that hiss. */
  readonly margin_dB: number;
  readonly masked: Audible;
}

/** What falls into one band of the ear, lines and hiss together. */
export interface BandAudibility {
  readonly low_Hz: number;
  readonly high_Hz: number;
  readonly lines: number;
  readonly spl_dB: number;
  /** Powers over the threshold added up, each at its own frequency, the hiss at the band's middle. */
  readonly margin_dB: number;
  readonly audible: Audible;
}

export interface Audibility {
  readonly lines: readonly LineAudibility[];
  /** Bands one equivalent rectangular bandwidth wide, side by side, that hold a line or hiss. */
  readonly bands: readonly BandAudibility[];
  readonly hiss?: { readonly margin_dB: number; readonly audible: Audible; readonly frequency_Hz: number };
}

const hissBand_Hz = [100, 12_500] as const;
const centresPerOctave = 48;

/** How far listeners and frequencies differ in what hiss hides; common practice, no source. */
const maskingDoubt_dB = 5;

/** Beyond this margin the answer is plain; within it, specimens and listeners differ too much to say. */
export const plainMargin_dB = 10;

/**
 * What a listener hears of hum lines and hiss on one headphone, each line and band by itself.
 *
 *     SPL = sensitivity + 20 lg(U · Z / (Z + Z_out))        margin = SPL − threshold
 *
 * The hiss margin is the greatest over bands one ERB wide, centred from 100 Hz to 12.5 kHz, of band level over the
 * threshold at the centre.
 *
 * @param input  open-circuit levels [Vrms] and density [V/√Hz] at the output socket, impedances [Ω]
 * @returns levels and thresholds [dB SPL], margins [dB]; `hiss` is left out when no density, or only zeros, was given
 * @throws RangeError  a line outside the table of thresholds, or with no level
 * A line is masked where it falls 3 dB under the hiss in its own band, give or take 5 dB.
 *
 * @remarks Flat headphone response and a resistive load are assumed; lines do not mask each other. `audible` is in
 *   silence; masking stands beside it and changes nothing in it.
 * @source ISO 389-7:2019 free field; Glasberg and Moore 1990; IEC 60268-7 for the sensitivity at the terminals
 */
export function audibility(input: AudibilityInput): Audibility {
  const { impedance_ohm, sensitivity_dB_per_V } = input.headphone;
  const divider = impedance_ohm / (impedance_ohm + input.outputImpedance_ohm);
  const spl_dB = (level_Vrms: number) => sensitivity_dB_per_V + 20 * Math.log10(level_Vrms * divider);

  const density = input.hissDensity ?? [];
  const power = density.some((point) => point.V_per_rtHz > 0) ? hissPower(density) : undefined;
  /** Level of the hiss in a band [dB SPL]. */
  const hissIn_dB = (low_Hz: number, high_Hz: number) =>
    power === undefined ? Number.NEGATIVE_INFINITY : spl_dB(Math.sqrt(power(low_Hz, high_Hz)));

  const lines = input.lines.map(({ frequency_Hz, level_Vrms }): LineAudibility => {
    if (!(level_Vrms > 0)) throw new RangeError(`level_Vrms is ${level_Vrms}; a line has a level above 0`);
    const level = spl_dB(level_Vrms);
    const threshold = thresholdOfHearing_dB(frequency_Hz);
    const margin_dB = level - threshold;
    const half_Hz = earBandwidth_Hz(frequency_Hz) / 2;
    const hiss_dB = hissIn_dB(frequency_Hz - half_Hz, frequency_Hz + half_Hz);
    return {
      frequency_Hz,
      spl_dB: level,
      threshold_dB: threshold,
      margin_dB,
      audible: heard(margin_dB),
      ...(Number.isFinite(hiss_dB) && { masking: maskingOf(level, hiss_dB) }),
    };
  });
  const bands = bandsOf(lines, hissIn_dB);
  if (power === undefined) return { lines, bands };
  let margin_dB = Number.NEGATIVE_INFINITY;
  let loudest_Hz: number = hissBand_Hz[0];
  for (const centre_Hz of hissCentres_Hz) {
    const half_Hz = earBandwidth_Hz(centre_Hz) / 2;
    const band_V2 = power(centre_Hz - half_Hz, centre_Hz + half_Hz);
    const margin = spl_dB(Math.sqrt(band_V2)) - thresholdOfHearing_dB(centre_Hz);
    if (margin > margin_dB) {
      margin_dB = margin;
      loudest_Hz = centre_Hz;
    }
  }
  if (!Number.isFinite(margin_dB)) return { lines, bands };
  return { lines, bands, hiss: { margin_dB, audible: heard(margin_dB), frequency_Hz: loudest_Hz } };
}

function maskingOf(line_dB: number, hiss_dB: number): Masking {
  const margin_dB = line_dB - (hiss_dB + maskedUnderHiss_dB);
  const masked = margin_dB > maskingDoubt_dB ? "no" : margin_dB < -maskingDoubt_dB ? "yes" : "doubtful";
  return { hiss_dB, margin_dB, masked };
}

function bandsOf(
  lines: readonly LineAudibility[],
  hissIn_dB: (low_Hz: number, high_Hz: number) => number,
): BandAudibility[] {
  const last = Math.ceil(earBandNumber(audibleRange_Hz[1]));
  return Array.from({ length: last }, (_, n): BandAudibility | undefined => {
    const low_Hz = Math.max(earBandEdge_Hz(n), audibleRange_Hz[0]);
    const high_Hz = Math.min(earBandEdge_Hz(n + 1), audibleRange_Hz[1]);
    const inside = lines.filter(
      ({ frequency_Hz: f }) => f >= low_Hz && (f < high_Hz || (f === high_Hz && n === last - 1)),
    );
    const hiss_dB = hissIn_dB(low_Hz, high_Hz);
    const middle_Hz = Math.min(high_Hz, Math.max(low_Hz, earBandEdge_Hz(n + 0.5)));
    const margin_dB = summed_dB([...inside.map((line) => line.margin_dB), hiss_dB - thresholdOfHearing_dB(middle_Hz)]);
    if (!Number.isFinite(margin_dB)) return undefined;
    const spl_dB = summed_dB([...inside.map((line) => line.spl_dB), hiss_dB]);
    return { low_Hz, high_Hz, lines: inside.length, spl_dB, margin_dB, audible: heard(margin_dB) };
  }).filter((band) => band !== undefined);
}

function summed_dB(levels_dB: readonly number[]): number {
  return 10 * Math.log10(levels_dB.reduce((sum, level) => sum + 10 ** (level / 10), 0));
}

/** yes above +10 dB, no below −10 dB: specimens, fit and listeners together reach about that far. */
function heard(margin_dB: number): Audible {
  if (margin_dB > plainMargin_dB) return "yes";
  return margin_dB < -plainMargin_dB ? "no" : "doubtful";
}

const hissCentres_Hz = [
  ...Array.from(
    { length: Math.ceil(Math.log2(hissBand_Hz[1] / hissBand_Hz[0]) * centresPerOctave) },
    (_, i) => hissBand_Hz[0] * 2 ** (i / centresPerOctave),
  ),
  ...thresholdCorners_Hz,
].filter((f) => f >= hissBand_Hz[0] && f <= hissBand_Hz[1] && f >= audibleRange_Hz[0]);
