import { type Scale, softnessOf, TRIODE_KNEE_V } from "./parameters.ts";
import type { Reading } from "./readings.ts";

/**
 * Currents in A of all readings for the fit's parameters, written into `out`: the formulas of `plateLaw.ts`, `triode.ts`
 * and `pentode.ts` without their slopes, which a walk over many thousand curves has no use for. What does not depend on
 * the parameters is kept, and plate and screen of one point are worked out together.
 */
export function currentsOf(readings: readonly Reading[], scale: Scale, isPentode: boolean) {
  const points: { readonly first: Reading; plate: number; screen: number }[] = [];
  readings.forEach((reading, i) => {
    const last = points.at(-1);
    if (last !== undefined && last.first.point === reading.point) last[reading.of] = i;
    else points.push({ first: reading, plate: -1, screen: -1, [reading.of]: i });
  });
  const plate_V = Float64Array.from(points, ({ first }) => Math.max(first.plate_V, 0));
  const grid_V = Float64Array.from(points, ({ first }) => first.grid_V);
  const electrode_V = Float64Array.from(points, ({ first }) =>
    isPentode ? (first.screen_V ?? first.plate_V) : first.plate_V,
  );
  const ofPlate = Int32Array.from(points, (p) => p.plate);
  const ofScreen = Int32Array.from(points, (p) => p.screen);

  return (p: Float64Array, out: Float64Array): void => {
    const mu = Math.exp(p[1]!);
    const exponent = p[2]!;
    const offset_V = p[3]!;
    const bend = p[4]!;
    const lowPlate_V2 = p[5]!;
    const { fixed_V, perVolt } = softnessOf(p, scale);
    const r = 100 / mu;
    const logUnit = p[0]! - exponent * Math.log(scale.drive_V);
    const perPlate = isPentode ? Math.exp(-p[8]!) : 0;
    const far = isPentode ? Math.exp(p[9]!) : 0;
    const knee0_V = isPentode ? Math.exp(p[10]!) : 0;
    const [kneePerDrive, power, tail] = isPentode ? [p[11]!, p[12]!, p[13]!] : [0, 0, 0];
    for (let i = 0; i < plate_V.length; i++) {
      const va = plate_V[i]!;
      const vg = grid_V[i]!;
      const ve = !isPentode && lowPlate_V2 > 0 ? va : electrode_V[i]!;
      const h = lowPlate_V2 === 0 ? 1 : ve / Math.sqrt(lowPlate_V2 + ve * ve);
      const tilt = vg / r;
      const effective_V = vg + bend * r * (Math.sqrt(1 + tilt * tilt) - 1) + offset_V;
      const u = ve / mu + h * effective_V + va * perPlate;
      const s = fixed_V + perVolt * Math.max(ve, 0);
      const x = u / s;
      const drive_V = x > 30 ? u : s * (Math.max(x, 0) + Math.log1p(Math.exp(-Math.abs(x))));
      const current_A = drive_V > 0 ? Math.exp(logUnit + exponent * Math.log(drive_V)) : 0;
      if (!isPentode) {
        out[ofPlate[i]!] = va > 0 ? (current_A * va * va) / (va * va + TRIODE_KNEE_V * TRIODE_KNEE_V) : 0;
        continue;
      }
      const y = va > 0 ? Math.exp(power * Math.log(va / (knee0_V + kneePerDrive * drive_V))) : 0;
      const q = Math.exp(tail < 1e-9 ? -y : -Math.log1p(tail * y) / tail);
      const share = far + (1 - far) * q;
      if (ofPlate[i]! >= 0) out[ofPlate[i]!] = current_A * (1 - share);
      if (ofScreen[i]! >= 0) out[ofScreen[i]!] = current_A * share;
    }
  };
}
