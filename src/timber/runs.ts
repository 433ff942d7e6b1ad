import { BadInput, quote } from "../maths/badInput.ts";
import { checkIndexOf } from "./checkIndex.ts";
import { type Bands, bandsOf, type Estimate, whenReached } from "./estimate.ts";
import type { Hands } from "./hands.ts";
import { type LifeStage, spellsOf } from "./life.ts";
import { candidateHours, nextWeighing } from "./nextWeighing.ts";
import { packBatches } from "./packBatches.ts";
import { fitPiece, type PieceQuestion, segmentAt } from "./piece.ts";

/** A piece on the shelf: its life up to now, its weighings, and where it is to come to. */
export interface ShelfPiece extends PieceQuestion {
  readonly id: string;
  readonly target_pct: number;
  /** Room it takes, in the place's own measure; 1 where left out. */
  readonly room?: number;
  /** Hours from now at which it is moved on, whatever it holds: a weighing is asked for before. */
  readonly leaves_h?: number;
}

/** A chamber, a plate or a rack, by the air that a piece would see in it. */
export interface RunPlace {
  readonly name: string;
  readonly stage: Omit<LifeStage, "hours" | "place">;
  readonly capacity: number;
  /** Hours from now at which it is free. */
  readonly freeFrom_h?: number;
}

export interface RunsQuestion {
  readonly pieces: readonly ShelfPiece[];
  readonly places: readonly RunPlace[];
  /** A place is kept from pieces whose check index it would bring above this. */
  readonly mostCheckIndex?: number;
  /** Minutes of hands that one weighing takes; 3 where left out (common practice, no source). */
  readonly weighing_min?: number;
  /** When someone is there to weigh, hours from now; any hour where left out. */
  readonly hands?: Hands;
}

export interface BatchPiece {
  readonly id: string;
  /** Hours from now. */
  readonly out_h: number;
  readonly low_h: number;
  readonly high_h?: number;
  /** What it would hold at the batch's end, were it left in. */
  readonly ifLeft_pct: number;
  readonly isOverDryIfLeft: boolean;
}

export interface Batch {
  readonly place: string;
  readonly start_h: number;
  readonly end_h: number;
  readonly pieces: readonly BatchPiece[];
}

export interface RunsAnswer {
  readonly batches: readonly Batch[];
  readonly makespan_h: number;
  /** No plan of these runs can end before. */
  readonly bound_h: number;
  readonly unplaced: readonly { readonly id: string; readonly why: string }[];
  /** Most told per minute first. */
  readonly weigh: readonly {
    readonly id: string;
    readonly hour: number;
    readonly perMinute: number;
    readonly before: number;
    readonly after: number;
    readonly of: "hoursToTarget" | "moisture";
    readonly why: string;
  }[];
  readonly notes: readonly string[];
}

/** So far below its target a piece left in is over-dried, percent of moisture. */
const tooFar_pct = 1;

/**
 * Which pieces go into which run together, when each comes out, and what to weigh next.
 *
 *     hours of each piece in each place by its own fit;   batches of pieces of like hours (thickness and target together)
 *     next weighing: most information (nats about the hours to target) per minute of hands
 *
 * @throws BadInput  an id twice, a place without room
 * @remarks A batch lasts as long as its slowest piece and each piece is taken out at its own hour. For one place and
 *   pieces of one size the makespan is the least there is; else `bound_h` says how far it may be from that.
 */
export function planRuns(question: RunsQuestion): RunsAnswer {
  requireRuns(question);
  const unplaced: { id: string; why: string }[] = [];
  const fits = question.pieces.flatMap((piece) => {
    const ways = question.places.map((place) => wayOf(piece, place, question));
    const open = ways.filter((way) => way.kind === "open");
    if (open.length > 0) return [{ piece, ways: open }];
    unplaced.push({ id: piece.id, why: ways.map((way) => (way.kind === "shut" ? way.why : "")).join("; ") });
    return [];
  });
  const packed = packBatches(
    fits.map(({ piece, ways }) => ({
      room: piece.room ?? 1,
      hours: new Map(ways.map((way) => [way.place, way.hours] as const)),
    })),
    question.places.map(({ name, capacity, freeFrom_h = 0 }) => ({ name, capacity, freeFrom_h })),
  );
  const batches = packed.batches.map(
    ({ place, start_h, end_h, members }): Batch => ({
      place,
      start_h,
      end_h,
      pieces: members
        .map((k) => {
          const { piece, ways } = fits[k]!;
          const way = ways.find((one) => one.place === place)!;
          const ifLeft_pct = way.meanAt(end_h - start_h);
          return {
            id: piece.id,
            out_h: start_h + way.hours,
            low_h: start_h + way.low_h,
            ...(way.high_h === undefined ? {} : { high_h: start_h + way.high_h }),
            ifLeft_pct,
            isOverDryIfLeft: ifLeft_pct < piece.target_pct - tooFar_pct,
          };
        })
        .sort((a, b) => a.out_h - b.out_h),
    }),
  );
  const minutes = question.weighing_min ?? 3;
  const weigh = batches
    .filter(({ start_h, place }) => start_h <= (question.places.find(({ name }) => name === place)!.freeFrom_h ?? 0))
    .flatMap(({ place, start_h, pieces }) =>
      pieces.flatMap(({ id }) => {
        const way = fits.find(({ piece }) => piece.id === id)!.ways.find((one) => one.place === place)!;
        const next = way.next();
        if (!next) return [];
        const { before, after, of, why } = next;
        const hour = start_h + next.hour - way.now_h;
        if (hour > start_h + way.hours || hour > (way.leaves_h ?? hour)) return [];
        return [{ id, hour, perMinute: next.information / minutes, before, after, of, why }];
      }),
    )
    .sort((a, b) => b.perMinute - a.perMinute);
  return {
    batches,
    makespan_h: packed.makespan_h,
    bound_h: packed.bound_h,
    unplaced,
    weigh,
    notes: [
      "Hours count from now. Each piece comes out at its own hour; a weighing before then decides, not the clock.",
      "A batch is of pieces that ripen together: by thickness, target and each piece's own speed.",
    ],
  };
}

