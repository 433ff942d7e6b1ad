import type { Random } from "../../maths/random.ts";
import { type Leakage, leakageLines } from "./leakage.ts";
import type { Charging } from "./rectifier.ts";
import type { Shape } from "./supply.ts";

/** Where hum can enter one channel of one unit, everything as it stands at that channel's output. */
export interface ChannelPhysics {
  readonly channel: string;
  /** The building's field through wiring and transformer, order by order; knows nothing of the unit's own supply. */
  readonly field: readonly { readonly order: number; readonly level_Vrms: number }[];
  /** What is left of the HT's ripple, even orders of the supply, at 50 Hz. */
  readonly ripple: readonly { readonly order: number; readonly level_Vrms: number }[];
  /** Mains voltage through the capacitance between windings, at 50 Hz; rises with frequency. */
  readonly winding_Vrms: number;
  /** Earth path that the reservoir's charging pulses share with this channel: output volts per ampere. */
  readonly charging_ohm?: number;
  /** Cathodes of this channel: their standing voltage over the heater, and output volts per ampere sent into them. */
  readonly cathodes: readonly {
    readonly position: string;
    readonly section: string;
    readonly cathode_V: number;
    readonly transfer_ohm: number;
  }[];
  readonly hiss_V_per_rtHz: number;
  readonly hissCorner_Hz: number;
}

/** Sections by name, with what their heaters leak. */
export type HeaterLeakage = Readonly<Record<string, Leakage>>;

/** What a unit stands on while its hum is worked out. */
export interface Standing {
  readonly supply_Hz: number;
  readonly shape: Shape;
  /** Of the unit's reservoir, where a channel shares its path. */
  readonly charging?: Charging;
  /** Position to the leakage of the valve that stands there. */
  readonly fitted: Readonly<Record<string, HeaterLeakage>>;
}

/** Heater windings are earthed at their middle; a section's leakage sees one end. */
const heater_Vpk = (6.3 / 2) * Math.SQRT2;
const leakageOrders = 9;
/** Sockets and jacks make contact a little differently each time. */
const reseating = 0.02;

export interface Line {
  readonly of: "supply" | "building";
  readonly order: number;
  readonly level_Vrms: number;
  /** Of a cosine, against the phase of the socket it follows. */
  readonly phase_cycles: number;
}

/**
 * Everything mains-related at one channel's output, each source by its own law.
 *
 *   field       as it stands, at the building's frequency
 *   ripple      ∝ (50 Hz/f)²: a reservoir's ripple and one more RC section both fall with frequency
 *   charging    the reservoir's pulses, as `chargeReservoir` finds them, times the path that they share
 *   winding     ∝ order·ratio·f/50 Hz: a small capacitance into a resistance
 *   leakage     the current of `leakageLines` times the cathode's transfer resistance
 *
 * A capacitor-input supply draws its current at the crests; the ripple's phase is taken as fixed to them.
 */
export function channelLines(channel: ChannelPhysics, standing: Standing, chance: Random): readonly Line[] {
  const { supply_Hz, shape, charging, fitted } = standing;
  const rub = chance.fork(`contacts ${channel.channel}`);
  const contact = () => 1 + rub.normal(0, reseating);
  const up = supply_Hz / 50;
  const lines: Line[] = channel.field.map(({ order, level_Vrms }) => ({
    of: "building",
    order,
    level_Vrms: level_Vrms * contact(),
    phase_cycles: 0.13 * order + 0.07,
  }));
  for (const { order, level_Vrms } of channel.ripple) {
    lines.push({ of: "supply", order, level_Vrms: (level_Vrms * contact()) / up ** 2, phase_cycles: 0.2 * order });
  }
  const winding_Vrms = channel.winding_Vrms * contact() * up;
  for (const [order, { ratio, phase_cycles }] of shape) {
    const level_Vrms = winding_Vrms * order * ratio;
    lines.push({ of: "supply", order, level_Vrms, phase_cycles: phase_cycles + 0.25 });
  }
  for (const { position, section, cathode_V, transfer_ohm } of channel.cathodes) {
    const leakage = fitted[position]?.[section];
    if (leakage === undefined) continue;
    const seat = contact();
    for (const line of leakageLines(leakage, cathode_V, heater_Vpk, shape, leakageOrders)) {
      const level_Vrms = line.current_Arms * Math.abs(transfer_ohm) * seat;
      const turned = transfer_ohm < 0 ? 0.5 : 0;
      lines.push({ of: "supply", order: line.order, level_Vrms, phase_cycles: line.phase_cycles + turned });
    }
  }
  if (charging !== undefined && channel.charging_ohm !== undefined) {
    const shared_ohm = channel.charging_ohm * contact();
    for (const { order, value_rms, phase_cycles } of charging.pulses) {
      lines.push({ of: "supply", order, level_Vrms: value_rms * shared_ohm, phase_cycles });
    }
  }
  return lines.filter((line) => line.level_Vrms > 0);
}
