import { BadInput, quote } from "../maths/badInput.ts";
import { type CaseQuestion, type MonthOfAir, type Panel, type PanelAnswer, usualParcel } from "./caseAsk.ts";
import { type CaseYear, caseYear, type WarmFace } from "./caseYear.ts";
import { acrossWidth, boardsDiffer, coefficientsOf } from "./coefficients.ts";
import { emcDoubt_pct } from "./emc.ts";
import { speciesOf } from "./ownWood.ts";
import { remediesFor } from "./remedies.ts";
import { roomAir } from "./roomAir.ts";
import type { Species } from "./species.ts";
import { partingStrain } from "./strength.ts";
import { wallOver } from "./wall.ts";

/** What a warm panel's wall is taken to be at where it is not said. */
export const usualWall_C = 40;

/**
 * What a case's panels will do over a year at its destination.
 *
 *     moisture through the thickness follows the room's equilibrium, month by month, until the years repeat
 *     warm inner face: the room's vapour at the wall's temperature
 *     shrink = width·C·(at assembly − driest),   swell = width·C·(wettest − at assembly),   0 at least
 *     clearance = gap − swell (free, centre);   −max(shrink, swell) (edges)
 *
 * @returns per panel the figures, their 95 % range, a verdict, and a remedy in words
 * @throws BadInput  a month missing, an unknown species, a free panel without its gap
 * @remarks Months are taken as steady; a week of extreme weather is not in them. Edge-fixed panels are judged by the
 *   strain at which wood parts: refuted when surely beyond it, proven when surely below half of it.
 * @source  Wood Handbook, FPL-GTR-190, eq. 4-5, 13-2; diffusivity of red oak (Simpson and Liu 1997)
 */
export function judgeCase(question: CaseQuestion): PanelAnswer[] {
  const months = twelve(question.destination).map((month) => (question.home ? roomAir(month, question.home) : month));
  requirePanels(question);
  return question.panels.map((panel, i) => judgePanel(panel, i, months, question));
}

function judgePanel(panel: Panel, i: number, months: readonly MonthOfAir[], question: CaseQuestion): PanelAnswer {
  const species = woodOf(panel, `panels[${i}]`);
  const { parcel } = question;
  const journey = parcel ? { ...usualParcel[parcel.by], ...parcel } : undefined;
  const warm = warmOf(panel, question, species.density_kg_m3);
  const year = caseYear(panel, months, warm?.usual, journey);
  const { low_pct: driest_pct, high_pct: wettest_pct } = year;
  const others = warm?.ends.map((end) => caseYear(panel, months, end, journey)) ?? [];
  const byWall = (of: (one: CaseYear) => number) => Math.max(0, ...others.map((one) => Math.abs(of(one) - of(year))));

  const { best, bySource } = coefficientsOf(species);
  const coefficient = acrossWidth(best, panel.ringAngle_deg);
  const all = bySource.map((one) => acrossWidth(one, panel.ringAngle_deg));
  const spread = Math.hypot(
    boardsDiffer(species, panel.ringAngle_deg),
    Math.max(...all.map((one) => Math.abs(one / coefficient - 1))),
  );
  const moved = (step_pct: number) => panel.width_mm * coefficient * Math.max(0, step_pct);
  const doubtOf = (step_pct: number, emc_pct: number, wall_pct: number) =>
    Math.hypot(spread * moved(step_pct), panel.width_mm * coefficient * Math.hypot(emcDoubt_pct(emc_pct), wall_pct));

  const [drop, rise] = [panel.moisture_pct - driest_pct, wettest_pct - panel.moisture_pct];
  const [shrink_mm, swell_mm] = [moved(drop), moved(rise)];
  const doubt = {
    shrink_mm: doubtOf(
      drop,
      driest_pct,
      byWall(({ low_pct }) => low_pct),
    ),
    swell_mm: doubtOf(
      rise,
      wettest_pct,
      byWall(({ high_pct }) => high_pct),
    ),
    moisture_pct: emcDoubt_pct((driest_pct + wettest_pct) / 2),
  };
  const isEdges = panel.fixed === "edges";
  const parting = partingStrain(species).value;
  const parting_mm = parting * panel.width_mm;
  const gap_mm = isEdges ? 0 : question.gaps[panel.name]!;
  const [taken, takenDoubt] = shrink_mm >= swell_mm ? [shrink_mm, doubt.shrink_mm] : [swell_mm, doubt.swell_mm];
  const held = isEdges ? edgesHeld(taken, takenDoubt, parting_mm) : gapHeld(gap_mm, swell_mm, doubt.swell_mm);
  const homeward = year.months.map(({ moisture_pct }) => moisture_pct);
  const remedies = remediesFor({
    panel,
    verdict: held.verdict,
    shrink_mm,
    swell_mm,
    shrinkDoubt_mm: doubt.shrink_mm,
    swellDoubt_mm: doubt.swell_mm,
    gap_mm,
    home_pct: (Math.min(...homeward) + Math.max(...homeward)) / 2,
    quarter: acrossWidth(best, 90) / coefficient,
    parting_mm,
  });
  const step_mm = (moisture_pct: number) => panel.width_mm * coefficient * (moisture_pct - panel.moisture_pct);
  return {
    name: panel.name,
    driest_pct,
    wettest_pct,
    shrink_mm,
    swell_mm,
    ...held,
    remedy: `${remedies.map(({ words }) => words).join("; ")}.`,
    remedies,
    year: year.months.map(({ month, moisture_pct }) => ({
      month,
      moisture_pct,
      clearance_mm: isEdges ? -Math.abs(step_mm(moisture_pct)) + 0 : gap_mm - step_mm(moisture_pct),
    })),
    ...(year.parcel_pct === undefined ? {} : { parcel_pct: year.parcel_pct }),
    cup_mm: (((coefficient * year.bend_pct_per_m) / 1000) * panel.width_mm ** 2) / 8,
    stressIndex: (coefficient * (isEdges ? Math.max(0, drop) : year.steepest_pct)) / parting,
    ...(warm ? { wallRise_K: warm.rise_K } : {}),
    doubt,
  };
}

