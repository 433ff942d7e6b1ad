import { BadInput } from "../../maths/badInput.ts";
import type { Netlist } from "../netlist.ts";
import type { Unsettled } from "../settle.ts";
import { type Distortion, distortion } from "../steady/distortion.ts";
import { type Load, levelOf } from "./loads.ts";

/** Drawn through small-signal gain, the level comes out low once the circuit bends; it is then driven on by what lacks. */
const tries = 3;
const closeEnough = 0.03;

/**
 * Distortion at the level that a load is told at.
 *
 * @returns "undecided" where the circuit does not reach the level, or finds no steady state
 */
export function distortionInto(
  netlist: Netlist,
  {
    input,
    output,
    frequency_Hz,
    gain_dB,
    load,
  }: {
    readonly input: string;
    readonly output: string;
    readonly frequency_Hz: number;
    /** Into the load, for small signals. */
    readonly gain_dB: number;
    readonly load: Load;
  },
): Distortion | Unsettled {
  const wanted_Vrms = levelOf(load);
  const undecided = (reason: string): Unsettled => ({ state: "undecided", node: output, reason, notes: [] });
  if (gain_dB < -200) return undecided("no signal arrives at the output");
  let amplitude_Vpk = (wanted_Vrms * Math.SQRT2) / 10 ** (gain_dB / 20);
  let last: Distortion | undefined;
  try {
    for (let i = 0; i < tries; i++) {
      const found = distortion(netlist, { input, output, frequency_Hz, amplitude_Vpk, load_ohm: load.ohm });
      if (found.state !== "solved") return found;
      last = found;
      const short = wanted_Vrms / found.output_Vrms;
      if (Math.abs(short - 1) < closeEnough) return found;
      amplitude_Vpk *= short;
    }
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return undecided(fault.message);
  }
  return undecided(
    `distortion is not told at ${wanted_Vrms.toPrecision(3)} V: the output comes to ${last!.output_Vrms.toPrecision(3)} V, bent by ${last!.thd_pct.toPrecision(2)} %`,
  );
}
