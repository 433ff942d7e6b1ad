import { statSync } from "node:fs";
import { BadInput, quote } from "../maths/badInput.ts";
import { openWavFile } from "../store/wavFile.ts";
import type { FolderOption } from "./workshopFolder.ts";
import { writer } from "./writer.ts";

interface RecordOptions extends FolderOption {
  readonly unit: string;
  readonly fullScale: string;
  readonly supply: string;
  readonly channels: string;
  readonly valve?: readonly string[];
  readonly input: string;
  readonly instrument: string;
  readonly purpose: string;
  readonly regenerator?: string;
  readonly at?: string;
  readonly by: string;
  readonly json?: boolean;
}

/** `stillglow record FILE.wav`: keeps the file by its content and writes down the conditions it was taken under. */
export async function record(wav: string, options: RecordOptions): Promise<void> {
  openWavFile(wav, wav, "wav");
  const door = await writer(options);
  try {
    const { building_Hz, fitted, now } = await door.conditions(options.unit);
    const file_sha256 = await door.keepRecording(wav);
    const [written] = await door.enter([
      {
        at: options.at ?? now,
        by: options.by,
        kind: "recording",
        unit: options.unit,
        recording: statName(wav),
        file_sha256,
        fullScale_Vpk: positive(options.fullScale, "--full-scale", "volts at digital full scale, such as 0.5"),
        channels: options.channels.split(",").map((channel) => channel.trim()),
        supply: {
          ...supply(options.supply, building_Hz),
          ...(options.regenerator !== undefined && { instrument: options.regenerator }),
        },
        building_Hz,
        valves: { ...fitted, ...exchanged(options.valve ?? []) },
        input: options.input,
        instrument: options.instrument,
        purpose: options.purpose,
      },
    ]);
    if (options.json) process.stdout.write(`${JSON.stringify(written)}\n`);
    else process.stdout.write(`${written!.id}  recording ${statName(wav)} of unit ${options.unit}\n`);
  } finally {
    await door.close();
  }
}

function statName(path: string): string {
  statSync(path);
  return path
    .split(/[\\/]/)
    .pop()!
    .replace(/\.wav$/i, "");
}

function supply(text: string, building_Hz: number): { source: string; frequency_Hz: number } {
  if (text === "building") return { source: "building", frequency_Hz: building_Hz };
  const [source, frequency] = text.split(":");
  if (source !== "regenerated" || frequency === undefined) {
    throw new BadInput(
      "--supply",
      quote(text),
      "building, or regenerated with its frequency",
      "write building or regenerated:57",
    );
  }
  return { source, frequency_Hz: positive(frequency, "--supply", "a frequency in Hz after the colon") };
}

function exchanged(pairs: readonly string[]): Record<string, string> {
  return Object.fromEntries(
    pairs.map((pair) => {
      const [position, valve, ...rest] = pair.split("=");
      if (!position || !valve || rest.length > 0)
        throw new BadInput("--valve", quote(pair), "a position and a valve", "write V2=T-118");
      return [position, valve];
    }),
  );
}

function positive(text: string, option: string, allowed: string): number {
  const value = Number(text.replace(",", "."));
  if (!(value > 0 && Number.isFinite(value)))
    throw new BadInput(option, quote(text), allowed, "write a number above 0");
  return value;
}
