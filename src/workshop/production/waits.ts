import type { ClaimState, Run, Shop } from "../../claims/index.ts";

const hour_ms = 3_600_000;

/** What goes on by itself on a unit, as hands set it going. */
export interface Waiting extends Pick<Run, "at" | "body" | "ripe"> {
  readonly unit: string;
  readonly step?: string;
  readonly claim?: string;
  /** The slot it stands in, where it was written down. */
  readonly slot?: number;
}

/**
 * What was begun on a unit and goes on.
 *
 * @returns nothing once its end is on record, a figure of the check was read since, or a rework has broken it off
 */
export function waitOf(shop: Shop, unit: string, states: readonly ClaimState[]): Waiting | undefined {
  const run = shop.runs.of(unit);
  if (!run) return undefined;
  const { at, body, ripe } = run;
  const since = Date.parse(at);
  if (shop.ledger.about("rework", unit).some((rework) => Date.parse(rework.at) > since)) return undefined;
  const claim = states.find((state) => state.claim === body.claim);
  if (claim?.figures.some((figure) => figure.at !== undefined && Date.parse(figure.at) > since)) return undefined;
  return {
    at,
    body,
    ripe,
    unit,
    ...(body.step !== undefined && { step: body.step }),
    ...(body.claim !== undefined && { claim: body.claim }),
    ...(body.slot !== undefined && { slot: body.slot + run.things.indexOf(unit) }),
  };
}

export function hoursLeft({ ripe }: Pick<Waiting, "ripe">, now: string): number {
  return Math.max(0, (Date.parse(ripe) - Date.parse(now)) / hour_ms);
}

export const isRipe = (waiting: Pick<Waiting, "ripe">, now: string): boolean => hoursLeft(waiting, now) === 0;

/** `heat-run rack, slot 2`. */
export function standsIn({ body: { place }, slot }: Pick<Waiting, "body" | "slot">): string {
  return slot === undefined ? place : `${place}, slot ${slot}`;
}
