import type { Yard } from "../../claims/timber/yard.ts";
import { wilson } from "../../timber/checkIndex.ts";
import type { CrackRecordView } from "./views.ts";

const hour_ms = 3_600_000;
/** A piece laid on the plate in the evening is looked at the next morning. */
const firstNight_h = 14;
const spans = [
  { upTo_h: firstNight_h, what: "first night on the plate" },
  { upTo_h: 24, what: "rest of the first day" },
  { upTo_h: 48, what: "second day on the plate" },
] as const;

/**
 * When cracks were found, counted in hours on the plate until then. A piece counts once, by its first crack; one found
 * after the plate stands in the row of the work that found it.
 */
export function crackRecord(yard: Yard): CrackRecordView {
  const counts = new Map<string, number>();
  const told = yard.each(crackOf);
  const plated = told.filter(({ isPlated }) => isPlated).length;
  const crackedIn = told.flatMap((piece) => piece.crackedIn ?? []);
  const cracks = crackedIn.length;
  for (const what of crackedIn) counts.set(what, (counts.get(what) ?? 0) + 1);
  const known = new Set<string>(spans.map(({ what }) => what));
  const found = [
    ...spans.map((span) => ({ ...span, count: counts.get(span.what) ?? 0 })),
    ...[...counts].filter(([what]) => !known.has(what)).map(([what, count]) => ({ what, count })),
  ];
  const first = found[0]!.count;
  const second = found[2]!.count;
  return {
    pieces: plated,
    cracks,
    found: cracks === 0 ? [] : found,
    ...(cracks > 0 && { firstNight: { share: first / cracks, ...wilson(first, cracks) } }),
    words:
      cracks === 0
        ? []
        : [
            `${first} of ${cracks} cracked pieces had cracked by the first morning on the plate.`,
            `The second day there showed ${second === 0 ? "none" : second} more.`,
          ],
  };
}

/** Whether a piece was on the plate, and in what it first cracked. */
function crackOf(yard: Yard, piece: string): { readonly isPlated: boolean; readonly crackedIn?: string } {
  const entries = yard.entriesOf(piece);
  const isPlate = (place: string) => yard.places.get(place)?.what === "plate";
  const isPlated = entries.some(({ body }) => body.kind === "stood" && isPlate(body.place));
  const crack = entries.find(({ body }) => body.kind === "flaw" && body.flaw === "crack");
  if (crack?.body.kind !== "flaw") return { isPlated };
  const stay = entries.findLast(({ at, body }) => body.kind === "stood" && Date.parse(at) <= Date.parse(crack.at));
  const onPlate_h =
    stay?.body.kind === "stood" && isPlate(stay.body.place)
      ? (Date.parse(crack.at) - Date.parse(stay.at)) / hour_ms
      : undefined;
  const span = onPlate_h === undefined ? undefined : spans.find(({ upTo_h }) => onPlate_h <= upTo_h + 0.5);
  return { isPlated, crackedIn: span?.what ?? (onPlate_h === undefined ? crack.body.found : "later on the plate") };
}
