import type { BodyOf } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import type { PieceEntry } from "../../claims/timber/yard.ts";
import type { Calculate } from "../calculate.ts";
import { type Course, courseAt } from "./courses.ts";
import { coatsOfUnit, finishingOf } from "./finishing.ts";
import type { Known } from "./known.ts";
import type { Life } from "./life.ts";
import type { PieceCardView, PieceEventView, PieceView, RipensView } from "./views.ts";

const hour_ms = 3_600_000;
/** Days ahead that the drawn course looks. */
const ahead_h = 14 * 24;

/** All that is known of one piece: its course with the weighings on it, where it stood, what was done to it. */
export async function pieceView(
  shop: Shop,
  { state, life, course }: Known,
  card: PieceCardView,
  now: string,
  calculate: Calculate,
): Promise<PieceView> {
  const { timber } = shop;
  const { piece } = state;
  const entries = timber.entriesOf(piece);
  const blank = entries.flatMap(({ body }) => (body.kind === "blank" ? [body] : []))[0];
  const inCase = state.inCase;
  const unit = inCase && timber.givenOf(inCase.case)?.body.unit;
  const instant = (hour: number) => new Date(life!.origin_ms + hour * hour_ms).toISOString();
  const until_ms = Date.parse(now) + ahead_h * hour_ms;
  const shown = course?.hours.filter((hour) => life!.origin_ms + hour * hour_ms <= until_ms).length ?? 0;
  const papers = entries.flatMap(({ body }) => (body.kind === "blank" ? body.papers : []));
  const papersAsked = papers.length === 0 ? await papersWords(state.species, calculate) : undefined;
  const coats =
    unit === undefined
      ? entries.flatMap(({ at, body }) => (body.kind === "coat" ? [{ at, ...body }] : []))
      : coatsOfUnit(shop, unit);
  const finishing = await finishingOf(timber, coats, now, calculate);
  return {
    now,
    card,
    ...(blank && { seller: blank.seller }),
    ...(blank?.claimed_pct !== undefined && { claimed_pct: blank.claimed_pct }),
    papers,
    ...(papersAsked !== undefined && { papersAsked }),
    into: state.into ?? [],
    ...(inCase && { inCase: { ...inCase, ...(unit !== undefined && { unit }) } }),
    ...(course &&
      life && {
        course: {
          at: course.hours.slice(0, shown).map(instant),
          mean_pct: course.mean_pct.slice(0, shown),
          low_pct: course.low_pct.slice(0, shown),
          high_pct: course.high_pct.slice(0, shown),
          surface_pct: course.surface_pct.slice(0, shown),
          core_pct: course.core_pct.slice(0, shown),
        },
      }),
    weighings: (life?.weighedAt ?? []).map((at, i) => {
      const mass_g = (life!.question.weighings as { mass_g: number }[])[i]!.mass_g;
      const mass = course?.masses.find(
        (one) => Math.abs(life!.origin_ms + one.hour * hour_ms - Date.parse(at)) < 60_000 && one.mass_g === mass_g,
      );
      return { at, mass_g, ...(mass && course?.state === "fitted" && { moisture_pct: mass.moisture_pct }) };
    }),
    stays: life ? withPlanned(life) : [],
    aside: (course?.aside ?? []).map(({ hour, mass_g, why }) => ({ at: instant(hour), mass_g, why })),
    events: entries.map((entry) => eventOf(entry, piece)).toReversed(),
    ...(finishing && { finishing }),
    ripens: course && life ? ripensOf(course, life) : [],
    ...(life?.planWanting !== undefined && { planWanting: life.planWanting }),
    defects: state.defects ?? [],
    ...(state.figure !== undefined && { figure: state.figure }),
    notes: course?.notes ?? [],
  };
}

/** Where it stood, stands and by its plan will stand. */
function withPlanned({ stays, planned }: Life): PieceView["stays"] {
  const moves = planned.filter(({ place }, i) => place !== (planned[i - 1]?.place ?? stays.at(-1)?.place));
  if (moves.length === 0) return stays;
  const ahead = moves.map(({ place, from }, i) => {
    const to = moves[i + 1]?.from;
    return { place, from, ...(to !== undefined && { to }), isPlanned: true };
  });
  return [...stays.slice(0, -1), { ...stays.at(-1)!, to: moves[0]!.from }, ...ahead];
}

