/** A place and a way to read there; what a reading is of. */
export type Probe =
  | { readonly kind: "volts"; readonly node: string }
  | {
      readonly kind: "gain";
      readonly node: string;
      readonly input: string;
      readonly frequency_Hz: number;
      /** Power gain that good parts' spread alone gives; see `gainFloors`. */
      readonly floor: number;
    }
  | {
      readonly kind: "ohms";
      readonly between: readonly [string, string];
      /** Half-width of the reading, ohm: keeps the logarithm that is reckoned with tame near nothing. */
      readonly doubt_ohm: number;
    };

export type GainProbe = Extract<Probe, { readonly kind: "gain" }>;

export function gainsAmong(probes: readonly Probe[]): GainProbe[] {
  return probes.filter((probe) => probe.kind === "gain");
}

/** Places in a list of probes of one kind. */
export function placesOf(probes: readonly Probe[], kind: Probe["kind"]): number[] {
  return probes.flatMap((probe, p) => (probe.kind === kind ? [p] : []));
}

/**
 * One reading as the comparison uses it: volts plain, gains in dB above a floor, resistances as a logarithm between
 * leads and insulation; see `plainGain` and `plainOhm`.
 */
export interface Reading {
  readonly probe: Probe;
  readonly value: number;
  readonly sd: number;
  /** As the question names it, for words. */
  readonly name: string;
}

/** Under this a gain is stray coupling and no property of the circuit, dB. */
const strayGain_dB = -90;

const stray = 10 ** (strayGain_dB / 10);

/**
 * A gain that levels out at what strays anyway, and at what good parts' spread gives: 10·lg(10^(g/10) + stray + floor).
 *
 * @param floor  power gain by the spread of good parts; the same for all that is compared
 */
export function plainGain(gain_dB: number, floor: number): { value: number; slope: number } {
  const power = 10 ** (gain_dB / 10);
  const all = power + stray + floor;
  return { value: 10 * Math.log10(all), slope: power / all };
}

/** The gain that is shown as so much; where it drowns in its floor, that floor. */
export function bareGain(value: number, { floor }: GainProbe): { gain_dB: number; under: boolean } {
  const least = stray + floor;
  const power = 10 ** (value / 10) - least;
  return { gain_dB: 10 * Math.log10(Math.max(power, least)), under: power <= least };
}

/** The model's own roughness of a gain, dB. */
const gainGrain_dB = 0.02;
/** What a gain that only strays may be off by, dB. */
const strayGrain_dB = 10;
/** Of a gain as small as good parts' spread: what its bend leaves of a straight look, one neper of power. */
const bendGrain_dB = 10 / Math.LN10;
/** Of a gain that the net list leaves open nothing is known, dB. */
const unknownGain_dB = 60;

/** A gain as it is compared, with its slope against the true one, and what the model itself may be off by. */
export function shownGain(
  gain_dB: number | undefined,
  { floor }: GainProbe,
): { value: number; slope: number; grain: number } {
  if (gain_dB === undefined) return { value: 0, slope: 0, grain: unknownGain_dB };
  const { value, slope } = plainGain(gain_dB, floor);
  const under = 1 - slope;
  const bySpread = floor / (floor + stray);
  return { value, slope, grain: gainGrain_dB + under * (bendGrain_dB * bySpread + strayGrain_dB * (1 - bySpread)) };
}

/** Insulation that no ohmmeter of the bench reads beyond. */
const insulation_ohm = 1e9;

/** ln(R ∥ insulation + doubt): a wide reading near nothing counts by its doubt, one near open by the insulation. */
export function plainOhm(ohm: number, doubt_ohm: number): { value: number; slope: number } {
  const seen = Number.isFinite(ohm) ? ohm / (1 + ohm / insulation_ohm) : insulation_ohm;
  const value = Math.log(seen + doubt_ohm + 1e-3);
  return { value, slope: (seen * seen) / (Math.max(ohm, 1e-9) * (seen + doubt_ohm + 1e-3)) };
}
