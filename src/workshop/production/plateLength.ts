import type { Shop } from "../../claims/index.ts";
import type { LongCheck } from "../../production/index.ts";
import { platedPieces } from "../timber/pastPieces.ts";
import type { Records } from "./records.ts";

const hour_ms = 3_600_000;
/** Pieces are laid on and taken off once a day. */
const day_h = 24;
/** A fault of which few were found later is taken for the common kind with so many besides. */
const guessed = 2;

/**
 * Time on the hot plate as a check: when in it pieces cracked, what an hour there costs, and what a crack found after it
 * costs more.
 *
 * @returns nothing where no plate has a length, no piece lay on it, or what an hour costs was not written down
 */
export function plateLengths(shop: Shop, { faults, cost_h, hour_cents }: Records): readonly LongCheck[] {
  const { rates, timber: yard } = shop;
  const plates = new Set([...yard.places].filter(([, { what }]) => what === "plate").map(([place]) => place));
  const place = shop.shop?.places.find(({ id, cycle_h }) => plates.has(id) && cycle_h !== undefined);
  if (!rates || rates.waiting_cents_per_h === 0 || hour_cents === undefined || place?.cycle_h === undefined) return [];
  const past = platedPieces(yard);
  const shownAfter_h = past.flatMap(({ piece, at }) => {
    const { into = [] } = yard.state(piece)!;
    const own = yard.entriesOf(piece);
    const off = own.find(({ at: later, body }) => body.kind === "stood" && Date.parse(later) > Date.parse(at));
    const crack = [piece, ...into]
      .flatMap((one) => yard.entriesOf(one))
      .find(({ body }) => body.kind === "flaw" && body.flaw === "crack");
    if (!crack || (off && Date.parse(crack.at) > Date.parse(off.at))) return [];
    return [(Date.parse(crack.at) - Date.parse(at)) / hour_ms];
  });
  if (past.length === 0) return [];
  const sorts = new Set(
    faults.filter(({ body }) => plates.has(body.possible) || body.possible === "plate").map(({ body }) => body.fault),
  );
  const costs = (isThere: boolean) =>
    faults
      .filter(({ body }) => sorts.has(body.fault) && (body.found === body.possible) === isThere)
      .map((fault) => cost_h(fault) * hour_cents);
  const [there, later] = [costs(true), costs(false)];
  const all = [...there, ...later];
  if (all.length === 0) return [];
  const mean = (list: readonly number[]) =>
    (list.reduce((sum, one) => sum + one, 0) + (guessed * all.reduce((sum, one) => sum + one, 0)) / all.length) /
    (list.length + guessed);
  // The pieces of one case wait for each other.
  const cases = new Set(past.flatMap(({ piece }) => caseOf(shop, piece))).size;
  return [
    {
      check: place.id,
      length: place.cycle_h,
      step: Math.min(day_h, place.cycle_h),
      cents_per_step: (rates.waiting_cents_per_h * Math.min(day_h, place.cycle_h) * Math.max(1, cases)) / past.length,
      pieces: past.length,
      shown: shownAfter_h
        .filter((by) => by >= 0 && by <= place.cycle_h!)
        .map((by) => ({ by, later_cents: Math.max(1, mean(later) - mean(there)) })),
    },
  ];
}

function caseOf({ timber }: Shop, piece: string): readonly string[] {
  const { into = [] } = timber.state(piece)!;
  return [piece, ...into].flatMap((one) => timber.state(one)?.inCase ?? []).map((one) => one.case);
}
