import { analyseSupply, usualLimits } from "../bench/supply/supply.ts";
import { BadInput } from "../maths/badInput.ts";
import { beginningOf, type HumRecording, supplyChannel } from "./traceInput.ts";

/** What a recording's own supply channel says of the supply the unit stood on. */
export interface SupplyTrial {
  readonly crestFactor: number;
  readonly thd_pct: number;
  /** Against the building's mains in the recordings that hold it at the same scale; left out where none does. */
  readonly level_pct?: number;
  /** What speaks against it, in words; empty where nothing does. */
  readonly against: readonly string[];
}

/** Enough cycles for a crest factor; more would cost time. */
const looked_s = 2;
/** Common practice, no source: from here on the HT, and with it the hum, is another. */
const leastLevel_pct = -3;

/**
 * Tries each regenerated supply by the recording's own `supply` channel: cut peaks and a sag charge the reservoirs to
 * less, and a hum that falls with the HT is not cured. Such a recording brings lines and no contrast.
 *
 * @returns one entry a recording; undefined where there is nothing to see
 */
export function supplyTrials(recordings: readonly HumRecording[]): readonly (SupplyTrial | undefined)[] {
  const seen = recordings.map((recording) =>
    recording.channels.includes(supplyChannel) ? look(recording) : undefined,
  );
  return recordings.map(({ supply, fullScale_Vpk }, i) => {
    const own = seen[i];
    if (!own || supply.source === "building") return undefined;
    const house = recordings.flatMap((other, j) =>
      other.supply.source === "building" && other.fullScale_Vpk === fullScale_Vpk && seen[j] ? [seen[j]!] : [],
    );
    const { crestFactor, thd_pct, level_Vrms, doubt_Vrms } = own;
    const house_Vrms = house.reduce((sum, other) => sum + other.level_Vrms, 0) / house.length;
    const level_pct = house.length === 0 ? undefined : 100 * (level_Vrms / house_Vrms - 1);
    const sags = level_pct !== undefined && level_pct + (100 * doubt_Vrms) / house_Vrms < leastLevel_pct;
    return {
      crestFactor,
      thd_pct,
      ...(level_pct !== undefined && { level_pct }),
      against: [
        ...own.against,
        ...(sags ? [`it stands ${(-level_pct).toFixed(1)} % lower than the building's mains`] : []),
      ],
    };
  });
}

function look(recording: HumRecording) {
  const { channels, fullScale_Vpk } = recording;
  try {
    const report = analyseSupply(beginningOf(recording, looked_s), fullScale_Vpk, {
      names: channels,
      channel: supplyChannel,
      limits: usualLimits,
    });
    return {
      crestFactor: report.crestFactor,
      thd_pct: report.thd_pct,
      level_Vrms: report.level_Vrms,
      doubt_Vrms: report.doubt.level_Vrms,
      against: report.state === "refuted" ? report.reasons : [],
    };
  } catch (error) {
    // A reference that holds no supply is no evidence either way.
    if (error instanceof BadInput) return undefined;
    throw error;
  }
}
