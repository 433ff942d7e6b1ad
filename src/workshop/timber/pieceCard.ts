import type { Shop } from "../../claims/index.ts";
import { boundShop } from "./boundShop.ts";
import { type Course, courseAt } from "./courses.ts";
import { type Bound, boundFor } from "./destination.ts";
import type { Known } from "./known.ts";
import type { Life } from "./life.ts";
import type { BandStanding, BandView, MoistureView, PieceCardView } from "./views.ts";

const hour_ms = 3_600_000;
/** Whether a weighing leaves so much less of the doubt that hands should be asked for it. */
export const isWorthwhile = ({ before, after }: { readonly before: number; readonly after: number }) =>
  after < 0.93 * before;

/** One piece as the shelf shows it at this moment. */
export function cardOf(shop: Shop, known: Known & { readonly pending?: boolean }, now: string): PieceCardView {
  const { state, told, life, course, fault, band, target_pct } = known;
  const { piece, species, rough, length_mm, width_mm, thickness_mm, ringAngle_deg, place, since, from } = state;
  const entries = shop.timber.entriesOf(piece);
  const bound = boundFor(boundShop(shop), state);
  const moisture: MoistureView | undefined =
    course && life ? { ...courseAt(course, life, Date.parse(now)), basis: course.state } : undefined;
  const shownBand: BandView | undefined =
    band && bound?.place !== undefined ? { unit: bound.unit, place: bound.place, ...band } : undefined;
  const stands = moisture && shownBand && standingOf(moisture, shownBand);
  const instant = (hour: number) => new Date(life!.origin_ms + hour * hour_ms).toISOString();
  const isDrying = moisture && target_pct !== undefined && moisture.mean_pct > target_pct;
  const ripe =
    course?.hoursToTarget !== undefined && isDrying
      ? {
          at: instant(course.hoursToTarget),
          from: instant(course.targetLow_h ?? course.hoursToTarget),
          ...(course.targetHigh_h !== undefined && { to: instant(course.targetHigh_h) }),
        }
      : undefined;
  const next = course?.nextWeighing;
  const nextWeighing =
    next && isWorthwhile(next)
      ? { at: instant(next.hour), why: dated(next.why, instant), place: placeAt(life!, instant(next.hour), place) }
      : undefined;
  const lastWeighed = entries.findLast(({ body }) => body.kind === "weighing")?.at;
  const wanting = fault ?? (told.ok || known.pending ? undefined : told.wanting);
  return {
    piece,
    species,
    rough,
    length_mm,
    width_mm,
    thickness_mm,
    ringAngle_deg,
    place,
    since,
    ...(from !== undefined && { from }),
    ...(bound && { meantFor: bound.unit }),
    pending: known.pending ?? false,
    ...(wanting !== undefined && { wanting }),
    ...(moisture && { moisture }),
    ...(shownBand && { band: shownBand }),
    ...(stands && { stands }),
    ...(target_pct !== undefined && { target_pct }),
    ...(ripe && { ripe }),
    ...(course && {
      check: { index: course.checkIndex, doubt: course.doubt.checkIndex, words: checkWords(course.checkIndex) },
    }),
    ...(nextWeighing && { nextWeighing }),
    ...(lastWeighed !== undefined && { lastWeighed }),
    flaws: entries.flatMap(({ body }) => (body.kind === "flaw" ? [`${body.flaw} of ${body.length_mm} mm`] : [])),
    advice:
      wanting ??
      (life && course && life.planned.length > 0 && moisture && shownBand && isDrying
        ? plannedAdvice(life, course, shownBand)
        : adviceOf(moisture, shownBand, stands, bound, ripe?.at, course?.reason)),
  };
}

/** Where its plan has it at a moment; where it stands now without one. */
function placeAt({ planned }: Life, at: string, place: string): string {
  return planned.findLast(({ from }) => Date.parse(from) <= Date.parse(at))?.place ?? place;
}

/** Where the mean lies by its doubt, against what the destination will impose. */
function standingOf({ low_pct, high_pct }: MoistureView, { driest_pct, wettest_pct }: BandView): BandStanding {
  if (low_pct > wettest_pct) return "too wet";
  if (high_pct < driest_pct) return "too dry";
  return low_pct >= driest_pct && high_pct <= wettest_pct ? "inside" : "cannot tell";
}

function adviceOf(
  moisture: MoistureView | undefined,
  band: BandView | undefined,
  stands: BandStanding | undefined,
  bound: Bound | undefined,
  ripeAt: string | undefined,
  reason: string | undefined,
): string {
  if (!moisture) return "Being computed.";
  if (moisture.basis === "approach") return capital(reason ?? "only the approach is known: dry an offcut of it.");
  if (!bound) return "Kept for no unit yet: nothing says how dry it should be.";
  if (!band) return `Nothing says what air unit ${bound.unit} goes to: enter the climate of its destination.`;
  const middle_pct = (band.driest_pct + band.wettest_pct) / 2;
  const goal = `${middle_pct.toFixed(1)} %, the middle of the year at ${band.place}`;
  if (stands === "too dry") return `Drier than ${band.place} ever makes it: let it take up moisture, do not dry it.`;
  if (moisture.mean_pct <= middle_pct) return `Do not dry it further: it stands at or below ${goal}.`;
  if (stands === "inside" && moisture.mean_pct - middle_pct < 0.5) return `Ready: within half a percent of ${goal}.`;
  if (ripeAt !== undefined) return `Drying toward ${goal}.`;
  if (stands === "inside") return `Fit for ${band.place} as it stands; ${goal}, would be better still, in drier air.`;
  return `It will not come to ${goal}, where it stands now: move it to drier air.`;
}

/** What its plan comes to: the stage that leaves it nearest to the middle of the year there. */
function plannedAdvice(life: Life, course: Course, band: BandView): string {
  const middle_pct = (band.driest_pct + band.wettest_pct) / 2;
  const goal = `${middle_pct.toFixed(1)} %, the middle of the year at ${band.place}`;
  const ends = life.planned.map(({ place, to }) => ({ place, to, ...courseAt(course, life, Date.parse(to)) }));
  const last = ends.at(-1)!;
  const best = ends.reduce((a, b) => (Math.abs(b.mean_pct - middle_pct) < Math.abs(a.mean_pct - middle_pct) ? b : a));
  const comes = `By its plan it comes to ${last.mean_pct.toFixed(1)} % by ${last.to.slice(0, 10)}`;
  if (Math.abs(last.mean_pct - middle_pct) < near_pct) return `${comes}: within half a percent of ${goal}.`;
  const way = last.mean_pct > middle_pct ? "wetter" : "drier";
  return best === last
    ? `${comes}: ${way} than ${goal}.`
    : `${comes}: ${way} than ${goal}; nearest after ${best.place}, at ${best.mean_pct.toFixed(1)} %.`;
}

const near_pct = 0.5;

function checkWords(index: number): string {
  return index < 0.5 ? "low" : index < 1 ? "middling" : "high";
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Hours of the question as dates, as people count them. */
function dated(why: string, instant: (hour: number) => string): string {
  return why.replace(/at hour (\d+)/, (_, hour) => `on ${instant(Number(hour)).slice(0, 10)}`);
}
