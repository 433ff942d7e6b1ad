import type { Evidence } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import type { PieceState } from "../../claims/timber/yard.ts";
import type { PanelAnswer } from "../../timber/index.ts";
import type { Calculate } from "../calculate.ts";
import { boundShop } from "./boundShop.ts";
import { boundOf } from "./destination.ts";
import { coatsOfUnit, finishingOf } from "./finishing.ts";
import { finishPlanOf } from "./finishPlan.ts";
import { hardAfter_h } from "./hardening.ts";
import { lacksMovement, ownWoodOf, wantingMovement } from "./ownWood.ts";
import type { CaseView, PanelYearView } from "./views.ts";

export interface CaseAsked extends PanelsAsked {
  readonly now: string;
  /** The panels of a unit's case, judged. */
  panelsOf(unit: string): Promise<readonly PanelYearView[]>;
}

export interface PanelsAsked {
  readonly shop: Shop;
  readonly unit: string;
  readonly calculate: Calculate;
  moistureAt(
    piece: string,
    at: string,
  ): Promise<{ readonly mean_pct: number; readonly doubt_pct: number } | { readonly wanting: string }>;
}

type Joined = Evidence<"case">["body"]["panels"][number];
type Months = Evidence<"climate">["body"]["months"];

const hour_ms = 3_600_000;

/** The case of a unit over the year at its destination, judged panel by panel, and what would mend it. */
export async function caseView(asked: CaseAsked): Promise<CaseView> {
  const { shop, now, unit, calculate } = asked;
  const { timber } = shop;
  const bound = boundOf(boundShop(shop), unit);
  const standing = timber.caseOfUnit(unit);
  const order = shop.unit(unit)?.order ?? shop.orderNaming(unit);
  const pieces = timber.standing;
  const base = {
    now,
    unit,
    ...(order !== undefined && { order }),
    ...(bound.place !== undefined && { destination: bound.place }),
    ...(bound.climate && { months: bound.climate.body.months, basis: bound.climate.body.basis }),
    free: timber.casesFree,
    pieces,
    people: (shop.shop?.people ?? []).map(({ id }) => id),
    warmPlaces: [...timber.places].flatMap(([place, { what }]) =>
      what === "amplifier" || what === "chamber" ? [place] : [],
    ),
    ...(await planOf(shop, unit, now, calculate)),
    ...(await coatsOf(shop, unit, now, calculate)),
  };
  if (!standing) {
    return { ...base, panels: [], verdict: "open", words: "This unit has no case on record yet." };
  }
  const { joined, given } = standing;
  const { wall_C } = given.body;
  const panels = await asked.panelsOf(unit);
  const verdict = panels.some((one) => one.verdict === "refuted")
    ? "refuted"
    : panels.every((one) => one.verdict === "proven")
      ? "proven"
      : "undecided";
  return {
    ...base,
    case: joined.body.case,
    joinedAt: joined.at,
    ...(wall_C !== undefined && { wall_C }),
    panels,
    verdict,
    words: wordsOf(verdict, panels, bound.place),
  };
}

function wordsOf(verdict: CaseView["verdict"], panels: readonly PanelYearView[], place = "its destination"): string {
  const names = (which: PanelYearView["verdict"]) =>
    panels.filter((one) => one.verdict === which).map(({ panel }) => panel);
  if (verdict === "proven") return `The case will stay whole at ${place}: every panel keeps its room through the year.`;
  if (verdict === "refuted") {
    const bad = names("refuted");
    return `The case will not stay whole at ${place}: ${bad.join(", ")} ${bad.length === 1 ? "has" : "have"} not the room to move.`;
  }
  return `Whether the case will stay whole at ${place} can't be told yet, because of ${names("undecided").join(", ")}.`;
}

/** Every panel of a unit's case by the air that it goes to; none while it has no case. The clock has no part in it. */
export async function judgedPanels(asked: PanelsAsked): Promise<readonly PanelYearView[]> {
  const { shop, unit } = asked;
  const standing = shop.timber.caseOfUnit(unit);
  if (!standing) return [];
  const { joined, given } = standing;
  const months = boundOf(boundShop(shop), unit).climate?.body.months;
  return Promise.all(joined.body.panels.map((panel) => judgePanel(asked, joined, panel, months, given.body.wall_C)));
}

