import { type ClaimState, isClosed, nextChecks, type Shop } from "../../claims/index.ts";
import type { DayPlan, Task } from "../../production/index.ts";
import type { Calculate } from "../calculate.ts";
import type { MorningView } from "../views.ts";
import { freeSlot } from "./places.ts";
import { type Records, recordsOf } from "./records.ts";
import { isRipe, standsIn, waitOf } from "./waits.ts";

/** What may be done today, before it is shared out. */
export interface Doable {
  readonly task: Task;
  readonly unit: string;
  readonly claim: string;
  readonly title: string;
  /** Why it stands open, beside what it is worth. */
  readonly because: string;
}

/**
 * Shares the day out: `production.next` over every check that may be made now and every build step that waits for hands,
 * with odds and hours from the shop's own records.
 */
export async function dayHands(
  shop: Shop,
  now: string,
  statesOf: (unit: string) => readonly ClaimState[],
  calculate: Calculate,
  recordsNow: () => Records = () => recordsOf(shop),
): Promise<Pick<MorningView, "hands" | "blocked">> {
  if (!shop.shop || shop.shop.people.length === 0) return { hands: [], blocked: [] };
  const records = recordsNow();
  const skills = new Set(shop.shop.people.flatMap((person) => person.skills));
  const doable = shop.openUnits
    .flatMap(({ unit }) => doableOn(shop, unit, statesOf(unit), records, now))
    .filter(({ task }) => skills.has(task.skill));
  const { calendars, people, timeZone } = shop.shop;
  const plan = await calculate<DayPlan>("production.next", {
    now,
    timeZone,
    calendars,
    people,
    free: freePlaces(shop),
    tasks: doable.map(({ task }) => task),
    ...(records.hour_cents === undefined
      ? {}
      : { hour_cents: Math.round(records.hour_cents), currency: shop.rates?.currency }),
  });
  const known = new Map(doable.map((one) => [one.task.id, one]));
  const shown = (id: string) => {
    const { unit, claim, title, task } = known.get(id)!;
    return { unit, claim, title, hands_min: task.hands_min, danger: task.danger ?? "none" };
  };
  return {
    hands: plan.hands.map(({ person, home, next, beforeHome }) => ({
      person,
      ...(home !== undefined && { home }),
      next: next.map(({ task, start, why }) => ({
        ...shown(task),
        start,
        why: joined(known.get(task)!.because, why),
      })),
      beforeHome: beforeHome.map(({ task, latest, ripe, why }) => ({
        ...shown(task),
        ...waitsAt(shop, known.get(task)!),
        latest,
        ripe,
        why,
      })),
    })),
    blocked: plan.blocked.map(({ task, why }) => ({ ...shown(task), why })),
  };
}

/** The next build step that needs hands, or on a finished unit the checks that may be made. */
function doableOn(
  shop: Shop,
  unit: string,
  states: readonly ClaimState[],
  records: Records,
  now: string,
): readonly Doable[] {
  const model = shop.modelOf(unit);
  if (!model) return [];
  const waiting = waitOf(shop, unit, states);
  // A unit that is warm, closed or in the rack is left alone until it is ripe.
  if (waiting && !isRipe(waiting, now)) return [];
  const due = shop.orders.get(shop.units.get(unit)!.order)?.body.due;
  const step = model.build.find(({ step: name }) => !shop.units.get(unit)!.done.has(name));
  if (step) {
    if (step.unattended || step.skill === undefined) return [];
    const open = states.filter((state) => !isClosed(state)).length;
    return [
      {
        unit,
        claim: step.step,
        title: step.step,
        because: `${open} claims wait behind it; `,
        task: {
          id: `${unit} ${step.step}`,
          unit,
          skill: step.skill,
          hands_min: Math.round(step.hours.usual * 60),
          splits: true,
          ...(step.place !== undefined && { place: step.place }),
          ...(due !== undefined && { due }),
        },
      },
    ];
  }
  const specOf = new Map(model.claims.map((spec) => [spec.claim, spec]));
  return nextChecks(states, model).map(({ claim, title, why, skill, hands_min, wait_h, danger, place }) => ({
    unit,
    claim,
    title,
    because:
      waiting?.claim === claim
        ? `Its ${waiting.body.hours} h are over (${standsIn(waiting)}). `
        : /^(Void|Undecided)/.test(why)
          ? `${why.slice(0, why.lastIndexOf(";"))}. `
          : "",
    task: {
      id: `${unit} ${claim}`,
      unit,
      skill,
      hands_min,
      wait_h: waiting?.claim === claim ? 0 : wait_h,
      danger,
      ...(place !== undefined && { place }),
      ...(due !== undefined && { due }),
      faults: records.suspected(model, specOf.get(claim)!),
    },
  }));
}

/** Where a check waits by itself, and for how long. */
function waitsAt(shop: Shop, { unit, claim, task }: Doable) {
  const check = shop.modelOf(unit)?.claims.find((spec) => spec.claim === claim)?.check;
  const place = check?.waitPlace ?? check?.place;
  const slot = place === undefined ? undefined : freeSlot(shop, place);
  return {
    ...(task.wait_h !== undefined && { wait_h: task.wait_h }),
    ...(place !== undefined && { place }),
    ...(slot !== undefined && { slot }),
  };
}

/** Slots of places, less what goes on in them by itself. */
function freePlaces(shop: Shop): Record<string, number> {
  const free = Object.fromEntries(
    (shop.shop?.places ?? []).map(({ id, capacity = 1 }) => [id, Math.max(0, capacity - shop.runs.slotsOf(id).length)]),
  );
  for (const { unit, done } of shop.openUnits) {
    if (shop.runs.of(unit)) continue;
    const step = shop.modelOf(unit)?.build.find(({ step: name }) => !done.has(name));
    if (!step?.unattended || step.place === undefined || free[step.place] === undefined) continue;
    free[step.place] = Math.max(0, free[step.place]! - 1);
  }
  return free;
}

/** Two halves of a sentence, or two sentences. */
function joined(because: string, why: string): string {
  const goesOn = because.endsWith("; ");
  return `${because}${goesOn ? why.charAt(0) : why.charAt(0).toUpperCase()}${why.slice(1)}`;
}