type Way =
  | { readonly kind: "shut"; readonly why: string }
  | {
      readonly kind: "open";
      readonly place: string;
      readonly now_h: number;
      readonly hours: number;
      readonly low_h: number;
      readonly high_h?: number;
      readonly leaves_h?: number;
      meanAt(hours: number): number;
      next(): ReturnType<typeof nextWeighing>;
    };

/** How a piece would fare in a place from now on. */
function wayOf(piece: ShelfPiece, place: RunPlace, { mostCheckIndex, hands }: RunsQuestion): Way {
  if ((piece.room ?? 1) > place.capacity) return { kind: "shut", why: `${place.name} has no room for it` };
  const past = piece.stages;
  const now_h = past.reduce((sum, { hours }) => sum + hours, 0);
  const stages: LifeStage[] = [...past, { ...place.stage, place: place.name, hours: 0 }];
  const fit = fitPiece({ ...piece, stages });
  const estimate: Estimate = fit.estimate;
  const aim = { target_pct: piece.target_pct, searchFrom_h: now_h };
  const alone: Estimate = { ...estimate, posterior: { ...estimate.posterior, ends: [] } };
  const out_h = bandsOf(alone, [now_h], aim).run.hoursToTarget ?? now_h + 24;
  // After the piece is out of the place a weighing there tells nothing.
  const candidates = candidateHours(
    now_h,
    Math.min(out_h, now_h + (piece.leaves_h ?? Number.POSITIVE_INFINITY)),
    hands?.map(({ from_h, to_h }) => ({ from_h: now_h + from_h, to_h: now_h + to_h })),
  );
  const bands: Bands = bandsOf(estimate, [now_h, ...candidates], aim);
  const when = whenReached(bands, now_h);
  const now_pct = bands.run.means_pct[0]!;
  if (!when) {
    return { kind: "shut", why: `in ${place.name} it never comes from ${now_pct.toFixed(1)} to ${piece.target_pct} %` };
  }
  const air = spellsOf(
    stages,
    piece.thickness_mm,
    fit.known.species?.density_kg_m3 ?? piece.density_kg_m3 ?? piece.wood?.density_kg_m3,
  ).at(-1)!;
  const drawn = air.faces.flatMap((face) => (face.open ? [face.emc_pct] : []));
  const check = checkIndexOf(Math.max(0, now_pct - Math.min(now_pct, ...drawn)), fit.known.species);
  if (mostCheckIndex !== undefined && check.index > mostCheckIndex) {
    return {
      kind: "shut",
      why: `${place.name} would bring its check index to ${check.index.toFixed(1)}, above ${mostCheckIndex}`,
    };
  }
  return {
    kind: "open",
    place: place.name,
    now_h,
    hours: when.hours - now_h,
    low_h: when.low_h - now_h,
    ...(when.high_h === undefined ? {} : { high_h: when.high_h - now_h }),
    ...(piece.leaves_h === undefined ? {} : { leaves_h: piece.leaves_h }),
    meanAt: (hours) => bandsOf(alone, [now_h + hours]).run.means_pct[0]!,
    next: () =>
      nextWeighing(estimate, bands, {
        hours: candidates,
        first: 1,
        segment: segmentAt(stages, [...beginsOf(stages)], now_h + 1e-3),
      }),
  };
}

function beginsOf(stages: readonly LifeStage[]): number[] {
  let sum = 0;
  return [0, ...stages.map(({ hours }) => (sum += hours))];
}

function requireRuns({ pieces, places }: RunsQuestion): void {
  const ids = new Set<string>();
  pieces.forEach(({ id }, i) => {
    if (ids.has(id)) throw new BadInput(`pieces[${i}].id`, quote(id), "each piece once", "give it another id");
    ids.add(id);
  });
  if (places.length === 0) throw new BadInput("places", "none", "at least one", "give the chamber or the plate");
  places.forEach(({ capacity }, i) => {
    if (!(capacity > 0))
      throw new BadInput(`places[${i}].capacity`, quote(capacity), "above 0", "give how much it holds");
  });
}
