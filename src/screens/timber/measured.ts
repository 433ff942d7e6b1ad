/** A piece measured at two moistures, as the shop's own wood is written down from it. */
export interface Measured {
  readonly ringAngle_deg: number;
  readonly width_mm: number;
  readonly moisture_pct: number;
  readonly laterWidth_mm: number;
  readonly laterMoisture_pct: number;
}

/**
 * Pieces measured, as they are typed one after another: ring angle, width, moisture, then width and moisture later.
 *
 * @returns the pieces, or the text that can't be read
 * @example measuredIn("0 200 12 197.6 8; 90 150 12 148,8 8")
 */
export function measuredIn(typed: string): readonly Measured[] | string {
  const pieces: Measured[] = [];
  for (const text of typed.split(";").map((one) => one.trim())) {
    if (text === "") continue;
    const numbers = text.split(/\s+/).map((one) => Number(one.replace(",", ".")));
    if (numbers.length !== 5 || numbers.some((one) => !Number.isFinite(one))) return text;
    const [ringAngle_deg, width_mm, moisture_pct, laterWidth_mm, laterMoisture_pct] = numbers as [
      ...[number, number, number, number, number],
    ];
    pieces.push({ ringAngle_deg, width_mm, moisture_pct, laterWidth_mm, laterMoisture_pct });
  }
  return pieces;
}
