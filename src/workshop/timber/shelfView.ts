import type { Shop } from "../../claims/index.ts";
import { species } from "../../timber/species.ts";
import type { Calculate } from "../calculate.ts";
import { boundShop } from "./boundShop.ts";
import { crackRecord } from "./crackRecord.ts";
import { boundOf } from "./destination.ts";
import { newestAir } from "./placeAir.ts";
import type { CaseCardView, PieceCardView, TimberPlaceView, TimberShelfView } from "./views.ts";

/** The shelf: its pieces, the places they stand in, and the cases they became. */
export async function shelfView(
  shop: Shop,
  pieces: readonly PieceCardView[],
  now: string,
  calculate: Calculate,
  cracks = crackRecord(shop.timber),
): Promise<TimberShelfView> {
  const { timber } = shop;
  const ordered = [...shop.orders.values()].flatMap(({ body }) => body.units);
  // By the entries themselves, as their steps and valves don't matter here.
  const opened = new Set(shop.ledger.ofKind("unit").map(({ body }) => body.unit));
  const open = [...new Set([...opened, ...ordered])].filter((unit) => !shop.isReleased(unit));
  return {
    now,
    pieces,
    places: await Promise.all([...timber.places.keys()].map((place) => placeView(shop, place, pieces, calculate))),
    cases: timber.cases.flatMap((name): CaseCardView[] => {
      const joined = timber.caseOf(name)!;
      const unit = timber.givenOf(name)?.body.unit;
      if (unit !== undefined && opened.has(unit) && shop.isReleased(unit)) return [];
      const place = unit === undefined ? undefined : boundOf(boundShop(shop), unit).place;
      return [
        {
          case: name,
          panels: joined.body.panels.length,
          joinedAt: joined.at,
          ...(unit !== undefined && { unit }),
          ...(place !== undefined && { place }),
        },
      ];
    }),
    cracks,
    computing: pieces.filter(({ pending }) => pending).length,
    species: [...timber.ownWoods, ...species.map(({ name }) => name)],
    instruments: [...shop.instruments.keys()],
    units: open.flatMap((unit) => {
      const { place, climate } = boundOf(boundShop(shop), unit);
      return place === undefined ? [] : [{ unit, place, hasClimate: climate !== undefined }];
    }),
  };
}

async function placeView(
  { timber }: Shop,
  place: string,
  all: readonly PieceCardView[],
  calculate: Calculate,
): Promise<TimberPlaceView> {
  const { what, faces, set_C, holds } = timber.places.get(place)!;
  const pieces = all.filter((one) => one.place === place);
  const air = newestAir(timber, place);
  const emc =
    air &&
    (await calculate<{ emc_pct: number }>("timber.emc", {
      temperature_C: air.temperature_C,
      humidity_pct: air.humidity_pct,
    }));
  const isTooDry = emc !== undefined && emc.emc_pct < driestHome_pct && what === "chamber";
  return {
    place,
    what,
    faces,
    ...(set_C !== undefined && { set_C }),
    ...(holds !== undefined && { holds }),
    ...(air &&
      emc && {
        air: {
          at: new Date(air.at_ms).toISOString(),
          temperature_C: air.temperature_C,
          humidity_pct: air.humidity_pct,
          emc_pct: emc.emc_pct,
        },
      }),
    pieces: pieces.map(({ piece }) => piece),
    ...(isTooDry && {
      warning: `Its air draws wood to ${emc.emc_pct.toFixed(1)} %, below any home: take pieces out at their target, not when they stop losing mass.`,
    }),
  };
}

/** Rooms hardly anywhere make wood drier (Wood Handbook, table 13-2: pieces from 4 % in the dry southwest). */
const driestHome_pct = 4;
