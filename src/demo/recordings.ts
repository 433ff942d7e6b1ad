import { createHash } from "node:crypto";
import type { BodyOf } from "../claims/evidence.ts";
import { type Random, randomStream } from "../maths/random.ts";
import { shown } from "./entry.ts";
import { modelNamed } from "./models/models.ts";
import { type Take, takeRecording } from "./physics/bench.ts";
import { chargeReservoir } from "./physics/rectifier.ts";
import type { Ring } from "./physics/ringing.ts";
import type { SentTone } from "./physics/sentTone.ts";
import { buildingMains, regenerator as regeneratedMains } from "./physics/supply.ts";
import { trackGain_dB } from "./physics/volumeControl.ts";
import type { WavForm } from "./physics/wav.ts";
import { channelResponse, unitCircuit } from "./physics/workingPoint.ts";
import type { UnitTruth, ValveTruth } from "./truth.ts";

export interface RecordingPlan {
  readonly recording: string;
  readonly unit: UnitTruth;
  readonly fitted: Readonly<Record<string, ValveTruth>>;
  readonly supply: Take["supply"];
  readonly building_Hz: number;
  readonly buildingDistortion: number;
  readonly fullScale_Vpk: number;
  readonly seconds: number;
  /** Left out, the unit is recorded for its hum. */
  readonly purpose?: BodyOf<"recording">["purpose"];
  /** A tone sent into both inputs, and where the volume control stood. */
  readonly tone?: { readonly frequency_Hz: number; readonly level_Vpk: number; readonly volume: string };
  /** The position whose bottle was tapped. */
  readonly tapped?: string;
  readonly tracks?: Take["tracks"];
  readonly form?: WavForm;
}

export interface Recorded {
  readonly body: BodyOf<"recording">;
  readonly wav: Uint8Array;
}

/** The regenerator is an instrument of the shop, tried like any other. */
export const regenerator = "regenerator";

/** What the bench records of a unit as it really is, and the note that is written beside the file. */
export function record(plan: RecordingPlan, chance: Random): Recorded {
  const { unit, fitted, tone, purpose = "hum", tracks = unit.channels.map(({ channel }) => channel) } = plan;
  const { source, frequency_Hz } = plan.supply;
  const leakageOf = (valve: ValveTruth) =>
    Object.fromEntries(Object.entries(valve.sections).map(([name, { leakage }]) => [name, leakage]));
  const wav = takeRecording({
    channels: unit.channels,
    tracks,
    fitted: Object.fromEntries(Object.entries(fitted).map(([position, valve]) => [position, leakageOf(valve)])),
    building_Hz: plan.building_Hz,
    buildingDistortion: plan.buildingDistortion,
    supply: plan.supply,
    ...(unit.reservoir && { reservoir: unit.reservoir }),
    ...(tone && { sent: sentThrough(unit, fitted, tone) }),
    ...(plan.tapped !== undefined && { tapped: ringsOf(fitted[plan.tapped]!) }),
    seconds: plan.seconds,
    fullScale_Vpk: plan.fullScale_Vpk,
    ...(plan.form && { form: plan.form }),
    chance,
  });
  return {
    wav,
    body: {
      kind: "recording",
      unit: unit.unit,
      recording: plan.recording,
      file_sha256: createHash("sha256").update(wav).digest("hex"),
      fullScale_Vpk: plan.fullScale_Vpk,
      channels: [...tracks],
      supply: { source, frequency_Hz, ...(source === "regenerated" && { instrument: regenerator }) },
      building_Hz: plan.building_Hz,
      valves: Object.fromEntries(Object.entries(fitted).map(([position, { valve }]) => [position, valve])),
      input: tone ? "driven" : "shorted",
      instrument: "audio-recorder",
      purpose,
      ...(tone && {
        stimulus: { kind: "tone" as const, frequency_Hz: tone.frequency_Hz, level_Vpk: tone.level_Vpk },
        driven: "both" as const,
        volume: tone.volume,
      }),
    },
  };
}

/** What the meter on the reservoir stood at while a recording was made. */
export function htWhile(plan: RecordingPlan, chance: Random): BodyOf<"reading"> {
  const { unit, supply, recording } = plan;
  if (unit.reservoir === undefined) throw new RangeError(`nothing is known of the HT of unit ${unit.unit}`);
  const socket =
    supply.source === "building"
      ? buildingMains(plan.building_Hz, 1, 1, plan.buildingDistortion, chance.fork("building"))
      : regeneratedMains(supply.frequency_Hz, 1, 1, chance.fork("regenerator"));
  const { ht_V } = chargeReservoir(unit.reservoir, socket.shape, supply.frequency_Hz, supply.most_mA);
  const doubt = 0.002 * ht_V + 0.02;
  return {
    kind: "reading",
    subject: { unit: unit.unit, point: "HT" },
    quantity: "ht_V",
    value: shown(ht_V + chance.fork("ht").normal(0, doubt / 2.5), 1),
    doubt: Number(doubt.toPrecision(2)),
    instrument: "meter-A",
    conditions: { during: recording },
  };
}

/** Of a triode stage at one volt: how far its curve bends the tone once, and twice. @source common practice */
const bend = { second_per_V: 5e-4, third_per_V2: 2e-5 };

/** What a tone becomes on its way: the control's tracks, then the unit's own gain with the valves that stand in it. */
function sentThrough(
  unit: UnitTruth,
  fitted: RecordingPlan["fitted"],
  { frequency_Hz, level_Vpk, volume }: NonNullable<RecordingPlan["tone"]>,
): SentTone {
  const model = modelNamed(unit.model);
  const circuit = unitCircuit(model, unit.resistors, fitted);
  const track_dB = unit.control ? trackGain_dB(unit.control, volume) : { left: 0, right: 0 };
  const at = unit.channels.map(({ channel }) => {
    const [gain_dB] = channelResponse(circuit, model.input[channel]!, model.output[channel]!, [frequency_Hz]).gain_dB;
    const through_dB = gain_dB! + track_dB[channel as "left" | "right"];
    const level_Vrms = (level_Vpk / Math.SQRT2) * 10 ** (through_dB / 20);
    return [
      channel,
      { level_Vrms, second: bend.second_per_V * level_Vrms, third: bend.third_per_V2 * level_Vrms ** 2 },
    ] as const;
  });
  return { frequency_Hz, at: Object.fromEntries(at) };
}

/** Every grid rings a little; a microphonic one rings long and loud. */
function ringsOf({ valve, sections }: ValveTruth): readonly Ring[] {
  return Object.entries(sections).flatMap(([name, { rings }]) => {
    if (rings) return rings;
    const draw = randomStream(`${valve}${name} tapped`);
    const frequency_Hz = 400 + 500 * draw.uniform();
    return [{ frequency_Hz, q: 18 + 10 * draw.uniform(), peak_V: 2e-5 * Math.exp(draw.normal(0, 0.4)) }];
  });
}
