import type { Model } from "../claims/evidence.ts";
import type { ClaimState } from "../claims/index.ts";
import type { Calculate } from "./calculate.ts";

export interface StandingBalance {
  /** By how much each channel's measured gain lies above its net list's; the last channel is the reference, 0. */
  readonly above_dB: readonly number[];
  /** 95 % half-width of the measurement. */
  readonly doubt_dB: number;
}

/**
 * What a unit's own parts do to its balance: measured left over right, less what the net list gives with the curves of
 * the valves that stand in it.
 *
 *     above = (left − right measured) − (left − right by the net list), at 1 kHz
 *
 * Resistors within their tolerance move a channel by more than two matched valves do, and stay when a valve goes; so a
 * valve is chosen for the unit that was measured. Without a measured balance that still holds nothing is said.
 */
export async function standingBalance(
  states: readonly ClaimState[],
  model: Model,
  netlist: object,
  calculate: Calculate,
): Promise<StandingBalance | undefined> {
  if (model.channels.length !== 2) return undefined;
  const measured = states
    .filter(({ state }) => state !== "void")
    .flatMap(({ figures }) => figures)
    .find(({ quantity, value, doubt }) => quantity === "balance_dB" && value !== undefined && doubt !== undefined);
  if (measured?.value === undefined || measured.doubt === undefined) return undefined;
  const [left, right] = await Promise.all(
    model.channels.map(async (channel) => {
      const { gain_dB } = await calculate<{ gain_dB: readonly number[] }>("circuits.response", {
        netlist,
        input: model.input[channel],
        output: model.output[channel],
        frequencies_Hz: [1000],
      });
      return gain_dB[0]!;
    }),
  );
  return { above_dB: [measured.value - (left! - right!), 0], doubt_dB: measured.doubt };
}
