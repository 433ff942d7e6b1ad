import type { ValveTruth } from "../truth.ts";
import { johnson_V_per_rtHz, triodeNoise_ohm } from "./hiss.ts";
import type { ChannelPhysics } from "./humLines.ts";
import { channelResponse, rest, transfer_ohm, unitCircuit, type Wiring } from "./workingPoint.ts";

/** How one channel of one unit was built and where it stands, as far as hum cares. */
export interface ChannelTraits {
  readonly channel: string;
  readonly field: ChannelPhysics["field"];
  readonly ripple: ChannelPhysics["ripple"];
  readonly winding_Vrms: number;
  readonly charging_ohm?: number;
  readonly hissCorner_Hz: number;
  /** Hiss of the first stage over that of a perfect valve. */
  readonly hissExcess: number;
}

/** The ends of the heater winding in the net lists; its middle is what a cathode's insulation is held against. */
const heaterEnds = ["h1", "h2"] as const;

/** The frequency at which cathodes are probed; their transfer changes little over the orders that matter. */
const probe_Hz = 57;

/**
 * A channel's hum and hiss as they appear at its output: the traits as given, and for each cathode of the channel the
 * standing voltage and the transfer resistance that its circuit has with the valves that stand in it.
 */
export function channelPhysics(
  wiring: Wiring,
  resistors: Readonly<Record<string, number>>,
  fitted: Readonly<Record<string, ValveTruth>>,
  traits: ChannelTraits,
): ChannelPhysics {
  const { channel } = traits;
  const circuit = unitCircuit(wiring, resistors, fitted);
  const resting = rest(circuit);
  const [input, output] = [wiring.input[channel]!, wiring.output[channel]!];
  const gain = 10 ** (channelResponse(circuit, input, output, [1000]).gain_dB[0]! / 20);
  const sections = wiring.positions.flatMap(({ position, sections }) =>
    Object.entries(sections).flatMap(([section, id]) => {
      const part = circuit.parts.find((p) => p.id === id);
      return part?.kind === "triode" && (part.channel ?? channel) === channel ? [{ position, section, part }] : [];
    }),
  );
  const heater_V = heaterEnds.reduce((sum, node) => sum + resting.nodes[node]! / heaterEnds.length, 0);
  const firstGm_mS = resting.parts[sections[0]!.part.id]!.gm_mS!;
  return {
    channel,
    field: traits.field,
    ripple: traits.ripple,
    winding_Vrms: traits.winding_Vrms,
    ...(traits.charging_ohm !== undefined && { charging_ohm: traits.charging_ohm }),
    cathodes: sections.map(({ position, section, part }) => ({
      position,
      section,
      cathode_V: resting.nodes[part.cathode]! - heater_V,
      transfer_ohm: transfer_ohm(circuit, part.cathode, output, probe_Hz),
    })),
    hiss_V_per_rtHz: traits.hissExcess * gain * johnson_V_per_rtHz(triodeNoise_ohm(firstGm_mS)),
    hissCorner_Hz: traits.hissCorner_Hz,
  };
}
