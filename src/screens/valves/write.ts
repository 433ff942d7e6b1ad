import type { TrayView } from "../../workshop/views.ts";
import { get, type Note, post, type WorkshopHead } from "../common/api.ts";

type TesterNote = Extract<Note, { readonly kind: "valve-reading" | "reference-reading" }>;

/** A reading as it is taken, before the tester's clock is read; `time_h` is given where a file holds it. */
export type Untimed = TesterNote extends infer N
  ? N extends { readonly time_h: number }
    ? Omit<N, "time_h"> & { readonly time_h?: number }
    : never
  : never;

const hour_ms = 3_600_000;

/**
 * Writes readings of the tester down at the workshop's present moment, on the tester's clock. A reading of the
 * reference valve is the tester's own trial, where the tester is tried by that valve, and is written down as one too.
 */
export async function writeReadings(by: string, tray: TrayView, readings: readonly Untimed[]): Promise<void> {
  const { now } = await get<WorkshopHead>("/api/workshop");
  const clock_h = tray.clock_h + (Date.parse(now) - Date.parse(tray.now)) / hour_ms;
  const time_h = Math.round(clock_h * 1000) / 1000;
  const notes = readings.flatMap((reading): Note[] => [
    { ...reading, time_h: reading.time_h ?? time_h } as TesterNote,
    ...trialOf(reading, tray),
  ]);
  await post("/api/evidence", { entries: notes.map((note) => ({ at: now, by, ...note })) });
}

function trialOf(reading: Untimed, { instruments, limits }: TrayView): Note[] {
  if (reading.kind !== "reference-reading" || !limits) return [];
  const isTriedByIt = instruments.some(
    ({ instrument, reference }) => instrument === reading.instrument && reference === reading.valve,
  );
  if (!isTriedByIt) return [];
  return [
    {
      kind: "trial",
      instrument: reading.instrument,
      value: reading.plate_mA,
      doubt: Number(((limits.referenceTrue_mA * limits.reading_doubt_pct) / 100).toPrecision(3)),
    },
  ];
}