async function judgePanel(
  { shop, calculate, moistureAt }: PanelsAsked,
  { at }: Evidence<"case">,
  joined: Joined,
  months: Months | undefined,
  wall_C: number | undefined,
): Promise<PanelYearView> {
  const state = shop.timber.state(joined.piece)!;
  const { panel, piece, fixed, gap_mm, warm } = joined;
  const { species, width_mm, thickness_mm, ringAngle_deg } = state;
  const own = ownWoodOf(shop.timber, state);
  const base = { panel, piece, species, width_mm, thickness_mm, ringAngle_deg, fixed, gap_mm, warm };
  const undecided = (remedy: string) => ({ ...base, verdict: "undecided" as const, remedy });
  if (!months) return undecided("Nothing says what air it goes to: enter the climate of its destination.");
  if (lacksMovement(shop.timber, state)) return undecided(wantingMovement(species));
  const read =
    joined.moisture_pct === undefined
      ? await moistureAt(piece, at)
      : { mean_pct: joined.moisture_pct, doubt_pct: joined.doubt_pct ?? 2 };
  if ("wanting" in read) return undecided(read.wanting);
  const { mean_pct, doubt_pct } = read;

  const ask = async (moisture_pct: number) => {
    const { panels } = await calculate<{ panels: readonly [PanelAnswer] }>("timber.case", {
      panels: [{ name: panel, species, ...own, width_mm, thickness_mm, ringAngle_deg, moisture_pct, fixed, warm }],
      destination: months,
      ...(wall_C !== undefined && warm && { wall_C }),
      gaps: { [panel]: gap_mm },
    });
    return panels[0];
  };
  const [dry, middle, wet] = await Promise.all(
    [mean_pct - doubt_pct, mean_pct, mean_pct + doubt_pct].map((one) => ask(rounded(Math.min(30, Math.max(0, one))))),
  );
  const { driest_pct, wettest_pct, shrink_mm, swell_mm, clearance_mm, remedy } = middle!;
  const verdicts = new Set([dry!, middle!, wet!].map(({ verdict }) => verdict));
  const moistureReach_mm = Math.abs(wet!.clearance_mm - dry!.clearance_mm) / 2;
  return {
    ...base,
    moisture_pct: mean_pct,
    moistureDoubt_pct: doubt_pct,
    driest_pct,
    wettest_pct,
    shrink_mm,
    swell_mm,
    clearance_mm,
    low_mm: clearance_mm - Math.hypot(clearance_mm - middle!.low, moistureReach_mm),
    high_mm: clearance_mm + Math.hypot(middle!.high - clearance_mm, moistureReach_mm),
    verdict: verdicts.size === 1 ? middle!.verdict : "undecided",
    remedy: remedyOf(remedy, joined, middle!, mean_pct),
    year: await yearOf({ ...state, ...own }, middle!.year, mean_pct, calculate),
  };
}

/** Panels this near to the middle of their year are dry enough. */
const nearMiddle_pct = 0.5;

/** What the calculation says, and for a panel that is already dry enough, that it be left alone. */
function remedyOf(said: string, { fixed }: Joined, { driest_pct, wettest_pct }: PanelAnswer, moisture_pct: number) {
  // It is built: what it should have held before is no remedy any more.
  const remedy = said.replace(/; (?:let it take up moisture|dry from)[^;.]*(?:\.\d[^;.]*)*before it is built/, "");
  const middle_pct = (driest_pct + wettest_pct) / 2;
  if (moisture_pct > middle_pct + nearMiddle_pct || /further/.test(remedy)) return remedy;
  const room = fixed === "edges" ? "strain its edges" : "use up its gap";
  return `${remedy} Do not dry it further: the year there lies at ${driest_pct.toFixed(1)} to ${wettest_pct.toFixed(1)} %, and drying would only ${room}.`;
}

/** Movement month by month, once the years repeat; wider than at joining is positive. */
async function yearOf(
  { species, wood, width_mm, ringAngle_deg }: PieceState & ReturnType<typeof ownWoodOf>,
  year: PanelAnswer["year"],
  moisture_pct: number,
  calculate: Calculate,
): Promise<PanelYearView["year"]> {
  const from_pct = rounded(moisture_pct);
  const asked = { species, ...(wood && { wood }), width_mm, ringAngle_deg, from_pct, to_pct: from_pct + 1 };
  const { change_mm } = await calculate<{ change_mm: number }>("timber.move", asked);
  return year.map(({ month, moisture_pct: mean_pct }) => ({
    month,
    moisture_pct: mean_pct,
    moved_mm: change_mm * (mean_pct - from_pct),
  }));
}

function rounded(moisture_pct: number): number {
  return Number(moisture_pct.toFixed(2));
}

async function planOf(shop: Shop, unit: string, now: string, calculate: Calculate) {
  const finishPlan = await finishPlanOf(shop, unit, now, calculate);
  return finishPlan && { finishPlan };
}

/** Coats with the moment that each is hard in the air it was put on in, and a soak that did not wait for it. */
async function coatsOf(shop: Shop, unit: string, now: string, calculate: Calculate) {
  const { timber, ledger } = shop;
  const entries = coatsOfUnit(shop, unit);
  const finishing = await finishingOf(timber, entries, now, calculate);
  const later = (at: string, hours: number) => new Date(Date.parse(at) + hours * hour_ms).toISOString();
  const dated = await Promise.all(
    entries.map(async (entry) => {
      const { at, finish, product, turn_h } = entry;
      return {
        at,
        finish,
        ...(product !== undefined && { product }),
        hardAt: later(at, await hardAfter_h(timber, entry, calculate)),
        ...(turn_h !== undefined && { turnAt: later(at, turn_h) }),
      };
    }),
  );
  const coats = dated.toSorted((a, b) => (a.at < b.at ? -1 : 1));
  const soaks = ledger.figures("unit", unit, "cracks").filter(({ id }) => ledger.supersederOf(id) === undefined);
  const early = soaks.findLast(({ at }) =>
    coats.some((coat) => coat.finish === "oil" && coat.at < at && coat.hardAt > at),
  );
  const soft = coats
    .filter(({ finish, hardAt }) => finish === "oil" && Date.parse(hardAt) > Date.parse(now))
    .map(({ hardAt }) => hardAt)
    .toSorted()
    .at(-1);
  return {
    coats,
    ...(finishing && { finishing }),
    ...(early && { soakTooEarly: early.at }),
    ...(soft !== undefined && { noSoakBefore: soft }),
  };
}
