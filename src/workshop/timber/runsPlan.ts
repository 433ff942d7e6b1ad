import type { Shop } from "../../claims/index.ts";
import type { PieceState } from "../../claims/timber/yard.ts";
import type { RunsAnswer } from "../../timber/index.ts";
import type { Calculate } from "../calculate.ts";
import { handsThere } from "./handsThere.ts";
import { lifeOf } from "./life.ts";
import { nextMove } from "./nextMove.ts";
import { isWorthwhile } from "./pieceCard.ts";
import { placeStage } from "./placeStage.ts";
import type { PieceCardView, RunsView, RunView } from "./views.ts";

const hour_ms = 3_600_000;
/** Pieces times places that `timber.runs` takes at once. */
const mostPairs = 60;
/** So near above its target a piece is ready. */
const ready_pct = 0.1;

/**
 * What is in each warm place and when each piece comes out; which of those that wait go in next; what to weigh, when
 * and why. Hours are counted from the next full one, so that a question stands for an hour.
 */
export async function runsPlan(
  shop: Shop,
  cards: readonly PieceCardView[],
  now: string,
  calculate: Calculate,
): Promise<RunsView> {
  const { timber } = shop;
  const from_ms = Math.ceil(Date.parse(now) / hour_ms) * hour_ms;
  const instant = (hours: number) => new Date(from_ms + hours * hour_ms).toISOString();
  const hands = handsThere(shop, from_ms);
  const states = new Map(cards.map(({ piece }) => [piece, timber.state(piece)!]));
  const warm = [...timber.places].filter(([, { what }]) => what !== "room" && what !== "outside");
  const sorted = cards.map((card) => ({ card, standing: standingOf(card) }));
  const askedOf = (name: string) => pieceAsked(shop, states.get(name)!, cards, from_ms);

  const standing = await Promise.all(
    warm.map(async ([place, { holds }]) => {
      const here = sorted.filter(({ card }) => card.place === place);
      const drying = here.filter(({ standing }) => standing === "drying").map(({ card }) => card.piece);
      const stage = placeStage(timber, place, from_ms);
      const pieces = drying.slice(0, mostPairs).flatMap((name) => askedOf(name) ?? []);
      const answer =
        stage && pieces.length > 0
          ? await calculate<RunsAnswer>("timber.runs", {
              pieces,
              places: [{ name: place, stage, capacity: pieces.length }],
              ...(hands && { hands }),
            })
          : undefined;
      return { place, holds, here, stage, answer };
    }),
  );

  const waiting = sorted.filter(({ card, standing: how }) => how === "drying" && !warm.some(([p]) => p === card.place));
  const open = standing.flatMap(({ place, holds, here, stage, answer }) => {
    // On an amplifier cases are soaked; boards go into the chamber and on the plate.
    if (!stage || timber.places.get(place)?.what === "amplifier") return [];
    const isFree = holds === undefined || here.length < holds;
    const capacity = holds === undefined ? Math.max(1, waiting.length) : isFree ? holds - here.length : holds;
    return [{ name: place, stage, capacity, freeFrom_h: isFree ? 0 : Number((answer?.makespan_h ?? 0).toFixed(1)) }];
  });
  const most = Math.floor(mostPairs / Math.max(1, open.length));
  const next = waiting.slice(0, most).flatMap(({ card }) => askedOf(card.piece) ?? []);
  const ahead =
    next.length > 0 && open.length > 0
      ? await calculate<RunsAnswer>("timber.runs", { pieces: next, places: open, ...(hands && { hands }) })
      : undefined;

  const byPiece = new Map(cards.map((card) => [card.piece, card]));
  const runOf = (batch: RunsAnswer["batches"][number]): RunView => ({
    begins: instant(batch.start_h),
    ends: instant(batch.end_h),
    groups: groupsOf(batch, byPiece, instant, (piece) => nextMove(timber, states.get(piece)!, from_ms)),
  });
  const weighings = standing.flatMap(({ answer }) => answer?.weigh ?? []).filter(isWorthwhile);
  const weigh = weighings.map(({ id, hour, why }) => ({
    piece: id,
    place: byPiece.get(id)!.place,
    at: instant(Math.max(0, hour)),
    why: why.replace(/ at hour \d+/, "").replace(/; later ones tell little more$/, ""),
  }));
  return {
    from: instant(0),
    places: standing.map(({ place, holds, here, answer, stage }) => {
      const names = (how: Standing) => here.filter((one) => one.standing === how).map(({ card }) => card.piece);
      return {
        place,
        ...(holds !== undefined && { holds }),
        runs: (answer?.batches ?? []).map(runOf),
        ripe: names("ripe"),
        noTarget: names("no target"),
        never: (answer?.unplaced ?? []).map(({ id, why }) => ({ piece: id, why })),
        next: (ahead?.batches ?? []).filter((batch) => batch.place === place).map(runOf),
        ...(!stage && here.length > 0 && { wanting: `No air of ${place} is on record: nothing can be planned in it.` }),
      };
    }),
    weigh,
    waiting: waiting.map(({ card }) => card.piece),
    notPlaced: (ahead?.unplaced ?? []).map(({ id, why }) => ({ piece: id, why })),
    later: waiting.slice(most).map(({ card }) => card.piece),
    notes: [
      ...(standing.some(({ holds }) => holds === undefined)
        ? [
            `Nothing says how many pieces ${listOf(standing.filter(({ holds }) => holds === undefined).map(({ place }) => place))} can hold: planned as if all found room. Add it to the place.`,
          ]
        : []),
      ...(standing.find(({ answer }) => answer)?.answer?.notes ?? ahead?.notes ?? []).filter(
        (note) => !note.startsWith("Hours count"),
      ),
    ],
  };
}

