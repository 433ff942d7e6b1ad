import type { Design } from "./design.ts";

/** Sources and the sign with which a phasor is added to each. */
export type Move = readonly { readonly source: number; readonly sign: 1 | -1 }[];

/**
 * Ways to move phasor between sources that change no sum: from one set to another with the same pattern of presence,
 * where a set is a single source or every valve that ever stood at one position.
 */
export function movesLeavingReadings(design: Design): readonly Move[] {
  const pattern = (sources: readonly number[]) =>
    design.sights.map((sight) => sight.sources.filter((s) => sources.includes(s)).length).join(",");
  const positions = new Map<string, number[]>();
  for (const [s, source] of design.sources.entries()) {
    if (source.cause === "valve") positions.set(source.position, [...(positions.get(source.position) ?? []), s]);
  }
  const sets = [
    ...[...design.sources.keys()].map((s) => [s]),
    ...[...positions.values()].filter((set) => set.length > 1),
  ];
  const moves: Move[] = [];
  for (const [i, first] of sets.entries()) {
    for (const second of sets.slice(i + 1)) {
      if (first.some((s) => second.includes(s)) || pattern(first) !== pattern(second)) continue;
      moves.push([
        ...first.map((source) => ({ source, sign: 1 as const })),
        ...second.map((source) => ({ source, sign: -1 as const })),
      ]);
    }
  }
  return moves;
}