/** What the piece will hold as each stage of its plan ends. */
function ripensOf(course: Course, life: Life): readonly RipensView[] {
  if (course.state === "approach") return [];
  const ends = course.stageEnds.slice(course.stageEnds.length - life.planned.length);
  return life.planned.map(({ place, from, to }, i) => {
    const { mean_pct, low_pct, high_pct, surface_pct, core_pct } = courseAt(course, life, Date.parse(to));
    return { place, from, to, mean_pct, low_pct, high_pct, surface_pct, core_pct, leftUndone: ends[i]!.leftUndone };
  });
}

/** What papers the trade may ask for with this wood, where none came with it. */
async function papersWords(species: string, calculate: Calculate): Promise<string | undefined> {
  const { woods } = await calculate<{ woods: readonly { state: string; of?: string; ask: readonly string[] }[] }>(
    "timber.papers",
    { woods: [species] },
  );
  const [wood] = woods;
  if (wood?.state !== "asked") return undefined;
  return `Trade rules may apply to ${species}${wood.of ? ` (${wood.of})` : ""}, and no paper came with it. ${wood.ask.join(" ")}`;
}

function eventOf({ id, at, by, body }: PieceEntry, piece: string): PieceEventView {
  return {
    id,
    at,
    by,
    kind: body.kind,
    words: inWords(body, piece),
    ...(body.kind === "flaw" && body.photo_sha256 !== undefined && { photo_sha256: body.photo_sha256 }),
    ...(body.kind === "weighing" && { mass_g: body.mass_g, instrument: body.instrument }),
  };
}

function inWords(body: PieceEntry["body"], piece: string): string {
  switch (body.kind) {
    case "blank": {
      const claim = body.claimed_pct === undefined ? "" : `, said to be at ${body.claimed_pct} %`;
      return `came in from ${body.seller}${claim}: ${sizeWords(body)}${body.seen ? `; ${body.seen}` : ""}`;
    }
    case "weighing":
      return `weighed ${body.mass_g} g with ${body.instrument}`;
    case "offcut": {
      const moisture_pct = 100 * (body.wet_g / body.ovenDry_g - 1);
      return `an offcut cut on ${body.cut.slice(0, 10)} went from ${body.wet_g} to ${body.ovenDry_g} g in the oven: ${moisture_pct.toFixed(1)} % then`;
    }
    case "stood":
      return `moved to ${body.place}${body.faces === "one" ? ", one face open" : ""}`;
    case "machined":
      return `machined to ${sizeWords(body)}`;
    case "coat":
      return `a coat of ${body.product ?? body.finish}, hard after ${body.hardens_h} h`;
    case "flaw":
      return `${body.flaw} of ${body.length_mm} mm, found: ${body.found}`;
    case "sawn":
      return body.piece === piece
        ? `sawn into ${body.into.map((one) => one.piece).join(", ")}`
        : `sawn from ${body.piece}: ${sizeWords(body.into.find((one) => one.piece === piece)!)}`;
    case "board-marks":
      return markWords(body);
    case "planned-stages":
      return body.stages.length === 0
        ? "its plan was given up"
        : `planned: ${body.stages.map(({ place, hours }) => `${place} for ${hours} h`).join(", then ")}`;
    case "meant":
      return `kept for unit ${body.unit}`;
    case "case": {
      const { panel, fixed, gap_mm } = body.panels.find((one) => one.piece === piece)!;
      return `joined into case ${body.case} as its ${panel}, held at ${fixed}, ${gap_mm} mm to move`;
    }
  }
}

function markWords({ defects, figure }: BodyOf<"board-marks">): string {
  const seen = defects.map(({ what, along, across }) => {
    const where = across === undefined ? "" : `, ${across.from_mm} to ${across.to_mm} mm from the edge`;
    return `${what} ${along.from_mm} to ${along.to_mm} mm from the end${where}`;
  });
  return [
    `looked over: ${seen.length === 0 ? "clear all over" : seen.join("; ")}`,
    ...(figure === undefined ? [] : [`figure ${figureWords[figure]}`]),
  ].join("; ");
}

export const figureWords = ["plain", "some", "fine", "the finest"] as const;

function sizeWords({
  length_mm,
  width_mm,
  thickness_mm,
}: {
  length_mm: number;
  width_mm: number;
  thickness_mm: number;
}) {
  return `${length_mm} × ${width_mm} × ${thickness_mm} mm`;
}
