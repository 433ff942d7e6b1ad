import type { BodyOf } from "../../claims/evidence.ts";
import type { PieceEntry, PieceState, Yard } from "../../claims/timber/yard.ts";
import type { Hands } from "../../timber/hands.ts";
import { isListed } from "../../timber/species.ts";
import { ownWoodOf } from "./ownWood.ts";
import { airBetween, newestAir } from "./placeAir.ts";
import { type PlannedAhead, plannedAhead } from "./plannedAhead.ts";

const hour_ms = 3_600_000;

/** The question that a piece's whole life puts to `timber.piece`; hours count from when its board came in. */
export interface Life {
  readonly origin_ms: number;
  /** Hour of the last thing that is known of it. */
  readonly told_h: number;
  readonly question: Readonly<Record<string, unknown>>;
  readonly stays: readonly { readonly place: string; readonly from: string; readonly to?: string }[];
  /** Moments of the weighings in the question, in its order. */
  readonly weighedAt: readonly string[];
  /** Stages to come, as planned, after those that were; and why the plan is not followed further. */
  readonly planned: readonly { readonly place: string; readonly from: string; readonly to: string }[];
  readonly planWanting?: string;
}

export type LifeTold = { readonly ok: true; readonly life: Life } | { readonly ok: false; readonly wanting: string };

interface Stage {
  place: string;
  from_ms: number;
  to_ms: number;
  faces?: "both" | "one";
  machinedTo_mm?: number;
  massChanged?: boolean;
  coats?: { finish: string; coats: number; on: "both" | "first" }[];
}

/** Hours ahead at which its course is asked for. */
const ahead_h = [0, 4, 8, 12, 18, 24, 36, 48, 72, 96, 144, 192, 288, 400, 600, 900, 1400, 2200, 4400];

/** Hours into its present stay at which its course is asked for too. */
const lately_h = [1, 3, 6, 10, 16, 24, 36, 54, 80, 120, 200, 320];

/** So little between two things done counts as at once. */
const atOnce_ms = 60_000;

export interface LifeOptions {
  /** The moment up to which it stands where it is; the last that is known of it where left out. */
  readonly to_ms?: number;
  /** Whether the stages that are planned for it follow. */
  readonly isPlanned?: boolean;
  /** When someone is there to weigh it, hours from a moment. */
  readonly hands?: (from_ms: number) => Hands | undefined;
}

/**
 * A piece's life from its entries, and from those of the board it was sawn from: where it stood in which air, what was
 * planed off and put on, what it weighed. Nothing of it is assumed: a place without a log of its air is named.
 *
 * Stages that are planned follow those that were, in the air that their places have now.
 */
