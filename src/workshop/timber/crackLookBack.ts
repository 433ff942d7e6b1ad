import type { Yard } from "../../claims/timber/yard.ts";
import type { CrackAnswer } from "../../timber/index.ts";
import type { Calculate } from "../calculate.ts";
import type { CrackLookBackView } from "./views.ts";

const hour_ms = 3_600_000;
/** An interval wider than this, of a share, says too little to be shown. */
const widest = 0.5;
/** So few pieces still watched no longer carry a curve. */
const fewestWatched = 5;

/**
 * In which stage pieces cracked, by species and thickness, and how many are still whole by hours on the plate. A stay
 * in a warm place is a stage of its hours; work that found a crack is one of none, passed by every piece in a case.
 */
export async function crackLookBack(
  yard: Yard,
  calculate: Calculate,
  indexes: ReadonlyMap<string, number> = new Map(),
): Promise<CrackLookBackView> {
  const { pieces, defects } = inspected(yard, indexes);
  if (pieces.length === 0) return { groups: [], silent: 0, plate: [], notes: [] };
  const answer = await calculate<CrackAnswer>("timber.cracks", { pieces, defects });
  const told = answer.groups.filter(({ share }) => share.high - share.low <= widest);
  const plates = new Set([...yard.places].filter(([, { what }]) => what === "plate").map(([place]) => place));
  const onPlate = answer.pieces.filter(({ stage }) => plates.has(stage));
  const curves = await Promise.all(
    [undefined, ...new Set(onPlate.map(({ species }) => species))].map(async (species) => {
      const of = onPlate.filter((one) => species === undefined || one.species === species);
      if (of.length === 0 || !of.some(({ failed }) => failed)) return [];
      const { curve } = await calculate<{
        curve: { hours: number; atRisk: number; survival: number; low: number; high: number }[];
      }>("production.soak", { pieces: of.map(({ hours, failed }) => ({ hours, failed })) });
      // Where few are left under watch the interval says nothing, and nothing is drawn.
      const shown = curve.filter(({ atRisk, low, high }) => atRisk >= fewestWatched && high - low <= widest);
      if (shown.length === 0) return [];
      return [{ ...(species !== undefined && { species }), pieces: of.length, points: shown }];
    }),
  );
  const { index } = answer;
  return {
    groups: told.map(({ share, byDay: _, ...group }) => ({
      ...group,
      ...{ share: share.value, low: share.low, high: share.high },
    })),
    silent: answer.groups.length - told.length,
    plate: curves.flat(),
    ...(index && {
      index: {
        ...index,
        words:
          index.low > 0.5
            ? `Of two pieces, one that cracked and one that stayed whole, the cracked one had the higher check index in ${percent(index.told)} of cases (${percent(index.low)} to ${percent(index.high)}): it can be ranked by.`
            : `The check index does not yet tell cracked from whole pieces better than a toss of a coin (${percent(index.low)} to ${percent(index.high)} of pairs): go by the shares.`,
      },
    }),
    notes: answer.notes.filter((note) => !note.startsWith("The check index")),
  };
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

function inspected(yard: Yard, indexes: ReadonlyMap<string, number>) {
  const isWarm = (place: string) => {
    const what = yard.places.get(place)?.what;
    return what === "chamber" || what === "plate" || what === "amplifier";
  };
  const lives = yard.pieces.flatMap((piece) => {
    const { species, thickness_mm, from, inCase, into = [] } = yard.state(piece)!;
    if (from !== undefined) return [];
    const own = yard.entriesOf(piece);
    const rough = own.flatMap(({ body }) => (body.kind === "blank" ? [body.thickness_mm] : []))[0] ?? thickness_mm;
    const stays = own.flatMap(({ at, body }) => (body.kind === "stood" ? [{ at, place: body.place }] : []));
    const until = own.at(-1)!.at;
    const hoursIn = new Map<string, number>();
    stays.forEach(({ at, place }, i) => {
      if (!isWarm(place)) return;
      const hours = (Date.parse(stays[i + 1]?.at ?? until) - Date.parse(at)) / hour_ms;
      hoursIn.set(place, (hoursIn.get(place) ?? 0) + Math.max(0, hours));
    });
    const cracks = [piece, ...into].flatMap((one) =>
      yard.entriesOf(one).flatMap(({ at, body }) => {
        if (body.kind !== "flaw" || body.flaw !== "crack") return [];
        const stay = stays.findLast((one) => Date.parse(one.at) <= Date.parse(at));
        const isThere = stay !== undefined && isWarm(stay.place);
        return [
          {
            piece,
            kind: "crack" as const,
            stage: isThere ? stay.place : body.found,
            stageHour: isThere ? Number(((Date.parse(at) - Date.parse(stay.at)) / hour_ms).toFixed(2)) : 0,
            size_mm: body.length_mm,
          },
        ];
      }),
    );
    const isCased = inCase !== undefined || into.some((one) => yard.state(one)?.inCase !== undefined);
    return [{ piece, species, thickness_mm: rough, hoursIn, cracks, isCased }];
  });
  const works = [
    ...new Set(
      lives.flatMap(({ hoursIn, cracks }) => cracks.flatMap(({ stage }) => (hoursIn.has(stage) ? [] : [stage]))),
    ),
  ];
  const pieces = lives.flatMap(({ piece, species, thickness_mm, hoursIn, cracks, isCased }) => {
    const stages = [
      ...[...hoursIn].map(([stage, hours]) => ({ stage, hours: Number(hours.toFixed(2)) })),
      ...works
        .filter((work) => isCased || cracks.some(({ stage }) => stage === work))
        .map((stage) => ({ stage, hours: 0 })),
    ];
    const checkIndex = indexes.get(piece);
    return stages.length === 0
      ? []
      : [{ piece, species, thickness_mm, stages, ...(checkIndex !== undefined && { checkIndex }) }];
  });
  return { pieces, defects: lives.flatMap(({ cracks }) => cracks) };
}
