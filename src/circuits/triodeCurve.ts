import type { TriodeModel } from "../valves/model.ts";
import type { Curve } from "./device.ts";

/**
 * A triode's currents and slopes as the solver asks for them, many millions of times in a spread: `valveCurrents` of
 * the same model, written without an object or a root more than it needs. A test holds the two together.
 *
 * @param current  factor on the plate's current
 * @param pull     factor on the plate's voltage, one over the factor on mu
 */
export function triodeCurve(model: TriodeModel, current: number, pull: number): Curve {
  const { mu, exponent, offset_V, bend, softness, softness_V, gridCurrent } = model;
  const amps = model.current_A * current;
  const low2 = model.lowPlate_V ** 2;
  const knee2 = model.knee_V ** 2;
  const perMu = 1 / mu;
  const r = 100 / mu;
  const bow_V = bend * r;
  const grid = gridLaw(gridCurrent);

  return (u, into) => {
    const va = u[0]! * pull;
    const vg = u[1]!;
    const open = va > 0 || low2 === 0;
    const ve = open ? va : 0;
    const perRoot = low2 === 0 ? 1 : 1 / Math.sqrt(low2 + ve * ve);
    const h = low2 === 0 ? 1 : ve * perRoot;
    const tilt = vg / r;
    const bow = Math.sqrt(1 + tilt * tilt);
    const effective_V = vg + bow_V * (bow - 1) + offset_V;
    const drive_V = ve * perMu + h * effective_V;
    const soft_V = softness_V + (ve > 0 ? softness * ve : 0);

    let drive = Math.max(drive_V, 0);
    let perDrive = drive_V > 0 ? 1 : 0;
    let perSoft = 0;
    if (soft_V > 0 && drive_V <= 500 * soft_V) {
      const x = drive_V / soft_V;
      if (x < -500) {
        drive = 0;
        perDrive = 0;
      } else {
        const small = Math.exp(x < 0 ? x : -x);
        const log = Math.max(x, 0) + Math.log1p(small);
        perDrive = (x >= 0 ? 1 : small) / (1 + small);
        drive = soft_V * log;
        perSoft = log - x * perDrive;
      }
    }
    const power =
      drive > 0 ? amps * (exponent === 1.5 ? Math.sqrt(drive) : Math.exp((exponent - 1) * Math.log(drive))) : 0;
    const whole_A = power * drive;

    let kneeShare = 1;
    let kneeSlope = 0;
    if (knee2 > 0) {
      const sum = va * va + knee2;
      kneeShare = va > 0 ? (va * va) / sum : 0;
      kneeSlope = va > 0 ? (2 * va * knee2) / (sum * sum) : 0;
    }
    const slope = kneeShare * exponent * power;
    const hSlope = low2 === 0 || !open ? 0 : low2 * perRoot * perRoot * perRoot;
    const perPlate = perDrive * (open ? perMu + hSlope * effective_V : 0) + (ve > 0 ? perSoft * softness : 0);
    into.current_A[0] = kneeShare * whole_A;
    into.slope[0] = pull * (slope * perPlate + kneeSlope * whole_A);
    into.slope[1] = slope * perDrive * h * (1 + (bend * tilt) / bow);
    grid(vg, into);
  };
}

/** Grid current and its slope; far below its onset, in short forms. */
function gridLaw(law: TriodeModel["gridCurrent"]): (vg: number, into: Parameters<Curve>[1]) => void {
  if (law === undefined || law.softness_V <= 0) {
    return (vg, into) => {
      const over = law === undefined ? 0 : Math.max(0, vg + law.onset_V);
      const grid_A = over > 0 ? law!.current_A * over ** law!.exponent : 0;
      into.current_A[1] = grid_A;
      into.slope[3] = 0;
      into.slope[4] = over > 0 ? (law!.exponent * grid_A) / over : 0;
    };
  }
  const { current_A, onset_V, softness_V, exponent } = law;
  const scale_A = current_A * softness_V ** exponent;
  const perSoftness = exponent / softness_V;
  return (vg, into) => {
    const x = (vg + onset_V) / softness_V;
    into.slope[3] = 0;
    if (x < -20) {
      // What is left of ln(1 + e^x) is e^x, and under 10⁻¹⁷ of the scale nothing.
      const grid_A = exponent * x < -40 ? 0 : scale_A * Math.exp(exponent * x);
      into.current_A[1] = grid_A;
      into.slope[4] = grid_A * perSoftness;
      return;
    }
    const small = Math.exp(x < 0 ? x : -x);
    const log = Math.max(x, 0) + Math.log1p(small);
    const grid_A = scale_A * Math.exp(exponent * Math.log(log));
    into.current_A[1] = grid_A;
    into.slope[4] = (exponent * grid_A * (x >= 0 ? 1 : small)) / ((1 + small) * log * softness_V);
  };
}
