import { softened } from "../plateLaw.ts";
import { type Scale, softnessOf, TRIODE_KNEE_V } from "./parameters.ts";

/**
 * Plate and screen current in A, and their slopes with respect to the fit's parameters, written into `plate` and
 * `screen`. The formulas are those of `plateLaw.ts`, `triode.ts` and `pentode.ts`; the tests hold the two together.
 */
export function currentSlopes(
  p: ArrayLike<number>,
  scale: Scale,
  at: { readonly plate_V: number; readonly grid_V: number; readonly screen_V: number | undefined },
  plate: Float64Array,
  screen: Float64Array,
): { plate_A: number; screen_A: number } {
  const isPentode = plate.length > 8;
  const mu = Math.exp(p[1]!);
  const exponent = p[2]!;
  const bend = p[4]!;
  const lowPlate_V2 = p[5]!;
  const { whole_V, growing, fixed_V, perVolt } = softnessOf(p, scale);

  const va = Math.max(at.plate_V, 0);
  const ve = isPentode ? (at.screen_V ?? at.plate_V) : lowPlate_V2 > 0 ? va : at.plate_V;
  const root = Math.sqrt(lowPlate_V2 + ve * ve);
  const h = lowPlate_V2 === 0 ? 1 : ve / root;
  const h_perV2 = root > 0 ? -ve / (2 * root ** 3) : 0;
  const r = 100 / mu;
  const tilt = at.grid_V / r;
  const bow = Math.sqrt(1 + tilt * tilt);
  const effective_V = at.grid_V + bend * r * (bow - 1) + p[3]!;
  const pull_V = isPentode ? va / Math.exp(p[8]!) : 0;
  const u = ve / mu + h * effective_V + pull_V;
  const s = fixed_V + perVolt * Math.max(ve, 0);
  const { value: drive_V, perU, perS } = softened(u, s);
  plate.fill(0);
  screen.fill(0);
  if (!(drive_V > 0)) return { plate_A: 0, screen_A: 0 };

  const relative = drive_V / scale.drive_V;
  const current_A = Math.exp(p[0]!) * relative ** exponent;
  const perDrive = (exponent * current_A) / drive_V;
  plate[0] = current_A;
  plate[1] = perDrive * perU * (-ve / mu - h * bend * r * (bow - 1 - (tilt * tilt) / bow));
  plate[2] = current_A * Math.log(relative);
  plate[3] = perDrive * perU * h;
  plate[4] = perDrive * perU * h * r * (bow - 1);
  plate[5] = perDrive * perU * h_perV2 * effective_V;
  plate[6] = perDrive * perS * s;
  plate[7] = perDrive * perS * whole_V * growing * (1 - growing) * (Math.max(ve, 0) / scale.electrode_V - 1);

  if (!isPentode) {
    const open = va > 0 ? va ** 2 / (va ** 2 + TRIODE_KNEE_V ** 2) : 0;
    for (let k = 0; k < 8; k++) plate[k]! *= open;
    return { plate_A: open * current_A, screen_A: 0 };
  }

  plate[8] = -perDrive * perU * pull_V;
  const far = Math.exp(p[9]!);
  const knee0_V = Math.exp(p[10]!);
  const [kneePerDrive, power, tail] = [p[11]!, p[12]!, p[13]!];
  const knee_V = knee0_V + kneePerDrive * drive_V;
  const ratio = va / knee_V;
  const y = ratio ** power;
  const base = 1 + tail * y;
  const q = tail < 1e-9 ? Math.exp(-y) : base ** (-1 / tail);
  const q_perY = tail < 1e-9 ? -q : -q / base;
  const q_perTail = q * (tail * y < 1e-4 ? (y * y) / 2 : Math.log(base) / tail ** 2 - y / (tail * base));
  const share = far + (1 - far) * q;
  const share_perKnee = ((1 - far) * q_perY * -power * y) / knee_V;
  const share_perDrive = share_perKnee * kneePerDrive;
  for (let k = 0; k < 9; k++) {
    const slope = plate[k]!;
    const drive = k === 0 || k === 2 ? 0 : slope / perDrive;
    screen[k] = share * slope + current_A * share_perDrive * drive;
  }
  screen[9] = current_A * far * (1 - q);
  screen[10] = current_A * share_perKnee * knee0_V;
  screen[11] = current_A * share_perKnee * drive_V;
  screen[12] = va > 0 ? current_A * (1 - far) * q_perY * y * Math.log(ratio) : 0;
  screen[13] = current_A * (1 - far) * q_perTail;
  for (let k = 0; k < 14; k++) plate[k] = plate[k]! - screen[k]!;
  return { plate_A: current_A * (1 - share), screen_A: current_A * share };
}
