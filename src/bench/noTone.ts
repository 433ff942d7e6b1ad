import { BadInput } from "../maths/badInput.ts";

/** Sample rates that a file's header may have been given in the place of another. */
export const usualRates_Hz: readonly number[] = [
  8000, 11_025, 16_000, 22_050, 32_000, 44_100, 48_000, 88_200, 96_000, 176_400, 192_000,
];
/** Generators are right to a tenth of this, and no two usual rates are so near each other. */
const near = 0.002;

/**
 * The sample rate at which a recording was made, were its header wrong: the usual one that puts a tone seen elsewhere at
 * its nominal.
 *
 *     made at = header's·nominal/seen
 */
function rateInstead(rate_Hz: number, seen_Hz: number, nominal_Hz: number): number | undefined {
  const made_Hz = (rate_Hz * nominal_Hz) / seen_Hz;
  return usualRates_Hz.find((usual_Hz) => usual_Hz !== rate_Hz && Math.abs(made_Hz / usual_Hz - 1) < near);
}

/**
 * Why a recording holds no tone where one should be: not one sample moves, a tone stands elsewhere, perhaps because the
 * header's rate is wrong, or nothing stands out.
 *
 * @param field  where nominals stand in the input, when they were given
 * @param strongest_Hz  the strongest tone that is there
 */
export function noTone(seen: {
  readonly rate_Hz: number;
  readonly moves: boolean;
  readonly strongest_Hz: number | undefined;
  readonly nominals_Hz: readonly number[];
  readonly field: string;
  readonly tones?: "one steady tone" | "two steady tones";
}): BadInput {
  const { rate_Hz, moves, strongest_Hz, nominals_Hz, field, tones = "one steady tone" } = seen;
  const none = tones === "two steady tones" ? "no two tones" : "no tone";
  if (!moves) {
    return new BadInput(
      "recording",
      "digital silence or nothing but a constant voltage",
      `a recording of ${tones}`,
      "check that the channel was connected and the input chosen",
    );
  }
  if (nominals_Hz.length === 0 || strongest_Hz === undefined) {
    const which = nominals_Hz.length > 0 ? `${none} near ${nominals_Hz.join(" and ")} Hz, nor one elsewhere,` : none;
    return new BadInput(
      nominals_Hz.length > 0 ? field : "recording",
      `${which} that stands out of the noise`,
      `a recording of ${tones}`,
      "check generator, lead and channel, or record for longer",
    );
  }
  const given = `${none} near ${nominals_Hz.join(" and ")} Hz; the strongest stands at ${strongest_Hz.toFixed(2)} Hz`;
  const made_Hz = nominals_Hz
    .map((nominal_Hz) => rateInstead(rate_Hz, strongest_Hz, nominal_Hz))
    .find((made) => made !== undefined);
  return made_Hz === undefined
    ? new BadInput(field, given, "nominals good to 0.1 %", "give those of the tones that were sent, or leave them out")
    : new BadInput(
        field,
        given,
        "a file whose header tells its rate, and nominals good to 0.1 %",
        `the tone fits a recording made at ${made_Hz} samples a second, but the header says ${rate_Hz}: set it right`,
      );
}
