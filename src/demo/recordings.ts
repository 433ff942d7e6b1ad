import { createHash } from "node:crypto";
import type { BodyOf } from "../claims/evidence.ts";
import type { Random } from "../maths/random.ts";
import { type Take, takeRecording } from "./physics/bench.ts";
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
}

export interface Recorded {
  readonly body: BodyOf<"recording">;
  readonly wav: Uint8Array;
}

/** Input shorted, recorder at the outputs, eight seconds or as asked. */
export function record(plan: RecordingPlan, chance: Random): Recorded {
  const leakageOf = (valve: ValveTruth) =>
    Object.fromEntries(Object.entries(valve.sections).map(([name, { leakage }]) => [name, leakage]));
  const wav = takeRecording({
    channels: plan.unit.channels,
    fitted: Object.fromEntries(Object.entries(plan.fitted).map(([position, valve]) => [position, leakageOf(valve)])),
    building_Hz: plan.building_Hz,
    buildingDistortion: plan.buildingDistortion,
    supply: plan.supply,
    seconds: plan.seconds,
    fullScale_Vpk: plan.fullScale_Vpk,
    chance,
  });
  return {
    wav,
    body: {
      kind: "recording",
      unit: plan.unit.unit,
      recording: plan.recording,
      file_sha256: createHash("sha256").update(wav).digest("hex"),
      fullScale_Vpk: plan.fullScale_Vpk,
      channels: plan.unit.channels.map(({ channel }) => channel),
      supply: plan.supply,
      building_Hz: plan.building_Hz,
      valves: Object.fromEntries(Object.entries(plan.fitted).map(([position, { valve }]) => [position, valve])),
      input: "shorted",
      instrument: "audio-recorder",
      purpose: "hum",
    },
  };
}
