import type { Evidence } from "../claims/evidence.ts";
import { instrumentTrust, type Ledger } from "../claims/index.ts";
import { BadInput } from "../maths/badInput.ts";
import type { Calculate } from "./calculate.ts";
import type { SupplyFairnessView } from "./views.ts";

type Recorded = Evidence<"recording">;

/** HT lower than on the building's mains by more than this lowers the hum with it. Common practice, no source. */
const leastHt_pct = -3;
/** A recording of the supply's own shape speaks for what was made on it this long before or after. */
const speaksFor_h = 12;
const hour_ms = 3_600_000;

/** The channel of a hum recording that holds what the unit's socket gives, through a divider. */
const socket = "supply";
/** A supply lower than the building's by more than this lowers the HT with it. Common practice, no source. */
const leastLevel_pct = -3;

interface SupplyAnswer {
  readonly state: "proven" | "refuted" | "undecided";
  readonly level_Vrms: number;
  readonly crestFactor: number;
  readonly thd_pct: number;
  readonly reasons: readonly string[];
  readonly doubt: { readonly level_Vrms: number; readonly crestFactor: number; readonly thd_pct: number };
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
 * Four kinds of evidence speak: the regenerator's own trials before and after; the recording's own `supply` channel,
 * its level against that of the building's mains at the same scale; a recording of its shape made on the same unit within
 * half a day; and the HT that stood meanwhile, against the HT on the building's mains. One of them against it is enough,
 * because cut peaks or a sag lower HT, and a hum that goes with it is not cured.
 */
export async function fairnessOf(asked: FairnessCase): Promise<readonly SupplyFairnessView[]> {
  const regenerated = asked.recordings.filter(({ body }) => body.supply.source === "regenerated");
  return Promise.all(regenerated.map((entry) => fairnessOfOne(entry, asked)));
}

async function fairnessOfOne(entry: Recorded, asked: FairnessCase): Promise<SupplyFairnessView> {
  const { instrument } = entry.body.supply;
  const trust = instrument === undefined ? undefined : instrumentTrust(asked.ledger, instrument, entry);
  const [shape, beside] = await Promise.all([shapeNear(entry, asked), besideIt(entry, asked)]);
  const ht = htAgainstBuilding(entry, asked);
  const against = [
    ...(trust?.state === "failed" ? [trust.why] : []),
    ...(shape?.state === "refuted" ? [`its shape was recorded that day and ${shape.reasons.join("; ")}`] : []),
    ...(beside?.state === "refuted" ? [`by its own supply channel ${beside.reasons.join("; ")}`] : []),
    ...(beside?.level && beside.level.change_pct + beside.level.doubt_pct < leastLevel_pct
      ? [`its supply channel stood ${(-beside.level.change_pct).toFixed(1)} % lower than on the building's mains`]
      : []),
    ...(ht && ht.change_pct + ht.doubt_pct < leastHt_pct
      ? [`HT stood ${(-ht.change_pct).toFixed(1)} % lower than on the building's mains`]
      : []),
  ];
  const speaksFor =
    trust?.state === "good" ||
    shape?.state === "proven" ||
    beside?.state === "proven" ||
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
    ...(beside && {
      beside: {
        crestFactor: beside.crestFactor,
        doubt: beside.doubt.crestFactor,
        thd_pct: beside.thd_pct,
        ...(beside.level && { level: beside.level }),
      },
    }),
    ...(ht && { ht }),
  };
}

/** What the recording's own `supply` channel shows, and its level against the nearest one on the building's mains. */
async function besideIt(entry: Recorded, { ledger, unit, calculate }: FairnessCase) {
  const own = await socketOf(entry, calculate);
  if (!own) return undefined;
  const away_ms = ({ at }: Recorded) => Math.abs(Date.parse(at) - Date.parse(entry.at));
  const [house] = ledger
    .about("recording", unit)
    .filter(
      ({ body, id }) =>
        body.purpose === "hum" &&
        body.supply.source === "building" &&
        body.channels.includes(socket) &&
        body.fullScale_Vpk === entry.body.fullScale_Vpk &&
        body.instrument === entry.body.instrument &&
        ledger.supersederOf(id) === undefined,
    )
    .toSorted((a, b) => away_ms(a) - away_ms(b));
  const building = house && (await socketOf(house, calculate));
  if (!building) return own;
  const ratio = own.level_Vrms / building.level_Vrms;
  const relative = ({ level_Vrms, doubt }: SupplyAnswer) => doubt.level_Vrms / level_Vrms;
  const level = {
    change_pct: 100 * (ratio - 1),
    doubt_pct: 100 * ratio * Math.hypot(relative(own), relative(building)),
  };
  return { ...own, level };
}

async function socketOf(
  { body }: Recorded,
  calculate: Calculate,
): Promise<
  (SupplyAnswer & { readonly level?: { readonly change_pct: number; readonly doubt_pct: number } }) | undefined
> {
  if (!body.channels.includes(socket)) return undefined;
  const { file_sha256: recording, fullScale_Vpk, channels } = body;
  try {
    return await calculate<SupplyAnswer>("bench.supply", { recording, fullScale_Vpk, channels, channel: socket });
  } catch (error) {
    // A channel that holds no steady supply is no evidence either way.
    if (error instanceof BadInput) return undefined;
    throw error;
  }
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
