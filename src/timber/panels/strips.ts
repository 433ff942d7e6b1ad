import { acrossWidth, coefficientsOf } from "../coefficients.ts";
import { speciesOf } from "../ownWood.ts";
import { plainName, speciesNamed } from "../species.ts";
import type { Allowance, Board, WantedPanel, Worth } from "./ask.ts";

/** One stave to be cut, allowances and all. */
export interface Item {
  readonly panel: number;
  readonly stave: number;
  readonly length_mm: number;
  readonly width_mm: number;
  readonly area_dm2: number;
}

/** A stretch of a board, ripped one way into strips. */
export interface Ripping {
  readonly board: number;
  readonly segment: number;
  readonly area_dm2: number;
  /** What is clear of each strip: panels are cut from these. */
  readonly bays: readonly Bay[];
}

/** A clear length of a strip. */
export interface Bay {
  readonly from_mm: number;
  readonly length_mm: number;
  readonly across_mm: number;
  readonly width_mm: number;
}

export function itemsOf(panels: readonly WantedPanel[], allowance: Allowance): Item[] {
  return panels.flatMap((panel, index) => {
    const staves = panel.staves ?? 1;
    const length_mm = panel.length_mm + allowance.length_mm;
    const width_mm = panel.width_mm / staves + allowance.width_mm;
    return Array.from({ length: staves }, (_, stave) => ({
      panel: index,
      stave,
      length_mm,
      width_mm,
      area_dm2: (length_mm * width_mm) / 1e4,
    }));
  });
}

/** Stretches between defects that take the whole width. */
function stretchesOf({ length_mm, width_mm, defects = [] }: Board): { from_mm: number; to_mm: number }[] {
  return clearOf(
    0,
    length_mm,
    defects.filter(({ across }) => across === undefined || (across.from_mm <= 0 && across.to_mm >= width_mm)),
  );
}

/** What is left of a length between defects. */
function clearOf(
  begin_mm: number,
  end_mm: number,
  defects: readonly { readonly from_mm: number; readonly to_mm: number }[],
): { from_mm: number; to_mm: number }[] {
  const sorted = [...defects].sort((a, b) => a.from_mm - b.from_mm);
  const clear: { from_mm: number; to_mm: number }[] = [];
  let begun = begin_mm;
  for (const { from_mm, to_mm } of sorted) {
    if (from_mm > begun) clear.push({ from_mm: begun, to_mm: Math.min(from_mm, end_mm) });
    begun = Math.max(begun, to_mm);
  }
  if (begun < end_mm) clear.push({ from_mm: begun, to_mm: end_mm });
  return clear;
}

/** Ways of ripping one stretch that are worth trying at most. */
const mostRippings = 12;

/** Every stretch, ripped in every way that no other way contains, its strips laid where knots and sapwood harm least. */
export function rippingsOf(
  boards: readonly Board[],
  items: readonly Item[],
  fits: (item: Item, board: number) => boolean,
  kerf_mm: number,
): Ripping[] {
  let segment = 0;
  return boards.flatMap((board, index) =>
    stretchesOf(board).flatMap((stretch) => {
      const length_mm = stretch.to_mm - stretch.from_mm;
      const fitting = items.filter(
        (item) => item.length_mm <= length_mm && item.width_mm <= board.width_mm && fits(item, index),
      );
      const widths = [...new Set(fitting.map(({ width_mm }) => width_mm))].sort((a, b) => b - a);
      if (widths.length === 0) return [];
      const shortest_mm = Math.min(...fitting.map((item) => item.length_mm));
      const here = segment++;
      const area_dm2 = (length_mm * board.width_mm) / 1e4;
      const inside = (board.defects ?? []).filter(
        ({ from_mm, to_mm, across }) => across !== undefined && from_mm < stretch.to_mm && to_mm > stretch.from_mm,
      );
      const ways = new Map(
        roomsOf(board, inside).flatMap((room) =>
          maximal(widths, room.to_mm - room.from_mm, kerf_mm).flatMap((strips_mm) =>
            layingsOf(strips_mm, room, inside.length > 0, kerf_mm).map((laid) => {
              const bays = baysOf(laid, stretch, inside, shortest_mm);
              return [JSON.stringify(bays), bays] as const;
            }),
          ),
        ),
      );
      return [...ways.values()]
        .filter((bays) => bays.length > 0)
        .toSorted((a, b) => clearArea(b) - clearArea(a))
        .slice(0, mostRippings)
        .map((bays): Ripping => ({ board: index, segment: here, area_dm2, bays }));
    }),
  );
}

interface Room {
  readonly from_mm: number;
  readonly to_mm: number;
}

/** The whole width, and what is left of it once defects along either edge are ripped off. */
function roomsOf({ width_mm }: Board, inside: NonNullable<Board["defects"]>): Room[] {
  const near = Math.max(0, ...inside.map(({ across }) => (across!.from_mm <= 0 ? across!.to_mm : 0)));
  const far = Math.min(
    width_mm,
    ...inside.map(({ across }) => (across!.to_mm >= width_mm ? across!.from_mm : width_mm)),
  );
  const rooms = [
    { from_mm: 0, to_mm: width_mm },
    { from_mm: near, to_mm: width_mm },
    { from_mm: 0, to_mm: far },
    { from_mm: near, to_mm: far },
  ].filter(({ from_mm, to_mm }) => to_mm > from_mm);
  return [...new Map(rooms.map((room) => [`${room.from_mm} ${room.to_mm}`, room])).values()];
}

