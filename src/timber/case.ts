import { BadInput, quote } from "../maths/badInput.ts";
import { humidityAtWall_pct } from "./air.ts";
import { acrossWidth, boardScatter, coefficientsOf } from "./coefficients.ts";
import { diffusivityAt, knownDiffusivity } from "./diffusivity.ts";
import { emcDoubt_pct, equilibriumMoisture_pct } from "./emc.ts";
import type { Face } from "./face.ts";
import { type Grid, grid, meanOf, pass } from "./slab.ts";
import { speciesNamed } from "./species.ts";
import { partingStrain } from "./strength.ts";

export interface Panel {
  readonly name: string;
  readonly species: string;
  readonly width_mm: number;
  readonly thickness_mm: number;
  readonly ringAngle_deg: number;
  /** At assembly. */
  readonly moisture_pct: number;
  readonly fixed: "edges" | "centre" | "free";
  /** Its inner face is at the wall's temperature. */
  readonly warm?: boolean;
}

export interface MonthOfAir {
  readonly month: number;
  readonly temperature_C: number;
  readonly humidity_pct: number;
}

export interface CaseQuestion {
  readonly panels: readonly Panel[];
  readonly destination: readonly MonthOfAir[];
  readonly wall_C?: number;
  readonly gaps: Readonly<Record<string, number>>;
}

export interface PanelAnswer {
  readonly name: string;
  readonly driest_pct: number;
  readonly wettest_pct: number;
  readonly shrink_mm: number;
  readonly swell_mm: number;
  readonly clearance_mm: number;
  readonly low: number;
  readonly high: number;
  readonly verdict: "proven" | "refuted" | "undecided";
  readonly remedy: string;
  readonly doubt: { readonly shrink_mm: number; readonly swell_mm: number; readonly moisture_pct: number };
}

/** What a warm panel's wall is taken to be at where it is not said. */
export const usualWall_C = 40;
const month_s = (365.25 / 12) * 86_400;
/** Years after which the seasons of a panel repeat, at the latest. */
const mostYears = 12;

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
  const months = twelve(question.destination);
  requirePanels(question);
  return question.panels.map((panel, i) => judgePanel(panel, i, months, question));
}

function judgePanel(
  panel: Panel,
  i: number,
  months: readonly MonthOfAir[],
  { wall_C, gaps }: CaseQuestion,
): PanelAnswer {
  const species = speciesNamed(panel.species, `panels[${i}].species`);
  const wall = wall_C ?? (panel.warm ? usualWall_C : undefined);
  const { low: driest_pct, high: wettest_pct } = yearOf(panel, months, wall);
  const { best, bySource } = coefficientsOf(species);
  const coefficient = acrossWidth(best, panel.ringAngle_deg);
  const all = bySource.map((one) => acrossWidth(one, panel.ringAngle_deg));
  const spread = Math.hypot(boardScatter, Math.max(...all.map((one) => Math.abs(one / coefficient - 1))));
  const moved = (step_pct: number) => panel.width_mm * coefficient * Math.max(0, step_pct);
  const doubtOf = (step_pct: number, emc_pct: number) =>
    Math.hypot(spread * moved(step_pct), panel.width_mm * coefficient * emcDoubt_pct(emc_pct));

  const [drop, rise] = [panel.moisture_pct - driest_pct, wettest_pct - panel.moisture_pct];
  const [shrink_mm, swell_mm] = [moved(drop), moved(rise)];
  const doubt = {
    shrink_mm: doubtOf(drop, driest_pct),
    swell_mm: doubtOf(rise, wettest_pct),
    moisture_pct: emcDoubt_pct((driest_pct + wettest_pct) / 2),
  };
  const base = { name: panel.name, driest_pct, wettest_pct, shrink_mm, swell_mm, doubt };
  const target_pct = (driest_pct + wettest_pct) / 2;
  const quarter = acrossWidth(best, 90) / coefficient;

  if (panel.fixed === "edges") {
    const [taken, takenDoubt] = shrink_mm >= swell_mm ? [shrink_mm, doubt.shrink_mm] : [swell_mm, doubt.swell_mm];
    const parting_mm = partingStrain(species).value * panel.width_mm;
    const least = Math.max(0, taken - takenDoubt);
    const verdict = least > parting_mm ? "refuted" : taken + takenDoubt <= parting_mm / 2 ? "proven" : "undecided";
    return {
      ...base,
      clearance_mm: -taken + 0,
      low: -(taken + takenDoubt),
      high: -least + 0,
      verdict,
      remedy:
        verdict === "proven"
          ? `None needed: the fixing takes ${mm(taken)} mm, well below the ${mm(parting_mm)} mm at which the wood would part.`
          : `Do not fix both edges: slot the fixings for ${mm(shrink_mm + doubt.shrink_mm)} mm inward and ${mm(swell_mm + doubt.swell_mm)} mm outward, fixed at the centre${quarterWords(quarter, taken)}${conditionWords(panel.moisture_pct, target_pct)}.`,
    };
  }
  const gap = gaps[panel.name]!;
  const clearance_mm = gap - swell_mm;
  const [low, high] = [clearance_mm - doubt.swell_mm, Math.min(gap, clearance_mm + doubt.swell_mm)];
  const verdict = low >= 0 ? "proven" : high < 0 ? "refuted" : "undecided";
  return {
    ...base,
    clearance_mm,
    low,
    high,
    verdict,
    remedy:
      verdict === "proven"
        ? `None needed: it keeps ${mm(clearance_mm)} mm${drop > 0 ? `, and shrinks ${mm(shrink_mm)} mm at the driest` : "; drying it further would only use up the gap"}.`
        : `Widen the gap from ${mm(gap)} to ${mm(swell_mm + doubt.swell_mm)} mm${quarterWords(quarter, swell_mm)}${conditionWords(panel.moisture_pct, target_pct)}.`,
  };
}