type Standing = "drying" | "ripe" | "no target" | "not known";

function standingOf({ target_pct, moisture }: PieceCardView): Standing {
  if (target_pct === undefined) return "no target";
  if (!moisture || moisture.basis === "approach") return "not known";
  return moisture.mean_pct > target_pct + ready_pct ? "drying" : "ripe";
}

/** Pieces of a run that dry alike, by thickness and target, the first out first. */
function groupsOf(
  { pieces }: RunsAnswer["batches"][number],
  cards: ReadonlyMap<string, PieceCardView>,
  instant: (hours: number) => string,
  moveOf: (piece: string) => ReturnType<typeof nextMove>,
): RunView["groups"] {
  const groups = new Map<string, RunView["groups"][number]["pieces"][number][]>();
  for (const { id, out_h, low_h, high_h, ifLeft_pct, isOverDryIfLeft } of pieces) {
    const { thickness_mm, target_pct } = cards.get(id)!;
    const key = `${thickness_mm} ${target_pct}`;
    const one = {
      piece: id,
      out: { at: instant(out_h), from: instant(low_h), ...(high_h !== undefined && { to: instant(high_h) }) },
      ifLeft_pct,
      isOverDryIfLeft,
      ...movedOn(moveOf(id)),
    };
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].map((group) => {
    const { thickness_mm, target_pct, meantFor, band } = cards.get(group[0]!.piece)!;
    return {
      thickness_mm,
      target_pct: target_pct!,
      ...(meantFor !== undefined && { unit: meantFor }),
      ...(band && { destination: band.place }),
      pieces: group,
    };
  });
}

function movedOn(move: ReturnType<typeof nextMove>) {
  return move && { planned: { to: move.place, at: new Date(move.at_ms).toISOString() } };
}

/** A piece with its whole life up to the hour that is planned from. */
function pieceAsked({ timber }: Shop, state: PieceState, cards: readonly PieceCardView[], from_ms: number) {
  const { target_pct } = cards.find(({ piece }) => piece === state.piece)!;
  const told = lifeOf(timber, state.piece, target_pct, { to_ms: from_ms, isPlanned: false });
  if (!told.ok) return undefined;
  const { now_h: _, outputs_h: __, hands: ___, ...question } = told.life.question;
  const move = nextMove(timber, state, from_ms);
  const leaves_h = move && Number(((move.at_ms - from_ms) / hour_ms).toFixed(2));
  return { id: state.piece, ...question, ...(leaves_h !== undefined && { leaves_h }) };
}

function listOf(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? "") : `${names.slice(0, -1).join(", ")} or ${names.at(-1)}`;
}
