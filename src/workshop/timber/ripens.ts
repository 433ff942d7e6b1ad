import type { Shop } from "../../claims/index.ts";
import type { Calculate } from "../calculate.ts";
import type { MorningView } from "../views.ts";
import { finishPlanOf } from "./finishPlan.ts";
import { hardAfter_h } from "./hardening.ts";
import { nextMove } from "./nextMove.ts";
import type { PieceCardView } from "./views.ts";

type Ripening = MorningView["ripens"][number];
const hour_ms = 3_600_000;

/** Boards that come to their target and boards to weigh, place by place, and coats to turn or hard. */
export async function timberRipens(
  shop: Shop,
  pieces: readonly PieceCardView[],
  now: string,
  calculate: Calculate,
): Promise<Ripening[]> {
  return [
    ...together(
      pieces,
      ({ ripe }) => ripe?.at,
      now,
      (names, place, count) => `${names} at ${place} ${count === 1 ? "comes to its" : "come to their"} target`,
    ),
    ...together(
      pieces,
      ({ nextWeighing, place }) => (isWarm(shop, place) ? nextWeighing?.at : undefined),
      now,
      (names, place) => `${names} at ${place} to be weighed`,
    ),
    ...(await coats(shop, now, calculate)),
    ...(await plannedCoats(shop, now, calculate)),
    ...plannedMoves(shop, pieces, now),
  ];
}

/** Pieces in a room can wait for their weighing; those in the warm can't. */
function isWarm({ timber }: Shop, place: string): boolean {
  const what = timber.places.get(place)?.what;
  return what !== "room" && what !== "outside";
}

/** What is due within this many hours is done in one round. */
const round_h = 4;
/** What was due longer ago than this is no news. */
const past_h = 24;

function together(
  pieces: readonly PieceCardView[],
  when: (piece: PieceCardView) => string | undefined,
  now: string,
  words: (names: string, place: string, count: number) => string,
): Ripening[] {
  const rounds = new Map<string, { at: string; place: string; names: string[] }>();
  const due = pieces
    .flatMap((one) => {
      const at = when(one);
      return at !== undefined && Date.parse(at) >= Date.parse(now) - past_h * hour_ms ? [{ at, one }] : [];
    })
    .toSorted((a, b) => (a.at < b.at ? -1 : 1));
  for (const { at, one } of due) {
    const key = `${one.place} ${Math.floor(Date.parse(at) / hour_ms / round_h)}`;
    const round = rounds.get(key) ?? { at, place: one.place, names: [] };
    round.names.push(one.piece);
    rounds.set(key, round);
  }
  return [...rounds.values()].map(({ at, place, names }) => ({ at, what: words(listOf(names), place, names.length) }));
}

/** The next coat of each finishing plan. */
async function plannedCoats(shop: Shop, now: string, calculate: Calculate): Promise<Ripening[]> {
  const open = shop.timber.unitsToFinish.filter((unit) => !(shop.units.has(unit) && shop.isReleased(unit)));
  const due = await Promise.all(
    open.map(async (unit): Promise<Ripening[]> => {
      const plan = await finishPlanOf(shop, unit, now, calculate);
      const next = plan?.steps.find(({ kind, isDone }) => kind === "coat" && !isDone);
      return plan && next ? [{ at: next.at, what: `${next.what}, ${plan.who}`, unit }] : [];
    }),
  );
  return due.flat();
}

/** Pieces that a plan moves from where they stand. */
function plannedMoves({ timber }: Shop, pieces: readonly PieceCardView[], now: string): Ripening[] {
  const moves = new Map<string, { at: string; to: string; names: string[] }>();
  for (const card of pieces) {
    const next = nextMove(timber, card, Date.parse(now));
    if (!next) continue;
    const at = new Date(next.at_ms).toISOString();
    const move = moves.get(`${at} ${next.place}`) ?? { at, to: next.place, names: [] };
    move.names.push(card.piece);
    moves.set(`${at} ${next.place}`, move);
  }
  return [...moves.values()].map(({ at, to, names }) => ({ at, what: `${listOf(names)} to ${to}, as planned` }));
}

function listOf(names: readonly string[]): string {
  return names.length <= 3 ? names.join(", ") : `${names.slice(0, 2).join(", ")} and ${names.length - 2} more boards`;
}

/** Older coats are hard whatever the air was. */
const longAgo_ms = 60 * 24 * hour_ms;

async function coats({ ledger, timber }: Shop, now: string, calculate: Calculate): Promise<Ripening[]> {
  const since = ledger.coats.findLastIndex(({ at }) => Date.parse(at) < Date.parse(now) - longAgo_ms) + 1;
  const recent = ledger.coats.slice(since).filter(({ id }) => ledger.supersederOf(id) === undefined);
  const due = recent.map(async ({ at, body }): Promise<Ripening[]> => {
    const what = body.unit === undefined ? body.pieces.join(", ") : "the case";
    const later = (hours: number) => new Date(Date.parse(at) + hours * hour_ms).toISOString();
    const unit = body.unit === undefined ? {} : { unit: body.unit };
    const finish = body.product ?? body.finish;
    return [
      ...(body.turn_h === undefined
        ? []
        : [{ at: later(body.turn_h), what: `turn ${what}: coat of ${finish}`, ...unit }]),
      {
        at: later(await hardAfter_h(timber, { at, ...body }, calculate)),
        what: `coat of ${finish} on ${what} is hard`,
        ...unit,
      },
    ].filter((one) => Date.parse(one.at) >= Date.parse(now) - round_h * hour_ms);
  });
  return (await Promise.all(due)).flat();
}
