import type { TrayValveView, TrayView } from "../../workshop/views.ts";

/** A pocket's drawing, in its own units. */
export const pocket = { width: 88, height: 60, stroke: 27, inset: 10 } as const;

export interface TrayScale {
  readonly middle_mA: number;
  /** Half the height of a pocket, in per cent of the middle. */
  readonly reach_pct: number;
}

/** Half-heights that a tray may be drawn to; the least that holds nearly all strokes. */
const reaches_pct = [10, 20, 40, 60, 100];
const shareHeld = 0.95;

/** The scale at which a tray is drawn: one for levels and for drift, so that the picture is to measure. */
export function scaleOf({ middle_mA = 1, valves }: Pick<TrayView, "middle_mA" | "valves">): TrayScale {
  const away = valves
    .flatMap(({ sections }) => sections.flatMap(({ cold_mA, hot_mA }) => [cold_mA, hot_mA]))
    .filter((mA) => mA !== undefined)
    .map((mA) => Math.abs(100 * (mA / middle_mA - 1)))
    .sort((a, b) => a - b);
  const most = away[Math.ceil(shareHeld * away.length) - 1] ?? 0;
  return { middle_mA, reach_pct: reaches_pct.find((reach) => reach >= most * 1.1) ?? 100 };
}

export interface Stroke {
  readonly section: string;
  readonly x: number;
  readonly cold_y?: number;
  readonly hot_y?: number;
  /** Half the height of the doubt's bracket at the hot end. */
  readonly doubt: number;
  /** It lies above or below what the pocket can show. */
  readonly beyond?: "above" | "below";
}

/** Where a valve's sections lie in its pocket. */
export function strokesOf(
  { sections }: Pick<TrayValveView, "sections">,
  { middle_mA, reach_pct }: TrayScale,
): readonly Stroke[] {
  const half = pocket.height / 2;
  const perPct = (half - 5) / reach_pct;
  const y = (mA: number) => half - 100 * (mA / middle_mA - 1) * perPct;
  const width = sections.length * pocket.stroke + (sections.length - 1) * pocket.inset;
  return sections.map(({ section, cold_mA, hot_mA, drift_pct, doubt_pct = 0 }, i) => {
    const x = (pocket.width - width) / 2 + i * (pocket.stroke + pocket.inset);
    const ends = [cold_mA, hot_mA].filter((mA) => mA !== undefined).map(y);
    const middle = ends.reduce((sum, at) => sum + at, 0) / (ends.length || 1);
    const beyond = middle < 2 ? "above" : middle > pocket.height - 2 ? "below" : undefined;
    // What lies outside is drawn at the pocket's edge, at its own tilt.
    const shift = beyond === undefined ? 0 : (beyond === "above" ? 11 : pocket.height - 11) - middle;
    return {
      section,
      x,
      ...(cold_mA !== undefined && { cold_y: y(cold_mA) + shift }),
      ...(hot_mA !== undefined && { hot_y: y(hot_mA) + shift }),
      doubt: drift_pct === undefined ? 0 : Math.max(1.5, doubt_pct * perPct),
      ...(beyond && { beyond }),
    };
  });
}

const steepest_deg = 9;

/** The tray's lean in degrees, clockwise positive, drawn to the strokes' own measure as far as a page can hold. */
export function leanOf(lean_pct: number | undefined, { reach_pct }: TrayScale): number {
  if (lean_pct === undefined) return 0;
  const rise = (lean_pct * (pocket.height / 2 - 5)) / reach_pct / pocket.stroke;
  const angle_deg = (-Math.atan(rise) * 180) / Math.PI;
  return Math.max(-steepest_deg, Math.min(steepest_deg, angle_deg));
}