export function lifeOf(
  yard: Yard,
  piece: string,
  target_pct?: number,
  { to_ms, isPlanned = true, hands }: LifeOptions = {},
): LifeTold {
  const state = yard.state(piece)!;
  const entries = lineage(yard, state);
  const first = entries[0]!;
  if (first.body.kind !== "blank") return { ok: false, wanting: `Nothing says how ${piece} came in: receive it.` };
  const { body: blank } = first;
  const origin_ms = Date.parse(first.at);
  const stages = stagesOf(entries, piece, blank.place, blank.thickness_mm, origin_ms);
  const last_ms = Math.max(
    // A plan tells nothing of what was.
    ...entries.flatMap(({ at, body }) => (body.kind === "planned-stages" ? [] : [Date.parse(at)])),
    // What a room's air does to a case, or to a board that is no more, is not asked of the piece.
    ...(state.inCase || state.into ? [] : [newestAir(yard, state.place)?.at_ms ?? origin_ms]),
    ...(to_ms === undefined ? [] : [to_ms]),
  );
  const last = stages.at(-1)!;
  last.to_ms = Math.max(last.from_ms + hour_ms, last_ms);
  const nothing: PlannedAhead = { stages: [], follows: [] };
  const plan = isPlanned && !state.inCase && !state.into ? yard.plannedOf(piece)?.body : undefined;
  const ahead = plan
    ? plannedAhead(yard, plan, { place: last.place, thickness_mm: state.thickness_mm }, last.to_ms)
    : nothing;

  const hoursAt = (ms: number) => Number(((ms - origin_ms) / hour_ms).toFixed(3));
  const asked: Record<string, unknown>[] = [];
  for (const stage of stages) {
    const seen = airSeen(yard, stage);
    if (typeof seen === "string") return { ok: false, wanting: seen };
    const { place, from_ms, to_ms, faces: _, coats, ...rest } = stage;
    asked.push({
      place,
      hours: Number(((to_ms - from_ms) / hour_ms).toFixed(3)),
      ...rest,
      ...(coats && { coats }),
      ...seen,
    });
  }
  const weighings = entries.flatMap((entry) =>
    entry.body.kind === "weighing" ? [{ ...entry, body: entry.body }] : [],
  );
  const offcut = entries.flatMap(({ body }) => (body.kind === "offcut" ? [body] : [])).at(-1);
  const doubts_g = weighings.flatMap(({ body }) => body.doubt_g ?? []);
  const told_h = hoursAt(Math.max(last_ms, origin_ms));
  asked.push(...ahead.stages);
  const there = hands?.(origin_ms + told_h * hour_ms);
  const past = [
    ...stages.map(({ from_ms }) => hoursAt(from_ms)),
    ...weighings.map(({ at }) => hoursAt(Date.parse(at))),
  ];
  const stay_h = hoursAt(last.from_ms);
  const lately = lately_h.map((hours) => stay_h + hours).filter((hours) => hours < told_h);
  const ends = ahead.follows.flatMap(({ from, to }) => [hoursAt(Date.parse(from)), hoursAt(Date.parse(to))]);
  const outputs_h = [...new Set([0, ...past, ...lately, ...ends, ...ahead_h.map((hours) => told_h + hours)])]
    .map((hours) => Number(hours.toFixed(3)))
    .filter((hours) => hours >= 0)
    .toSorted((a, b) => a - b);
  return {
    ok: true,
    life: {
      origin_ms,
      told_h,
      stays: staysOf(stages),
      weighedAt: weighings.map(({ at }) => at),
      planned: ahead.follows,
      ...(ahead.wanting !== undefined && { planWanting: ahead.wanting }),
      question: {
        ...woodAsked(yard, blank),
        thickness_mm: blank.thickness_mm,
        ...(blank.claimed_pct !== undefined && { start_pct: blank.claimed_pct, startDoubt_pct: claimDoubt_pct }),
        stages: asked,
        weighings: weighings.map(({ at, body }) => ({ hour: hoursAt(Date.parse(at)), mass_g: body.mass_g })),
        ...(doubts_g.length > 0 && { balance_g: Math.max(...doubts_g) }),
        ...(offcut && {
          offcut: { hour: hoursAt(Date.parse(offcut.cut)), wet_g: offcut.wet_g, dry_g: offcut.ovenDry_g },
        }),
        ...(target_pct !== undefined && { target_pct }),
        now_h: told_h,
        outputs_h,
        ...(there && {
          hands: there.map(({ from_h, to_h }) => ({ from_h: sum(told_h, from_h), to_h: sum(told_h, to_h) })),
        }),
      },
    },
  };
}

function sum(a: number, b: number): number {
  return Number((a + b).toFixed(3));
}

/** The catalogue's wood by its name, the shop's own as it was measured, else whatever its density tells. */
function woodAsked(yard: Yard, { species, density_kg_m3 }: BodyOf<"blank">) {
  const own = ownWoodOf(yard, { species, ...(density_kg_m3 !== undefined && { density_kg_m3 }) });
  return own.wood || density_kg_m3 === undefined || isListed(species) ? { species, ...own } : { density_kg_m3 };
}

/** What a seller's word is worth, 95 % (common practice, no source). */
const claimDoubt_pct = 5;

