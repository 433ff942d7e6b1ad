import { bareGain, type GainProbe } from "./probes.ts";

const prefixes = [
  [1e9, "Gohm"],
  [1e6, "Mohm"],
  [1e3, "kohm"],
  [1, "ohm"],
] as const;

/** Ohms as people write them, three digits: `4.7 kohm`. */
export function ohmsInWords(ohm: number): string {
  const [scale, unit] = prefixes.find(([least]) => ohm >= least) ?? [1, "ohm"];
  return `${Number((ohm / scale).toPrecision(3))} ${unit}`;
}

/** A gain as it is expected, from the value it is compared by. */
export function gainInWords(value: number, probe: GainProbe): string {
  const { gain_dB, under } = bareGain(value, probe);
  return `${under ? "under" : "about"} ${gain_dB.toFixed(1)} dB`;
}
