import type { BenchedView } from "../../workshop/notebook/views.ts";
import { readNumber } from "../common/number.ts";

/** Ends, loads and limits of a version as they are typed. */
export interface TypedBench {
  readonly channels: readonly { readonly channel: string; readonly input: string; readonly output: string }[];
  readonly loads: readonly { readonly name: string; readonly ohm: string; readonly level: string }[];
  readonly balance: string;
  readonly gain: string;
}

export const emptyBench: TypedBench = { channels: [], loads: [], balance: "", gain: "" };

/** What was kept of them as text, or the empty bench. */
export function benchOf(text: string): TypedBench {
  try {
    const kept = JSON.parse(text) as Partial<TypedBench>;
    return { ...emptyBench, ...kept };
  } catch {
    return emptyBench;
  }
}

const typed = (value: number | undefined) => (value === undefined ? "" : String(value));

export function typedBench({ channels, loads, limits }: BenchedView): TypedBench {
  return {
    channels,
    loads: loads.map(({ name, ohm, level_Vrms }) => ({ name, ohm: String(ohm), level: typed(level_Vrms) })),
    balance: typed(limits.balance_dB),
    gain: typed(limits.gain_dB),
  };
}

const numberOr = (text: string): number | undefined => {
  const read = readNumber(text);
  return read.ok && read.value > 0 ? read.value : undefined;
};

/** What can be read of it; lines that are empty are left out. */
export function benchedOf({ channels, loads, balance, gain }: TypedBench): BenchedView {
  const balance_dB = numberOr(balance);
  const gain_dB = numberOr(gain);
  return {
    channels: channels.filter(({ channel, input, output }) => channel.trim() !== "" && input !== "" && output !== ""),
    loads: loads.flatMap(({ name, ohm, level }) => {
      const read = numberOr(ohm);
      const level_Vrms = numberOr(level);
      return name.trim() === "" || read === undefined
        ? []
        : [{ name: name.trim(), ohm: read, ...(level_Vrms !== undefined && { level_Vrms }) }];
    }),
    limits: { ...(balance_dB !== undefined && { balance_dB }), ...(gain_dB !== undefined && { gain_dB }) },
  };
}

/** A small stage that works, to begin from. */
export const sample = `{
  "ground": "0",
  "parts": [
    { "id": "HT", "kind": "voltage", "between": ["ht", "0"], "dc_V": 250, "tolerance": 0.03, "stage": "supply" },
    { "id": "IN", "kind": "voltage", "between": ["in", "0"], "dc_V": 0, "ac_V": 1, "stage": "gain", "channel": "left" },
    { "id": "R1", "kind": "resistor", "between": ["in", "0"], "ohm": 470000, "tolerance": 0.05, "stage": "gain", "channel": "left" },
    { "id": "V1a", "kind": "triode", "type": "6SN7GT", "plate": "a", "grid": "in", "cathode": "k", "tolerance": { "current": 0.3, "mu": 0.1 }, "stage": "gain", "channel": "left" },
    { "id": "R2", "kind": "resistor", "between": ["ht", "a"], "ohm": 47000, "tolerance": 0.05, "stage": "gain", "channel": "left" },
    { "id": "R3", "kind": "resistor", "between": ["k", "0"], "ohm": 1000, "tolerance": 0.05, "stage": "gain", "channel": "left" },
    { "id": "C1", "kind": "capacitor", "between": ["a", "out"], "uF": 1, "tolerance": 0.1, "stage": "gain", "channel": "left" },
    { "id": "R4", "kind": "resistor", "between": ["out", "0"], "ohm": 470000, "tolerance": 0.05, "stage": "gain", "channel": "left" }
  ],
  "testPoints": [
    { "name": "HT", "node": "ht", "stage": "supply" },
    { "name": "plate", "node": "a", "stage": "gain", "channel": "left", "tolerance": 0.15 },
    { "name": "cathode", "node": "k", "stage": "gain", "channel": "left" },
    { "name": "output", "node": "out", "stage": "gain", "channel": "left" }
  ]
}
`;
