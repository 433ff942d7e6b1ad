/** A stereo volume control: two carbon tracks on one shaft. */
export interface VolumeControl {
  /** By how much the left track leads at the beginning of its turn, dB. */
  readonly leads_dB: number;
  /** The share of its turn over which that lead dies away. */
  readonly over: number;
  /** Carbon is never quite even: waves along the track, dB. */
  readonly waves_dB: number;
}

/** What a shaft's scale says, and how far it is turned then, 0 to 1. */
export const turned: Readonly<Record<string, number>> = {
  "8 o'clock": 0.1,
  "9 o'clock": 0.2,
  "12 o'clock": 0.5,
  "3 o'clock": 0.8,
  "5 o'clock": 1,
};

const quietest_dB = -66;

/**
 * Attenuation of each track, dB: −66·(1 − x)^1.3 at a turn of x, the left leading by lead·e^(−x/over), which grows as
 * the wiper nears the cold end and the two tracks' first ohms differ.
 *
 * @source 2 to 3 dB between the tracks of a carbon control near its cold end: common practice
 */
export function trackGain_dB(
  { leads_dB, over, waves_dB }: VolumeControl,
  position: string,
): { left: number; right: number } {
  const x = turned[position];
  if (x === undefined) throw new RangeError(`no place ${position} on the demo's volume scales`);
  const common_dB = quietest_dB * (1 - x) ** 1.3;
  const apart_dB = x === 1 ? 0 : leads_dB * Math.exp(-x / over) + waves_dB * Math.sin(9 * x);
  return { left: common_dB + apart_dB / 2, right: common_dB - apart_dB / 2 };
}
