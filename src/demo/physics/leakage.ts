/**
 * Leakage through a heater's insulation to the cathode around it: I = scale·sinh(V/bend), so that it conducts better
 * at higher voltage, as warm alumina does.
 *
 * Spread along a heater whose middle is earthed, the two halves send opposite hum and all but cancel; one bad spot
 * near an end has nothing to cancel it.
 */
export interface Leakage {
  /** What a valve tester reads at `testerVoltage_V`, in µA. */
  readonly atTester_uA: number;
  readonly bend_V: number;
  /** Where along the heater it sits: 0 at the middle, or spread evenly; 1 at an end. */
  readonly offCentre: number;
}

export const testerVoltage_V = 100;

export function leakage_A(leakage: Leakage, across_V: number): number {
  const scale_A = (leakage.atTester_uA * 1e-6) / Math.sinh(testerVoltage_V / leakage.bend_V);
  return scale_A * Math.sinh(across_V / leakage.bend_V);
}

const steps = 512;

export interface CurrentLine {
  readonly order: number;
  readonly current_Arms: number;
  /** Of a cosine, against the supply's own. */
  readonly phase_cycles: number;
}

/**
 * The alternating current that a heater's leakage sends into its cathode, order by order, from one cycle of
 *
 *     i(φ) = I(cathode_V − heater_Vpk·Σ ratio·cos(2π(n·φ + phase)))
 *
 * @param cathode_V    standing voltage from heater to cathode
 * @param heater_Vpk   peak of the heater winding's hot end against its earthed point
 * @param shape        the supply's shape, which the heater winding passes on
 */
export function leakageLines(
  leakage: Leakage,
  cathode_V: number,
  heater_Vpk: number,
  shape: ReadonlyMap<number, { readonly ratio: number; readonly phase_cycles: number }>,
  orders: number,
): readonly CurrentLine[] {
  const wave_A = Float64Array.from({ length: steps }, (_, k) => {
    let heater_V = 0;
    for (const [order, { ratio, phase_cycles }] of shape) {
      heater_V += leakage.offCentre * heater_Vpk * ratio * Math.cos(2 * Math.PI * ((order * k) / steps + phase_cycles));
    }
    return leakage_A(leakage, cathode_V - heater_V);
  });
  return Array.from({ length: orders }, (_, i) => {
    const order = i + 1;
    let re = 0;
    let im = 0;
    for (let k = 0; k < steps; k++) {
      const angle = (2 * Math.PI * order * k) / steps;
      re += wave_A[k]! * Math.cos(angle);
      im -= wave_A[k]! * Math.sin(angle);
    }
    return {
      order,
      current_Arms: (Math.SQRT2 * Math.hypot(re, im)) / steps,
      phase_cycles: Math.atan2(im, re) / (2 * Math.PI),
    };
  });
}
