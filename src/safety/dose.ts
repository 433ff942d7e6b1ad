import { BadInput, quote } from "../maths/badInput.ts";

export interface Dose {
  /** Sound exposure of the hours given, Pa²h. */
  readonly dose_Pa2h: number;
  /** The same over what is allowed. */
  readonly share: number;
  /** Hours a week at this level that make the allowed dose. */
  readonly hoursAllowed: number;
}

/** What a week allows: a level for so many hours, as somebody adopted it. */
export interface Allowance {
  readonly level_dBA: number;
  readonly hours: number;
}

const reference_Pa = 20e-6;

/**
 * Weekly sound dose at a level, by equal energy: half the time for each 3 dB more.
 *
 *     E = p₀²·10^(L/10)·t,   p₀ = 20 µPa
 *
 * @throws BadInput  a level outside 0 … 194 dB, hours outside a week
 * @remarks A note, not a verdict: how loud somebody listens is theirs. The allowance is the caller's data.
 * @source  equal-energy rule of ITU-T H.870 (2019) and EN 50332-3 (from memory); 80 dBA for 40 h a week = 1.6 Pa²h in
 *   news pages that report WHO-ITU safe listening (read)
 */
export function weeklyDose(level_dBA: number, hours: number, allowance: Allowance): Dose {
  for (const [path, level] of [
    ["level_dBA", level_dBA],
    ["allowance.level_dBA", allowance.level_dBA],
  ] as const) {
    if (!(level >= 0 && level <= 194)) throw new BadInput(path, quote(level), "0 to 194", "give the A-weighted level");
  }
  for (const [path, time] of [
    ["hours", hours],
    ["allowance.hours", allowance.hours],
  ] as const) {
    if (!(time > 0 && time <= 168))
      throw new BadInput(path, quote(time), "above 0, up to the 168 of a week", "hours a week");
  }
  const exposure = (level: number, time: number) => reference_Pa ** 2 * 10 ** (level / 10) * time;
  const allowed = exposure(allowance.level_dBA, allowance.hours);
  const dose_Pa2h = exposure(level_dBA, hours);
  return { dose_Pa2h, share: dose_Pa2h / allowed, hoursAllowed: Math.min(168, allowed / exposure(level_dBA, 1)) };
}
