import type { BodyOf } from "../../claims/evidence.ts";
import type { Yard } from "../../claims/timber/yard.ts";
import { placeStage } from "./placeStage.ts";

const hour_ms = 3_600_000;
/** Shorter than this nothing happens to wood. */
const least_h = 0.05;

/** What is left of a plan, as `timber.piece` takes stages, and by the clock. */
export interface PlannedAhead {
  readonly stages: readonly Readonly<Record<string, unknown>>[];
  readonly follows: readonly { readonly place: string; readonly from: string; readonly to: string }[];
  /** Why the plan is not followed further. */
  readonly wanting?: string;
}

/**
 * The stages of a plan that are still to come after a moment, by the clock of the plan; until it begins a piece stays
 * where it is, and of a stage that is under way only the rest is left.
 */
export function plannedAhead(
  yard: Yard,
  { begins, stages }: BodyOf<"planned-stages">,
  here: { readonly place: string; readonly thickness_mm: number },
  from_ms: number,
): PlannedAhead {
  const told: Record<string, unknown>[] = [];
  const follows: PlannedAhead["follows"][number][] = [];
  const instant = (at_ms: number) => new Date(at_ms).toISOString();
  const add = (place: string, begin_ms: number, end_ms: number, more: object): string | undefined => {
    const seen = placeStage(yard, place, from_ms);
    if (!seen) return `The plan can't be followed into ${place}: nothing says what air it has.`;
    const hours = Number(((end_ms - begin_ms) / hour_ms).toFixed(3));
    if (hours < least_h) return undefined;
    told.push({ place, hours, ...seen, ...more });
    follows.push({ place, from: instant(begin_ms), to: instant(end_ms) });
    return undefined;
  };
  let begin_ms = Date.parse(begins);
  let now_mm = here.thickness_mm;
  if (begin_ms > from_ms) {
    const wanting = add(here.place, from_ms, begin_ms, {});
    if (wanting !== undefined) return { stages: told, follows, wanting };
  }
  for (const { place, hours, faces, machinedTo_mm } of stages) {
    const end_ms = begin_ms + hours * hour_ms;
    // Of a stage under way what was to be planed off is planed off, or was not.
    const isPlaned = machinedTo_mm !== undefined && machinedTo_mm < now_mm && begin_ms >= from_ms;
    if (isPlaned) now_mm = machinedTo_mm;
    const wanting = add(place, Math.max(begin_ms, from_ms), Math.max(end_ms, from_ms), {
      ...(faces !== undefined && { faces }),
      ...(isPlaned && { machinedTo_mm }),
    });
    if (wanting !== undefined) return { stages: told, follows, wanting };
    begin_ms = end_ms;
  }
  return { stages: told, follows };
}
