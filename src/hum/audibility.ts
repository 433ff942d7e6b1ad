import { audibleRange_Hz, earBandwidth_Hz, thresholdCorners_Hz, thresholdOfHearing_dB } from "./hearing.ts";
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
}

export interface Audibility {
  readonly lines: readonly LineAudibility[];
  readonly hiss?: { readonly margin_dB: number; readonly audible: Audible; readonly frequency_Hz: number };
}

const hissBand_Hz = [100, 12_500] as const;
const centresPerOctave = 48;

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
 * @remarks Flat headphone response and a resistive load are assumed; lines do not mask each other.
 * @source ISO 389-7:2019 free field; Glasberg and Moore 1990; IEC 60268-7 for the sensitivity at the terminals
 */
export function audibility(input: AudibilityInput): Audibility {
  const { impedance_ohm, sensitivity_dB_per_V } = input.headphone;
  const divider = impedance_ohm / (impedance_ohm + input.outputImpedance_ohm);
  const spl_dB = (level_Vrms: number) => sensitivity_dB_per_V + 20 * Math.log10(level_Vrms * divider);

  const lines = input.lines.map(({ frequency_Hz, level_Vrms }) => {
    if (!(level_Vrms > 0)) throw new RangeError(`level_Vrms is ${level_Vrms}; a line has a level above 0`);
    const level = spl_dB(level_Vrms);
    const threshold = thresholdOfHearing_dB(frequency_Hz);
    const margin_dB = level - threshold;
    return { frequency_Hz, spl_dB: level, threshold_dB: threshold, margin_dB, audible: heard(margin_dB) };
  });

  const density = input.hissDensity ?? [];
  if (!density.some((point) => point.V_per_rtHz > 0)) return { lines };
  const power = hissPower(density);
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
  if (!Number.isFinite(margin_dB)) return { lines };
  return { lines, hiss: { margin_dB, audible: heard(margin_dB), frequency_Hz: loudest_Hz } };
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