/** Where strips come to lie: from either side, widest or narrowest first, as that moves them off a knot. */
function layingsOf(
  strips_mm: readonly number[],
  { from_mm, to_mm }: Room,
  isKnotty: boolean,
  kerf_mm: number,
): { across_mm: number; width_mm: number }[][] {
  const from = (order: readonly number[], begin_mm: number) => {
    let across_mm = begin_mm;
    return order.map((width_mm) => {
      const laid = { across_mm, width_mm };
      across_mm += width_mm + kerf_mm;
      return laid;
    });
  };
  if (!isKnotty) return [from(strips_mm, from_mm)];
  const taken_mm = strips_mm.reduce((sum, one) => sum + one, 0) + kerf_mm * (strips_mm.length - 1);
  const orders = [strips_mm, strips_mm.toReversed()];
  return orders.flatMap((order) => [from(order, from_mm), from(order, to_mm - taken_mm)]);
}

function baysOf(
  laid: readonly { readonly across_mm: number; readonly width_mm: number }[],
  stretch: { readonly from_mm: number; readonly to_mm: number },
  inside: NonNullable<Board["defects"]>,
  shortest_mm: number,
): Bay[] {
  return laid.flatMap(({ across_mm, width_mm }) => {
    const met = inside.filter(
      ({ across }) => across!.from_mm < across_mm + width_mm - 1e-9 && across!.to_mm > across_mm + 1e-9,
    );
    return clearOf(stretch.from_mm, stretch.to_mm, met)
      .map(({ from_mm, to_mm }) => ({ from_mm, length_mm: to_mm - from_mm, across_mm, width_mm }))
      .filter(({ length_mm }) => length_mm >= shortest_mm - 1e-9);
  });
}

function clearArea(bays: readonly Bay[]): number {
  return bays.reduce((sum, { length_mm, width_mm }) => sum + length_mm * width_mm, 0);
}

/** Sets of widths that fit side by side and leave no room for another. */
function maximal(widths: readonly number[], room_mm: number, kerf_mm: number): number[][] {
  const found: number[][] = [];
  const grow = (chosen: readonly number[], first: number, left_mm: number) => {
    let hasGrown = false;
    for (let i = first; i < widths.length; i++) {
      const need = widths[i]! + (chosen.length > 0 ? kerf_mm : 0);
      if (need > left_mm + 1e-9) continue;
      hasGrown = true;
      if (found.length < mostRippings) grow([...chosen, widths[i]!], i, left_mm - need);
    }
    const smallest = widths.at(-1)! + (chosen.length > 0 ? kerf_mm : 0);
    if (!hasGrown && chosen.length > 0 && smallest > left_mm + 1e-9 && found.length < mostRippings)
      found.push([...chosen]);
  };
  grow([], 0, room_mm);
  return found.filter(
    (one, i) => !found.some((other, j) => i !== j && serves(other, one) && (j < i || !serves(one, other))),
  );
}

/** Every strip of the one has a strip as wide in the other: the other does all that it does. */
function serves(other: readonly number[], one: readonly number[]): boolean {
  return other.length >= one.length && one.every((strip_mm, i) => other[i]! >= strip_mm);
}

export function movementOf(panel: WantedPanel, board: Board): number {
  const { best } = coefficientsOf(speciesOf(panel.species, panel.wood));
  return panel.width_mm * acrossWidth(best, board.ringAngle_deg) * Math.abs(panel.span_pct);
}

/** Why a board may not give a panel; nothing where it may, sizes aside. */
export function unfit(panel: WantedPanel, board: Board, allowance: Allowance): string | undefined {
  if (
    plainName(panel.species) !== plainName(board.species) &&
    (panel.wood !== undefined ||
      board.wood !== undefined ||
      speciesNamed(panel.species) !== speciesNamed(board.species))
  )
    return "species";
  if (board.thickness_mm < panel.thickness_mm + allowance.thickness_mm) return "thickness";
  if ((board.figure ?? 0) < (panel.figure ?? 0)) return "figure";
  const { from, to } = panel.ringAngle_deg ?? { from: 0, to: 90 };
  return board.ringAngle_deg < from || board.ringAngle_deg > to ? "ring angle" : undefined;
}

/** What one stave of a panel from a board counts, the opening of the board aside. */
export function costOf(panel: WantedPanel, board: Board, worth: Worth): number {
  const staves = panel.staves ?? 1;
  return (
    (worth.movement_per_mm * movementOf(panel, board) +
      worth.moisture_per_pct * Math.abs(board.moisture_pct - panel.target_pct) +
      worth.figureUnused * Math.max(0, (board.figure ?? 0) - (panel.figure ?? 0))) /
    staves
  );
}
