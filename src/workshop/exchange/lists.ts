import type { ClaimState, Shop } from "../../claims/index.ts";
import type { InstrumentsView } from "../instruments/views.ts";
import type { TimberShelfView } from "../timber/views.ts";
import type { PromiseView, TraysView, TrayView } from "../views.ts";

type Value = string | number | boolean | undefined;

/** A list as it leaves the workshop: a head of names with their units, and a row for each thing. */
export interface List {
  readonly head: readonly string[];
  readonly rows: readonly (readonly Value[])[];
}

/** Where the lists draw from. */
export interface ListSource {
  shop(): Shop;
  states(unit: string): readonly ClaimState[];
  trays(): Promise<TraysView>;
  tray(batch: string): Promise<TrayView>;
  timber(): Promise<TimberShelfView>;
  promises(): Promise<readonly PromiseView[]>;
  instruments(): Promise<InstrumentsView>;
}

/** The lists that can be taken out, each by its name. */
export const lists: Readonly<Record<string, (from: ListSource) => Promise<List>>> = {
  units: async ({ shop, states }) =>
    listOf(
      [...shop().units.values()].map(({ unit, model, revision, order, tap }) => {
        const claims = states(unit);
        const open = claims.filter(({ state }) => state !== "proven" && state !== "conceded").length;
        return {
          unit,
          model,
          revision,
          order,
          customer: shop().orders.get(order)?.body.customer,
          destination: shop().orders.get(order)?.body.destination.place,
          tap,
          released: shop().isReleased(unit),
          claims: claims.length,
          claims_open: open,
        };
      }),
    ),
  claims: async ({ shop, states }) =>
    listOf(
      [...shop().units.keys()].flatMap((unit) =>
        states(unit).map(({ claim, title, sheet, state, because }) => ({ unit, claim, title, sheet, state, because })),
      ),
    ),
  orders: async ({ shop, promises }) => {
    const dates = new Map((await promises()).map((promise) => [promise.order, promise]));
    return listOf(
      [...shop().orders.values()].map(
        ({ body: { order, customer, model, revision, units, due, released, destination } }) => {
          const promise = dates.get(order);
          return {
            order,
            customer,
            model,
            revision,
            units: units.join("; "),
            destination: destination.place,
            nominal_V: destination.nominal_V,
            frequency_Hz: destination.frequency_Hz,
            due,
            released,
            promised: promise?.promised ?? shop().promises.get(order)?.body.date,
            p50: promise?.p50,
            p80: promise?.p80,
            p95: promise?.p95,
            heldBy: promise?.heldBy,
          };
        },
      ),
    );
  },
  valves: async ({ trays, tray }) => {
    const views = await Promise.all((await trays()).trays.map(({ batch }) => tray(batch)));
    return listOf(
      views.flatMap(({ batch, type, seller, valves }) =>
        valves.flatMap(({ valve, standing, reasons, standsIn, sections, sectionSpread_pct, sectionSpreadDoubt_pct }) =>
          sections.map(({ section, cold_mA, hot_mA, drift_pct, doubt_pct, gm_mS, gridCurrent_uA, leakage_uA }) => ({
            valve,
            section,
            type,
            batch,
            seller,
            verdict: standing,
            cold_mA,
            hot_mA,
            drift_pct,
            driftDoubt_pct: doubt_pct,
            sectionSpread_pct,
            sectionSpreadDoubt_pct,
            gm_mS,
            gridCurrent_uA,
            leakage_uA,
            unit: standsIn?.unit,
            position: standsIn?.position,
            reasons: reasons.join("; "),
          })),
        ),
      ),
    );
  },
  timber: async ({ timber }) =>
    listOf(
      (await timber()).pieces.map((piece) => ({
        piece: piece.piece,
        species: piece.species,
        length_mm: piece.length_mm,
        width_mm: piece.width_mm,
        thickness_mm: piece.thickness_mm,
        ringAngle_deg: piece.ringAngle_deg,
        place: piece.place,
        since: piece.since,
        meantFor: piece.meantFor,
        moisture_pct: piece.moisture?.mean_pct,
        moistureLow_pct: piece.moisture?.low_pct,
        moistureHigh_pct: piece.moisture?.high_pct,
        target_pct: piece.target_pct,
        lastWeighed: piece.lastWeighed,
        flaws: piece.flaws.join("; "),
      })),
    ),
  parts: async ({ shop }) =>
    listOf(
      [...shop().parts.values()].map(({ body: { part, model, step, lead_days, ordered, orders } }) => ({
        part,
        model,
        step,
        lead_fast_d: lead_days.fast,
        lead_usual_d: lead_days.usual,
        lead_slow_d: lead_days.slow,
        ordered,
        arrived: shop().arrivals.get(part)?.at,
        orders: orders?.join("; "),
      })),
    ),
  instruments: async ({ instruments }) =>
    listOf(
      (await instruments()).instruments.map(({ instrument, title, trial, standing, trials, restsOnIt }) => ({
        instrument,
        title,
        reference: trial.reference,
        quantity: trial.quantity,
        true: trial.true,
        limit: trial.limit,
        standing: standing.state,
        triedAt: standing.at,
        lastRead: trials.at(-1)?.value,
        lastDoubt: trials.at(-1)?.doubt,
        proofsResting: restsOnIt,
      })),
    ),
};

/** Rows of named values as a table; the names of all rows are the head, in the order in which they first come. */
function listOf(rows: readonly Readonly<Record<string, Value>>[]): List {
  const head = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  return { head, rows: rows.map((row) => head.map((name) => told(row[name]))) };
}

/** Six digits are more than any reading here has, and fit a column. */
const told = (value: Value): Value => (typeof value === "number" ? Number(value.toPrecision(6)) : value);
