import type { Evidence } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import type { PieceState, Yard } from "../../claims/timber/yard.ts";
import type { Calculate } from "../calculate.ts";
import { lacksMovement, ownWoodOf } from "./ownWood.ts";

/** Where a piece is going, as far as anybody wrote it down. */
export interface Bound {
  readonly unit: string;
  readonly place?: string;
  readonly climate?: Evidence<"climate">;
}

export interface Band {
  readonly driest_pct: number;
  readonly wettest_pct: number;
  readonly doubt_pct: number;
}

/** The unit that a piece is kept for, or whose case it is in, and the air that it goes to. */
export function boundFor({ timber, ...shop }: ShopAsked, { inCase, meantFor }: PieceState): Bound | undefined {
  const unit = (inCase && timber.givenOf(inCase.case)?.body.unit) ?? meantFor;
  return unit === undefined ? undefined : boundOf({ timber, ...shop }, unit);
}

type ShopAsked = Pick<Shop, "timber"> & {
  unit(name: string): { readonly order: string } | undefined;
  order(name: string): Pick<Evidence<"order">, "body"> | undefined;
  orderNaming(unit: string): string | undefined;
};

export function boundOf({ timber, unit: unitNamed, order: orderNamed, orderNaming }: ShopAsked, unit: string): Bound {
  const order = orderNamed(unitNamed(unit)?.order ?? orderNaming(unit) ?? "")?.body;
  const place = order?.destination.place;
  const climate = place === undefined ? undefined : timber.climates.get(place);
  return { unit, ...(place !== undefined && { place }), ...(climate && { climate }) };
}

/** What a year of that air makes of a free panel of this wood and thickness. */
export async function bandOf(
  state: Pick<PieceState, "species" | "width_mm" | "thickness_mm" | "density_kg_m3">,
  climate: Evidence<"climate">,
  timber: Yard,
  calculate: Calculate,
): Promise<Band> {
  const { months } = climate.body;
  const { species, width_mm, thickness_mm } = state;
  if (lacksMovement(timber, state)) {
    const emcs = await Promise.all(
      months.map(({ temperature_C, humidity_pct }) =>
        calculate<{ emc_pct: number; doubt: { emc_pct: number } }>("timber.emc", { temperature_C, humidity_pct }),
      ),
    );
    const all = emcs.map(({ emc_pct }) => emc_pct);
    return {
      driest_pct: Math.min(...all),
      wettest_pct: Math.max(...all),
      doubt_pct: Math.max(...emcs.map(({ doubt }) => doubt.emc_pct)),
    };
  }
  const { panels } = await calculate<{
    panels: { driest_pct: number; wettest_pct: number; doubt: { moisture_pct: number } }[];
  }>("timber.case", {
    panels: [
      {
        ...{ name: "piece", species, ...ownWoodOf(timber, state), width_mm, thickness_mm },
        ...{ ringAngle_deg: 0, moisture_pct: 10, fixed: "free" },
      },
    ],
    destination: months,
    gaps: { piece: 0 },
  });
  const [{ driest_pct, wettest_pct, doubt }] = panels as [(typeof panels)[number]];
  return { driest_pct, wettest_pct, doubt_pct: doubt.moisture_pct };
}
