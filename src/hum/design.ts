import { type Cause, type Setting, sameCause } from "./cause.ts";

/** One family of lines in one recording: the phasors of its sources add up in it. */
export interface Sight {
  readonly recording: number;
  readonly family: "supply" | "building" | "both";
  /** Index into `supplies`: what the unit's own lines scale with. */
  readonly supply: number;
  /** Indices into `sources`, ascending. */
  readonly sources: readonly number[];
}

/**
 * Which source can be seen where: the pattern of presence that every contrast rests on.
 *
 * A line of order k in sight j is the sum of one phasor per source present there,
 *
 *     c_jk = p_k + m_k + G_jk (a_k + Σ v_pk)
 *
 * p pick-up, m mains distortion, a amplifier, v the valve fitted at position p, G how the unit's own hum changes
 * between supplies. On an offset supply the building's lines show p alone and the supply's lines G (a + Σ v).
 */
export interface Design {
  readonly sources: readonly Cause[];
  readonly sights: readonly Sight[];
  /** Indices of the sources that follow the unit's own supply. */
  readonly own: ReadonlySet<number>;
  /** Each supply by its frequency over the reference's; the first is the reference itself. */
  readonly supplies: readonly { readonly frequencyRatio: number }[];
  /** Sources present when the verdict's recording was made. */
  readonly fitted: readonly number[];
}

/**
 * Lays out the design for one channel.
 *
 * @param settings   one a recording that may be compared, in order
 * @param reference  index of the recording the verdict is about
 * @param reaches    whether a valve position can reach the channel
 */
export function designOf(
  settings: readonly Setting[],
  reference: number,
  reaches: (position: string) => boolean,
): Design {
  const sources: Cause[] = [];
  const indexOf = (cause: Cause) => {
    const known = sources.findIndex((other) => sameCause(other, cause));
    return known >= 0 ? known : sources.push(cause) - 1;
  };
  const pickUp = indexOf({ cause: "pick-up" });
  const amplifier = indexOf({ cause: "amplifier" });
  const mains = settings.some(onBuilding) ? indexOf({ cause: "mains" }) : -1;

  const keys: string[] = [];
  const supplies: { frequencyRatio: number }[] = [];
  const supplyOf = (setting: Setting) => {
    const key = onBuilding(setting) ? "building" : `${setting.supply.frequency_Hz}`;
    const known = keys.indexOf(key);
    if (known >= 0) return known;
    keys.push(key);
    const base_Hz = settings[reference]!.supply.frequency_Hz;
    return supplies.push({ frequencyRatio: setting.supply.frequency_Hz / base_Hz }) - 1;
  };
  supplyOf(settings[reference]!);

  const ownOf = (setting: Setting) => [
    amplifier,
    ...Object.entries(setting.valves)
      .filter(([position]) => reaches(position))
      .map(([position, valve]) => indexOf({ cause: "valve", position, valve })),
  ];
  const fitted = [pickUp, ...(onBuilding(settings[reference]!) ? [mains] : []), ...ownOf(settings[reference]!)];

  const sights = settings.flatMap((setting, recording): Sight[] => {
    const supply = supplyOf(setting);
    const own = ownOf(setting);
    if (setting.offset) {
      return [
        { recording, family: "supply", supply, sources: ascending(own) },
        { recording, family: "building", supply, sources: [pickUp] },
      ];
    }
    const field = onBuilding(setting) ? [pickUp, mains] : [pickUp];
    return [{ recording, family: "both", supply, sources: ascending([...field, ...own]) }];
  });
  const own = new Set([...sources.keys()].filter((s) => s !== pickUp && s !== mains));
  return { sources, sights, own, supplies, fitted: ascending(fitted) };
}

/** Two sources that are present in exactly the same sights cannot be told apart by any reading of them. */
export function inseparable(design: Design, a: number, b: number): boolean {
  return design.sights.every((sight) => sight.sources.includes(a) === sight.sources.includes(b));
}

function onBuilding(setting: Setting): boolean {
  return setting.supply.source === "building";
}

function ascending(indices: readonly number[]): readonly number[] {
  return indices.toSorted((a, b) => a - b);
}
