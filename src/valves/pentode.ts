import { gridCurrent } from "./gridLaw.ts";
import { lawCurrent } from "./plateLaw.ts";
import type { PentodeModel, ScreenShare, ValveCurrents } from "./valveModel.ts";

/**
 * Pentode currents: one cathode current, divided between plate and screen.
 *
 *     Ik  = I(Vs, Vg) of `plateLaw.ts`, with Va/plateMu added to u (Va below 0 taken as 0)
 *     Vk  = knee_V + kneePerDrive·E
 *     y   = (Va/Vk)^power
 *     q   = e^(−y) for tail 0, else (1 + tail·y)^(−1/tail)
 *     Is  = Ik·(far + (1 − far)·q),  Ia = Ik − Is
 *
 * Current is conserved, the screen takes over as the plate falls, and `plateMu` gives a finite rp.
 */
export function pentodeCurrents(model: PentodeModel, plate_V: number, grid_V: number, screen_V: number): ValveCurrents {
  const { grid_A, grid_perGrid } = gridCurrent(model.gridCurrent, grid_V);
  const va = Math.max(plate_V, 0);
  const law = lawCurrent(model, screen_V, grid_V, va / model.plateMu);
  const drive: [number, number, number] = [
    plate_V > 0 ? law.drive_perPull / model.plateMu : 0,
    law.drive_perGrid,
    law.drive_perElectrode,
  ];
  const split = screenShare(model.screen, va, law.drive_V);

  const current = drive.map((d) => law.current_perDrive * d);
  const share = drive.map((d, i) => split.perDrive * d + (i === 0 && plate_V > 0 ? split.perPlate : 0));
  const slopes = [0, 1, 2].map((i) => ({
    screen: split.share * (current[i] as number) + law.current_A * (share[i] as number),
    cathode: current[i] as number,
  }));
  const [p, g, s] = slopes as [(typeof slopes)[0], (typeof slopes)[0], (typeof slopes)[0]];
  return {
    plate_A: law.current_A * (1 - split.share),
    grid_A,
    screen_A: law.current_A * split.share,
    dPlate: [p.cathode - p.screen, g.cathode - g.screen, s.cathode - s.screen],
    dGrid: [0, grid_perGrid, 0],
    dScreen: [p.screen, g.screen, s.screen],
  };
}

function screenShare(
  law: ScreenShare,
  va: number,
  drive_V: number,
): { share: number; perPlate: number; perDrive: number } {
  const knee = law.knee_V + law.kneePerDrive * drive_V;
  const ratio = va / knee;
  const y = ratio ** law.power;
  const [q, q_perY] = closing(y, law.tail);
  const share_perY = (1 - law.far) * q_perY;
  return {
    share: law.far + (1 - law.far) * q,
    perPlate: share_perY * law.power * (va > 0 ? y / va : 0),
    perDrive: (-share_perY * law.power * y * law.kneePerDrive) / knee,
  };
}

function closing(y: number, tail: number): [q: number, perY: number] {
  if (tail < 1e-9) {
    const q = Math.exp(-y);
    return [q, -q];
  }
  const base = 1 + tail * y;
  const q = base ** (-1 / tail);
  return [q, -q / base];
}