/** The catalogue's wood, the shop's own, or one by the coefficients given. */
function woodOf({ species, wood, tangential_per_pct, radial_per_pct, density_kg_m3 }: Panel, path: string): Species {
  if (tangential_per_pct === undefined || radial_per_pct === undefined)
    return speciesOf(species, wood, `${path}.species`, `${path}.wood`);
  return {
    name: species,
    also: [],
    latin: species,
    coefficient: { tangential_per_pct, radial_per_pct, source: "given" },
    fibreSaturation_pct: 30,
    porous: "not known",
    ...(density_kg_m3 === undefined ? {} : { density_kg_m3 }),
  };
}

type Held = Pick<PanelAnswer, "clearance_mm" | "low" | "high" | "verdict">;

function edgesHeld(taken_mm: number, doubt_mm: number, parting_mm: number): Held {
  const least = Math.max(0, taken_mm - doubt_mm);
  return {
    clearance_mm: -taken_mm + 0,
    low: -(taken_mm + doubt_mm),
    high: -least + 0,
    verdict: least > parting_mm ? "refuted" : taken_mm + doubt_mm <= parting_mm / 2 ? "proven" : "undecided",
  };
}

function gapHeld(gap_mm: number, swell_mm: number, doubt_mm: number): Held {
  const clearance_mm = gap_mm - swell_mm;
  const [low, high] = [clearance_mm - doubt_mm, Math.min(gap_mm, clearance_mm + doubt_mm)];
  return { clearance_mm, low, high, verdict: low >= 0 ? "proven" : high < 0 ? "refuted" : "undecided" };
}

/** The panel's inner face: at a measured wall, at one reckoned from the amplifier with its ends, or at the usual one. */
function warmOf(panel: Panel, { wall_C, amplifier, destination, panels }: CaseQuestion, density_kg_m3 = 650) {
  const room_C = destination.reduce((sum, month) => sum + month.temperature_C, 0) / destination.length;
  const steady = (at_C: number) => ({ usual: { wall_C: () => at_C, share: 1 }, ends: [], rise_K: at_C - room_C });
  if (wall_C !== undefined) return steady(wall_C);
  const isWarm = panel.warm ?? (amplifier !== undefined && panels.every((one) => one.warm === undefined));
  if (!isWarm) return undefined;
  if (!amplifier) return steady(usualWall_C);
  const { rise_K, low_K, high_K } = wallOver(amplifier, panel.thickness_mm, density_kg_m3);
  const share = Math.min(1, (amplifier.hoursADay ?? 4) / 24);
  const over = (kelvin: number): WarmFace => ({ wall_C: (here_C) => Math.min(99, here_C + kelvin), share });
  return { usual: over(rise_K), ends: [over(low_K), over(high_K)], rise_K };
}

function twelve(destination: readonly MonthOfAir[]): MonthOfAir[] {
  const sorted = [...destination].sort((a, b) => a.month - b.month);
  if (sorted.length !== 12 || sorted.some(({ month }, i) => month !== i + 1)) {
    throw new BadInput(
      "destination",
      `months ${destination.map(({ month }) => month).join(", ")}`,
      "each month from 1 to 12 once",
      "give twelve months of room air",
    );
  }
  return sorted;
}

function requirePanels({ panels, gaps }: CaseQuestion): void {
  const names = new Set<string>();
  panels.forEach(({ name, fixed }, i) => {
    if (names.has(name))
      throw new BadInput(`panels[${i}].name`, quote(name), "each panel once", "give it another name");
    names.add(name);
    if (fixed !== "edges" && !Object.hasOwn(gaps, name)) {
      throw new BadInput(
        `gaps.${name}`,
        "nothing",
        `the gap of a panel fixed at ${fixed}`,
        "give millimetres to swell into, 0 for none",
      );
    }
  });
}
