import type { Random } from "../../maths/random.ts";
import { addHiss } from "./hiss.ts";
import { type Leakage, leakageLines } from "./leakage.ts";
import { buildingMains, regenerator, type Socket } from "./supply.ts";
import { wav24 } from "./wav.ts";

/** Where hum can enter one channel of one unit, everything as it stands at that channel's output. */
export interface ChannelPhysics {
  readonly channel: string;
  /** The building's field through wiring and transformer, order by order; knows nothing of the unit's own supply. */
  readonly field: readonly { readonly order: number; readonly level_Vrms: number }[];
  /** What is left of the HT's ripple, even orders of the supply, at 50 Hz. */
  readonly ripple: readonly { readonly order: number; readonly level_Vrms: number }[];
  /** Mains voltage through the capacitance between windings, at 50 Hz; rises with frequency. */
  readonly winding_Vrms: number;
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

export interface Take {
  readonly channels: readonly ChannelPhysics[];
  /** Position to the leakage of the valve that stands there. */
  readonly fitted: Readonly<Record<string, HeaterLeakage>>;
  readonly building_Hz: number;
  /** How far this day's mains is bent, 1 being the usual. */
  readonly buildingDistortion: number;
  readonly supply: { readonly source: "building" | "regenerated"; readonly frequency_Hz: number };
  readonly seconds: number;
  readonly fullScale_Vpk: number;
  readonly chance: Random;
}

const rate_Hz = 48_000;
/** The recorder's quartz runs fast by this share, always; every frequency reads low by as much. */
const clockError = 11e-6;
const recorder_V_per_rtHz_per_Vpk = 3.5e-9;
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
 *   winding     ∝ order·ratio·f/50 Hz: a small capacitance into a resistance
 *   leakage     the current of `leakageLines` times the cathode's transfer resistance
 *
 * A capacitor-input supply draws its current at the crests; the ripple's phase is taken as fixed to them.
 */
export function channelLines(channel: ChannelPhysics, take: Take, socket: Socket): readonly Line[] {
  const rub = take.chance.fork(`contacts ${channel.channel}`);
  const contact = () => 1 + rub.normal(0, reseating);
  const up = take.supply.frequency_Hz / 50;
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
  for (const [order, { ratio, phase_cycles }] of socket.shape) {
    const level_Vrms = winding_Vrms * order * ratio;
    lines.push({ of: "supply", order, level_Vrms, phase_cycles: phase_cycles + 0.25 });
  }
  for (const { position, section, cathode_V, transfer_ohm } of channel.cathodes) {
    const leakage = take.fitted[position]?.[section];
    if (leakage === undefined) continue;
    const seat = contact();
    for (const line of leakageLines(leakage, cathode_V, heater_Vpk, socket.shape, leakageOrders)) {
      const level_Vrms = line.current_Arms * Math.abs(transfer_ohm) * seat;
      const turned = transfer_ohm < 0 ? 0.5 : 0;
      lines.push({ of: "supply", order: line.order, level_Vrms, phase_cycles: line.phase_cycles + turned });
    }
  }
  return lines.filter((line) => line.level_Vrms > 0);
}

/**
 * The WAV file that a person at the bench gets: a unit with its input shorted, the recorder at its outputs, and
 * everything that hums, hisses and drifts between them. Both supplies begin at a phase of their own.
 */
export function takeRecording(take: Take): Uint8Array {
  const length = Math.round(take.seconds * rate_Hz);
  const trueRate_Hz = rate_Hz * (1 + clockError);
  const { chance } = take;
  const building = buildingMains(
    take.building_Hz,
    length,
    trueRate_Hz,
    take.buildingDistortion,
    chance.fork("building"),
  );
  const socket =
    take.supply.source === "building"
      ? building
      : regenerator(take.supply.frequency_Hz, length, trueRate_Hz, chance.fork("regenerator"));

  const samples = take.channels.map((channel) => {
    const volts = new Float64Array(length);
    const lines = channelLines(channel, take, socket);
    addFamily(
      volts,
      building,
      lines.filter((line) => line.of === "building"),
    );
    addFamily(
      volts,
      socket,
      lines.filter((line) => line.of === "supply"),
    );
    const white = Math.hypot(channel.hiss_V_per_rtHz, recorder_V_per_rtHz_per_Vpk * take.fullScale_Vpk);
    const corner_Hz = channel.hissCorner_Hz * (channel.hiss_V_per_rtHz / white) ** 2;
    addHiss(volts, trueRate_Hz, white, corner_Hz, chance.fork(`hiss ${channel.channel}`));
    for (let n = 0; n < length; n++) volts[n]! /= take.fullScale_Vpk;
    return volts;
  });
  return wav24(rate_Hz, samples);
}

/** Points of one cycle, and the points beyond either end that interpolation reaches to. */
const cycle_points = 2048;
const beyond = 2;

/**
 * Adds Σ √2·level·cos(2π(order·cycles + phase)) to a signal.
 *
 * One cycle is worked out once and read between its points by a cubic through four of them, which keeps the thirteenth
 * order to within 10⁻⁷ of itself.
 */
function addFamily(into_V: Float64Array, socket: Socket, lines: readonly Line[]): void {
  if (lines.length === 0) return;
  const cycle_V = Float64Array.from({ length: cycle_points + 2 * beyond }, (_, k) => {
    const at = (k - beyond) / cycle_points;
    return lines.reduce(
      (sum, { order, level_Vrms, phase_cycles }) =>
        sum + Math.SQRT2 * level_Vrms * Math.cos(2 * Math.PI * (order * at + phase_cycles)),
      0,
    );
  });
  for (let n = 0; n < into_V.length; n++) {
    const cycles = socket.cycles[n]!;
    const place = (cycles - Math.floor(cycles)) * cycle_points;
    const k = Math.floor(place);
    const t = place - k;
    const before = cycle_V[k + 1]!;
    const left = cycle_V[k + 2]!;
    const right = cycle_V[k + 3]!;
    const after = cycle_V[k + 4]!;
    const bend = left - right + (after - before) / 3;
    into_V[n]! +=
      left + t * (right - before / 3 - left / 2 - after / 6 + t * ((before + right) / 2 - left + (t * bend) / 2));
  }
}
