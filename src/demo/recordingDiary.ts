import { on } from "./days.ts";
import type { Take } from "./physics/bench.ts";

interface RecordingEntry {
  readonly recording: string;
  readonly unit: string;
  readonly at: string;
  readonly supply: Take["supply"];
  /** Valves put in for this recording only. */
  readonly exchanged: Readonly<Record<string, string>>;
  readonly buildingDistortion: number;
  readonly fullScale_Vpk: number;
  readonly seconds: number;
}

const house: Take["supply"] = { source: "building", frequency_Hz: 50 };
const clean: Take["supply"] = { source: "regenerated", frequency_Hz: 57 };

function take(
  recording: string,
  at: string,
  supply: Take["supply"],
  { exchanged = {}, bent = 0.5 }: { exchanged?: Record<string, string>; bent?: number } = {},
): RecordingEntry {
  const unit = recording.split("-")[0]!;
  return { recording, unit, at, supply, exchanged, buildingDistortion: bent, fullScale_Vpk: 0.02, seconds: 8 };
}

/** All recordings made so far. The harbour's cold store bends the mains most in the first days of March. */
export const recordingDiary: readonly RecordingEntry[] = [
  take("0418-1", on("2027-02-25", "15:20"), house),
  take("0418-2", on("2027-02-25", "15:40"), clean),
  take("0418-3", on("2027-02-26", "09:10"), clean, { exchanged: { V2: "T-131" } }),
  take("0417-1", on("2027-03-01", "14:10"), house),
  take("0417-2", on("2027-03-01", "14:35"), clean),
  take("0417-3", on("2027-03-02", "10:30"), clean, { exchanged: { V2: "T-131" } }),
  take("0588-1", on("2027-03-02", "13:50"), house, { bent: 1.3 }),
  take("0588-2", on("2027-03-02", "14:15"), clean, { bent: 1.3 }),
  take("0589-1", on("2027-03-02", "15:00"), house, { bent: 1.3 }),
  take("0589-2", on("2027-03-02", "15:20"), clean, { bent: 1.3 }),
  take("0419-1", on("2027-03-02", "16:05"), house, { bent: 0.8 }),
];
