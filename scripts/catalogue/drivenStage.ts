import { type ValveModel, valveCurrents } from "../../src/valves/model.ts";

/** A printed row of typical operation: a sine on the grid, the load through an ideal transformer. */
export interface DrivenStage {
  readonly plate_V: number;
  readonly screen_V?: number;
  readonly grid_V: number;
  readonly drive_Vpk: number;
  readonly load_ohm: number;
}

const SAMPLES = 32;

/**
 * Mean currents and power of a stage on its load line, by Simpson-like sums over one half of a sine; the transformer
 * holds the plate's mean voltage at the supply:
 *
 *     Va = V_supply − R·(Ia − mean of Ia),   P = R·mean of (Ia − mean)²
 */
export function drivenStage(model: ValveModel, stage: DrivenStage) {
  const { plate_V, screen_V, grid_V, drive_Vpk, load_ohm } = stage;
  let mean_A = valveCurrents(model, plate_V, grid_V, screen_V).plate_A;
  for (let turn = 0; ; turn++) {
    let [plate_A, squares, screen_A] = [0, 0, 0];
    for (let n = 0; n < SAMPLES; n++) {
      const vg = grid_V + drive_Vpk * Math.cos((Math.PI * (n + 0.5)) / SAMPLES);
      const now = onLoadLine(model, vg, screen_V, plate_V + load_ohm * mean_A, load_ohm);
      plate_A += now.plate_A / SAMPLES;
      screen_A += now.screen_A / SAMPLES;
      squares += now.plate_A ** 2 / SAMPLES;
    }
    if (Math.abs(plate_A - mean_A) < 1e-7 || turn === 40) {
      return { plate_mA: plate_A * 1e3, screen_mA: screen_A * 1e3, power_W: load_ohm * (squares - plate_A ** 2) };
    }
    mean_A = plate_A;
  }
}

/** Where the curve of a grid voltage meets Va = V₀ − R·Ia. */
function onLoadLine(model: ValveModel, grid_V: number, screen_V: number | undefined, open_V: number, load_ohm: number) {
  let [low, high] = [0, open_V];
  let now = valveCurrents(model, high, grid_V, screen_V);
  for (let step = 0; step < 48; step++) {
    const plate_V = (low + high) / 2;
    now = valveCurrents(model, plate_V, grid_V, screen_V);
    if (now.plate_A * load_ohm > open_V - plate_V) high = plate_V;
    else low = plate_V;
  }
  return now;
}
