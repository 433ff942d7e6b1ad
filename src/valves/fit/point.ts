/** One reading of a valve, voltages to cathode. */
export interface CurvePoint {
  readonly plate_V: number;
  readonly grid_V: number;
  readonly plate_mA: number;
  readonly screen_V?: number | undefined;
  readonly screen_mA?: number | undefined;
}
