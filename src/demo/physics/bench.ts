import type { Random } from "../../maths/random.ts";
import { addHiss } from "./hiss.ts";
import { type ChannelPhysics, channelLines, type HeaterLeakage, type Standing } from "./humLines.ts";
import { addFamily } from "./mainsFamily.ts";
import { chargeReservoir, type Reservoir } from "./rectifier.ts";
import { addTaps, type Ring } from "./ringing.ts";
import { addTone, type SentTone } from "./sentTone.ts";
import { buildingMains, regenerator, type Socket } from "./supply.ts";
import { type WavForm, wavFile } from "./wav.ts";

export interface Take {
  readonly channels: readonly ChannelPhysics[];
  /**
   * What the recorder's channels hold, in order: channels of the unit, or through a divider the building's `mains` or
   * what the unit's socket gives, `supply`. Left out, the unit's channels.
   */
  readonly tracks?: readonly string[];
  /** Position to the leakage of the valve that stands there. */
  readonly fitted: Readonly<Record<string, HeaterLeakage>>;
  readonly building_Hz: number;
  /** How far this day's mains is bent, 1 being the usual. */
  readonly buildingDistortion: number;
  readonly supply: {
    readonly source: "building" | "regenerated";
    readonly frequency_Hz: number;
    /** What a regenerator on its last legs can give, as seen from the unit's HT winding. */
    readonly most_mA?: number;
  };
  /** The unit's HT reservoir, where its pulses matter. */
  readonly reservoir?: Reservoir;
  readonly sent?: SentTone;
  /** What rings when it is tapped; an empty list where nothing does. */
  readonly tapped?: readonly Ring[];
  readonly seconds: number;
  readonly fullScale_Vpk: number;
  readonly form?: WavForm;
  readonly chance: Random;
}

/** What the bench's recorder writes unless it is set otherwise. */
const usualForm: WavForm = { rate_Hz: 48_000, bits: 24 };
/** The recorder's quartz runs fast by this share, always; every frequency reads low by as much. */
const clockError = 11e-6;
const recorder_V_per_rtHz_per_Vpk = 3.5e-9;
const recorderCorner_Hz = 40;
const mains_Vrms = 230;

/** What the unit stands on in this take, its socket's shape already bent by what the unit draws from it. */
export function standingOf(take: Take, socket: Socket): Standing {
  const { reservoir, supply, fitted } = take;
  const charging = reservoir && chargeReservoir(reservoir, socket.shape, supply.frequency_Hz, supply.most_mA);
  return {
    supply_Hz: supply.frequency_Hz,
    shape: charging?.shape ?? socket.shape,
    ...(charging && { charging }),
    fitted,
  };
}

/**
 * The WAV file that a person at the bench gets: the recorder at a unit's outputs, and everything that hums, hisses,
 * rings and drifts between them. Both supplies begin at a phase of their own.
 */
export function takeRecording(take: Take): Uint8Array {
  const { form = usualForm, fullScale_Vpk, chance } = take;
  const length = Math.round(take.seconds * form.rate_Hz);
  const trueRate_Hz = form.rate_Hz * (1 + clockError);
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
  const standing = standingOf(take, socket);

  const samples = (take.tracks ?? take.channels.map(({ channel }) => channel)).map((track) => {
    const volts = new Float64Array(length);
    const unit = take.channels.find(({ channel }) => channel === track);
    const recorder_V_per_rtHz = recorder_V_per_rtHz_per_Vpk * fullScale_Vpk;
    const hiss = chance.fork(`hiss ${track}`);
    if (unit === undefined) {
      const [seen, shape] = track === "mains" ? [building, building.shape] : [socket, standing.shape];
      const lines = [...shape].map(([order, { ratio, phase_cycles }]) => ({
        order,
        level_Vrms: mains_Vrms * ratio,
        phase_cycles,
      }));
      addFamily(volts, seen.cycles, lines);
      addHiss(volts, trueRate_Hz, recorder_V_per_rtHz, recorderCorner_Hz, hiss);
    } else {
      const lines = channelLines(unit, standing, chance);
      for (const [of, followed] of [["building", building] as const, ["supply", socket] as const]) {
        addFamily(
          volts,
          followed.cycles,
          lines.filter((line) => line.of === of),
        );
      }
      if (take.sent) addTone(volts, trueRate_Hz, take.sent, track, chance.fork("oscillator").uniform());
      if (take.tapped) addTaps(volts, trueRate_Hz, take.tapped, chance.fork("hand"));
      const white = Math.hypot(unit.hiss_V_per_rtHz, recorder_V_per_rtHz);
      addHiss(volts, trueRate_Hz, white, unit.hissCorner_Hz * (unit.hiss_V_per_rtHz / white) ** 2, hiss);
    }
    return volts;
  });
  return wavFile(form, samples, fullScale_Vpk);
}
