import type { WavEncoding } from "../../bench/encodeWav.ts";
import type { Random } from "../../maths/random.ts";
import type { Bench } from "./drawBench.ts";

/** A tone that is no mains line: a switching supply, a monitor, a fan. */
export interface Stray {
  readonly frequency_Hz: number;
  /** Against the bench's strongest hum. */
  readonly relative_dB: number;
}

/** How a workshop records: its recorder, its mains, its bad habits. */
export interface Lab {
  readonly rate_Hz: number;
  readonly encoding: WavEncoding;
  /** Adds a channel named `mains` with the building's voltage, scaled down, before or after the unit's own. */
  readonly mains?: "first" | "last";
  /** Adds a channel named `supply` with what the unit's socket gives. */
  readonly supply?: "sound" | "cut" | "sagging";
  /** Full scale over the peaks of what is recorded. */
  readonly headroom_dB: number;
  /** Spread of the recorder's clock about true, and whether each recording was made on another recorder. */
  readonly clockError: number;
  readonly manyRecorders: boolean;
  readonly buildingSpread_Hz: number;
  readonly wander_Hz: number;
  /** How the building's mains moves within a recording. */
  readonly wandering: "walk" | "swing" | "ramp";
  /** Spread of a regenerator about its nominal, relative. */
  readonly supplyError: number;
  readonly contactScatter: number;
  readonly noise_dB: number;
  readonly offset: number;
  readonly strays: readonly Stray[];
  /** One a recording. */
  readonly durations_s: readonly number[];
}

/** Draws a workshop's manner of recording: everything that no analysis may lean on. */
export function drawLab(bench: Bench, random: Random): Lab {
  // Low rates as telephones and voice recorders have them, and the usual ones; the costly ones less often.
  const rates_Hz = [
    8000, 11_025, 12_000, 16_000, 16_000, 22_050, 32_000, 44_100, 44_100, 48_000, 48_000, 96_000, 192_000,
  ];
  const encodings: readonly WavEncoding[] = ["pcm16", "pcm24", "pcm24", "pcm32", "float32", "float64"];
  const places = ["first", "last"] as const;
  const hasMains = random.uniform() < 0.35;
  const usual_s = 2 + 6 * random.uniform();
  const supplies = ["sound", "sound", "cut", "sagging"] as const;
  const hasSupply = random.uniform() < 0.3;
  return {
    rate_Hz: rates_Hz[random.integer(rates_Hz.length)]!,
    encoding: encodings[random.integer(encodings.length)]!,
    ...(hasMains && { mains: places[random.integer(2)]! }),
    ...(hasSupply && { supply: supplies[random.integer(4)]! }),
    headroom_dB: 3 + 30 * random.uniform(),
    clockError: random.uniform() < 0.7 ? 50e-6 : 300e-6,
    manyRecorders: random.uniform() < 0.3,
    buildingSpread_Hz: 0.01 + 0.05 * random.uniform(),
    wander_Hz: 0.001 * 10 ** (1.1 * random.uniform()),
    wandering: (["walk", "walk", "swing", "ramp"] as const)[random.integer(4)]!,
    supplyError: random.uniform() < 0.6 ? 3e-6 : 4e-4,
    contactScatter: 0.01 + 0.05 * random.uniform(),
    noise_dB: -10 + 25 * random.uniform(),
    offset: 0.01 * random.normal(),
    strays: random.uniform() < 0.6 ? [] : Array.from({ length: 1 + random.integer(3) }, () => drawStray(bench, random)),
    durations_s: bench.settings.map(() => usual_s * (0.8 + 0.4 * random.uniform())),
  };
}

/** Anywhere a tone may lie, one in three of them close beside a multiple of the building's mains. */
function drawStray({ building_Hz }: Bench, random: Random): Stray {
  const relative_dB = -40 + 45 * random.uniform();
  if (random.uniform() < 0.67) return { frequency_Hz: 70 * 30 ** random.uniform(), relative_dB };
  const beside_Hz = (random.uniform() < 0.5 ? -1 : 1) * (1.5 + 6 * random.uniform());
  return { frequency_Hz: building_Hz * (5 + random.integer(20)) + beside_Hz, relative_dB };
}
