import { BadInput, quote } from "../maths/badInput.ts";

/** A headphone as its maker tells it. */
export interface Headphone {
  readonly impedance_ohm: number;
  readonly sensitivity_dB_per_V: number;
}

export interface JackReading {
  readonly dc_V: number;
  /** Greatest steady level that the amplifier gives into this headphone. */
  readonly greatest_Vrms: number;
  readonly headphone: Headphone;
}

export interface AtTheJack {
  /** Direct voltage heats the coil and shifts the diaphragm. */
  readonly dc_mW: number;
  readonly greatest_mW: number;
  /** Sound pressure of the greatest level; a flat headphone response assumed. */
  readonly greatest_dBSPL: number;
}

/**
 * What a headphone gets at the jack.
 *
 *     P = U²/Z,   level = sensitivity + 20·lg(U)
 *
 * @throws BadInput  an impedance not above 0, a level that is negative or not finite
 * @remarks No standard limits direct voltage at a headphone output; the workshop sets its own.
 * @source  definitions; example in reference/safety.json (300 ohm, 96 dB/mW: 0.5477 V make 1 mW and 96 dB)
 */
export function atTheJack({ dc_V, greatest_Vrms, headphone }: JackReading): AtTheJack {
  const { impedance_ohm, sensitivity_dB_per_V } = headphone;
  if (!(impedance_ohm > 0 && impedance_ohm < Number.POSITIVE_INFINITY)) {
    throw new BadInput(
      "headphone.impedance_ohm",
      quote(impedance_ohm),
      "above 0",
      "take it from the headphone's paper",
    );
  }
  if (!Number.isFinite(sensitivity_dB_per_V)) {
    throw new BadInput(
      "headphone.sensitivity_dB_per_V",
      quote(sensitivity_dB_per_V),
      "a finite number",
      "give dB at 1 V",
    );
  }
  if (!Number.isFinite(dc_V)) throw new BadInput("dc_V", quote(dc_V), "a finite number", "read it again");
  if (!(greatest_Vrms > 0 && greatest_Vrms < Number.POSITIVE_INFINITY)) {
    throw new BadInput("greatest_Vrms", quote(greatest_Vrms), "above 0", "give the level just before clipping");
  }
  return {
    dc_mW: (1000 * dc_V ** 2) / impedance_ohm,
    greatest_mW: (1000 * greatest_Vrms ** 2) / impedance_ohm,
    greatest_dBSPL: sensitivity_dB_per_V + 20 * Math.log10(greatest_Vrms),
  };
}
