import { asWritten, readNumber } from "../common/number.ts";

const powers: Readonly<Record<string, number>> = { r: 1, "": 1, k: 1e3, K: 1e3, M: 1e6, G: 1e9 };

/** Ohms as they are written at a bench: `820`, `4,7k`, `4k7`, `1M`, `2.2 MΩ`. Nothing when it can't be read. */
export function readOhms(typed: string): number | undefined {
  const plain = typed
    .trim()
    .replace(/\s*(Ω|ohm)$/i, "")
    .replace(/[\s\u00a0\u2009\u202f]/g, "");
  const inside = /^(\d+)([rkKMG])(\d+)$/.exec(plain);
  if (inside) return Number(`${inside[1]}.${inside[3]}`) * powers[inside[2]!]!;
  const after = /^(.*?)([rkKMG]?)$/.exec(plain);
  const read = readNumber(after?.[1] ?? "");
  return read.ok ? read.value * powers[after?.[2] ?? ""]! : undefined;
}

const steps = [
  [1e9, "GΩ"],
  [1e6, "MΩ"],
  [1e3, "kΩ"],
] as const;

/** `4.73 kΩ`, three figures. */
export function ohmsInWords(ohm: number): string {
  const [scale, unit] = steps.find(([least]) => Math.abs(ohm) >= least) ?? [1, "Ω"];
  const value = ohm / scale;
  const decimals = value === 0 ? 0 : Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value))));
  return `${asWritten(String(Number(value.toFixed(Math.min(3, decimals)))))} ${unit}`;
}
