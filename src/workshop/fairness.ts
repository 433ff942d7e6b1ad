import type { Evidence } from "../claims/evidence.ts";
import { instrumentTrust, type Ledger } from "../claims/index.ts";
import type { Calculate } from "./calculate.ts";
import type { SupplyFairnessView } from "./views.ts";

type Recorded = Evidence<"recording">;

/** HT lower than on the building's mains by more than this lowers the hum with it. Common practice, no source. */
const leastHt_pct = -3;
/** A recording of the supply's own shape speaks for what was made on it this long before or after. */
const speaksFor_h = 12;
const hour_ms = 3_600_000;

interface SupplyAnswer {
  readonly state: "proven" | "refuted" | "undecided";
  readonly crestFactor: number;
  readonly thd_pct: number;
  readonly reasons: readonly string[];
  readonly doubt: { readonly crestFactor: number; readonly thd_pct: number };
}

export interface FairnessCase {
  readonly ledger: Ledger;
  readonly unit: string;
  readonly recordings: readonly Recorded[];
  readonly calculate: Calculate;
}

/**
 * Whether each regenerated supply was fit to judge a hum by: an instrument on trial like any other.
 *
 * Three kinds of evidence speak: the regenerator's own trials before and after; a recording of its shape made on the
 * same unit within half a day; and the HT that stood meanwhile, against the HT on the building's mains. One of them
 * against it is enough, because cut peaks or a sag lower HT, and a hum that goes with it is not cured.
 */
export async function fairnessOf(asked: FairnessCase): Promise<readonly SupplyFairnessView[]> {
  const regenerated = asked.recordings.filter(({ body }) => body.supply.source === "regenerated");
  return Promise.all(regenerated.map((entry) => fairnessOfOne(entry, asked)));
}

async function fairnessOfOne(entry: Recorded, asked: FairnessCase): Promise<SupplyFairnessView> {
  const { instrument } = entry.body.supply;
  const trust = instrument === undefined ? undefined : instrumentTrust(asked.ledger, instrument, entry);
  const shape = await shapeNear(entry, asked);
  const ht = htAgainstBuilding(entry, asked);
  const against = [
    ...(trust?.state === "failed" ? [trust.why] : []),
    ...(shape?.state === "refuted" ? [`its shape was recorded that day and ${shape.reasons.join("; ")}`] : []),
    ...(ht && ht.change_pct + ht.doubt_pct < leastHt_pct
      ? [`HT stood ${(-ht.change_pct).toFixed(1)} % lower than on the building's mains`]
      : []),
  ];
  const speaksFor =
    trust?.state === "good" ||
    shape?.state === "proven" ||
    (ht !== undefined && ht.change_pct - ht.doubt_pct > leastHt_pct);
  return {
    recording: entry.body.recording,
    ...(instrument !== undefined && { instrument }),
    state: against.length > 0 ? "not believed" : speaksFor ? "believed" : "untried",
    against,
    ...(trust && { trial: trust.state }),
    ...(shape && {
      shape: { crestFactor: shape.crestFactor, doubt: shape.doubt.crestFactor, thd_pct: shape.thd_pct },
    }),
    ...(ht && { ht }),
  };
}

/** The nearest recording of what the unit's socket gave, on the same supply. */
async function shapeNear(
  entry: Recorded,
  { ledger, unit, calculate }: FairnessCase,
): Promise<SupplyAnswer | undefined> {
  const away_ms = ({ at }: Recorded) => Math.abs(Date.parse(at) - Date.parse(entry.at));
  const [nearest] = ledger
    .about("recording", unit)
    .filter((other) => {
      const { body, id } = other;
      return (
        body.purpose === "supply" &&
        ledger.supersederOf(id) === undefined &&
        body.supply.source === "regenerated" &&
        body.supply.instrument === entry.body.supply.instrument &&
        away_ms(other) <= speaksFor_h * hour_ms
      );
    })
    .toSorted((a, b) => away_ms(a) - away_ms(b));
  if (!nearest) return undefined;
  const { file_sha256: recording, fullScale_Vpk, channels } = nearest.body;
  return calculate<SupplyAnswer>("bench.supply", { recording, fullScale_Vpk, channels });
}

/** HT while a recording was made, over the HT while the nearest one on the building's mains was. */
function htAgainstBuilding(entry: Recorded, { ledger, unit }: FairnessCase): SupplyFairnessView["ht"] {
  const read = ledger
    .figures("unit", unit, "ht_V")
    .flatMap((reading) =>
      reading.body.kind === "reading" && ledger.supersederOf(reading.id) === undefined ? [reading.body] : [],
    );
  const during = (recording: string) => read.findLast(({ conditions }) => conditions.during === recording);
  const here = during(entry.body.recording);
  if (!here) return undefined;
  const away_ms = ({ at }: Recorded) => Math.abs(Date.parse(at) - Date.parse(entry.at));
  const [building] = ledger
    .about("recording", unit)
    .filter(({ body }) => body.supply.source === "building" && during(body.recording) !== undefined)
    .toSorted((a, b) => away_ms(a) - away_ms(b))
    .map(({ body }) => during(body.recording)!);
  if (!building || !(building.value > 0)) return undefined;
  const ratio = here.value / building.value;
  return {
    building_V: building.value,
    here_V: here.value,
    change_pct: 100 * (ratio - 1),
    doubt_pct: 100 * ratio * Math.hypot(here.doubt / here.value, building.doubt / building.value),
  };
}

/** Parts recordings by whether the supply they were made on may be believed; the building's always may. */
export function partByFairness(
  recordings: readonly Recorded[],
  fairness: readonly SupplyFairnessView[],
): {
  readonly believed: readonly Recorded[];
  readonly leftOut: readonly { readonly recording: string; readonly why: string }[];
} {
  const doubted = new Map(
    fairness.flatMap(({ recording, state, against }) =>
      state === "not believed" ? [[recording, against.join("; ")] as const] : [],
    ),
  );
  const isDoubted = ({ body }: Recorded) => body.supply.source === "regenerated" && doubted.has(body.recording);
  return {
    believed: recordings.filter((entry) => !isDoubted(entry)),
    leftOut: recordings
      .filter(isDoubted)
      .map(({ body }) => ({ recording: body.recording, why: doubted.get(body.recording)! })),
  };
}