/** The piece's own entries after those of the board it was sawn from. */
function lineage(yard: Yard, state: PieceState): readonly PieceEntry[] {
  const own = yard.entriesOf(state.piece);
  if (state.from === undefined) return own;
  const parent = yard.state(state.from);
  if (!parent) return own;
  const before = lineage(yard, parent).filter(
    ({ at, body }) => body.kind !== "sawn" && Date.parse(at) <= Date.parse(state.begun),
  );
  return [...before, ...own];
}

function stagesOf(
  entries: readonly PieceEntry[],
  piece: string,
  place: string,
  thickness_mm: number,
  origin_ms: number,
): Stage[] {
  const stages: Stage[] = [{ place, from_ms: origin_ms, to_ms: origin_ms }];
  let now_mm = thickness_mm;
  const turn = (at: string, change: Partial<Stage>) => {
    const at_ms = Date.parse(at);
    const last = stages.at(-1)!;
    last.to_ms = at_ms;
    if (at_ms - last.from_ms < atOnce_ms) {
      const coats = [...(last.coats ?? []), ...(change.coats ?? [])];
      Object.assign(last, change, coats.length > 0 ? { coats } : {});
    } else stages.push({ place: last.place, from_ms: at_ms, to_ms: at_ms, ...keptFaces(last, change), ...change });
  };
  const thinner = (to_mm: number): Partial<Stage> => {
    const isThinner = to_mm < now_mm;
    now_mm = Math.min(now_mm, to_mm);
    return isThinner ? { machinedTo_mm: to_mm } : { massChanged: true };
  };
  for (const { at, body } of entries) {
    if (body.kind === "stood") turn(at, { place: body.place, ...(body.faces && { faces: body.faces }) });
    if (body.kind === "machined") turn(at, thinner(body.thickness_mm));
    if (body.kind === "sawn" && body.piece !== piece)
      turn(at, thinner(body.into.find((one) => one.piece === piece)?.thickness_mm ?? now_mm));
    if (body.kind === "coat")
      turn(at, { coats: [{ finish: body.finish, coats: 1, on: body.faces === "both" ? "both" : "first" }] });
  }
  return stages;
}

function keptFaces(last: Stage, change: Partial<Stage>): Partial<Stage> {
  return change.place === undefined && last.faces !== undefined ? { faces: last.faces } : {};
}

/** The air of a stage as the wood saw it, or what is wanting. */
function airSeen(yard: Yard, { place, faces, from_ms, to_ms }: Stage): Readonly<Record<string, unknown>> | string {
  const known = yard.places.get(place);
  const lies = known?.what === "plate" || known?.what === "amplifier";
  if (lies && known.set_C === undefined) return `Nothing says how warm ${place} is: write down what it is set to.`;
  const own = airBetween(yard, place, from_ms, to_ms);
  const room = [...yard.places].find(([name, { what }]) => what === "room" && yard.airOf(name).length > 0)?.[0];
  const air = own.length > 0 || !lies || room === undefined ? own : airBetween(yard, room, from_ms, to_ms);
  if (air.length === 0) return `No air of ${place} is on record: log its temperature and humidity.`;
  const log = air.map(({ at_ms, temperature_C, humidity_pct }) => ({
    hour: Number(Math.max(0, (at_ms - from_ms) / hour_ms).toFixed(3)),
    temperature_C,
    humidity_pct,
  }));
  const open = faces ?? known?.faces ?? "both";
  return {
    ...(log.length === 1 && log[0]
      ? { temperature_C: log[0].temperature_C, humidity_pct: log[0].humidity_pct }
      : { log }),
    ...(lies ? { plate_C: known.set_C } : { faces: open }),
  };
}

function staysOf(stages: readonly Stage[]): Life["stays"] {
  const stays: { place: string; from: string; to?: string }[] = [];
  for (const { place, from_ms } of stages) {
    const last = stays.at(-1);
    if (last?.place === place) continue;
    const from = new Date(from_ms).toISOString();
    if (last) last.to = from;
    stays.push({ place, from });
  }
  return stays;
}
