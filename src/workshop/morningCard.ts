import { type ClaimState, instrumentStanding, type Shop, type UnitState } from "../claims/index.ts";
import { groupBy } from "./groupBy.ts";
import { freeSlot, slotsFree } from "./production/places.ts";
import { standsIn, waitOf } from "./production/waits.ts";
import type { MorningView } from "./views.ts";

const hour_ms = 3_600_000;
/** What ripens within this many hours belongs on today's card. */
const horizon_h = 24;

type Ripening = MorningView["ripens"][number];

/** The morning card before the clock is asked. */
export type MorningCard = Omit<MorningView, "now">;

/** What ripens by itself, and where the instruments stand; the hands' day is shared out by `dayHands`. */
export function morningCard(shop: Shop, statesOf: (unit: string) => readonly ClaimState[]): MorningCard {
  const open = shop.openUnits;
  return {
    ripens: [
      ...heatRuns(shop),
      ...open.flatMap((unit) => begunWait(shop, unit, statesOf(unit.unit))),
      ...open.flatMap((unit) => unattendedWork(shop, unit)),
      ...open.flatMap((unit) => warmEnough(shop, unit, statesOf(unit.unit))),
    ],
    hands: [],
    ...(isKept(shop) && { toBegin: open.flatMap((unit) => toBegin(shop, unit)) }),
    back: cameBack(shop),
    instruments: [...shop.instruments.values()].map(({ body }) => ({
      instrument: body.instrument,
      title: body.title,
      ...instrumentStanding(shop.ledger, body.instrument),
    })),
  };
}

/** The card of a morning: of what ripens by itself that which does so today. */
export function morningOf(card: MorningCard, now: string): MorningView {
  const ripens = card.ripens.filter((one) => isToday(one, now) && !isForgotten(one, now));
  return { now, ...card, ripens: ripens.toSorted(byClock) };
}

const isToday = ({ at }: Ripening, now: string) => Date.parse(at) <= Date.parse(now) + horizon_h * hour_ms;
/** What was ripe so long ago is no work of this morning: valves laid aside unheated would be told of for ever. */
const forgotten_h = 30 * 24;
const isForgotten = ({ at }: Ripening, now: string) => Date.parse(at) < Date.parse(now) - forgotten_h * hour_ms;
const byClock = (a: Ripening, b: Ripening) => Date.parse(a.at) - Date.parse(b.at);

/** A shop that writes down what it sets going is not guessed at; elsewhere a step is taken to begin with the one before. */
const isKept = ({ runs }: Shop) => [...runs.all.values()].some(({ body }) => body.units.length > 0);

/** What was set going on a unit, where it stands, and what then comes. */
function begunWait(shop: Shop, { unit }: UnitState, states: readonly ClaimState[]): Ripening[] {
  const waiting = waitOf(shop, unit, states);
  if (!waiting) return [];
  const { step, claim, ripe } = waiting;
  const title = states.find((state) => state.claim === claim)?.title;
  const what = step === undefined ? `${title ?? claim}: its ${waiting.body.hours} h are up` : `${step} finished`;
  return [{ at: ripe, what: `${what} (${standsIn(waiting)})`, unit }];
}

/** The next step of a unit, where it goes on by itself and nobody wrote down that it does. */
function toBegin(shop: Shop, { unit, done }: UnitState): NonNullable<MorningView["toBegin"]> {
  const step = shop.modelOf(unit)?.build.find(({ step: name }) => !done.has(name));
  if (!step?.unattended || shop.runs.of(unit)) return [];
  const { place } = step;
  const free = place === undefined ? undefined : slotsFree(shop, place);
  const slot = place === undefined ? undefined : freeSlot(shop, place);
  return [
    {
      unit,
      step: step.step,
      hours: step.hours.usual,
      ...(place !== undefined && { place }),
      ...(free !== undefined && { free }),
      ...(slot !== undefined && { slot }),
    },
  ];
}

/**
 * Units that came back as they left, the newest first: nothing was found void, so nothing but the customer's word asks
 * for hands.
 */
function cameBack(shop: Shop): NonNullable<MorningView["back"]> {
  const units = new Set(shop.returns.map(({ body }) => body.unit).toReversed());
  return [...units].flatMap((unit) => {
    const back = shop.isReleased(unit) ? shop.cameBackAfter(unit) : undefined;
    return back ? [{ unit, at: back.at, says: back.body.says }] : [];
  });
}

/** Valves read cold and not yet hot, whose heat run ends by the clock; those laid aside after their first reading among them. */
function heatRuns(shop: Shop): Ripening[] {
  return [...groupBy(shop.awaitingHot, ([valve]) => shop.valve(valve)?.batch)].flatMap(([batch, valves]) => {
    const type = shop.valve(valves[0]![0])?.type;
    const heatRun_h = type === undefined ? undefined : shop.valveLimits.get(type)?.body.heatRun_h;
    if (heatRun_h === undefined) return [];
    const begun = shop.runs.of(valves[0]![0]);
    if (begun) return [{ at: begun.ripe, what: `${heatRunOf(valves.length, batch)} (${standsIn(begun)})` }];
    const last = valves.map(([, at]) => at).reduce((a, b) => (Date.parse(b) > Date.parse(a) ? b : a));
    return [{ at: later(last, heatRun_h), what: heatRunOf(valves.length, batch) }];
  });
}

const heatRunOf = (count: number, batch: string | undefined) =>
  `heat run of ${count} valves of batch ${batch} ends: read the reference valve, then read them hot`;

/** A build step that goes on by itself since the step before it was finished. */
function unattendedWork(shop: Shop, unit: UnitState): Ripening[] {
  if (isKept(shop)) return [];
  const model = shop.modelOf(unit.unit);
  const next = model?.build.findIndex(({ step }) => !unit.done.has(step)) ?? -1;
  const step = next < 0 ? undefined : model!.build[next];
  if (!step?.unattended) return [];
  const before = model!.build[next - 1]?.step;
  const begun = shop.ledger.about("step", unit.unit).findLast(({ body }) => body.step === before)?.at ?? unit.openedAt;
  return [{ at: later(begun, step.hours.usual), what: `unit ${unit.unit}: ${step.step} finished`, unit: unit.unit }];
}

/** Checks that had to wait since the last rework, now ripe. */
function warmEnough(shop: Shop, { unit }: UnitState, states: readonly ClaimState[]): Ripening[] {
  const rework = shop.ledger.about("rework", unit).at(-1);
  if (!rework) return [];
  return states
    .filter(
      (state) => state.state === "void" && state.check.wait_h > 0 && shop.runs.of(unit)?.body.claim !== state.claim,
    )
    .map(({ title, check }) => ({
      at: later(rework.at, check.wait_h),
      what: `unit ${unit} is ready for: ${title}`,
      unit,
    }));
}

function later(at: string, hours: number): string {
  return new Date(Date.parse(at) + hours * hour_ms).toISOString();
}
