/** Geometry of an end-grain section, apart from its drawing. */

export interface Holding {
  readonly mean_pct: number;
  readonly surface_pct: number;
  readonly core_pct: number;
}

/** Moistures between which the shelf's rules run. */
const scale_pct = { low: 2, high: 18 } as const;

/** Place on a moisture rule, 0 at its dry end, 1 at its wet end. */
export function along(moisture_pct: number): number {
  const { low, high } = scale_pct;
  return Math.min(1, Math.max(0, (moisture_pct - low) / (high - low)));
}

/** How dark a moisture is shaded, 0 to 1; even steps of moisture look like even steps of grey. */
export function shade(moisture_pct: number): number {
  return Number((0.05 + 0.75 * along(moisture_pct)).toFixed(3));
}

/**
 * Moisture through the thickness, drawn from what is known of it: skin, core and mean.
 *
 *     M(x) = core + (skin − core)·|x|^p,   x from −1 to 1;   mean = core + (skin − core)/(p + 1)
 *
 * With one face closed x runs from the closed face, 0, to the open one, 1.
 */
export function throughThickness(
  { mean_pct, surface_pct, core_pct }: Holding,
  faces: "both" | "one",
  steps = 8,
): readonly { readonly at: number; readonly moisture_pct: number }[] {
  const whole = surface_pct - core_pct;
  const share = whole === 0 ? 0.5 : (mean_pct - core_pct) / whole;
  const power = Math.min(30, Math.max(0.25, 1 / Math.min(0.9, Math.max(0.03, share)) - 1));
  return Array.from({ length: steps + 1 }, (_, i) => {
    const at = i / steps;
    const x = faces === "both" ? Math.abs(2 * at - 1) : 1 - at;
    return { at, moisture_pct: core_pct + whole * x ** power };
  });
}

/**
 * Rings across a section: circles about the pith, which lies below a flat-sawn board and beside a quarter-sawn one.
 *
 * @returns centre and radii in the section's own units; the drawing clips them
 */
export function rings(
  width: number,
  height: number,
  ringAngle_deg: number,
  spacing: number,
): { readonly cx: number; readonly cy: number; readonly radii: readonly number[] } {
  const angle = (ringAngle_deg * Math.PI) / 180;
  const reach = 1.15 * width;
  const cx = width / 2 - reach * Math.sin(angle);
  const cy = height / 2 + reach * Math.cos(angle);
  const corners = [
    [0, 0],
    [width, 0],
    [0, height],
    [width, height],
  ].map(([x, y]) => Math.hypot(x! - cx, y! - cy));
  const isInside = cx >= 0 && cx <= width && cy >= 0 && cy <= height;
  const nearest = isInside ? 0 : Math.hypot(Math.max(0, -cx, cx - width), Math.max(0, -cy, cy - height));
  const farthest = Math.max(...corners);
  const first = Math.ceil(nearest / spacing);
  const count = Math.max(0, Math.floor(farthest / spacing) - first + 1);
  return { cx, cy, radii: Array.from({ length: count }, (_, i) => (first + i) * spacing) };
}