function quarterWords(quarter: number, taken_mm: number): string {
  return quarter < 0.9 ? `; quarter-sawn, it would move ${mm(quarter * taken_mm)} mm in place of ${mm(taken_mm)}` : "";
}

function conditionWords(moisture_pct: number, target_pct: number): string {
  if (Math.abs(moisture_pct - target_pct) < 0.5) return "";
  const way = moisture_pct > target_pct ? "dry" : "let it take up moisture (do not dry it further)";
  return `; ${way} from ${moisture_pct.toFixed(1)} to about ${target_pct.toFixed(1)} % before it is built`;
}

const mm = (value: number) => value.toFixed(1);

/** Lowest and highest mean moisture of the year that repeats. */
function yearOf(
  panel: Panel,
  months: readonly MonthOfAir[],
  wall_C: number | undefined,
): { low: number; high: number } {
  const slab: Grid = grid(panel.thickness_mm / 1000);
  const { law, factor } = knownDiffusivity(panel);
  const moisture = new Float64Array(slab.size_m.length).fill(panel.moisture_pct);
  let [low, high] = [0, 0];
  for (let year = 0; year < mostYears; year++) {
    const before = meanOf(slab, moisture);
    [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const { temperature_C, humidity_pct } of months) {
      const outer = open(equilibriumMoisture_pct(temperature_C, humidity_pct));
      const inner =
        wall_C === undefined
          ? outer
          : open(equilibriumMoisture_pct(wall_C, humidityAtWall_pct(temperature_C, humidity_pct, wall_C)));
      const wood_C = wall_C === undefined ? temperature_C : (temperature_C + wall_C) / 2;
      const climate = { diffusivity: diffusivityAt(law, factor, wood_C), faces: [outer, inner] } as const;
      pass(slab, moisture, month_s, climate, ({ to_pct: mean_pct }) => {
        [low, high] = [Math.min(low, mean_pct), Math.max(high, mean_pct)];
        return false;
      });
    }
    if (year > 0 && Math.abs(meanOf(slab, moisture) - before) < 0.005) break;
  }
  return { low, high };
}

function open(emc_pct: number): Face {
  return { open: true, emc_pct, surface_m_per_s: Number.POSITIVE_INFINITY };
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
