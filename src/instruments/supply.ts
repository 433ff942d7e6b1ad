import type { SettingName } from "../claims/links/description.ts";

export type Settings = Readonly<Partial<Record<SettingName, number>>>;

export interface SupplyBounds {
  readonly limits: Readonly<Partial<Record<SettingName, { readonly low: number; readonly high: number }>>>;
  /** Whose word they are, and since when. */
  readonly by: string;
  readonly at: string;
  /** Frequency below which the transformers fed must not run, and why. */
  readonly least_Hz: number;
  readonly leastWhy: string;
  /** Highest voltage of the unit fed, where one is named, and why. */
  readonly most_Vrms?: number;
  readonly mostWhy?: string;
}

export type SupplyPlan =
  | { readonly ok: true; readonly steps: readonly { readonly setting: SettingName; readonly value: number }[] }
  | {
      readonly ok: false;
      readonly path: string;
      readonly given: number | undefined;
      readonly allowed: string;
      readonly mend: string;
    };

const units: Readonly<Record<SettingName, string>> = { output_Vrms: "V", output_V: "V", frequency_Hz: "Hz" };

/**
 * In what order a supply is brought from where it stands to where it is wanted, or why it must not be.
 *
 * A transformer's flux goes as voltage over frequency: B = √2·V/(2π·f·turns·area). So the frequency may only be offset
 * upward, and on the way flux must not rise above both ends: frequency goes up before the voltage does, and comes down
 * after it.
 */
export function planSupply(stands: Settings, wanted: Settings, bounds: SupplyBounds | undefined): SupplyPlan {
  const names = Object.keys(wanted) as SettingName[];
  const no = (path: string, given: number | undefined, allowed: string, mend: string): SupplyPlan => ({
    ok: false,
    path,
    given,
    allowed,
    mend,
  });
  if (bounds === undefined) {
    return no(
      names[0] ?? "",
      wanted[names[0]!],
      "nothing, as its owner has set no limits for it",
      "ask the owner to set limits first",
    );
  }
  const after: Settings = { ...stands, ...wanted };
  for (const setting of Object.keys(after) as SettingName[]) {
    const value = after[setting]!;
    const limit = bounds.limits[setting];
    if (limit === undefined) {
      if (!(setting in wanted)) continue;
      return no(setting, value, "nothing, as its owner has set no limits for that", "ask the owner to set them first");
    }
    if (value >= limit.low && value <= limit.high) continue;
    const owner = `${limit.low} to ${limit.high} ${units[setting]}, as the ${bounds.by} set it`;
    return no(
      setting,
      value,
      owner,
      setting in wanted ? "stay inside, or let the owner widen the limits" : "it stands outside now: set it too",
    );
  }
  const { frequency_Hz, output_Vrms } = after;
  if (frequency_Hz !== undefined && frequency_Hz < bounds.least_Hz) {
    return no(
      "frequency_Hz",
      frequency_Hz,
      `${bounds.least_Hz} Hz and above, ${bounds.leastWhy}: below it the core's flux rises and the transformer saturates`,
      "offset the frequency upward only",
    );
  }
  if (output_Vrms !== undefined && bounds.most_Vrms !== undefined && output_Vrms > bounds.most_Vrms) {
    return no(
      "output_Vrms",
      output_Vrms,
      `at most ${bounds.most_Vrms} V, ${bounds.mostWhy ?? ""}`,
      "lower the voltage",
    );
  }
  const rises = (frequency_Hz ?? 0) >= (stands.frequency_Hz ?? 0);
  const order: readonly SettingName[] = rises
    ? ["frequency_Hz", "output_Vrms", "output_V"]
    : ["output_Vrms", "output_V", "frequency_Hz"];
  return {
    ok: true,
    steps: order.flatMap((setting) => (wanted[setting] === undefined ? [] : [{ setting, value: wanted[setting] }])),
  };
}
