import type { Curve } from "./device.ts";

/** Exact in the SI since 2019, like the charge. */
export const boltzmann_J_per_K = 1.380649e-23;
export const charge_C = 1.602176634e-19;

export function kelvin(temperature_C: number): number {
  return temperature_C + 273.15;
}

export function thermal_V(temperature_C: number): number {
  return (boltzmann_J_per_K / charge_C) * kelvin(temperature_C);
}

/** Above this the exponential goes on as its tangent, so that a far guess stays finite; no real junction gets there. */
const highestExponent = 200;

/** e^x − 1 and its slope, the tangent taking over far beyond any real junction. */
export function junction(x: number): readonly [value: number, slope: number] {
  if (x <= highestExponent) return [Math.expm1(x), Math.exp(x)];
  const top = Math.exp(highestExponent);
  return [top * (1 + x - highestExponent) - 1, top];
}

/**
 * Diode current.
 *
 *     I = saturation · (exp(V/(emission·kT/q)) − 1)
 *
 * @source Shockley 1949 (remembered)
 */
export function diodeCurve(law: { saturation_A: number; emission: number; temperature_C: number }): Curve {
  const scale_V = law.emission * thermal_V(law.temperature_C);
  return (u, into) => {
    const [value, slope] = junction(u[0]! / scale_V);
    into.current_A[0] = law.saturation_A * value;
    into.slope[0] = (law.saturation_A * slope) / scale_V;
  };
}

/** Thermionic rectifier section: I = perveance · V^1.5 for V above zero (Child 1911, Langmuir 1913; remembered). */
export function rectifierCurve(law: { perveance_mA_per_V1p5: number }): Curve {
  const perveance = law.perveance_mA_per_V1p5 / 1e3;
  return (u, into) => {
    const root = Math.sqrt(Math.max(0, u[0]!));
    into.current_A[0] = perveance * root ** 3;
    into.slope[0] = 1.5 * perveance * root;
  };
}
