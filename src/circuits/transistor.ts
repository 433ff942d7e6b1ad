import type { Curve } from "./device.ts";
import { junction, thermal_V } from "./junction.ts";

/**
 * Junction field-effect transistor as a current source; electrodes drain, gate, source.
 *
 *     beyond the knee  Id = saturation · (1 + Vgs/pinchOff)² · (1 + Vds/early)          Vds ≥ Vgs + pinchOff
 *     below it         Id = saturation/pinchOff² · (2·(Vgs + pinchOff)·Vds − Vds²) · (1 + Vds/early)
 *
 * Drain and source change places when Vds is negative. The gate draws no current here.
 *
 * @source Shichman and Hodges, IEEE J. Solid-State Circuits 3, 1968 (remembered)
 */
export function jfetCurve(
  law: { saturation_mA: number; pinchOff_V: number; early_V?: number },
  polarity: "n" | "p",
): Curve {
  const sign = polarity === "n" ? 1 : -1;
  const beta = law.saturation_mA / 1e3 / law.pinchOff_V ** 2;
  const lambda = law.early_V === undefined ? 0 : 1 / law.early_V;
  const forward = (vgs: number, vds: number): readonly [id: number, perGate: number, perDrain: number] => {
    const over = vgs + law.pinchOff_V;
    if (over <= 0) return [0, 0, 0];
    const rise = 1 + lambda * vds;
    const plain = vds >= over ? over * over : (2 * over - vds) * vds;
    const perGate = vds >= over ? 2 * over : 2 * vds;
    const perDrain = vds >= over ? 0 : 2 * (over - vds);
    return [beta * plain * rise, beta * perGate * rise, beta * (perDrain * rise + plain * lambda)];
  };
  return (u, into) => {
    const vds = sign * u[0]!;
    const vgs = sign * u[1]!;
    into.current_A.fill(0);
    into.slope.fill(0);
    if (vds >= 0) {
      const [id, perGate, perDrain] = forward(vgs, vds);
      into.current_A[0] = sign * id;
      into.slope[0] = perDrain;
      into.slope[1] = perGate;
    } else {
      const [id, perGate, perDrain] = forward(vgs - vds, -vds);
      into.current_A[0] = -sign * id;
      into.slope[0] = perGate + perDrain;
      into.slope[1] = -perGate;
    }
  };
}

/**
 * Bipolar transistor as a current source; electrodes collector, base, emitter.
 *
 *     Ic = saturation·((e^(Vbe/VT) − e^(Vbc/VT))·(1 − Vbc/early) − (e^(Vbc/VT) − 1)/gainBack)
 *     Ib = saturation·((e^(Vbe/VT) − 1)/gain + (e^(Vbc/VT) − 1)/gainBack),  gainBack = 1
 *
 * @source Ebers and Moll, Proc. IRE 42, 1954, transport form (remembered); the Early factor after Early 1952
 * @remarks Base charge and high injection are left out: good for current sources and regulators, not for distortion.
 */
export function bipolarCurve(
  law: { saturation_A: number; gain: number; temperature_C: number; early_V?: number },
  polarity: "n" | "p",
): Curve {
  const sign = polarity === "n" ? 1 : -1;
  const vt = thermal_V(law.temperature_C);
  const is = law.saturation_A;
  const perEarly = law.early_V === undefined ? 0 : 1 / law.early_V;
  return (u, into) => {
    const vce = sign * u[0]!;
    const vbe = sign * u[1]!;
    const vbc = vbe - vce;
    const [forward, forwardSlope] = junction(vbe / vt);
    const [backward, backwardSlope] = junction(vbc / vt);
    const early = Math.max(1e-3, 1 - vbc * perEarly);
    const earlySlope = early > 1e-3 ? -perEarly : 0;
    const perBe = (is * forwardSlope * early) / vt;
    const perBc = (-is * backwardSlope * (early + 1)) / vt + is * (forward - backward) * earlySlope;
    into.current_A[0] = sign * is * ((forward - backward) * early - backward);
    into.current_A[1] = sign * is * (forward / law.gain + backward);
    const baseBe = (is * forwardSlope) / (vt * law.gain);
    const baseBc = (is * backwardSlope) / vt;
    // Vbc = Vbe − Vce
    into.slope[0] = -perBc;
    into.slope[1] = perBe + perBc;
    into.slope[3] = -baseBc;
    into.slope[4] = baseBe + baseBc;
  };
}
