import { on } from "./days.ts";
import type { Take } from "./physics/bench.ts";
import { turned } from "./physics/volumeControl.ts";
import type { WavForm } from "./physics/wav.ts";
import type { RecordingPlan } from "./recordings.ts";

export interface RecordingEntry
  extends Pick<RecordingPlan, "purpose" | "tone" | "tapped" | "tracks" | "form" | "fullScale_Vpk" | "seconds"> {
  readonly recording: string;
  readonly unit: string;
  readonly at: string;
  /** When it was written down, where that was not at once. */
  readonly recordedAt?: string;
  readonly supply: Take["supply"];
  /** Valves put in for this recording only. */
  readonly exchanged: Readonly<Record<string, string>>;
  readonly buildingDistortion: number;
  /** What the meter on the HT stood at meanwhile is on record too. */
  readonly metersHt?: boolean;
}

const house: Take["supply"] = { source: "building", frequency_Hz: 50 };
const clean: Take["supply"] = { source: "regenerated", frequency_Hz: 57 };
/** The regenerator in the third week of January: one of its output bridges had gone. */
const ailing: Take["supply"] = { ...clean, most_mA: 600 };

function take(
  recording: string,
  at: string,
  supply: Take["supply"],
  { exchanged = {}, bent = 0.5, ...more }: Partial<RecordingEntry> & { bent?: number } = {},
): RecordingEntry {
  const unit = recording.split("-")[0]!;
  return { recording, unit, at, supply, exchanged, buildingDistortion: bent, fullScale_Vpk: 0.02, seconds: 8, ...more };
}

/** The harbour's cold store bends the mains most in the first days of March, while it freezes the catch by day. */
const benchOfMarch: readonly RecordingEntry[] = [
  take("0418-1", on("2027-02-25", "15:20"), house),
  take("0418-2", on("2027-02-25", "15:40"), clean),
  take("0418-3", on("2027-02-26", "09:10"), clean, { exchanged: { V2: "T-131" } }),
  take("0417-1", on("2027-03-01", "14:10"), house),
  take("0417-2", on("2027-03-01", "14:35"), clean),
  take("0417-3", on("2027-03-02", "10:30"), clean, { exchanged: { V2: "T-131" } }),
  take("0588-1", on("2027-03-02", "13:50"), house, { bent: 1.3 }),
  take("0588-2", on("2027-03-02", "14:15"), clean, { bent: 1.3 }),
  take("0588-3", on("2027-03-02", "14:35"), house, { bent: 1.3, tracks: ["left", "mains"] }),
  take("0589-1", on("2027-03-02", "15:00"), house, { bent: 1.3 }),
  take("0589-2", on("2027-03-02", "15:20"), clean, { bent: 1.3 }),
  take("0419-1", on("2027-03-02", "16:05"), house, { bent: 0.8 }),
  take("0588-4", on("2027-03-02", "16:40"), clean, { bent: 1.3 }),
];

const quietest = { V1: "T-303", V2: "T-372" };
const microphonic = { V1: "T-302", V2: "T-372" };

/** Units that came back, one after the other, as the bench had time for them. */
const benchOfReturns: readonly RecordingEntry[] = [
  // 0585 buzzed at home and not on the regenerator, until somebody put a meter on the HT.
  take("0585-1", on("2027-01-19", "10:20"), house, { metersHt: true }),
  take("0585-2", on("2027-01-19", "10:45"), ailing, { metersHt: true }),
  take("0585-3", on("2027-01-19", "11:30"), ailing, {
    purpose: "supply",
    tracks: ["supply", "mains"],
    fullScale_Vpk: 500,
  }),
  take("0585-4", on("2027-01-27", "09:15"), clean, {
    purpose: "supply",
    tracks: ["supply", "mains"],
    fullScale_Vpk: 500,
  }),
  take("0585-5", on("2027-01-27", "09:40"), clean, { metersHt: true }),
  take("0585-6", on("2027-01-27", "11:10"), clean, { exchanged: { V1: "T-430", V2: "T-515", V3: "T-516" } }),
  ...overTheVolume("0237", "2027-02-03", ["8 o'clock", "9 o'clock", "12 o'clock", "3 o'clock", "5 o'clock"], {
    V1: "T-310",
    V2: "T-370",
  }),
  ...overTheVolume("0239", "2027-02-05", ["9 o'clock", "12 o'clock", "5 o'clock"], { V1: "T-300" }),
  // Listened to with the shop's quietest bottles in, the suspect among them.
  take("0240-1", on("2027-02-09", "09:20"), house, { exchanged: microphonic }),
  take("0240-2", on("2027-02-09", "09:40"), clean, { exchanged: microphonic }),
  take("0240-3", on("2027-02-09", "10:05"), house, { ...tapping("V1"), exchanged: microphonic }),
  take("0240-4", on("2027-02-09", "11:15"), house, { ...tapping("V1"), exchanged: quietest }),
  take("0240-5", on("2027-02-09", "13:30"), house, { ...tapping("V1"), exchanged: microphonic }),
  take("0236-1", on("2027-02-10", "09:05"), house, { ...tapping("V1"), exchanged: quietest }),
  take("0242-1", on("2027-02-11", "09:10"), house),
  take("0242-2", on("2027-02-11", "09:30"), clean),
];

/** A pencil on the bottle, the recorder turned down so that nothing clips. */
function tapping(position: string): Partial<RecordingEntry> {
  return { purpose: "tap", tapped: position, fullScale_Vpk: 0.2 };
}

/** A tone at each setting of the volume, then the same settings again with other valves in. */
function overTheVolume(
  unit: string,
  day: string,
  volumes: readonly string[],
  exchanged: Readonly<Record<string, string>>,
): readonly RecordingEntry[] {
  const rounds = [
    { clock: "09", exchanged: {} },
    { clock: "14", exchanged },
  ];
  return rounds.flatMap((round, nth) =>
    volumes.map((volume, i) =>
      take(`${unit}-${1 + nth * volumes.length + i}`, on(day, `${round.clock}:${10 + 8 * i}`), house, {
        purpose: "tone",
        tone: { frequency_Hz: 1000, level_Vpk: 0.5, volume },
        // The recorder's range follows what the control lets through.
        fullScale_Vpk: turned[volume]! < 0.4 ? 0.5 : 8,
        seconds: 6,
        exchanged: round.exchanged,
      }),
    ),
  );
}

/** The day on which the recorder's card was read in: silences of the year before, kept for comparison. */
const cardReadIn = on("2027-01-08", "16:10");
const cardForm: WavForm = { rate_Hz: 44_100, bits: 16 };

/** A silence of every unit that left after the recorder was bought, made on its last day, on whatever was on the card. */
export function silences(
  units: readonly { readonly unit: string; readonly tried: string }[],
): readonly RecordingEntry[] {
  return units.map(({ unit, tried }) =>
    take(`${unit}-0`, tried, house, {
      purpose: "noise",
      recordedAt: cardReadIn,
      form: cardForm,
      bent: 0.6,
    }),
  );
}

/** The recordings that tell stories, in the order they were made. */
export const recordingDiary: readonly RecordingEntry[] = [...benchOfReturns, ...benchOfMarch];
