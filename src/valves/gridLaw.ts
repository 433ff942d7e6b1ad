import { softened } from "./plateLaw.ts";
import type { GridLaw } from "./valveModel.ts";

/** Grid current in A and its slope in A/V; nothing where a model leaves it out. */
export function gridCurrent(law: GridLaw | undefined, grid_V: number): { grid_A: number; grid_perGrid: number } {
  if (law === undefined) return { grid_A: 0, grid_perGrid: 0 };
  const { value, perU } = softened(grid_V + law.onset_V, law.softness_V);
  if (value === 0) return { grid_A: 0, grid_perGrid: 0 };
  const grid_A = law.current_A * value ** law.exponent;
  return { grid_A, grid_perGrid: (law.exponent * grid_A * perU) / value };
}
