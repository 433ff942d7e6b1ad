import { plainNumber, withDoubt } from "../common/number.ts";

/** A voltage in the unit that keeps it readable: `122 ± 2 µV`. */
export function levelWords(level_Vrms: number, doubt_Vrms?: number): string {
  const [factor, unit] =
    level_Vrms < 1e-8 ? [1e9, "nV"] : level_Vrms < 1e-3 ? [1e6, "µV"] : level_Vrms < 1 ? [1e3, "mV"] : [1, "V"];
  return `${withDoubt(level_Vrms * factor, doubt_Vrms === undefined ? undefined : doubt_Vrms * factor)} ${unit}`;
}

/** A frequency as it is spoken of at the bench: whole where it is near enough, else one or two decimals. */
export function hertz(frequency_Hz: number): string {
  const rounded = frequency_Hz < 100 ? Math.round(frequency_Hz * 10) / 10 : Math.round(frequency_Hz);
  return plainNumber(rounded);
}
