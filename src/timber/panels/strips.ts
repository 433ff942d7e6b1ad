import { acrossWidth, coefficientsOf } from "../coefficients.ts";
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

/** A clear stretch of a board, ripped one way into strips. */
export interface Ripping {
  readonly board: number;
  readonly segment: number;
  readonly from_mm: number;
  readonly length_mm: number;
  readonly area_dm2: number;
  /** Widths of the strips, widest first. */
  readonly strips_mm: readonly number[];
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

/** Clear stretches between defects. */
function clearOf({ length_mm, defects = [] }: Board): { from_mm: number; to_mm: number }[] {
  const sorted = [...defects].sort((a, b) => a.from_mm - b.from_mm);
  const clear: { from_mm: number; to_mm: number }[] = [];
  let begun = 0;
  for (const { from_mm, to_mm } of sorted) {
    if (from_mm > begun) clear.push({ from_mm: begun, to_mm: Math.min(from_mm, length_mm) });
    begun = Math.max(begun, to_mm);
  }
  if (begun < length_mm) clear.push({ from_mm: begun, to_mm: length_mm });
  return clear;
}

/** Ways of ripping one stretch that are worth trying at most. */
const mostRippings = 12;

/** Every clear stretch, ripped in every way that no other way contains. */
export function rippingsOf(
  boards: readonly Board[],
  items: readonly Item[],
  fits: (item: Item, board: number) => boolean,
  kerf_mm: number,
): Ripping[] {
  let segment = 0;
  return boards.flatMap((board, index) =>
    clearOf(board).flatMap(({ from_mm, to_mm }) => {
      const length_mm = to_mm - from_mm;
      const fitting = items.filter(
        (item) => item.length_mm <= length_mm && item.width_mm <= board.width_mm && fits(item, index),
      );
      const widths = [...new Set(fitting.map(({ width_mm }) => width_mm))].sort((a, b) => b - a);
      if (widths.length === 0) return [];
      const here = segment++;
      const area_dm2 = (length_mm * board.width_mm) / 1e4;
      return maximal(widths, board.width_mm, kerf_mm).map(
        (strips_mm): Ripping => ({ board: index, segment: here, from_mm, length_mm, area_dm2, strips_mm }),
      );
    }),
  );
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
  const { best } = coefficientsOf(speciesNamed(panel.species));
  return panel.width_mm * acrossWidth(best, board.ringAngle_deg) * Math.abs(panel.span_pct);
}

/** Why a board may not give a panel; nothing where it may, sizes aside. */
export function unfit(panel: WantedPanel, board: Board, allowance: Allowance): string | undefined {
  if (
    plainName(panel.species) !== plainName(board.species) &&
    speciesNamed(panel.species) !== speciesNamed(board.species)
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
